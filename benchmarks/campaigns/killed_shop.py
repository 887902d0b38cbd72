"""A shop killed under its pages, again and again: nothing confirmed is lost, and the page goes on.

A real browser taps cells of a panel and writes into an order. Before, between and after the taps the server
is killed, as by a pulled plug, and opened again; the page is never loaded anew. At the end every tap that
the page was told is confirmed, and every one it kept meanwhile, stands in the shop.
"""

from __future__ import annotations

import random
import shutil
import sqlite3
import tempfile
from pathlib import Path
from typing import Any

from served import TABLET, Served, take

from campaigns.found import Found

_EMPTY = "() => !Object.keys(localStorage).some((key) => key.startsWith('tap:'))"


def campaign(count: int, seed: int) -> Found:
    """Kill a shop so many times."""
    from playwright.sync_api import sync_playwright

    draw, failures, taps = random.Random(seed), [], 0
    with tempfile.TemporaryDirectory(prefix="panewright-killed-") as folder, sync_playwright() as play:
        shop = Served(Path(folder) / "shop")
        shop.open()
        browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page(viewport=TABLET)
        take(page, shop, "henhouse")
        page.locator("#seen .verdict:not(.wait)").wait_for(timeout=60_000)
        page.get_by_role("link", name="Panel", exact=True).click()
        page.locator("#cell-1").wait_for(timeout=60_000)
        page.evaluate("window.never_reloaded = true")
        cells, wanted = page.locator("g[data-cell]").count(), set()
        for _ in range(count):
            before, after = draw.randrange(3), 1 + draw.randrange(3)
            _tap(page, draw, cells, before, wanted)
            shop.kill()
            _tap(page, draw, cells, after, wanted)
            taps += before + after
            shop.open()
            page.wait_for_function(_EMPTY, timeout=60_000)
            if (stands := _marked(shop)) != wanted:
                failures.append(f"wanted {sorted(wanted)}, the shop has {sorted(stands)}")
        if page.evaluate("window.never_reloaded") is not True:
            failures.append("the page was loaded anew")
        if (counted := _counted(shop)) != taps:
            failures.append(f"{taps} taps, {counted} counted")
        browser.close()
        shop.close()
    what = "a shop killed under its pages"
    return Found(what, "what was tapped", count, counts={"taps": taps}, failures=tuple(failures))


def _tap(page: Any, draw: random.Random, cells: int, count: int, wanted: set[int]) -> None:
    """Tap cells; a cell tapped twice is sound again."""
    for _ in range(count):
        number = 1 + draw.randrange(cells)
        page.locator(f"#cell-{number}").click()
        wanted ^= {number}


def _marked(shop: Served) -> set[int]:
    with sqlite3.connect(shop.folder / "drafts.db") as db:
        return {int(row[0]) for row in db.execute("SELECT cell FROM cell")}


def _counted(shop: Served) -> int:
    with sqlite3.connect(shop.folder / "drafts.db") as db:
        return int(db.execute("SELECT count(*) FROM tap").fetchone()[0])
