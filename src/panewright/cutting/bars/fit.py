"""Pieces into bars by rule of thumb, and how few bars could do: fast, and often provably best.

Two rules: first fit, the longest pieces first; and bar by bar, each as full as it will go. Three bounds from
below: all the length there is; the large pieces of which no two share a bar [MT]; and for two sizes, as a
frame's rails are, what the linear programme over all ways to cut a bar says, found with whole numbers alone.

[MT] S. Martello, P. Toth, Lower bounds and reduction procedures for the bin packing problem,
Discrete Applied Mathematics 28 (1990) 59.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from panewright.cutting.bars.column import Pattern
from panewright.cutting.bars.patterns import fullest

#: a kind of bar: its room, and how many there are
Rack = Sequence[tuple[int, int | None]]


def first_fit(
    sizes: Sequence[int], counts: Sequence[int], racks: Rack
) -> tuple[tuple[int, Pattern], ...] | None:
    """Bars filled by the rule: (kind of bar, pieces of each size); None where the racks run out.

    `sizes` fall. A piece that fits in no bar begun takes a new one, of the first kind that has room.
    """
    left: list[int] = []
    bars: list[tuple[int, list[int]]] = []
    have = [math.inf if number is None else number for _, number in racks]
    for index, (size, count) in enumerate(zip(sizes, counts, strict=True)):
        begin = 0  # bars before this one have no room for pieces of this size
        for _ in range(count):
            place = next((i for i in range(begin, len(left)) if size <= left[i]), None)
            if place is None:
                kind = next((k for k, (room, _) in enumerate(racks) if size <= room and have[k] > 0), None)
                if kind is None:
                    return None
                have[kind] -= 1
                place = len(left)
                left.append(racks[kind][0])
                bars.append((kind, [0] * len(sizes)))
            begin = place
            left[place] -= size
            bars[place][1][index] += 1
    return tuple((kind, tuple(bar)) for kind, bar in bars)


def fullest_first(sizes: Sequence[int], counts: Sequence[int], room: int) -> tuple[tuple[int, Pattern], ...]:
    """Bars of one kind, each as full as it will go with the longest piece that is left."""
    left, bars = list(counts), []
    while any(left):
        longest = next(place for place, count in enumerate(left) if count)
        left[longest] -= 1
        bar = list(fullest(sizes, left, room - sizes[longest], [float(size) for size in sizes]))
        left = [have - taken for have, taken in zip(left, bar, strict=True)]
        bar[longest] += 1
        bars.append((0, tuple(bar)))
    return tuple(bars)


def fewest_bars(sizes: Sequence[int], counts: Sequence[int], room: int) -> int:
    """No cutting plan does with fewer bars of one length: [MT] bound L2, for two sizes the programme's."""
    pairs = [(size, count) for size, count in zip(sizes, counts, strict=True) if count]
    if not pairs:
        return 0
    thresholds = sorted({0, *(size for size, _ in pairs if size <= room / 2)})
    by_length = max(_bound(pairs, room, threshold) for threshold in thresholds)
    return max(by_length, by_prices(pairs, room)) if len(pairs) == 2 else by_length


def _bound(pairs: Sequence[tuple[int, int]], room: int, threshold: int) -> int:
    """[MT]: pieces that exclude the threshold, pieces over half, and what the rest needs beyond them."""
    alone = sum(count for size, count in pairs if size > room - threshold)
    halves = [(size, count) for size, count in pairs if room / 2 < size <= room - threshold]
    rest = sum(size * count for size, count in pairs if threshold <= size <= room / 2)
    over_half = sum(count for _, count in halves)
    spare = over_half * room - sum(size * count for size, count in halves)
    beyond = math.ceil((rest - spare) / room - 1e-9)
    return alone + over_half + max(0, beyond)


def by_prices(pairs: Sequence[tuple[int, int]], room: int) -> int:
    """What two sizes cost at least where no bar may hold pieces worth more than one bar.

    Each pair of prices at which some ways to cut are worth a whole bar, and none is worth more, is an edge
    round all ways; by the duality of linear programmes the best pair gives the programme's own bound.

    >>> by_prices([(1686, 50), (882, 50)], 5993), round(50 * (1686 + 882) / 5993, 1)
    (23, 21.4)
    """
    (long, longs), (short, shorts) = pairs
    edges = pairwise(
        _round_ways([(n, int((room - n * long) // short)) for n in range(int(room // long) + 1)])
    )
    worths = ((longs * (b - d) + shorts * (c - a), c * b - a * d) for (a, b), (c, d) in edges)
    return max((-(-worth // whole) for worth, whole in worths), default=0)


def _round_ways(ways: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The corners of the line round all ways to cut a bar, from the fewest long pieces to the most."""
    corners: list[tuple[int, int]] = []
    for n, m in ways:
        while len(corners) > 1 and _dented(corners[-2], corners[-1], (n, m)):
            corners.pop()
        corners.append((n, m))
    return corners


def _dented(one: tuple[int, int], middle: tuple[int, int], last: tuple[int, int]) -> bool:
    """Whether the middle corner lies within the straight line from one to the last."""
    (a, b), (c, d), (e, f) = one, middle, last
    return (c - a) * (f - b) >= (d - b) * (e - a)
