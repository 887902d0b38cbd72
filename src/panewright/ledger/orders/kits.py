"""Boxes of kits: which line of the packing list lies in which box, by whom and when."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.kits import PackedRow as Rows
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, write


@dataclass(frozen=True, slots=True)
class Packed:
    """A line put into a box, or taken out again where `done` is false."""

    line: str
    done: bool
    by: str
    at: datetime


def pack(
    ledger: Ledger, serial: str, line: str, *, by: str, at: datetime, done: bool = True, tap: str = ""
) -> None:
    """A line lies in the box of a serial; `done=False` takes it out with a row of its own."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        return add(db, Rows, serial_id=panel, line=line, done=done, who=by, at=at)

    write(ledger, work, kind="packed", key=serial, at=at, tap=tap)


def packed(ledger: Ledger, serial: str) -> tuple[Packed, ...]:
    """How each line of a box stands, in the order in which they were first packed."""
    return tuple({each.line: each for each in all_packed(ledger, serial)}.values())


def all_packed(ledger: Ledger, serial: str) -> tuple[Packed, ...]:
    """Everything put into a box and taken out of it, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        wanted = select(Rows.line, Rows.done, Rows.who, Rows.at).where(Rows.serial_id == panel)
        return all_of(db, wanted.order_by(Rows.id), Packed)
