"""What the cells ask of a pane, and what may hold it: rails, sheets, sealant and lay-outs to try."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.climate.heat import Temperatures
from panewright.climate.site import Family
from panewright.climate.snow.snow import SnowLoad
from panewright.climate.wind.load import WindLoad
from panewright.enclosure.creepage import HAND_LAY_UP_MM, needed_mm
from panewright.frame.metals.aluminium import bending_limit_mpa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane, Sheet
from panewright.layup.candidates import Pins, candidates
from panewright.layup.rank import Preferences, Ranked, rank
from panewright.layup.room import Room
from panewright.order.order import Order
from panewright.seal.quantity import back_fillet_ml
from panewright.seal.sealant import Sealant
from panewright.shelf.shelf import Shelf
from panewright.structure.bead.choice import BeadPins, BeadPlace
from panewright.structure.loads import Loads, combine
from panewright.structure.rails.seat import mass_kg_m2, seat_under_pane_mm, sheet_kg_m2

FIRST_GAP_MM = 4.0  #: round the pane, before the bead is known


@dataclass(frozen=True, slots=True)
class Weather:
    """What the site does to the panel."""

    heat: Temperatures
    wind: WindLoad
    snow: SnowLoad


@dataclass(frozen=True, slots=True)
class Field:
    """What the cells ask of the pane."""

    order: Order
    shelf: Shelf
    weather: Weather
    in_series: int
    bus_width_mm: float
    system_v: float
    cells_a_diode: int
    brief: bool = False  #: whether only what is taken is wanted, not what was weighed beside it

    def __hash__(self) -> int:
        """Of a few figures, not of the whole order and shelf."""
        return hash((self.order.parts.sheet, self.in_series, self.bus_width_mm, self.system_v, self.brief))


def rails(field: Field) -> tuple[Rail, ...]:
    """Rails to try, lightest first: the order's, or the angles that the rule book lists.

    Of those the ones of the order's own measure, as long as there are any.
    """
    order = field.order
    if order.parts.rail:
        return (order.parts.rail,)
    rows = tuple(row for row in field.shelf.rails if row.part.profile == "angle") or field.shelf.rails
    listed = tuple(row for row in rows if _listed(row.part, order.site.family))
    angles = [row.part for row in field.shelf.in_measure(listed or rows, order.job.units)]
    return tuple(sorted(angles, key=lambda rail: section(rail).mass_kg_m))


def _listed(rail: Rail, family: Family) -> bool:
    """Whether the rule book has a strength for the rail's alloy."""
    return bending_limit_mpa(rail.alloy, family, rail.wall_mm) is not None


def sheets(field: Field) -> tuple[Sheet, ...]:
    """Sheets to weigh."""
    return sheets_for(field.order, field.shelf)


def sheets_for(order: Order, shelf: Shelf) -> tuple[Sheet, ...]:
    """Sheets to weigh: the order's first, then those of the front asked for; glass only if tempered.

    Laminated glass is heavier and dearer than a single sheet that bears as much: only where an order names
    it.
    """
    parts = order.parts
    wanted = tuple(
        row
        for row in shelf.sheets
        if row.part.material == parts.front
        and row.part.treatment in ("tempered", "none")
        and row.part.plies is None
    )
    kept = tuple(row.part for row in shelf.in_measure(wanted, order.job.units))
    pinned = parts.sheet
    return kept if pinned is None else (pinned, *(sheet for sheet in kept if sheet != pinned))


def sealant(field: Field) -> Sealant:
    """The sealant to draw the bead with: the order's, or the first structural one of the shelf."""
    if field.order.parts.sealant:
        return field.order.parts.sealant
    return next(row.part for row in field.shelf.sealants if row.part.structural)


def plans(field: Field, rail: Rail, gap_mm: float, in_series: int | None = None) -> tuple[Ranked, ...]:
    """Lay-outs inside this rail's seat, the best first."""
    order, wishes = field.order, field.order.wishes
    room = Room(
        bus_width_mm=field.bus_width_mm,
        rim_mm=seat_under_pane_mm(rail, gap_mm),
        creepage_mm=max(HAND_LAY_UP_MM, needed_mm(field.system_v)),
    )
    pins = Pins(
        columns=wishes.columns,
        rows=wishes.rows,
        substrings=wishes.substrings or (None if field.shelf.bypasses else 1),
        cell_gap_mm=wishes.cell_gap_mm,
        string_gap_mm=wishes.string_gap_mm,
        side_margin_mm=wishes.margin_mm,
        end_margin_mm=wishes.end_margin_mm,
    )
    found = candidates(order.cell, in_series or field.in_series, wishes.strings or 1, pins, room)
    return rank(found, order.cell, preferences(field))


def preferences(field: Field) -> Preferences:
    """What order and shelf prefer of a lay-out."""
    wishes = field.order.wishes
    return Preferences(
        leads_one_end=wishes.leads == "one end",
        most_cells_a_diode=field.cells_a_diode,
        stock_glass_mm=field.shelf.stock_glass_mm,
        most_long_mm=wishes.most_long_mm,
        most_short_mm=wishes.most_short_mm,
        glass_kg_m2=sheet_kg_m2(sheets(field)[0]),
        most_mass_kg=wishes.most_mass_kg,
        units=field.order.job.units,
    )


def loads_on(field: Field, pane: Pane) -> Loads:
    """Wind, snow and own weight on a pane with what lies behind it; its long side may point up the slope."""
    weather = field.weather
    return combine(
        field.order.site, weather.wind, weather.snow, mass_kg_m2(pane.sheet), slope_mm=pane.long_mm
    )


def place_of(field: Field, pane: Pane, rail: Rail, loads: Loads) -> BeadPlace:
    """Where a bead lies, and in which heat."""
    return BeadPlace(pane, rail, loads, field.weather.heat)


def bead_pins(field: Field) -> BeadPins:
    """What the order settles of the bead."""
    parts = field.order.parts
    return BeadPins(parts.bite_mm, parts.gap_mm, parts.glue_line_mm, parts.gap_tolerance_mm)


def fillet_ml(order: Order, pane: Pane) -> float:
    """Sealant in the corner between a back sheet on a pour and the seats. [ml]"""
    poured = order.parts.encapsulation == "silicone pour"
    return back_fillet_ml(pane.long_mm, pane.short_mm) if poured else 0.0
