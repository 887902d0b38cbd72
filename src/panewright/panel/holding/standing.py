"""A rail with its own sheet, judged anew with what that sheet weighs and does to it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.pane import Pane
from panewright.glass.strength.hail import hail_check
from panewright.glass.verdict.plastic import heat_check
from panewright.layup.rank import Ranked
from panewright.order.order import Parts
from panewright.panel.holding.field import Field, bead_pins, fillet_ml, loads_on, place_of, sealant, sheets
from panewright.panel.holding.held import Held
from panewright.panel.holding.seated import Framed, frame_of, low_edge
from panewright.panel.holding.touched import asked_touches, doubtful_touches, not_yet
from panewright.structure.bead.bead import BeadProof
from panewright.structure.bead.choice import weigh_bead, weigh_beads
from panewright.structure.bead.peak import judge_peak
from panewright.structure.loads import Loads
from panewright.structure.panes.bonded_cells import Carried, bonded_checks
from panewright.structure.panes.choice import PaneChoice, choose_pane
from panewright.structure.panes.cut_glass import GlassWork, work_checks
from panewright.structure.panes.plastic import plastic_checks
from panewright.structure.rails.edge_load import Edges, edges_of
from panewright.structure.rails.frame_choice import (
    FrameRow,
    Task,
    judged_alone,
    settle_frame,
)
from panewright.structure.rails.low_rail import LowProof


@dataclass(frozen=True, slots=True)
class Standing:
    """A rail with its sheet, judged anew with what that sheet weighs and does to it."""

    framed: Framed
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


def stood_with(field: Field, framed: Framed) -> Standing:
    """A rail with the order's sheet, or the lightest that holds on it, and the frame judged again."""
    rail, order = framed.frame.rail, field.order
    plan, panes, sheet = framed.ranked[0], None, order.parts.sheet
    if sheet is None:
        panes = panes_over(field, plan)
        sheet = panes.chosen.pane.sheet
    pane = Pane(plan.facts.long_mm, plan.facts.short_mm, sheet)
    loads = loads_on(field, pane)
    proof = weigh_bead(sealant(field), place_of(field, pane, rail, loads), bead_pins(field))
    if order.parts.held == "four sides":  # on two sides the pane pulls evenly, as the trapezium rule says
        proof = replace(proof, checks=(*proof.checks, judge_peak(pane, proof.bead, loads)))
    task = Task(pane, proof.bead, loads, order.parts.corner, _edges(field, pane, loads))
    choice = frame_of(field, rail, task)
    if not _placed(order.parts):
        choice = settle_frame(choice, task)
    elif order.parts.bracket_from_end_mm is not None:
        choice = judged_alone(choice, task)
    low = low_edge(plan, pane, proof, choice.chosen, loads)
    return Standing(framed, panes, pane, proof, loads, choice.chosen, choice.rows, low)


def held_by(field: Field, stood: Standing, frames: tuple[FrameRow, ...]) -> Held:
    """All that goes with the rail taken: its sheet proved, other sealants and what moves."""
    plan, place = stood.framed.ranked[0], place_of(field, stood.pane, stood.frame.rail, stood.loads)
    return Held(
        rail=stood.frame.rail,
        ranked=stood.framed.ranked,
        panes=stood.panes or panes_over(field, plan),
        bead=stood.bead,
        frame=stood.frame,
        loads=stood.loads,
        low=stood.low,
        frames=frames,
        beads=weigh_beads(
            stood.bead,
            field.shelf.sealants,
            place,
            bead_pins(field),
            field.order.job.panels,
            also_ml=fillet_ml(field.order, stood.pane),
        ),
        moved=plastic_checks(stood.pane, _carried(field, plan), stood.bead.bead),
    )


def panes_over(field: Field, plan: Ranked) -> PaneChoice:
    """The lightest sheet that holds over this lay-out, with all that were weighed."""
    order, facts = field.order, plan.facts
    touched = _touches(field)
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


def _touches(field: Field) -> Callable[[Pane, Family, Parts], tuple[Check, ...]]:
    """Who asks for hands and knees; nobody here where the sheet is settled and only the worst is wanted."""
    if field.brief:
        return doubtful_touches if field.order.parts.sheet is None else not_yet
    return asked_touches


def _placed(parts: Parts) -> bool:
    """Whether the brackets' places are settled before the frame is."""
    return any(
        each is not None for each in (parts.bracket_from_end_mm, parts.bracket_places_mm, parts.drilled)
    )


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
