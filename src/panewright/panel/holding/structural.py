"""Lay-up, pane, bead and frame together: a wider seat makes a larger pane, a larger pane a stiffer rail.

Rails are tried lightest first. For each the pane follows from the lay-up inside its seat, then bead,
brackets and sheet; the first rail whose every rule holds is taken, or the nearest where none does.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from panewright.check import Check
from panewright.climate.heat import Temperatures
from panewright.climate.site import Family
from panewright.climate.snow.snow import SnowLoad
from panewright.climate.wind.load import WindLoad
from panewright.enclosure.creepage import HAND_LAY_UP_MM, needed_mm
from panewright.errors import OrderError, Problem
from panewright.frame.metals.aluminium import bending_limit_mpa
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane, Sheet
from panewright.glass.strength.hail import hail_check
from panewright.glass.verdict.plastic import heat_check
from panewright.layup.candidates import Pins, candidates
from panewright.layup.rank import Counted, Preferences, Ranked, rank
from panewright.layup.room import Room
from panewright.order.order import Order, Parts
from panewright.panel.holding.touched import asked_touches, doubtful_touches
from panewright.seal.sealant import Sealant
from panewright.shelf.shelf import Shelf
from panewright.structure.bead.bead import BeadProof
from panewright.structure.bead.choice import BeadPins, BeadPlace, BeadRow, weigh_bead, weigh_beads
from panewright.structure.bead.peak import judge_peak
from panewright.structure.drilling.mount import mount_place
from panewright.structure.loads import Loads, combine
from panewright.structure.nearness import far_from_passing
from panewright.structure.panes.bonded_cells import Carried, bonded_checks
from panewright.structure.panes.choice import PaneChoice, choose_pane
from panewright.structure.panes.cut_glass import GlassWork, work_checks
from panewright.structure.panes.plastic import plastic_checks
from panewright.structure.rails.edge_load import Edges, edges_of
from panewright.structure.rails.frame_choice import (
    FrameChoice,
    FrameRow,
    Task,
    choose_frame,
    fewest_brackets,
    frame_as_drilled,
    judged_alone,
    settle_frame,
)
from panewright.structure.rails.low_rail import LowProof, LowRail, corner_holds, judge_low
from panewright.structure.rails.seat import mass_kg_m2, seat_under_pane_mm, sheet_kg_m2

FIRST_GAP_MM = 4.0  #: round the pane, before the bead is known
_NEAR = 2  # cells more than needed that are looked at in any case


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
    low: LowProof  #: the rail at the low edge, and the setting blocks on it
    frames: tuple[FrameRow, ...] = ()  #: every rail that was tried, on each number of brackets
    beads: tuple[BeadRow, ...] = ()  #: the bead taken, and those of the other structural sealants
    moved: tuple[Check, ...] = ()  #: cells and bead on a sheet that grows and bows; none on glass

    @property
    def pane(self) -> Pane:
        """The pane chosen."""
        return self.panes.chosen.pane

    @property
    def checks(self) -> tuple[Check, ...]:
        """Of pane, bead and rails."""
        return (
            self.panes.chosen.proof.checks
            + self.moved
            + self.bead.checks
            + self.frame.checks
            + self.low.checks
        )

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
    brief: bool = False  #: whether only what is taken is wanted, not what was weighed beside it


@lru_cache(maxsize=8)
def hold(field: Field) -> Held:
    """The lightest rail that holds, with all that goes with it; the nearest where none does.

    Rails heavier than the one taken are not looked at.
    Kept for the next round, which mostly asks the same again.
    """
    tried: list[_Framed] = []
    stood: dict[Rail, _Standing] = {}
    for rail in rails(field):
        seated = _seated(field, rail)
        if field.brief and not _bears_a_bolt(seated):
            continue
        tried.append(framed := _framed(field, seated))
        if _able(framed):
            stood[rail] = _stood(field, framed)
            if stood[rail].settles:
                return _held(field, stood[rail], _all_rows(tried, stood))
    if field.brief:  # nothing holds: now those count that no bolt has room in
        known = {framed.frame.rail: framed for framed in tried}
        tried = [known.get(rail) or _framed(field, _seated(field, rail)) for rail in rails(field)]
    nearest = min(tried, key=_order_of_trial)
    rail = nearest.frame.rail
    if rail not in stood:
        stood[rail] = _stood(field, nearest)
    return _held(field, stood[rail], _all_rows(tried, stood))


def _all_rows(tried: Iterable[_Framed], stood: dict[Rail, _Standing]) -> tuple[FrameRow, ...]:
    """Rows of every rail: as judged with its own sheet, or as tried with the first one."""
    rows: list[FrameRow] = []
    for framed in tried:
        again = stood.get(framed.frame.rail)
        rows += again.rows if again else framed.rows
    return tuple(rows)


def _order_of_trial(framed: _Framed) -> tuple[bool, int, float, float]:
    """Rails that hold or may first, lightest first; then the rest by how far they are from holding."""
    row = framed.frame
    able = _able(framed)
    checks = row.checks + framed.low.checks
    unknown, worst = (0, row.mass_kg_m) if able else far_from_passing(checks)
    return not able, unknown, worst, row.rail.seat_mm


def _able(framed: _Framed) -> bool:
    """Whether a rail holds, or may with other places of its brackets and blocks."""
    return framed.low.hopeful and any(each.passed or each.hopeful for each in framed.rows)


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
        substrings=wishes.substrings,
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
    )


@dataclass(frozen=True, slots=True)
class _Framed:
    """One rail under a pane of the shelf's first sheet, before any sheet is weighed."""

    ranked: tuple[Ranked, ...]
    pane: Pane
    frame: FrameRow
    rows: tuple[FrameRow, ...]  #: on each number of brackets
    low: LowProof


