"""A backup put back by a process that is killed at a random moment: the old records or the new ones, whole.

In turn as under open pages, while this process has the records open and reads them, and as the command does
it. The records that are put back and those that stand differ in rows and in files; which of them stand is
told by one order. A backup of what stood lies there before anything is changed.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path
from random import Random

from campaigns.found import Found
from campaigns.putter import aside
from panewright.ledger.files import store
from panewright.ledger.kept import dump
from panewright.ledger.kept.backup import backup
from panewright.ledger.kept.check import check
from panewright.ledger.kept.restore import look_over, opened
from panewright.ledger.open import Ledger, open_ledger
from panewright.ledger.orders.orders import find_order, save_order

PUTTER = Path(__file__).with_name("putter.py")
_TOLD = {"by": "Ann", "at": datetime(2026, 5, 4, tzinfo=UTC)}
_ORDERS, _FILES = 400, 40
_WAYS = ("open", "closed")


def campaign(count: int, seed: int) -> Found:
    """So many kills, each followed by a look at every row and file."""
    chance, failures, counts = Random(seed), [], Counter[str]()
    with tempfile.TemporaryDirectory(prefix="panewright-restore-") as folder:
        shop, kept = Path(folder) / "shop", Path(folder) / "backups" / "b.zip"
        _furnish(shop, kept)
        then = _rows(shop)
        _once_more(shop, "second")
        for number in range(1, count + 1):
            way = _WAYS[number % 2]
            _once_more(shop, f"kill {number}")
            before = _rows(shop)
            _killed(way, shop, kept, f"{way}-{number}", _moment(chance, way))
            stands = _rows(shop)
            outcome = "old" if stands == before else "new" if stands == then else "neither"
            counts[f"{way} shop, {outcome} records"] += 1
            faults = [] if outcome != "neither" else ["neither the old records nor the new"]
            faults += _faults(shop)
            if outcome == "new" and way == "open":
                faults += _kept(aside(kept, f"{way}-{number}"), before)
            failures += [f"kill {number} of seed {seed}, {way}: {each}" for each in faults]
    what = "a restore killed"
    return Found(what, "old or new", count, dict(sorted(counts.items())), (), tuple(failures[:20]))


def _moment(chance: Random, way: str) -> tuple[int, float]:
    """After how many percent the kill comes, and how long after; half of them round the change itself."""
    if way == "closed":
        return 0, chance.uniform(0.0, chance.choice((0.5, 2.0, 4.0)))
    mark = chance.choice((0, 20, 40, 60, 95, 95, 95, 95))
    return mark, chance.uniform(0.0, 0.25)


def _killed(way: str, shop: Path, kept: Path, number: str, when: tuple[int, float]) -> None:
    """Put it back and kill that at such a moment; it is done where it was faster."""
    command = [sys.executable, str(PUTTER), way, str(shop), str(kept), number]
    reader = open_ledger(shop / "shop.db", files=shop / "files") if way == "open" else None
    with subprocess.Popen(command, bufsize=0, stdout=subprocess.PIPE) as putter:
        assert putter.stdout is not None
        while (line := putter.stdout.readline()) and int(line) < when[0]:
            if reader is not None:
                find_order(reader, "K-1")
        time.sleep(when[1])
        putter.kill()
    if reader is not None:
        reader.close()


def _furnish(shop: Path, kept: Path) -> None:
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    for number in range(_ORDERS):
        save_order(ledger, f"K-{number}", f"text of {number} " * 40, seen=0, **_TOLD)
    for number in range(_FILES):
        store(ledger, f"raw {number} ".encode() * 400, name="raw", media="text/plain", **_TOLD)
    backup(ledger, kept, program="0.1", at=_TOLD["at"])
    ledger.close()


def _once_more(shop: Path, words: str) -> None:
    """Something that is in no backup."""
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    save_order(ledger, f"after {words}", words, seen=0, **_TOLD)
    store(ledger, words.encode(), name="raw", media="text/plain", **_TOLD)
    ledger.close()


def _rows(shop: Path) -> dict[str, list[str]]:
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    try:
        return _all(ledger)
    finally:
        ledger.close()


def _all(ledger: Ledger) -> dict[str, list[str]]:
    """Every row; of the journal without the line that says what was put back."""
    with ledger.reading() as db:
        found = {table.name: list(dump.lines(db, table)) for table in dump.tables(db)}
    found["change"] = [line for line in found["change"] if '"restored"' not in line]
    return found


def _faults(shop: Path) -> list[str]:
    ledger = open_ledger(shop / "shop.db", files=shop / "files")
    try:
        return list(check(ledger).faults)
    finally:
        ledger.close()


def _kept(path: Path, before: dict[str, list[str]]) -> list[str]:
    """What is wrong with the backup of what stood."""
    if not path.exists():
        return ["what stood before was not kept"]
    with opened(path) as packed:
        look_over(path, packed)
        for name, lines in before.items():
            told = packed.read(f"tables/{name}.jsonl").decode().splitlines()
            if [line for line in told if name != "change" or '"restored"' not in line] != lines:
                return [f"the table {name} of what stood before was not kept"]
    return []
