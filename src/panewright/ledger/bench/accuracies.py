"""How accurate the shop's instruments are, as it is written on their papers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from panewright.ledger.open import Ledger
from panewright.ledger.tables.ratings import AccuracyRow as Accuracies
from panewright.ledger.tables.readings import InstrumentRow as Instruments
from panewright.ledger.writing import add, known, write


@dataclass(frozen=True, slots=True)
class Accuracy:
    """As typed: '0.5 %', '2 %', '0.01 V', '100 mV'; what is not known is empty."""

    within: str = ""
    certificate: str = ""
    digit: str = ""
    at_stc: str = ""


def keep_accuracy(
    ledger: Ledger, name: str, accuracy: Accuracy, *, by: str, at: datetime, tap: str = ""
) -> None:
    """Keep what is written of one instrument."""

    def work(db: Connection) -> int:
        key = known(db, Instruments.name, name, "instrument")
        told = {each: getattr(accuracy, each) for each in Accuracy.__slots__}
        return add(db, Accuracies, instrument_id=key, who=by, at=at, **told)

    write(ledger, work, kind="instrument", key=name, at=at, tap=tap)


def accuracies(ledger: Ledger) -> dict[str, Accuracy]:
    """What holds of each instrument, by its name."""
    columns = [getattr(Accuracies, each) for each in Accuracy.__slots__]
    wanted = select(Instruments.name, *columns).join(Accuracies, Accuracies.instrument_id == Instruments.id)
    with ledger.reading() as db:
        rows = db.execute(wanted.order_by(Accuracies.id)).all()
    return {name: Accuracy(*told) for name, *told in rows}
