"""Lots that were past their day when they went into a panel."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select

from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.stores.lots import into, standing
from panewright.ledger.tables.lots import LotDetailRow as Details
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import known


@dataclass(frozen=True, slots=True)
class Past:
    """A lot that a panel holds though it was past its day."""

    mark: str
    kind: str
    expires: date  #: the last day on which it was good
    used: date  #: when the records first have it in the panel, by UTC

    def __str__(self) -> str:
        return f"lot {self.mark}, {self.kind}: good until {self.expires}, used {self.used}: PAST ITS DAY"


def past_their_day(ledger: Ledger, serial: str) -> tuple[Past, ...]:
    """The lots of a panel that were past their day, as they are described now, when they first went in."""
    with ledger.reading() as db:
        taken = into(known(db, Serials.serial, serial, "serial")).subquery()
        first = select(taken.c.lot_id, func.min(taken.c.at).label("at")).group_by(taken.c.lot_id).subquery()
        wanted = (
            standing()
            .join(first, first.c.lot_id == Lots.id)
            .with_only_columns(Lots.mark, Details.kind, Details.expires, first.c.at)
            .where(Details.expires.is_not(None))
            .order_by(None)
            .order_by(Lots.id)
        )
        found = all_of(db, wanted, _past)
    return tuple(each for each in found if each.used > each.expires)


def _past(mark: str, kind: str, expires: date, at: datetime) -> Past:
    return Past(mark, kind, expires, at.date())
