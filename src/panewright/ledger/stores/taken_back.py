"""Movements of stock taken back: the same once more, the other way, with a row of its own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.stores.stock import Moved, moved_of, moved_with
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.writing import add, unknown, write

SAYS = "takes back movement "


@dataclass(frozen=True, slots=True)
class Numbered:
    """A movement and its number."""

    number: int
    moved: Moved


def recent(ledger: Ledger, *, most: int = 12) -> tuple[Numbered, ...]:
    """The movements kept last, newest first, without those taken back and those that do so."""
    wanted = moved_with(Movements.id).order_by(Movements.id.desc()).limit(4 * most)
    with ledger.reading() as db:
        found = all_of(db, wanted, lambda number, *row: Numbered(number, moved_of(*row)))
    gone = {each.moved.movement.note.removeprefix(SAYS) for each in found if _takes(each)}
    return tuple(each for each in found if not _takes(each) and str(each.number) not in gone)[:most]


def _takes(each: Numbered) -> bool:
    return each.moved.movement.note.startswith(SAYS)


def take_back(ledger: Ledger, number: int, *, by: str, at: datetime, tap: str = "") -> None:
    """The same amount the other way, under the same reason, so that sums over reasons come right too."""
    with ledger.reading() as db:
        item = db.scalar(select(Movements.item).where(Movements.id == number))
    if item is None:
        raise unknown("movement", str(number))

    def work(db: Connection) -> int:
        names = ("item", "unit", "reason", "lot_id", "serial_id", "order_id")
        columns = (Movements.amount, Movements.note, *(getattr(Movements, name) for name in names))
        amount, note, *told = db.execute(select(*columns).where(Movements.id == number)).one()
        _refuse_twice(db, number, note)
        same = dict(zip(names, told, strict=True))
        return add(db, Movements, amount=-amount, note=f"{SAYS}{number}", who=by, at=at, **same)

    write(ledger, work, kind="stock", key=item, at=at, tap=tap)


def _refuse_twice(db: Connection, number: int, note: str) -> None:
    back = select(Movements.id).where(Movements.id > number, Movements.note == f"{SAYS}{number}")
    if note.startswith(SAYS) or db.scalar(back) is not None:
        problem = Problem("it was taken back already.", "Write it anew.", key="movement", value=str(number))
        raise RecordError([problem])
