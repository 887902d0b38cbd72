"""Which piece from which bar: least money, then least length, with kerf, trimmed ends and remnants.

First quick rules; where one meets the lower bound nothing better exists and the plan is done. Else an
integer programme over cutting patterns decides (`programme`). Among plans of equal money
a second programme takes the one that uses up least length: what is left counts by so much as it is longer
than the shortest rest worth keeping, so that one long rest is better than two short ones.
"""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterable, Sequence
from decimal import Decimal

from panewright.cutting.bars.choice import Task, by_rule, least_cost, least_length, task
from panewright.cutting.bars.column import Column
from panewright.cutting.bars.stock import Bar, StockShort, checked_stock, refuse_too_long
from panewright.cutting.bars.wanted import Answer
from panewright.cutting.piece import Piece, Saw, size, taken_mm
from panewright.cutting.plan import BarCut, CutPlan


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
    lengths = (bar_mm,) if isinstance(bar_mm, int | float) else tuple(bar_mm)
    if not lengths or min(lengths) <= 0:
        raise ValueError(f"bars have a length, got {lengths}")
    bars = [Bar(length) for length in sorted(set(map(float, lengths)))]
    return cut_from(pieces, bars, Saw(kerf_mm, trim_mm, mitre_mm))


def cut_from(
    pieces: Iterable[Piece],
    bars: Sequence[Bar],
    saw: Saw,
    keep_mm: float | None = None,
    worth: float = 0.0,
) -> CutPlan:
    """The plan that costs least money, and of those that which uses up least length; deterministic.

    Parameters
    ----------
    pieces : of one order or of many; lengths of mitred pieces on their longer side
    bars : what there is to cut from, new bars and remnants; with prices for all or for none
    saw : what cuts and ends lose
    keep_mm : a rest of this length or more goes back into the rack; None: none does
    worth : what a rest is worth for its length beyond `keep_mm`, as a share of its bar's price for so much;
        0 counts the money paid alone

    Without prices money is length. Raises `PieceTooLong` where a piece is longer than any bar, `StockShort`
    where the bars do not give all pieces.
    """
    if not 0 <= worth <= 1 or (keep_mm is not None and keep_mm < 0):
        raise ValueError(f"a rest is worth 0 to 1 of its bar, and has a length, got {worth} and {keep_mm}")
    listed = [piece for piece in pieces if piece.quantity]
    stock = checked_stock(bars)
    refuse_too_long(listed, stock, saw)
    if not listed:
        return CutPlan((), saw, 0.0, proven=True, cost=None if _unpriced(stock) else Decimal(0))
    listed.sort(key=lambda piece: (-taken_mm(piece, saw), piece.name, piece.order))
    asked = task(listed, stock, saw, keep_mm, worth)
    answer = least_cost(asked)
    if answer.uncut:
        raise StockShort(_short(answer, asked, listed))
    return _plan(least_length(asked, answer), answer, asked, listed)


def cut_by_rule(pieces: Iterable[Piece], bars: Sequence[Bar], saw: Saw) -> CutPlan:
    """A good plan at once, for what is cheap: by first fit in some orders, bars without end; deterministic.

    `proven` where it meets the bound. Raises `PieceTooLong` where a piece is longer than any bar.
    """
    listed = [piece for piece in pieces if piece.quantity]
    asked = _at_once(listed, bars, saw)
    listed.sort(key=lambda piece: (-taken_mm(piece, saw), piece.name, piece.order))
    answer = by_rule(asked)
    return _plan(answer, answer, asked, listed)


def count_by_rule(pieces: Iterable[Piece], bars: Sequence[Bar], saw: Saw) -> tuple[tuple[float, int], ...]:
    """How many bars of each length `cut_by_rule` takes, the longest first, without its plan."""
    asked = _at_once([piece for piece in pieces if piece.quantity], bars, saw)
    taken: Counter[float] = Counter()
    for (kind, _), times in by_rule(asked).bars:
        taken[asked.bars[kind].length_mm] += times
    return tuple(sorted(taken.items(), reverse=True))


def _at_once(pieces: Sequence[Piece], bars: Sequence[Bar], saw: Saw) -> Task:
    """What the quick rules are asked; no rest is kept."""
    stock = checked_stock(bars)
    refuse_too_long(pieces, stock, saw)
    return task(pieces, stock, saw, None, 0.0)


