"""Which instrument was at hand last: what a page proposes for the next reading."""

from __future__ import annotations

from sqlalchemy import select

from panewright.ledger.open import Ledger
from panewright.ledger.tables.readings import InstrumentRow as Instruments
from panewright.ledger.tables.readings import ReadingRow as Readings

LATEST = 400  #: readings, among which they are looked for


def last_by_unit(ledger: Ledger) -> dict[str, str]:
    """The instrument that read each unit last, among the readings kept last."""
    wanted = (
        select(Readings.unit, Instruments.name)
        .join(Instruments, Readings.instrument_id == Instruments.id)
        .order_by(Readings.id.desc())
        .limit(LATEST)
    )
    with ledger.reading() as db:
        found: dict[str, str] = {}
        for unit, name in db.execute(wanted):
            found.setdefault(unit, name)
        return found
