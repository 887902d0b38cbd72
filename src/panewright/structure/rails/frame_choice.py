"""Which rail on how many brackets: the lightest rail that passes, on the fewest brackets that do."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache, reduce
from typing import Any

from panewright.check import Check
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.loads import Loads
from panewright.structure.nearness import far_from_passing
from panewright.structure.rails.edge_load import Edges
from panewright.structure.rails.rails import (
    Brackets,
    RailProof,
    brackets_at,
    judge_sides,
    near_brackets,
    short_fails,
    usual_brackets,
)
from panewright.structure.space.bounds import SpaceFrame
from panewright.structure.space.conditions import Joint
from panewright.structure.space.space_frame import outer_mm, stand, stand_on_each
from panewright.units import MM

_BY_PLACE = {
    "long rail sag along the pane",
    "long rail stress",
    "long rail bent and sheared at once",
    "long rail tipping over sideways",
    "long rail twist",
}
_BY_LITTLE = 3.0  # of the limit: usual places sag up to so much more than the best
COUNTS = (2, 3, 4)  #: brackets on each long rail that are tried


@dataclass(frozen=True, slots=True)
class FrameRow:
    """One rail on its brackets: both rails' proofs."""

    rail: Rail
    brackets: Brackets
    long: RailProof
    short: RailProof
    mass_kg_m: float

    @property
    def checks(self) -> tuple[Check, ...]:
        """Of both rails."""
        return self.long.checks + self.short.checks

    @property
    def passed(self) -> bool:
        """Whether all its checks hold."""
        return all(check.passed for check in self.checks)

    @property
    def hopeful(self) -> bool:
        """Whether it fails by little, and only by what other bracket places may mend."""
        failing = [check for check in self.checks if not check.passed]
        return all(check.rule in _BY_PLACE and check.utilisation < _BY_LITTLE for check in failing)

    @property
    def mass_kg(self) -> float:
        """All four rails. [kg]"""
        return 2 * (self.long.length_mm + self.short.length_mm) * MM * self.mass_kg_m

    @property
    def worst(self) -> Check:
        """The check nearest to its limit or farthest past it; one without a limit before all."""
        return max(self.checks, key=lambda check: check.utilisation)

    @property
    def distance(self) -> tuple[int, float]:
        """How far from passing: checks that no rule covers first, then the worst of the others."""
        return far_from_passing(self.checks)


@dataclass(frozen=True, slots=True)
class FrameChoice:
    """The row chosen, and all that were weighed."""

    chosen: FrameRow
    rows: tuple[FrameRow, ...]


@dataclass(frozen=True, slots=True)
class Task:
    """What a frame has to carry, and how it is joined."""

    pane: Pane
    bead: Bead
    loads: Loads
    joint: Joint = "mitred"
    edges: Edges = ()  #: what the pane may do to its rails; none is its load split at 45 degrees

    def length_mm(self, rail: Rail) -> float:
        """Of the long rail, outside. [mm]"""
        return outer_mm(self.pane.long_mm, rail, self.bead)


def choose_frame(
    rails: tuple[Rail, ...],
    task: Task,
    *,
    count: int | None = None,
    from_end_mm: float | None = None,
    places_mm: tuple[float, ...] | None = None,
) -> FrameChoice:
    """The lightest rail that passes on the fewest brackets; where none passes, the nearest.

    The number of brackets and their distance from the rail's end may be pinned, or the place of each; the
    others stand at the usual places.
    """
    if not rails:
        raise ValueError("no rail to choose from")
    if places_mm is not None:
        return _chosen(tuple(row for rail in rails for row in _pinned(rail, task, places_mm)))
    counts = COUNTS if count is None else (count,)
    return _chosen(tuple(row for rail in rails for row in _weighed(rail, task, counts, from_end_mm)))


def fewest_brackets(rail: Rail, task: Task, from_end_mm: float | None) -> FrameChoice:
    """One rail on the fewest brackets that pass; more of them are asked only where fewer do not."""
    rows = _weighed(rail, task, COUNTS[:1], from_end_mm)
    if not rows[0].passed:
        more = _weighed(rail, task, COUNTS[1:], from_end_mm)  # all at once, as they share their mesh
        passing = next((place for place, row in enumerate(more) if row.passed), len(more))
        rows += more[: passing + 1]
    return _chosen(tuple(rows))


def is_barred(rail: Rail, task: Task) -> bool:
    """Whether the short rail fails by its own rules on every number of brackets: then no places mend it.

    So much is known before the long rail is judged; frames are kept for who asks on.
    """
    return all(
        short_fails(rail, task.pane, task.bead, task.loads, frame)
        for counts in (COUNTS[:1], COUNTS[1:])
        for frame in _frames(rail, task, _usual(rail, task, counts))
    )