@dataclass(frozen=True, slots=True)
class _Seated:
    """A rail with the pane that its seat makes, before brackets are put to it."""

    rail: Rail
    ranked: tuple[Ranked, ...]
    pane: Pane
    proof: BeadProof
    loads: Loads


def _bears_a_bolt(seated: _Seated) -> bool:
    """Whether a bracket's bolt finds room: without it the rail cannot hold, wherever brackets stand."""
    return mount_place(seated.rail, seated.proof.bead, seated.pane) is not None


def _seated(field: Field, rail: Rail) -> _Seated:
    """The gap sets the room and the room the pane: two rounds settle it."""
    gap = field.order.parts.gap_mm or FIRST_GAP_MM
    for _ in range(2):
        ranked = plans(field, rail, gap)
        pane = Pane(ranked[0].facts.long_mm, ranked[0].facts.short_mm, sheets(field)[0])
        loads = loads_on(field, pane)
        proof = weigh_bead(sealant(field), _place(field, pane, rail, loads), _pins(field))
        gap = proof.bead.gap_mm
    return _Seated(rail, ranked, pane, proof, loads)


def _framed(field: Field, seated: _Seated) -> _Framed:
    """A rail on its brackets, under a pane of the shelf's first sheet."""
    pane, proof, loads = seated.pane, seated.proof, seated.loads
    choice = _frame(field, seated.rail, Task(pane, proof.bead, loads, field.order.parts.corner))
    low = _low(seated.ranked[0], pane, proof, choice.chosen, loads)
    return _Framed(seated.ranked, pane, choice.chosen, choice.rows, low)


@dataclass(frozen=True, slots=True)
class _Standing:
    """A rail with its sheet, judged anew with what that sheet weighs and does to it."""

    framed: _Framed
    panes: PaneChoice | None  #: None while nobody has asked, where the order names the sheet
    pane: Pane
    bead: BeadProof
    loads: Loads
    frame: FrameRow
    rows: tuple[FrameRow, ...]
    low: LowProof

    @property
    def settles(self) -> bool:
        """Whether no other rail would do better: it holds, or fails by what no rule book covers."""
        bead = self.bead.passed or not all(check.covered for check in self.bead.checks)
        return bead and self.frame.passed and self.low.passed


