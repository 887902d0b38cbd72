"""Readings of one kind over many panels, as a chart asks for them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.readings import ReadingRow as Readings
from panewright.ledger.tables.serials import SerialRow as Serials

_BACK = "taken back"


@dataclass(frozen=True, slots=True)
class Charted:
    """One reading that stands."""

    serial: str
    order: str
    quantity: str
    value: float
    unit: str
    light_w_m2: float | None
    heat_c: float | None
    at: datetime


def readings_of_kind(
    ledger: Ledger, beginning: str, order: str = "", most: int = 4000
) -> tuple[Charted, ...]:
    """Readings whose quantity begins so, those that stand, oldest first; of many the newest."""
    after = aliased(Readings)
    corrected = select(after.id).where(after.corrects_id == Readings.id).exists()
    said = (Readings.quantity, Readings.value, Readings.unit, Readings.light_w_m2, Readings.heat_c)
    wanted = (
        select(Serials.serial, Orders.number, *said, Readings.at)
        .join(Serials, Readings.serial_id == Serials.id)
        .join(Orders, Serials.order_id == Orders.id)
        .where(Readings.quantity.startswith(beginning, autoescape=True), ~corrected, Readings.note != _BACK)
        .order_by(Readings.id.desc())
        .limit(most)
    )
    with ledger.reading() as db:
        return all_of(db, wanted.where(Orders.number == order) if order else wanted, Charted)[::-1]