def _unpriced(stock: Sequence[Bar]) -> bool:
    return all(bar.price is None for bar in stock)


def _short(answer: Answer, asked: Task, pieces: Sequence[Piece]) -> str:
    wanted, given = sum(piece.quantity for piece in pieces), len(asked.bars)
    return (
        f"what there is, of {given} {'kind' if given == 1 else 'kinds'}, does not give all {wanted} pieces: "
        f"{answer.uncut} left. Buy more."
    )


def _plan(answer: Answer, cheapest: Answer, asked: Task, pieces: Sequence[Piece]) -> CutPlan:
    """Names given back to places; a place longer than its piece leaves so much more of the bar."""
    waiting = sorted(_singles(pieces), key=lambda piece: -size(piece, asked.saw))
    bars = []
    for bar, taken in zip(_opened(answer, asked), _dealt(answer, asked, waiting), strict=True):
        if taken:
            bars.append(_bar(bar, taken, asked))
    bars.sort(key=_order)
    cost = None if _unpriced(asked.bars) else sum((bar.price or Decimal(0) for bar in bars), Decimal(0))
    bound = cheapest.bound * asked.unit
    return CutPlan(
        tuple(bars),
        asked.saw,
        bound if cost is None else sum(p.length_mm * p.quantity for p in pieces),
        cheapest.proven,
        cost=cost,
        bound_cost=None if cost is None else Decimal(str(round(bound, 6))),
    )


def _singles(pieces: Sequence[Piece]) -> list[Piece]:
    return [
        Piece(piece.name, piece.length_mm, 1, piece.mitred_ends, piece.order)
        for piece in pieces
        for _ in range(piece.quantity)
    ]


def _order(cut: BarCut) -> tuple[object, ...]:
    """Long bars first, then those with least left; bars cut alike stand together."""
    pieces = [(-piece.length_mm, piece.name, piece.order) for piece in cut.pieces]
    return (-cut.bar_mm, cut.remnant_mm, pieces, cut.name, cut.from_remnant)


def _columns(answer: Answer, asked: Task) -> list[Column]:
    """Every bar by itself; the fullest first, so that a surplus is taken out of the emptiest."""

    def fullest(column: Column) -> tuple[float, float, tuple[int, ...]]:
        used = sum(size * count for size, count in zip(asked.sizes, column[1], strict=True))
        return -asked.bars[column[0]].length_mm, asked.rooms[column[0]] - used, (column[0], *column[1])

    ordered = sorted(answer.bars, key=lambda pair: fullest(pair[0]))
    return [column for column, times in ordered for _ in range(times)]


def _opened(answer: Answer, asked: Task) -> list[Bar]:
    return [asked.bars[kind] for kind, _ in _columns(answer, asked)]


def _dealt(answer: Answer, asked: Task, waiting: list[Piece]) -> list[list[Piece]]:
    """The longest piece into the longest place: each place takes a piece that is no longer."""
    columns = _columns(answer, asked)
    places = [
        (place, bar)
        for bar, (_, pattern) in enumerate(columns)
        for place, count in enumerate(pattern)
        for _ in range(count)
    ]
    dealt: list[list[Piece]] = [[] for _ in columns]
    left = deque(waiting)
    for place, bar in sorted(places):
        if left and size(left[0], asked.saw) <= asked.sizes[place]:
            dealt[bar].append(left.popleft())
    return dealt


def _bar(bar: Bar, pieces: list[Piece], asked: Task) -> BarCut:
    """What is left after the last cut; no less than nothing."""
    saw = asked.saw
    left = bar.room_mm(saw) - saw.kerf_mm - sum(taken_mm(piece, saw) for piece in pieces)
    rest = max(0.0, round(left, 6))
    whole = round(left + saw.far_mm, 6)
    kept = asked.keep_mm is not None and whole >= max(asked.keep_mm, 1e-6)
    return BarCut(
        bar.length_mm,
        tuple(pieces),
        rest,
        bar.name,
        bar.price,
        from_remnant=bar.remnant,
        kept=Bar(whole, None, 1, bar.name, remnant=True) if kept else None,
    )
