"""A real browser before a real shop."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent))
sys.path.append(str(Path(__file__).parents[2] / "benchmarks"))

from served import TABLET, Served


@pytest.fixture
def served(tmp_path):
    shop = Served(tmp_path / "shop")
    shop.open()
    yield shop
    shop.close()


@pytest.fixture(scope="module")  # its loop may not outlast these files: others have loops of their own
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        found = play.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-background-networking"]
        )
        yield found
        found.close()


@pytest.fixture
def page(browser, served):
    """A tablet at the shop; what it asks of any other address, and what its script complains of, is kept."""
    context = browser.new_context(viewport=TABLET, has_touch=True)
    opened = context.new_page()
    opened.foreign, opened.complaints = [], []
    opened.on(
        "request",
        lambda asked: (
            opened.foreign.append(asked.url)
            if not asked.url.startswith((served.url, "data:", "blob:"))
            else None
        ),
    )
    opened.on("pageerror", lambda mistake: opened.complaints.append(str(mistake)))
    opened.on(
        "console",
        lambda told: opened.complaints.append(told.text) if "Content Security Policy" in told.text else None,
    )
    yield opened
    assert opened.foreign == []
    assert opened.complaints == []
    context.close()