def _stood(field: Field, framed: _Framed) -> _Standing:
    """A rail with the order's sheet, or the lightest that holds on it, and the frame judged again."""
    rail, order = framed.frame.rail, field.order
    plan, panes, sheet = framed.ranked[0], None, order.parts.sheet
    if sheet is None:
        panes = panes_over(field, plan)
        sheet = panes.chosen.pane.sheet
    pane = Pane(plan.facts.long_mm, plan.facts.short_mm, sheet)
    loads = loads_on(field, pane)
    proof = weigh_bead(sealant(field), _place(field, pane, rail, loads), _pins(field))
    if order.parts.held == "four sides":  # on two sides the pane pulls evenly, as the trapezium rule says
        proof = replace(proof, checks=(*proof.checks, judge_peak(pane, proof.bead, loads)))
    task = Task(pane, proof.bead, loads, order.parts.corner, _edges(field, pane, loads))
    choice = _frame(field, rail, task)
    if not _placed(order.parts):
        choice = settle_frame(choice, task)
    elif order.parts.bracket_from_end_mm is not None:
        choice = judged_alone(choice, task)
    low = _low(plan, pane, proof, choice.chosen, loads)
    return _Standing(framed, panes, pane, proof, loads, choice.chosen, choice.rows, low)


def _held(field: Field, stood: _Standing, frames: tuple[FrameRow, ...]) -> Held:
    """All that goes with the rail taken: its sheet proved, other sealants and what moves."""
    plan, place = stood.framed.ranked[0], _place(field, stood.pane, stood.frame.rail, stood.loads)
    return Held(
        rail=stood.frame.rail,
        ranked=stood.framed.ranked,
        panes=stood.panes or panes_over(field, plan),
        bead=stood.bead,
        frame=stood.frame,
        loads=stood.loads,
        low=stood.low,
        frames=frames,
        beads=weigh_beads(stood.bead, field.shelf.sealants, place, _pins(field), field.order.job.panels),
        moved=plastic_checks(stood.pane, _carried(field, plan), stood.bead.bead),
    )


def panes_over(field: Field, plan: Ranked) -> PaneChoice:
    """The lightest sheet that holds over this lay-out, with all that were weighed."""
    order, facts = field.order, plan.facts
    touched = doubtful_touches if field.brief else asked_touches
    return choose_pane(
        sheets(field),
        facts.long_mm,
        facts.short_mm,
        order.site.family,
        lambda pane: loads_on(field, pane),
        order.parts.sheet,
        lambda pane: _beside(field, pane, _carried(field, plan)),
        sides=order.parts.held,
        last=lambda pane: touched(pane, order.site.family, order.parts),
    )


def _placed(parts: Parts) -> bool:
    """Whether the brackets' places are settled before the frame is."""
    return any(
        each is not None for each in (parts.bracket_from_end_mm, parts.bracket_places_mm, parts.drilled)
    )


def _low(plan: Ranked, pane: Pane, proof: BeadProof, row: FrameRow, loads: Loads) -> LowProof:
    """The rail at the low edge: a short one hangs in the corners, a long one on its brackets too."""
    facts, rail, bead = plan.facts, row.rail, proof.bead
    if facts.pane_height_mm >= facts.pane_width_mm:
        low = LowRail(rail, pane, bead, "short", corner_holds(rail, pane, bead), proof.blocks)
        return judge_low(low, loads, proof.need, row.short.per_pa)
    held = row.brackets.places_mm(row.long.length_mm)
    low = LowRail(rail, pane, bead, "long", held, proof.blocks)
    return judge_low(low, loads, proof.need, row.long.per_pa)


def _carried(field: Field, ranked: Ranked) -> Carried:
    """What lies on the pane."""
    shape, heat, plan = field.order.cell.shape, field.weather.heat, ranked.plan
    return Carried(
        max(shape.width_mm, shape.length_mm),
        shape.thickness_mm,
        field.order.parts.encapsulation,
        heat.hot_glass_c - heat.build_c,
        min(plan.side_margin_mm, plan.end_margin_mm),
    )


