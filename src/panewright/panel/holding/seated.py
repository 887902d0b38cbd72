"""A rail with the pane that its seat makes, on its brackets, before any sheet is weighed."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.errors import OrderError, Problem
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.layup.rank import Ranked
from panewright.panel.holding.field import (
    FIRST_GAP_MM,
    Field,
    bead_pins,
    loads_on,
    place_of,
    plans,
    sealant,
    sheets,
)
from panewright.structure.bead.bead import BeadProof
from panewright.structure.bead.choice import BeadPlace, draw_bead, weigh_bead
from panewright.structure.drilling.mount import mount_place
from panewright.structure.loads import Loads
from panewright.structure.rails.frame_choice import (
    FrameChoice,
    FrameRow,
    Task,
    choose_frame,
    fewest_brackets,
    frame_as_drilled,
    is_barred,
)
from panewright.structure.rails.low_rail import LowProof, LowRail, corner_holds, judge_low


@dataclass(frozen=True, slots=True)
class Seated:
    """A rail with the pane that its seat makes, before brackets are put to it."""

    rail: Rail
    ranked: tuple[Ranked, ...]
    pane: Pane
    proof: BeadProof
    loads: Loads


@dataclass(frozen=True, slots=True)
class Framed:
    """One rail under a pane of the shelf's first sheet, before any sheet is weighed."""

    seated: Seated
    frame: FrameRow
    rows: tuple[FrameRow, ...]  #: on each number of brackets

    @property
    def ranked(self) -> tuple[Ranked, ...]:
        """Plans, the best first."""
        return self.seated.ranked

    @property
    def low(self) -> LowProof:
        """The rail at the low edge; asked of few."""
        seated = self.seated
        return low_edge(seated.ranked[0], seated.pane, seated.proof, self.frame, seated.loads)


def bears_a_bolt(seated: Seated) -> bool:
    """Whether a bracket's bolt finds room: without it the rail cannot hold, wherever brackets stand."""
    return mount_place(seated.rail, seated.proof.bead, seated.pane) is not None


def seated_on(field: Field, rail: Rail) -> Seated:
    """The gap sets the room and the room the pane: two rounds settle it, and the second is proved."""
    _, first = _inside(field, rail, field.order.parts.gap_mm or FIRST_GAP_MM)
    bead = draw_bead(sealant(field), first, bead_pins(field))
    ranked, place = _inside(field, rail, bead.gap_mm)
    proof = weigh_bead(sealant(field), place, bead_pins(field))
    return Seated(rail, ranked, place.pane, proof, place.loads)


def _inside(field: Field, rail: Rail, gap_mm: float) -> tuple[tuple[Ranked, ...], BeadPlace]:
    """Lay-outs inside a rail with so wide a gap, and where the bead of the best is drawn."""
    ranked = plans(field, rail, gap_mm)
    pane = Pane(ranked[0].facts.long_mm, ranked[0].facts.short_mm, sheets(field)[0])
    return ranked, place_of(field, pane, rail, loads_on(field, pane))


def is_barred_by_short(field: Field, seated: Seated) -> bool:
    """Whether the short rail fails wherever brackets stand, as far as no order says where they do."""
    parts = field.order.parts
    told = parts.brackets_per_long_side, parts.bracket_from_end_mm, parts.bracket_places_mm, parts.drilled
    if any(each is not None for each in told):
        return False
    return is_barred(seated.rail, Task(seated.pane, seated.proof.bead, seated.loads, parts.corner))


def framed_by(field: Field, seated: Seated) -> Framed:
    """A rail on its brackets, under a pane of the shelf's first sheet."""
    pane, proof, loads = seated.pane, seated.proof, seated.loads
    choice = frame_of(field, seated.rail, Task(pane, proof.bead, loads, field.order.parts.corner))
    return Framed(seated, choice.chosen, choice.rows)


def low_edge(plan: Ranked, pane: Pane, proof: BeadProof, row: FrameRow, loads: Loads) -> LowProof:
    """The rail at the low edge: a short one hangs in the corners, a long one on its brackets too."""
    facts, rail, bead = plan.facts, row.rail, proof.bead
    if facts.pane_height_mm >= facts.pane_width_mm:
        low = LowRail(rail, pane, bead, "short", corner_holds(rail, pane, bead), proof.blocks)
        return judge_low(low, loads, proof.need, row.short.per_pa)
    held = row.brackets.places_mm(row.long.length_mm)
    low = LowRail(rail, pane, bead, "long", held, proof.blocks)
    return judge_low(low, loads, proof.need, row.long.per_pa)


def frame_of(field: Field, rail: Rail, task: Task) -> FrameChoice:
    """A rail on its brackets; `OrderError` where the order puts them off the rail."""
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
