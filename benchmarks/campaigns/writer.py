"""A process that writes records without end, and says on its standard output what was confirmed.

    python writer.py SHOP SEED [hasty] [unsynced]

'hasty' turns SQLite's syncing off and 'unsynced' that of folders: only to prove that a campaign would find
what is then lost.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

from sqlalchemy import event, select

from panewright.errors import RecordError
from panewright.ledger import disk
from panewright.ledger.bench.readings import Reading, read
from panewright.ledger.files import fetch, store
from panewright.ledger.kept.check import check
from panewright.ledger.open import Ledger, open_ledger
from panewright.ledger.orders.designs import DesignMade, record_design
from panewright.ledger.orders.orders import find_order, save_order
from panewright.ledger.serials.serials import open_serials
from panewright.ledger.serials.steps import tick
from panewright.ledger.stores.stock import Movement, move
from panewright.ledger.tables.orders import OrderVersionRow
from panewright.ledger.tables.readings import FileRow, ReadingRow
from panewright.ledger.tables.serials import StepRow
from panewright.ledger.tables.stock import MovementRow

SERIAL = "K-1"
_TOLD: dict[str, Any] = {"by": "Ann", "at": datetime(2026, 5, 4, tzinfo=UTC)}


def write_on(shop: Path, seed: int, words: list[str]) -> None:
    """Write until somebody pulls the plug."""
    said(f"awake {seed}")
    if "unsynced" in words:
        disk.sync_folder = lambda _folder: None
    ledger = open_ledger(shop / "shop.db")
    if "hasty" in words:
        event.listen(ledger.engine, "connect", lambda db, _: db.execute("PRAGMA synchronous=OFF"))
        ledger.engine.dispose()
    for token in _begun(ledger, f"{seed}-begun"):
        said(token)
    chance = Random(seed)
    ways = (_order, _step, _moved, _read)
    number = 0
    while True:
        number += 1
        token = f"{seed}-{number}-{'x' * chance.choice((0, 10, 5_000))}"
        chance.choice(ways)(ledger, token)
        said(token)


def said(token: str) -> None:
    """One line, out at once: from here on it must never be lost."""
    os.write(1, f"{token}\n".encode())


def _begun(ledger: Ledger, token: str) -> Iterator[str]:
    try:
        find_order(ledger, "K")
    except RecordError:
        save_order(ledger, "K", token, seen=0, **_TOLD)
        yield token
    design = DesignMade("K", 1, "REVISION", "0.1", "[]", "{}", "[]", (SERIAL,), True)
    record_design(ledger, design, **_TOLD)
    open_serials(ledger, "K", **_TOLD)


def _order(ledger: Ledger, token: str) -> None:
    save_order(ledger, "K", token, seen=find_order(ledger, "K").version, **_TOLD)


def _step(ledger: Ledger, token: str) -> None:
    tick(ledger, SERIAL, "tab", note=token, **_TOLD)


def _moved(ledger: Ledger, token: str) -> None:
    move(ledger, Movement("ribbon", Decimal("0.1"), "metre", "used", note=token), **_TOLD)


def _read(ledger: Ledger, token: str) -> None:
    raw = store(ledger, f"raw {token}".encode(), name="raw", media="text/plain", **_TOLD)
    read(ledger, Reading("Voc", 21.6, "V", serial=SERIAL, file=raw.sha256, note=token), **_TOLD)


def looked_over(shop: Path, confirmed: list[str]) -> list[str]:
    """What is wrong with a shop's records, and what of the confirmed is not in them."""
    try:
        ledger = open_ledger(shop / "shop.db")
    except RecordError as mistake:
        return [str(mistake)]
    try:
        faults = list(check(ledger).faults)
        there = set() if faults else _tokens(ledger)
        return faults + [f"lost: {token[:20]}" for token in confirmed if not faults and token not in there]
    finally:
        ledger.close()


def _tokens(ledger: Ledger) -> set[str]:
    """Every token that the records hold; those of readings only where the raw file is whole."""
    with ledger.reading() as db:
        found = {*db.scalars(select(OrderVersionRow.text)), *db.scalars(select(StepRow.note))}
        found |= set(db.scalars(select(MovementRow.note)))
        read_so = db.execute(select(ReadingRow.note, FileRow.sha256).join(FileRow))
        pairs = [(row[0], row[1]) for row in read_so]
    return found | {note for note, digest in pairs if fetch(ledger, digest) == f"raw {note}".encode()}


if __name__ == "__main__":
    write_on(Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3:])
