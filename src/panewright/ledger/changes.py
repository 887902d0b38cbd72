"""What pages follow: the journal of everything that was written, in the order in which it was confirmed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select

from panewright.ledger.open import Ledger
from panewright.ledger.tables.changes import ChangeRow

MOST = 1000  #: changes told at once; who is further behind asks again, or loads the page anew


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that was written."""

    number: int
    kind: str  #: 'order', 'step', 'reading' ...
    key: str  #: the order's number, the serial, the item
    at: datetime


def newest(ledger: Ledger) -> int:
    """The number of the last change; 0 where nothing was written yet."""
    with ledger.reading() as db:
        return db.scalar(select(func.max(ChangeRow.id))) or 0


def since(ledger: Ledger, number: int) -> tuple[Change, ...]:
    """The changes after a number, oldest first."""
    columns = (ChangeRow.id, ChangeRow.kind, ChangeRow.key, ChangeRow.at)
    wanted = select(*columns).where(ChangeRow.id > number).order_by(ChangeRow.id).limit(MOST)
    with ledger.reading() as db:
        return tuple(Change(row.id, row.kind, row.key, row.at) for row in db.execute(wanted))


def count_after(ledger: Ledger, moment: datetime) -> int:
    """How many things were written after a moment."""
    with ledger.reading() as db:
        return db.scalar(select(func.count()).where(ChangeRow.at > moment)) or 0


def tapped(ledger: Ledger, tap: str) -> bool:
    """Whether a tap of a page was written already."""
    with ledger.reading() as db:
        return db.scalar(select(ChangeRow.id).where(ChangeRow.tap == tap)) is not None