def frame_as_drilled(rail: Rail, task: Task, brackets: Brackets) -> FrameChoice:
    """The frame on brackets that are there already: nothing is weighed."""
    row = _alone(rail, task, brackets)
    return FrameChoice(row, (row,))


def judged_alone(choice: FrameChoice, task: Task) -> FrameChoice:
    """The row chosen, judged on a mesh of its own: to the last digit as it will be once it is built."""
    alone = _alone(choice.chosen.rail, task, choice.chosen.brackets)
    return FrameChoice(alone, tuple(alone if row is choice.chosen else row for row in choice.rows))


def _alone(rail: Rail, task: Task, brackets: Brackets) -> FrameRow:
    if brackets.all_mm is not None:
        return _pinned(rail, task, brackets.all_mm)[0]
    return _rows(rail, task, (brackets,))[0]


def _chosen(rows: tuple[FrameRow, ...]) -> FrameChoice:
    passing = [row for row in rows if row.passed]
    if passing:
        return FrameChoice(min(passing, key=lambda row: (row.mass_kg_m, row.brackets.count)), rows)
    return FrameChoice(min(rows, key=lambda row: row.distance), rows)


def _pinned(rail: Rail, task: Task, places_mm: tuple[float, ...]) -> list[FrameRow]:
    """One rail on brackets at these places, alike from both ends or not."""
    brackets = brackets_at(places_mm, task.length_mm(rail))
    frame = _stood(rail, task, brackets.places_mm(task.length_mm(rail)))
    return [_row(rail, task, brackets, frame)]


def _stood(rail: Rail, task: Task, places_mm: tuple[float, ...]) -> SpaceFrame:
    """The frame on these brackets under the worst of what the pane may do."""
    found = (
        stand(rail, task.pane, task.bead, places_mm, family=task.loads.family, joint=task.joint, load=load)
        for load in task.edges or (None,)
    )
    return reduce(SpaceFrame.worse, found)


def _weighed(rail: Rail, task: Task, counts: tuple[int, ...], from_end_mm: float | None) -> list[FrameRow]:
    """One rail on each number of brackets."""
    if from_end_mm is not None:
        return _rows(rail, task, tuple(Brackets(count, from_end_mm) for count in counts))
    return _rows(rail, task, _usual(rail, task, counts))


def _usual(rail: Rail, task: Task, counts: tuple[int, ...]) -> tuple[Brackets, ...]:
    return tuple(usual_brackets(rail, task.pane, task.bead, count, task.joint) for count in counts)


def settle_frame(choice: FrameChoice, task: Task) -> FrameChoice:
    """Brackets put where each rail sags least, unless a rule breaks there: those of the row chosen, and
    before that of every row that they may mend."""
    mended = {id(row): _settled(row, task) for row in choice.rows if row.hopeful and not row.passed}
    again = _chosen(tuple(mended.get(id(row), row) for row in choice.rows))
    if again.chosen in mended.values():
        return again
    settled = _settled(again.chosen, task)
    return FrameChoice(settled, tuple(settled if row is again.chosen else row for row in again.rows))


def _settled(row: FrameRow, task: Task) -> FrameRow:
    """The row on its own best places, unless it is farther from passing there."""
    best = near_brackets(row.rail, task.pane, task.bead, row.brackets.count, task.joint, task.edges)
    settled = _alone(row.rail, task, best)
    if settled.distance > row.distance and not settled.passed:
        return _alone(row.rail, task, row.brackets)
    return settled


def _rows(rail: Rail, task: Task, sets: tuple[Brackets, ...]) -> list[FrameRow]:
    """One rail on each set of brackets."""
    frames = _frames(rail, task, sets)
    return [_row(rail, task, brackets, frame) for brackets, frame in zip(sets, frames, strict=True)]


def _frames(rail: Rail, task: Task, sets: tuple[Brackets, ...]) -> tuple[SpaceFrame, ...]:
    places = tuple(brackets.places_mm(task.length_mm(rail)) for brackets in sets)
    asked: Any = {"family": task.loads.family, "joint": task.joint, "edges": task.edges}
    return stand_on_each(rail, task.pane, task.bead, places, **asked)


@lru_cache(maxsize=2048)
def _row(rail: Rail, task: Task, brackets: Brackets, frame: SpaceFrame) -> FrameRow:
    """Kept, for panels of a catalogue that differ in their cells alone have the same frame."""
    long, short = judge_sides(
        rail, task.pane, task.bead, task.loads, brackets=brackets, frame=frame, edges=task.edges
    )
    return FrameRow(rail, brackets, long, short, section(rail).mass_kg_m)
