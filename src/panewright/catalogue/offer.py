"""A catalogue whole: the range, its rows, and what must be said with them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from panewright.catalogue.family import Family
from panewright.catalogue.row import Row
from panewright.order.order import Job
from panewright.panel.revision import revision
from panewright.shelf.shelf import Shelf
from panewright.units import show

PRICES = (
    "Prices are this shop's own: its shelf, its hours, its margin, at the workshop; crate and carriage of "
    "one stand beside them. They are no offer until the shop confirms one, and leave out tax and duty."
)
NOT_LISTED = (
    "Hand-built panels are not listed or certified. Many places forbid them on buildings or on the grid: "
    "local code and a licensed person decide. The figures are an aid to judgement, not a certificate."
)
WIND = (
    "Safe wind is the highest speed at which the glass of that size keeps every rule of its code under wind "
    "and its own weight. Snow, rails, brackets, bead and cells are proved apart; a size is priced here only "
    "where they hold too."
)
_CODES = {"EN": "Eurocodes, glass by EN 16612", "ASCE": "ASCE 7, glass by ASTM E1300"}


@dataclass(frozen=True, slots=True)
class Offer:
    """Everything a catalogue tells."""

    family: Family
    rows: tuple[Row, ...]
    revision: str  #: from the range's text and the shelf, 8 letters

    @property
    def job(self) -> Job:
        """Who makes it, and how it is written down."""
        return self.family.order.job

    @property
    def holding(self) -> tuple[Row, ...]:
        """Sizes of which every check holds."""
        return tuple(row for row in self.rows if row.holds)

    @property
    def failing(self) -> tuple[Row, ...]:
        """The others."""
        return tuple(row for row in self.rows if not row.holds)


def offer_of(family: Family, rows: tuple[Row, ...], shelf: Shelf) -> Offer:
    """The catalogue of a range whose rows are reckoned."""
    return Offer(family, rows, revision(family.order, shelf))


def by_format(rows: tuple[Row, ...]) -> Iterator[tuple[str, tuple[Row, ...]]]:
    """Rows of each cell format, as the range has them."""
    for name, group in groupby(rows, key=format_of):
        yield name, tuple(group)


def format_of(row: Row) -> str:
    """Cell and cut: '156 mm mono', '156 mm mono, half'."""
    return row.cell if row.cut == "whole" else f"{row.cell}, {row.cut}"


def where(offer: Offer) -> str:
    """Site and code that all of it was proved for."""
    site, say = offer.family.order.site, offer.job.units
    wind = f"{site.wind.edition}, {show(site.wind.speed_m_s, 'm/s', say)} {site.wind.kind}"
    snow = show(site.ground_snow_pa / 1000, "kPa", say, 2)
    heat = " to ".join(show(each, "degC", say, 2) for each in (site.record_cold_c, site.record_heat_c))
    return (
        f"Proved by {_CODES[site.family]}, for {site.mounting} at {show(site.tilt_deg, 'deg', say)}: wind "
        f"{wind}, ground {site.wind.ground}; snow on the ground {snow}; air from {heat}. At another place "
        "with more wind, snow or cold none of it is proved."
    )
