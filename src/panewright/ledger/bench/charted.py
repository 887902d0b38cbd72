"""Readings of one kind over many panels, as a chart asks for them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from sqlalchemy import ColumnElement, func, literal_column, select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted
from panewright.ledger.bench.ratings import counts
from panewright.ledger.open import Ledger
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.ratings import RatingRow as Ratings
from panewright.ledger.tables.readings import ReadingRow as Readings
from panewright.ledger.tables.serials import SerialRow as Serials

FIRST, MOST = 600, 4000  #: of a chart: more than ever make its limits, and as many as one looks at
_BACK = "taken back"
T = TypeVar("T")


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


@dataclass(frozen=True, slots=True)
class PanelRated:
    """The rating of a panel that holds."""

    serial: str
    verdict: str
    power_w: float | None
    predicted_w: float


def panels_rated(ledger: Ledger, order: str = "", most: int = MOST) -> tuple[PanelRated, ...]:
    """The rating that holds of each panel, in the order in which they were first rated; of very many the
    first and the newest.

    A panel that was mended and rated again stays in its place.
    """
    newer, first = aliased(Ratings), aliased(Ratings)
    later = select(newer.id).where(newer.serial_id == Ratings.serial_id, newer.id > Ratings.id, counts(newer))
    begun = select(func.min(first.id)).where(first.serial_id == Ratings.serial_id).scalar_subquery()
    figures = (Serials.serial, Ratings.verdict, Ratings.power_w, Ratings.predicted_w)
    wanted = (
        select(begun.label("begun"), *figures)
        .join(Serials, Ratings.serial_id == Serials.id)
        .join(Orders, Serials.order_id == Orders.id)
        .where(counts(Ratings), ~later.exists())
    )
    return _ends(ledger, wanted.where(Orders.number == order) if order else wanted, "begun", PanelRated, most)


def readings_of_kind(
    ledger: Ledger, beginning: str, order: str = "", most: int = MOST
) -> tuple[Charted, ...]:
    """Readings whose quantity begins so, those that stand, oldest first; of very many the first and the
    newest.
    """
    after = aliased(Readings)
    corrected = select(after.id).where(after.corrects_id == Readings.id).exists()
    said = (Readings.quantity, Readings.value, Readings.unit, Readings.light_w_m2, Readings.heat_c)
    wanted = (
        select(Readings.id.label("begun"), Serials.serial, Orders.number, *said, Readings.at)
        .join(Serials, Readings.serial_id == Serials.id)
        .join(Orders, Serials.order_id == Orders.id)
        .where(Readings.quantity.startswith(beginning, autoescape=True), ~corrected, Readings.note != _BACK)
    )
    return _ends(ledger, wanted.where(Orders.number == order) if order else wanted, "begun", Charted, most)


def _ends(ledger: Ledger, wanted: Wanted, by: str, of: Callable[..., T], most: int) -> tuple[T, ...]:
    """Those that set the limits, which stay the same however many follow, and the newest; each once."""
    place: ColumnElement[int] = literal_column(by)
    with ledger.reading() as db:
        first = db.execute(wanted.order_by(place).limit(FIRST)).all()
        last = db.execute(wanted.order_by(place.desc()).limit(most)).all()
    rows = {row[0]: row[1:] for row in (*first, *last[::-1])}
    return tuple(of(*row) for _, row in sorted(rows.items()))
