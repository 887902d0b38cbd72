"""Which sheet: the lightest that passes every rule, with the proof of each candidate beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.holding import Sides
from panewright.glass.verdict.held import prove_supported
from panewright.glass.verdict.proof import PaneProof
from panewright.glass.verdict.sheet import judge_pane
from panewright.structure.loads import Loads
from panewright.structure.mass import pane_mass_kg
from panewright.structure.nearness import far_from_passing


@dataclass(frozen=True, slots=True)
class PaneRow:
    """One candidate: its pane, its proof, its mass."""

    pane: Pane
    proof: PaneProof
    mass_kg: float

    @property
    def passed(self) -> bool:
        """Whether all its checks hold."""
        return all(check.passed for check in self.proof.checks)

    @property
    def worst(self) -> Check:
        """The check nearest to its limit or farthest past it; one without a limit before all."""
        return max(self.proof.checks, key=lambda check: check.utilisation)

    @property
    def distance(self) -> tuple[int, float]:
        """How far from passing: checks that no rule covers first, then the worst of the others."""
        return far_from_passing(self.proof.checks)


@dataclass(frozen=True, slots=True)
class PaneChoice:
    """The row chosen, and all that were weighed."""

    chosen: PaneRow
    rows: tuple[PaneRow, ...]


def choose_pane(
    sheets: tuple[Sheet, ...],
    long_mm: float,
    short_mm: float,
    family: Family,
    loads_for: Callable[[Pane], Loads],
    pinned: Sheet | None = None,
    beside: Callable[[Pane], tuple[Check, ...]] = lambda _: (),
    *,
    sides: Sides = "four sides",
    last: Callable[[Pane], tuple[Check, ...]] = lambda _: (),
) -> PaneChoice:
    """The lightest candidate that passes; where none does, the one that comes nearest.

    A pinned sheet is taken whatever the others do; they are weighed beside it. `beside` gives what else each
    pane has to keep, apart from the loads: hail, and what damp and heat do to a plastic sheet. `last` gives
    what is costly to ask: it is asked of the lightest that keeps all else, of the next where that fails, and
    of the one taken.
    """
    listed = sheets if pinned is None else (pinned, *(sheet for sheet in sheets if sheet != pinned))
    if not listed:
        raise ValueError("no sheet to choose from")
    rows = []
    for sheet in listed:
        pane = Pane(long_mm, short_mm, sheet)
        proof = prove_pane(pane, family, loads_for(pane).pane_loads, sides)
        proof = replace(proof, checks=(*proof.checks, *beside(pane)))
        rows.append(PaneRow(pane, proof, pane_mass_kg(pane)))
    asked = _ask_in_turn(rows, last)
    best = 0 if pinned is not None else rows.index(lightest(rows) or min(rows, key=lambda row: row.distance))
    if best not in asked:
        rows[best] = _asked(rows[best], last)
    return PaneChoice(rows[best], tuple(rows))


def _ask_in_turn(rows: list[PaneRow], last: Callable[[Pane], tuple[Check, ...]]) -> set[int]:
    """Asks the passing rows, the lightest first, until one still passes; which were asked."""
    asked: set[int] = set()
    while (best := lightest(rows)) is not None and rows.index(best) not in asked:
        at = rows.index(best)
        asked.add(at)
        rows[at] = _asked(best, last)
    return asked


def _asked(row: PaneRow, last: Callable[[Pane], tuple[Check, ...]]) -> PaneRow:
    return replace(row, proof=replace(row.proof, checks=(*row.proof.checks, *last(row.pane))))


def prove_pane(pane: Pane, family: Family, loads: tuple[PaneLoad, ...], sides: Sides) -> PaneProof:
    """The rule book's proof of a pane on the sides that hold it."""
    if sides == "four sides":
        return judge_pane(pane, family, loads)
    return prove_supported(pane, family, loads, sides)


def lightest(rows: Iterable[PaneRow]) -> PaneRow | None:
    """The lightest that keeps every rule; None where none does."""
    return min((row for row in rows if row.passed), key=lambda row: row.mass_kg, default=None)
