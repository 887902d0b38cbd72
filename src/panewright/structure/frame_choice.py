"""Which rail on how many brackets: the lightest rail that passes, on the fewest brackets that do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.check import Check
from panewright.frame.rail import Rail
from panewright.frame.section import section
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.loads import Loads
from panewright.structure.nearness import far_from_passing
from panewright.structure.rails import Brackets, RailProof, best_brackets, judge_rail, judge_short_rail
from panewright.units import MM

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
) -> FrameChoice:
    """The lightest rail that passes on the fewest brackets; where none passes, the nearest.

    The number of brackets and their distance from the rail's end may be pinned.
    """
    if not rails:
        raise ValueError("no rail to choose from")
    counts = COUNTS if count is None else (count,)
    rows = tuple(
        row
        for rail in rails
        for row in _rows(rail, pane, bead, loads, counts=counts, from_end_mm=from_end_mm)
    )
    passing = [row for row in rows if row.passed]
    if passing:
        return FrameChoice(min(passing, key=lambda row: (row.mass_kg_m, row.brackets.count)), rows)
    return FrameChoice(min(rows, key=lambda row: row.distance), rows)


def _rows(
    rail: Rail,
    pane: Pane,
    bead: Bead,
    loads: Loads,
    *,
    counts: tuple[int, ...],
    from_end_mm: float | None,
) -> Iterator[FrameRow]:
    """One rail on each number of brackets; its short side is the same on all."""
    short, mass = judge_short_rail(rail, pane, bead, loads), section(rail).mass_kg_m
    for count in counts:
        pinned = None if from_end_mm is None else Brackets(count, from_end_mm)
        brackets = pinned or best_brackets(rail, pane, bead, count)
        yield FrameRow(rail, brackets, judge_rail(rail, pane, bead, loads, brackets), short, mass)
