"""Pieces into bars by rule of thumb, and how few bars could do: fast, and often provably best.

Two rules: first fit, the longest pieces first; and bar by bar, each as full as it will go. Two bounds from
below: all the length there is, and the large pieces of which no two share a bar [MT].

[MT] S. Martello, P. Toth, Lower bounds and reduction procedures for the bin packing problem,
Discrete Applied Mathematics 28 (1990) 59.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from panewright.cutting.column import Pattern
from panewright.cutting.patterns import fullest

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
    """No cutting plan does with fewer bars of one length, [MT] bound L2."""
    pairs = [(size, count) for size, count in zip(sizes, counts, strict=True) if count]
    if not pairs:
        return 0
    thresholds = sorted({0, *(size for size, _ in pairs if size <= room / 2)})
    return max(_bound(pairs, room, threshold) for threshold in thresholds)


def _bound(pairs: Sequence[tuple[int, int]], room: int, threshold: int) -> int:
    """[MT]: pieces that exclude the threshold, pieces over half, and what the rest needs beyond them."""
    alone = sum(count for size, count in pairs if size > room - threshold)
    halves = [(size, count) for size, count in pairs if room / 2 < size <= room - threshold]
    rest = sum(size * count for size, count in pairs if threshold <= size <= room / 2)
    over_half = sum(count for _, count in halves)
    spare = over_half * room - sum(size * count for size, count in halves)
    beyond = math.ceil((rest - spare) / room - 1e-9)
    return alone + over_half + max(0, beyond)
