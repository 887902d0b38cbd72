"""A finished plan: bars with their pieces, what is left, what it costs, and how sure it is the best."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal

from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw


@dataclass(frozen=True, slots=True)
class BarCut:
    """One bar: what is cut from it, in this order, and what is left."""

    bar_mm: float
    pieces: tuple[Piece, ...]  #: each with quantity 1, longest first
    remnant_mm: float  #: usable length left at the end, trim and clamp taken off
    name: str = ""
    price: Decimal | None = None
    from_remnant: bool = False  #: a bar that was cut from before
    kept: Bar | None = None  #: what goes back into the rack, as long as it lies there

    @property
    def cut_mm(self) -> float:
        """Length of all pieces. [mm]"""
        return sum(piece.length_mm for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class CutPlan:
    """All bars, the longest remnant last."""

    bars: tuple[BarCut, ...]
    saw: Saw
    bound_mm: float  #: no plan does with less length of bar than this
    proven: bool  #: whether no plan costs less; without prices, whether none takes less length
    cost: Decimal | None = None  #: of all bars; None where they have no prices
    bound_cost: Decimal | None = None  #: no plan costs less, the worth of kept rests taken off

    @property
    def bought_mm(self) -> float:
        """Length of all bars. [mm]"""
        return sum(bar.bar_mm for bar in self.bars)

    @property
    def gap(self) -> float:
        """By what share of it the cost may lie above the least; 0 where it is proven. [1]"""
        if self.proven or not self.bars:
            return 0.0
        cost, least = (
            (self.bought_mm, self.bound_mm)
            if self.cost is None or self.bound_cost is None
            else (float(self.cost), float(self.bound_cost))
        )
        return min(1.0, max(0.0, 1 - least / cost)) if cost else 0.0

    @property
    def kept(self) -> tuple[Bar, ...]:
        """Remnants that go back into the rack, the longest first."""
        found = [bar.kept for bar in self.bars if bar.kept]
        return tuple(sorted(found, key=lambda bar: (-bar.length_mm, bar.name)))

    @property
    def used_up_mm(self) -> float:
        """Length of all bars less what is kept. [mm]"""
        return self.bought_mm - sum(bar.length_mm for bar in self.kept)

    @property
    def waste(self) -> float:
        """Share of the bought length that is in no piece: kerf, trim and remnants. [1]"""
        return 1 - sum(bar.cut_mm for bar in self.bars) / self.bought_mm if self.bars else 0.0

    @property
    def counts(self) -> tuple[tuple[float, int], ...]:
        """How many bars of each length to take, the longest first."""
        return tuple(sorted(Counter(bar.bar_mm for bar in self.bars).items(), reverse=True))

    @property
    def grouped(self) -> tuple[tuple[BarCut, int], ...]:
        """Bars cut alike, with their number."""
        return tuple(Counter(self.bars).items())