def _beside(field: Field, pane: Pane, carried: Carried) -> tuple[Check, ...]:
    """What a pane has to keep apart from its strength: cells, hail, heat, cuts."""
    parts, site = field.order.parts, field.order.site
    work = GlassWork(parts.glass_from == "cut from stock", parts.glass_holes, field.shelf.stock_glass_mm)
    heat = field.weather.heat.hot_cover_c
    return (
        *bonded_checks(pane, carried, loads_on(field, pane), parts.held),
        *((heat_check(pane.sheet, heat),) if pane.sheet.material != "glass" else ()),
        hail_check(pane, site.hail_mm),
        *work_checks(pane, work, site.family),
    )


def _edges(field: Field, pane: Pane, loads: Loads) -> Edges:
    """What the pane does to its rails under its worst pressure."""
    worst = max(loads.pane_loads, key=lambda load: load.pressure_pa)
    return edges_of(
        pane,
        loads.family,
        worst.pressure_pa,
        duration_s=worst.duration_s,
        sides=field.order.parts.held,
    )


def _frame(field: Field, rail: Rail, task: Task) -> FrameChoice:
    parts = field.order.parts
    count, from_end = parts.brackets_per_long_side, parts.bracket_from_end_mm
    length = task.length_mm(rail)
    if parts.drilled is not None:
        return frame_as_drilled(rail, task, parts.drilled)
    if from_end is not None and 2 * from_end >= length:
        reason = f"The long rail is {length:.0f} mm, and brackets so far from both of its ends cross."
        cure = f"Write less than {length / 2:.0f} mm, or leave bracket_from_end out."
        raise OrderError([Problem(reason, cure, key="parts.bracket_from_end", value=f"{from_end:g} mm")])
    places = parts.bracket_places_mm
    if places is not None and places[-1] >= length:
        reason = f"The long rail is {length:.0f} mm, and the last bracket lies past its end."
        cure = f"Write places below {length:.0f} mm, from the rail's left end."
        value = ", ".join(f"{place:g} mm" for place in places)
        raise OrderError([Problem(reason, cure, key="parts.bracket_places", value=value)])
    if field.brief and places is None and count is None:
        return fewest_brackets(rail, task, from_end)
    return choose_frame((rail,), task, count=count, from_end_mm=from_end, places_mm=places)


def loads_on(field: Field, pane: Pane) -> Loads:
    """Wind, snow and own weight on a pane with what lies behind it; its long side may point up the slope."""
    weather = field.weather
    return combine(
        field.order.site, weather.wind, weather.snow, mass_kg_m2(pane.sheet), slope_mm=pane.long_mm
    )


def _place(field: Field, pane: Pane, rail: Rail, loads: Loads) -> BeadPlace:
    return BeadPlace(pane, rail, loads, field.weather.heat)


def _pins(field: Field) -> BeadPins:
    parts = field.order.parts
    return BeadPins(parts.bite_mm, parts.gap_mm, parts.glue_line_mm, parts.gap_tolerance_mm)


def counted(field: Field, acceptable: tuple[int, ...]) -> tuple[Counted, ...]:
    """The study's count and those a little above it that hold too, each with its best lay-out.

    Counts for which no lay-out meets the order's pins are left out.
    """
    first, wishes = field.in_series, field.order.wishes
    reach = max(_NEAR, first // 8, wishes.columns or 0, wishes.rows or 0)
    near = [count for count in acceptable if first < count <= first + reach]
    near = near or [count for count in acceptable if first not in acceptable[:-1] and count < first]
    found = ((count, _best_plan(field, count)) for count in (first, *near))
    return tuple(Counted(count, best, abs(count - first)) for count, best in found if best)


def _best_plan(field: Field, count: int) -> Ranked | None:
    """The best lay-out of so many cells inside the lightest rail."""
    gap = field.order.parts.gap_mm or FIRST_GAP_MM
    try:
        return plans(field, rails(field)[0], gap, count)[0]
    except OrderError:
        return None
