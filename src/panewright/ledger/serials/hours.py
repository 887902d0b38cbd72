"""Minutes written down beside the ticks of a panel, and taken back by rows of their own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from sqlalchemy import Connection, select

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.tables.stock import HoursRow as Hours
from panewright.ledger.writing import add, known, unknown, write

_SAYS = "takes back minutes "


@dataclass(frozen=True, slots=True)
class Spent:
    """Minutes at a step, told by themselves."""

    number: int
    step: str
    minutes: Decimal
    note: str
    by: str
    at: datetime

    @property
    def takes_back(self) -> bool:
        """Whether it only takes back what was written before."""
        return self.note.startswith(_SAYS)


def all_hours(ledger: Ledger, serial: str) -> tuple[Spent, ...]:
    """Every row of a panel, those that take back among them, oldest first."""
    columns = (Hours.id, Hours.step, Hours.minutes, Hours.note, Hours.who, Hours.at)
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        return all_of(db, select(*columns).where(Hours.serial_id == panel).order_by(Hours.id), Spent)


def hours(ledger: Ledger, serial: str) -> tuple[Spent, ...]:
    """Those that stand, oldest first."""
    found = all_hours(ledger, serial)
    gone = {each.note.removeprefix(_SAYS) for each in found if each.takes_back}
    return tuple(each for each in found if not each.takes_back and str(each.number) not in gone)


def take_back(ledger: Ledger, serial: str, number: int, *, by: str, at: datetime, tap: str = "") -> None:
    """Minutes of a panel that do not count after all: the same once more, below zero."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        wanted = select(Hours.step, Hours.minutes, Hours.note, Hours.order_id)
        row = db.execute(wanted.where(Hours.id == number, Hours.serial_id == panel)).first()
        if row is None:
            raise unknown("minutes", str(number))
        _refuse_twice(db, number, row.note)
        told = {"step": row.step, "minutes": -row.minutes, "note": f"{_SAYS}{number}"}
        return add(db, Hours, serial_id=panel, order_id=row.order_id, who=by, at=at, **told)

    write(ledger, work, kind="hours", key=serial, at=at, tap=tap)


def _refuse_twice(db: Connection, number: int, note: str) -> None:
    back = select(Hours.id).where(Hours.id > number, Hours.note == f"{_SAYS}{number}")
    if note.startswith(_SAYS) or db.scalar(back) is not None:
        problem = Problem("They were taken back already.", "Write them anew.", key="minutes")
        raise RecordError([problem])
