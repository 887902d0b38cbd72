"""Lay-up, pane, bead and frame together: a wider seat makes a larger pane, a larger pane a stiffer rail.

Rails are tried lightest first. For each the pane follows from the lay-up inside its seat, then bead,
brackets and sheet; the first rail whose every rule holds is taken, or the nearest where none does.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from panewright.check import Check
from panewright.climate.heat import Temperatures
from panewright.climate.load import WindLoad
from panewright.climate.snow import SnowLoad
from panewright.enclosure.creepage import HAND_LAY_UP_MM, needed_mm
from panewright.frame.rail import Rail
from panewright.frame.section import section
from panewright.glass.pane import Pane, Sheet
from panewright.layup.candidates import Pins, candidates
from panewright.layup.rank import Preferences, Ranked, rank
from panewright.layup.room import Room
from panewright.order.order import Order
from panewright.seal.sealant import Bead, Sealant
from panewright.shelf.shelf import Shelf
from panewright.structure.bead import BeadProof, choose_bead, judge_bead
from panewright.structure.frame_choice import FrameRow, choose_frame
from panewright.structure.loads import Loads, combine
from panewright.structure.nearness import far_from_passing
from panewright.structure.pane_choice import PaneChoice, choose_pane
from panewright.structure.seat import mass_kg_m2, seat_under_pane_mm

FIRST_GAP_MM = 4.0  #: round the pane, before the bead is known
_NEAR = 2  # cells more than needed that are looked at in any case
POINTS_A_CELL = 5.0  #: of a lay-out, for every cell more than the voltage needs; this shop's judgement


@dataclass(frozen=True, slots=True)
class Weather:
    """What the site does to the panel."""

    heat: Temperatures
    wind: WindLoad
    snow: SnowLoad


@dataclass(frozen=True, slots=True)
class Held:
    """One rail with the pane, bead and lay-up that go with it."""

    rail: Rail
    ranked: tuple[Ranked, ...]  #: plans, the best first
    panes: PaneChoice
    bead: BeadProof
    frame: FrameRow
    loads: Loads

    @property
    def pane(self) -> Pane:
        """The pane chosen."""
        return self.panes.chosen.pane

    @property
    def checks(self) -> tuple[Check, ...]:
        """Of pane, bead and rails."""
        return self.panes.chosen.proof.checks + self.bead.checks + self.frame.checks

    @property
    def passed(self) -> bool:
        """Whether every rule holds."""
        return all(check.passed for check in self.checks)


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


@lru_cache(maxsize=8)
def hold(field: Field) -> Held:
    """The lightest rail that holds, with all that goes with it; the nearest where none does.

    Kept for the next round, which mostly asks the same again.
    """
    tried = sorted((_framed(field, rail) for rail in rails(field)), key=_order_of_trial)
    for framed in tried:
        held = _proved(field, framed)
        if held.bead.passed and held.frame.passed:
            return held
    return _proved(field, tried[0])


def _order_of_trial(framed: _Framed) -> tuple[bool, int, float, float]:
    """Rails that hold first, lightest first; then the rest by how far they are from holding."""
    row = framed.frame
    unknown, worst = (0, row.mass_kg_m) if row.passed else far_from_passing(row.checks)
    return not row.passed, unknown, worst, row.rail.seat_mm


def rails(field: Field) -> tuple[Rail, ...]:
    """Rails to try, lightest first: the order's, or the angles of the shop's own measure."""
    if field.order.parts.rail:
        return (field.order.parts.rail,)
    rows = field.shelf.in_measure(field.shelf.rails, field.order.job.units)
    angles = [row.part for row in rows if row.part.profile == "angle"]
    return tuple(sorted(angles, key=lambda rail: section(rail).mass_kg_m))


def sheets(field: Field) -> tuple[Sheet, ...]:
    """Sheets to weigh: the order's, or those of the front asked for; glass only if tempered."""
    parts = field.order.parts
    if parts.sheet:
        return (parts.sheet,)
    rows = field.shelf.in_measure(field.shelf.sheets, field.order.job.units)
    wanted = (row.part for row in rows if row.part.material == parts.front)
    return tuple(sheet for sheet in wanted if sheet.material != "glass" or sheet.treatment == "tempered")


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
        substrings=wishes.substrings,
        cell_gap_mm=wishes.cell_gap_mm,
        string_gap_mm=wishes.string_gap_mm,
        side_margin_mm=wishes.margin_mm,
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
    )


@dataclass(frozen=True, slots=True)
class _Framed:
    """One rail under a pane of the shelf's first sheet, before any sheet is weighed."""

    ranked: tuple[Ranked, ...]
    pane: Pane
    frame: FrameRow


def _framed(field: Field, rail: Rail) -> _Framed:
    """The gap sets the room and the room the pane: two rounds settle it."""
    gap = field.order.parts.gap_mm or FIRST_GAP_MM
    for _ in range(2):
        ranked = plans(field, rail, gap)
        pane = Pane(ranked[0].facts.long_mm, ranked[0].facts.short_mm, sheets(field)[0])
        bead = _bead(field, pane, rail)
        gap = bead.gap_mm
    return _Framed(ranked, pane, _frame(field, rail, pane, bead, loads_on(field, pane)))


def _proved(field: Field, framed: _Framed) -> Held:
    """A rail with the lightest sheet that holds on it, and everything judged again with that sheet."""
    rail, family = framed.frame.rail, field.order.site.family
    sizes = framed.pane.long_mm, framed.pane.short_mm
    panes = choose_pane(sheets(field), *sizes, family, lambda pane: loads_on(field, pane))
    pane = panes.chosen.pane
    loads, bead = loads_on(field, pane), _bead(field, pane, rail)
    proof = judge_bead(pane, bead, rail, loads, field.weather.heat)
    return Held(rail, framed.ranked, panes, proof, _frame(field, rail, pane, bead, loads), loads)


def _frame(field: Field, rail: Rail, pane: Pane, bead: Bead, loads: Loads) -> FrameRow:
    parts = field.order.parts
    count, from_end = parts.brackets_per_long_side, parts.bracket_from_end_mm
    return choose_frame((rail,), pane, bead, loads, count=count, from_end_mm=from_end).chosen


def loads_on(field: Field, pane: Pane) -> Loads:
    """Wind, snow and own weight on a pane with what lies behind it."""
    weather = field.weather
    return combine(field.order.site, weather.wind, weather.snow, mass_kg_m2(pane.sheet))


def _bead(field: Field, pane: Pane, rail: Rail) -> Bead:
    parts, loads = field.order.parts, loads_on(field, pane)
    return choose_bead(
        pane,
        sealant(field),
        rail,
        loads,
        field.weather.heat,
        bite_mm=parts.bite_mm,
        gap_mm=parts.gap_mm,
    )


def best_count(field: Field, acceptable: tuple[int, ...]) -> int:
    """The study's count or one a little above that fills whole columns far better.

    Every cell more costs as much as a step of the lay-out's points: cells are the dearest part.
    """
    first = field.in_series
    near = [count for count in acceptable if first <= count <= first + max(_NEAR, first // 8)]
    rail, gap = rails(field)[0], field.order.parts.gap_mm or FIRST_GAP_MM

    def merit(count: int) -> float:
        return plans(field, rail, gap, count)[0].score - POINTS_A_CELL * (count - first)

    return max(near or [first], key=merit)
