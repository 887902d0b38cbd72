"""Which rail on how many brackets: the lightest rail that passes, on the fewest brackets that do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from panewright.check import Check
from panewright.frame.rail import Rail
from panewright.frame.section import section
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.loads import Loads
from panewright.structure.nearness import far_from_passing
from panewright.structure.rails import Brackets, RailProof, judge_sides, near_brackets, usual_brackets
from panewright.structure.space.conditions import Joint
from panewright.structure.space_frame import outer_mm, stand_on_each
from panewright.units import MM

_BY_PLACE = {"long rail sag along the pane", "long rail stress", "long rail twist"}
_BY_LITTLE = 3.0  # of the limit: usual places sag up to so much more than the best
COUNTS = (2, 3, 4)  #: brackets on each long rail that are tried
Placed = Callable[[Rail, Pane, Bead, int, Joint], Brackets]  #: puts so many brackets on each long rail


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


def choose_frame(
    rails: tuple[Rail, ...],
    pane: Pane,
    bead: Bead,
    loads: Loads,
    *,
    count: int | None = None,
    from_end_mm: float | None = None,
    placed: Placed = usual_brackets,
    joint: Joint = "mitred",
) -> FrameChoice:
    """The lightest rail that passes on the fewest brackets; where none passes, the nearest.

    The number of brackets and their distance from the rail's end may be pinned; `placed` puts the others.
    """
    if not rails:
        raise ValueError("no rail to choose from")
    counts = COUNTS if count is None else (count,)
    rows = []
    for rail in rails:
        pinned = [Brackets(one, from_end_mm) for one in counts] if from_end_mm is not None else None
        sets = pinned or [placed(rail, pane, bead, one, joint) for one in counts]
        weighed = _rows(rail, pane, bead, loads, sets=tuple(sets), joint=joint)
        again = from_end_mm is None and placed is usual_brackets
        rows += [_moved(row, pane, bead, loads, joint) for row in weighed] if again else weighed
    passing = [row for row in rows if row.passed]
    if passing:
        return FrameChoice(min(passing, key=lambda row: (row.mass_kg_m, row.brackets.count)), tuple(rows))
    return FrameChoice(min(rows, key=lambda row: row.distance), tuple(rows))


def settle_frame(
    choice: FrameChoice, pane: Pane, bead: Bead, loads: Loads, *, joint: Joint = "mitred"
) -> FrameChoice:
    """The row chosen, its brackets put where its own rail sags least, unless a rule breaks there."""
    row = choice.chosen
    settled = _settled(row, pane, bead, loads, joint)
    return FrameChoice(settled, tuple(settled if one is row else one for one in choice.rows))


def _moved(row: FrameRow, pane: Pane, bead: Bead, loads: Loads, joint: Joint) -> FrameRow:
    """A row that fails by little, and only by what other places may mend, on its own best places."""
    failing = [check for check in row.checks if not check.passed]
    mended = all(check.rule in _BY_PLACE and check.utilisation < _BY_LITTLE for check in failing)
    return _settled(row, pane, bead, loads, joint) if failing and mended else row


def _settled(row: FrameRow, pane: Pane, bead: Bead, loads: Loads, joint: Joint) -> FrameRow:
    """The row on its own best places, unless it is farther from passing there."""
    best = near_brackets(row.rail, pane, bead, row.brackets.count, joint)
    settled = _rows(row.rail, pane, bead, loads, sets=(best,), joint=joint)[0]
    return row if settled.distance > row.distance and not settled.passed else settled


def _rows(
    rail: Rail, pane: Pane, bead: Bead, loads: Loads, *, sets: tuple[Brackets, ...], joint: Joint
) -> list[FrameRow]:
    """One rail on each set of brackets."""
    length, mass = outer_mm(pane.long_mm, rail, bead), section(rail).mass_kg_m
    places = tuple(brackets.places_mm(length) for brackets in sets)
    frames = stand_on_each(rail, pane, bead, places, family=loads.family, joint=joint)
    judged = [
        judge_sides(rail, pane, bead, loads, brackets=brackets, frame=frame)
        for brackets, frame in zip(sets, frames, strict=True)
    ]
    return [
        FrameRow(rail, brackets, long, short, mass)
        for brackets, (long, short) in zip(sets, judged, strict=True)
    ]
