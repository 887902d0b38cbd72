"""Pieces into bars by rule of thumb, and how few bars could do: fast, and often provably best.

The rule is first fit, the longest pieces first. Two bounds from below: all the length there is, and the
large pieces of which no two share a bar [MT].

[MT] S. Martello, P. Toth, Lower bounds and reduction procedures for the bin packing problem,
Discrete Applied Mathematics 28 (1990) 59.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from panewright.cutting.patterns import Pattern

_TINY = 1e-6


def first_fit(sizes: Sequence[float], counts: Sequence[int], room: float) -> tuple[Pattern, ...]:
    """Bars filled by the rule, each as a number of pieces of each size; `sizes` fall. [mm]"""
    left: list[float] = []
    bars: list[list[int]] = []
    for index, (size, count) in enumerate(zip(sizes, counts, strict=True)):
        for _ in range(count):
            place = next((i for i, free in enumerate(left) if size <= free + _TINY), None)
            if place is None:
                place = len(left)
                left.append(room)
                bars.append([0] * len(sizes))
            left[place] -= size
            bars[place][index] += 1
    return tuple(tuple(bar) for bar in bars)


def fewest_bars(sizes: Sequence[float], counts: Sequence[int], room: float) -> int:
    """No cutting plan does with fewer bars of one length, [MT] bound L2."""
    pairs = [(size, count) for size, count in zip(sizes, counts, strict=True) if count]
    if not pairs:
        return 0
    thresholds = sorted({0.0, *(size for size, _ in pairs if size <= room / 2)})
    return max(_bound(pairs, room, threshold) for threshold in thresholds)


def _bound(pairs: Sequence[tuple[float, int]], room: float, threshold: float) -> int:
    """[MT]: pieces that exclude the threshold, pieces over half, and what the rest needs beyond them."""
    alone = sum(count for size, count in pairs if size > room - threshold + _TINY)
    halves = [(size, count) for size, count in pairs if room / 2 + _TINY < size <= room - threshold + _TINY]
    rest = sum(size * count for size, count in pairs if threshold <= size <= room / 2 + _TINY)
    over_half = sum(count for _, count in halves)
    spare = over_half * room - sum(size * count for size, count in halves)
    beyond = math.ceil((rest - spare) / room - 1e-9)
    return alone + over_half + max(0, beyond)
