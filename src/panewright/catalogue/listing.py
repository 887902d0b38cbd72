"""A catalogue as one list for programs and workbooks: numbers stay numbers, a row a size."""

from __future__ import annotations

from decimal import Decimal

from panewright.catalogue.offer import Offer
from panewright.catalogue.row import Figures, Row
from panewright.drawing.listing import Cell, Column, Listing

_POUND_KG, _INCH_MM, _MPH_M_S = 0.45359237, 25.4, 0.44704
_MADE_OF = tuple(map(Column, ("Cell", "Cut"))) + tuple(
    Column(name, "", "count") for name in ("Columns", "Rows", "Cells")
)


def listing(offer: Offer) -> Listing:
    """Every size, those that do not hold with the reason."""
    return Listing("Price list", _columns(offer), tuple(_row(row, offer) for row in offer.rows))


def _columns(offer: Offer) -> tuple[Column, ...]:
    us, currency = offer.job.units == "us", offer.job.currency
    size, mass, speed = ("in", "lb", "mph") if us else ("mm", "kg", "m/s")
    sizes = (Column(name, size, "number") for name in ("Long side", "Short side", "Depth"))
    electric = (("Pmp", "W"), ("Vmp", "V"), ("Imp", "A"), ("Voc", "V"), ("Isc", "A"))
    prices = (Column(_at(number), currency, "money") for number in offer.family.quantities)
    return (
        *_MADE_OF,
        Column("Glass"),
        Column("Rail"),
        *sizes,
        *(Column(name, unit, "number") for name, unit in electric),
        Column("Mass", mass, "number"),
        Column("Safe wind of the glass", speed, "number"),
        Column("Travels as"),
        Column("Decided by"),
        Column("Because"),
        *prices,
        Column("A watt at the workshop", currency, "money"),
        Column("Crate and carriage of one", currency, "money"),
        Column("Parts without a price", "", "count"),
        Column("Every check holds"),
        Column("What fails worst"),
        Column("Cure"),
    )


def _at(number: int) -> str:
    """The head of a price.

    >>> _at(1), _at(25)
    ('Price of one at the workshop', 'Price each of 25 at the workshop')
    """
    return f"{'Price of one' if number == 1 else f'Price each of {number}'} at the workshop"


def _row(row: Row, offer: Offer) -> tuple[Cell, ...]:
    made_of = row.cell, row.cut, row.columns, row.rows, row.cells, row.glass
    figures = _figures(row.figures, offer)
    return (*made_of, *figures, "yes" if row.holds else "no", row.fails, row.cure)


def _figures(found: Figures | None, offer: Offer) -> tuple[Cell, ...]:
    """Rail to parts without a price; empty where the order of this size is refused."""
    if found is None:
        return (None,) * (17 + len(offer.family.quantities))
    us = offer.job.units == "us"
    mm, kg, m_s = (_INCH_MM, _POUND_KG, _MPH_M_S) if us else (1.0, 1.0, 1.0)
    wind = None if found.safe_wind_m_s is None else round(found.safe_wind_m_s / m_s, 1)
    carried = found.carried
    travels = (carried.way, carried.by, carried.why) if carried else (None, None, None)
    cost = carried.cost if carried else None
    prices: tuple[Decimal | None, ...] = (*found.prices, found.per_watt, cost)
    return (
        found.rail,
        *(round(each / mm, 2) for each in (found.long_mm, found.short_mm, found.deep_mm)),
        *(found.pmp_w, found.vmp_v, found.imp_a, found.voc_v, found.isc_a),
        round(found.mass_kg / kg, 2),
        wind,
        *travels,
        *prices,
        found.unpriced,
    )
