"""Which piece from which bar: the fewest metres bought, with kerf, trimmed ends and remnants.

First a quick rule; where it meets the lower bound nothing better exists and the plan is done. Else an
integer programme over cutting patterns decides (`panewright.cutting.programme`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from panewright.cutting.fit import fewest_bars, first_fit
from panewright.cutting.patterns import Pattern
from panewright.cutting.piece import Piece, Saw, refuse_too_long, room_mm, taken_mm
from panewright.cutting.programme import Answer, Column, Wanted, solve


@dataclass(frozen=True, slots=True)
class BarCut:
    """One bar: what is cut from it, in this order, and what is left."""

    bar_mm: float
    pieces: tuple[Piece, ...]  #: each with quantity 1, longest first
    remnant_mm: float  #: usable length left at the end, trim taken off

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
    proven: bool  #: whether this plan meets the bound

    @property
    def bought_mm(self) -> float:
        """Length of all bars. [mm]"""
        return sum(bar.bar_mm for bar in self.bars)

    @property
    def waste(self) -> float:
        """Share of the bought length that is in no piece: kerf, trim and remnants. [1]"""
        return 1 - sum(bar.cut_mm for bar in self.bars) / self.bought_mm if self.bars else 0.0

    @property
    def counts(self) -> tuple[tuple[float, int], ...]:
        """How many bars of each length to buy, the longest first."""
        return tuple(sorted(Counter(bar.bar_mm for bar in self.bars).items(), reverse=True))

    @property
    def grouped(self) -> tuple[tuple[BarCut, int], ...]:
        """Bars cut alike, with their number."""
        return tuple(Counter(self.bars).items())


def cut_bars(
    pieces: Iterable[Piece],
    bar_mm: float | Sequence[float],
    kerf_mm: float = 3.0,
    trim_mm: float = 5.0,
    mitre_mm: float = 0.0,
) -> CutPlan:
    """The plan that buys least length of bar; deterministic.

    Parameters
    ----------
    pieces : what is needed; lengths of mitred pieces on their longer side
    bar_mm : the bars' length, or several lengths to choose from
    kerf_mm : width of the saw cut
    trim_mm : cut off each end of a bar as delivered
    mitre_mm : further loss for each mitred end where rails cannot be nested

    Raises `PieceTooLong` where a piece is longer than any bar.
    """
    saw = Saw(kerf_mm, trim_mm, mitre_mm)
    stocks = tuple(sorted({float(bar_mm)} if isinstance(bar_mm, int | float) else set(map(float, bar_mm))))
    listed = [piece for piece in pieces if piece.quantity]
    refuse_too_long(listed, stocks, saw)
    if not listed:
        return CutPlan((), saw, 0.0, proven=True)
    listed.sort(key=lambda piece: (-taken_mm(piece, saw), piece.name))
    wanted = _wanted(listed, stocks, saw)
    return _plan(_answer(wanted), listed, wanted, saw)


def _wanted(pieces: Sequence[Piece], stocks: Sequence[float], saw: Saw) -> Wanted:
    """Sizes without names: pieces that take the same length are one size."""
    totals: Counter[float] = Counter()
    for piece in pieces:
        totals[_size(piece, saw)] += piece.quantity
    sizes = tuple(sorted(totals, reverse=True))
    return Wanted(
        sizes, tuple(totals[size] for size in sizes), tuple((bar, room_mm(bar, saw)) for bar in stocks)
    )


def _size(piece: Piece, saw: Saw) -> float:
    return round(taken_mm(piece, saw), 6)


def _answer(wanted: Wanted) -> Answer:
    """By the rule where that is provably best, else by the programme; never worse than the rule."""
    quick = _by_rule(wanted)
    if quick.proven:
        return quick
    start = [column for column, _ in quick.bars]
    solved = solve(wanted, start)
    if not solved.bars or _bought(quick) < _bought(solved) * (1 - 1e-9):
        bound = max(quick.bound_mm, min(solved.bound_mm, _bought(quick)))
        return Answer(quick.bars, bound, proven=_bought(quick) <= bound * (1 + 1e-9))
    bound = max(quick.bound_mm, solved.bound_mm)
    return Answer(solved.bars, bound, proven=_bought(solved) <= bound * (1 + 1e-9))


def _bought(answer: Answer) -> float:
    return sum(bar * count for (bar, _), count in answer.bars)


def _by_rule(wanted: Wanted) -> Answer:
    """First fit into bars of each single length that takes every piece; the shortest total wins."""
    answers = []
    for bar, room in wanted.stocks:
        if wanted.sizes[0] > room + 1e-6:
            continue
        patterns = Counter(first_fit(wanted.sizes, wanted.counts, room))
        bars = tuple(((bar, pattern), count) for pattern, count in patterns.items())
        answers.append(Answer(bars, fewest_bars(wanted.sizes, wanted.counts, room) * bar, proven=False))
    best = min(answers, key=_bought)
    if len(wanted.stocks) > 1:
        return Answer(best.bars, 0.0, proven=False)
    return Answer(best.bars, best.bound_mm, proven=_bought(best) <= best.bound_mm)


def _plan(answer: Answer, pieces: Sequence[Piece], wanted: Wanted, saw: Saw) -> CutPlan:
    """Names given back to sizes; a pattern may offer more than is wanted, the surplus stays remnant."""
    waiting = {size: _single(pieces, size, saw) for size in wanted.sizes}
    rooms = dict(wanted.stocks)
    bars = []
    for (bar, pattern), times in sorted(answer.bars, key=lambda entry: _fullest_first(entry[0], wanted)):
        for _ in range(times):
            taken = [
                waiting[size].pop(0)
                for size, count in zip(wanted.sizes, pattern, strict=True)
                for _ in range(count)
                if waiting[size]
            ]
            if taken:
                bars.append(_bar(bar, rooms[bar], taken, saw))
    bars.sort(key=lambda cut: (-cut.bar_mm, cut.remnant_mm, [(-p.length_mm, p.name) for p in cut.pieces]))
    return CutPlan(tuple(bars), saw, answer.bound_mm, answer.proven)


def _single(pieces: Sequence[Piece], size: float, saw: Saw) -> list[Piece]:
    return [
        Piece(piece.name, piece.length_mm, 1, piece.mitred_ends)
        for piece in pieces
        if _size(piece, saw) == size
        for _ in range(piece.quantity)
    ]


def _fullest_first(column: Column, wanted: Wanted) -> tuple[float, float, Pattern]:
    """Long bars first, then those with least left, so that a surplus is taken out of the emptiest."""
    bar, pattern = column
    used = sum(size * count for size, count in zip(wanted.sizes, pattern, strict=True))
    return -bar, dict(wanted.stocks)[bar] - used, pattern


def _bar(bar_mm: float, room: float, pieces: list[Piece], saw: Saw) -> BarCut:
    """What is left after the last cut; no less than nothing."""
    left = room - saw.kerf_mm - sum(taken_mm(piece, saw) for piece in pieces)
    return BarCut(bar_mm, tuple(pieces), max(0.0, round(left, 6)))
