"""Which piece of ribbon from which spool: no joint within a piece, and what each spool's ends lose.

A spool is a long bar whose cuts take nothing. Its start is crumpled and its last turns cannot be drawn.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from panewright.cutting.bars.bars import cut_from
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw
from panewright.cutting.plan import BarCut

_CLEAN = Saw(0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Ends:
    """What is thrown away of a spool. [mm]"""

    start_mm: float = 0.0  #: of a new spool
    last_mm: float = 0.0  #: of every spool: turns that cannot be drawn straight

    def __post_init__(self) -> None:
        if min(self.start_mm, self.last_mm) < 0:
            raise ValueError(f"a spool loses nothing or something at its ends, got {self}")


@dataclass(frozen=True, slots=True)
class SpoolCut:
    """One spool: how many of each piece, in the order in which to cut; what is left, and what is lost."""

    spool: Bar
    pieces: tuple[tuple[Piece, int], ...]
    left_mm: float  #: on the spool when all is cut, its last turns counted
    lost_mm: float  #: thrown away now: the start, and all that is left where it is too short to keep

    @property
    def cut_mm(self) -> float:
        """Length of all pieces. [mm]"""
        return sum(piece.length_mm * number for piece, number in self.pieces)


@dataclass(frozen=True, slots=True)
class SpoolPlan:
    """All spools that are begun."""

    spools: tuple[SpoolCut, ...]
    proven: bool  #: no plan costs less; without prices, none begins less length of spool
    cost: Decimal | None
    gap: float = 0.0  #: by what share of it the cost may lie above the least; 0 where it is proven [1]

    @property
    def kept(self) -> tuple[Bar, ...]:
        """Spools that go back into the drawer, with what is on them."""
        return tuple(
            Bar(cut.left_mm, None, 1, cut.spool.name, remnant=True) for cut in self.spools if cut.left_mm
        )


def cut_spools(pieces: Iterable[Piece], spools: Sequence[Bar], ends: Ends, keep_mm: float = 0.0) -> SpoolPlan:
    """The plan that costs least, and of those that which uses up least ribbon.

    `spools` are bars to the programme: `remnant` for one that was begun, whose start is clean. A rest of
    `keep_mm` or more stays on its spool. Raises as `cut_from` does.

    >>> tabs = [Piece("tab", 320.0, 700)]
    >>> plan = cut_spools(tabs, [Bar(100_000.0)], Ends(200.0, 500.0), keep_mm=1000.0)
    >>> [(sum(n for _, n in cut.pieces), cut.left_mm) for cut in plan.spools]
    [(310, 0.0), (310, 0.0), (80, 74200.0)]
    """
    usable = [(bar, spool) for spool in spools if (bar := _usable(spool, ends))]
    plan = cut_from(pieces, [bar for bar, _ in usable], _CLEAN, max(keep_mm - ends.last_mm, 0.0))
    originals = {(bar.length_mm, bar.name, bar.remnant, bar.price): spool for bar, spool in usable}
    cuts = [
        _cut(bar, originals[bar.bar_mm, bar.name, bar.from_remnant, bar.price], ends, keep_mm)
        for bar in plan.bars
    ]
    return SpoolPlan(tuple(cuts), plan.proven, plan.cost, plan.gap)


def _usable(spool: Bar, ends: Ends) -> Bar | None:
    """What can be drawn off a spool; None where that is nothing."""
    length = spool.length_mm - (0.0 if spool.remnant else ends.start_mm) - ends.last_mm
    if length <= 0:
        return None
    return Bar(round(length, 6), spool.price, spool.have, spool.name, spool.remnant)


def _cut(bar: BarCut, spool: Bar, ends: Ends, keep_mm: float) -> SpoolCut:
    counts = Counter(bar.pieces)
    left = round(bar.remnant_mm + ends.last_mm, 6)
    begun = 0.0 if spool.remnant else ends.start_mm
    keeps = left >= max(keep_mm, ends.last_mm + 1e-6)
    return SpoolCut(spool, tuple(counts.items()), left if keeps else 0.0, begun + (0.0 if keeps else left))
