"""Ways to cut one bar: how many of each piece it gives.

A linear programme asks for the way whose pieces are worth most to it, one at a time (column generation,
[GG]). All lengths here are whole numbers of a small unit, so that a sum fits or does not fit, without doubt.

[GG] P. C. Gilmore, R. E. Gomory, A linear programming approach to the cutting-stock problem,
Operations Research 9 (1961) 849, and part II, 11 (1963) 863.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Pattern = tuple[int, ...]
_SAME = 1e-12
_NODES = 1000  # of the quick search, before the table is filled
_EXACT, _COARSE = 20_000, 8_000  # cells of the table: exact up to the first, else as many as the second


@dataclass(slots=True)
class _Search:
    """Depth first over pieces by their worth for a length; `best` so far, and how many steps were taken."""

    sizes: list[int]
    most: list[int]
    worth: list[float]
    limit: int
    best: float = 0.0
    found: list[int] = field(default_factory=list)
    steps: int = 0

    def extend(self, place: int, left: int, value: float, counts: list[int]) -> None:
        """Everything that the rest of the bar could give."""
        self.steps += 1
        if value > self.best + _SAME:
            self.best, self.found = value, counts.copy()
        while place < len(self.sizes) and self.sizes[place] > left:
            place += 1
        if place == len(self.sizes) or self.steps > self.limit:
            return
        if value + left * self.worth[place] / self.sizes[place] <= self.best + _SAME:
            return
        size, worth = self.sizes[place], self.worth[place]
        for count in range(min(self.most[place], left // size), -1, -1):
            counts[place] = count
            self.extend(place + 1, left - count * size, value + count * worth, counts)
        counts[place] = 0


@dataclass(frozen=True, slots=True)
class Dearest:
    """The dearest way found, and a worth that none exceeds; they are equal where it is surely the dearest."""

    worth: float
    pattern: Pattern
    bound: float


def dearest_pattern(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float], thorough: bool = True
) -> Dearest:
    """The way to cut a bar whose pieces are worth most, [GG]: a bounded knapsack.

    A quick search first. Where it takes too long, and `thorough` is asked, a table over all lengths: of
    very fine lengths it is rounded to a grid, upwards for a way that surely fits, downwards for the bound.
    """
    order = sorted(
        (i for i in range(len(sizes)) if worth[i] > _SAME and sizes[i] <= room),
        key=lambda i: (-worth[i] / sizes[i], i),
    )
    if not order:
        return Dearest(0.0, (0,) * len(sizes), 0.0)
    search = _Search([sizes[i] for i in order], [most[i] for i in order], [worth[i] for i in order], _NODES)
    search.extend(0, room, 0.0, [0] * len(order))
    quick = _spread(search.found, order, len(sizes))
    if search.steps <= _NODES:
        return Dearest(search.best, quick, search.best)
    if not thorough:
        return Dearest(search.best, quick, math.inf)
    return _tabled(sizes, most, room, worth, Dearest(search.best, quick, math.inf))


def _spread(counts: Sequence[int], order: Sequence[int], length: int) -> Pattern:
    pattern = [0] * length
    for place, count in zip(order, counts, strict=False):
        pattern[place] = count
    return tuple(pattern)


def _tabled(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float], quick: Dearest
) -> Dearest:
    step = math.gcd(*sizes)
    if room // step <= _EXACT:
        value, pattern = _table([size // step for size in sizes], most, room // step, worth)
        return Dearest(value, pattern, value)
    up = [-(-size * _COARSE // room) for size in sizes]
    down = [size * _COARSE // room for size in sizes]
    value, pattern = _table(up, most, _COARSE, worth)
    bound, _ = _table(down, most, _COARSE, worth)
    best = (value, pattern) if value > quick.worth + _SAME else (quick.worth, quick.pattern)
    return Dearest(*best, max(bound, best[0]))


def _table(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float]
) -> tuple[float, Pattern]:
    """Most worth in every length up to `room`, a bundle of pieces at a time; then read back."""
    bundles = list(_bundles(sizes, most, room, worth))
    values, taken = np.zeros(room + 1), []
    for _, count, length, each in bundles:
        with_it: NDArray[np.float64] = values[: room + 1 - length] + count * each
        better = with_it > values[length:] + _SAME
        np.copyto(values[length:], with_it, where=better)
        taken.append(better)
    pattern, left = [0] * len(sizes), room
    for (index, count, length, _), better in zip(reversed(bundles), reversed(taken), strict=True):
        if left >= length and better[left - length]:
            pattern[index] += count
            left -= length
    return float(values[room]), tuple(pattern)


def _bundles(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float]
) -> Iterator[tuple[int, int, int, float]]:
    """Pieces by ones, twos, fours and a rest, so that every number of them can be made up."""
    for index, size in enumerate(sizes):
        if worth[index] <= _SAME or size > room:
            continue
        left, bundle = min(most[index], room // max(1, size)), 1
        while left > 0:
            count = min(bundle, left)
            if count * size <= room:
                yield index, count, count * size, worth[index]
            left, bundle = left - count, 2 * bundle


def worthy_patterns(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float], least: float, limit: int
) -> list[Pattern] | None:
    """All full ways whose pieces are worth at least `least`; None if there are more than `limit`.

    A way is full where no further piece could be added.
    """
    order = sorted(range(len(sizes)), key=lambda i: (-sizes[i], i))
    within = _most_within(sizes, most, room, worth)
    found: list[Pattern] = []
    counts = [0] * len(sizes)
    steps = 0

    def extend(place: int, left: int, value: float) -> bool:
        nonlocal steps
        steps += 1
        if len(found) > limit or steps > 100 * limit:
            return False
        if place == len(order):
            if value >= least - 1e-9 and _full(sizes, most, left, counts):
                found.append(tuple(counts))
            return True
        if value + within(left) < least - 1e-9:
            return True
        index = order[place]
        for count in range(min(most[index], left // sizes[index]), -1, -1):
            counts[index] = count
            if not extend(place + 1, left - count * sizes[index], value + count * worth[index]):
                return False
        counts[index] = 0
        return True

    return found if extend(0, room, 0.0) else None


def _most_within(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float]
) -> Callable[[int], float]:
    """For every length at most `room` a worth that no pieces within it exceed."""
    step = math.gcd(*sizes)
    cells = min(room // step, _COARSE)
    exact = room // step <= _EXACT
    if exact:
        values = _worths([size // step for size in sizes], most, room // step, worth)
        return lambda left: float(values[left // step])
    values = _worths([size * cells // room for size in sizes], most, cells, worth)
    return lambda left: float(values[left * cells // room])


def _worths(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float]
) -> NDArray[np.float64]:
    values = np.zeros(room + 1)
    for _, count, length, each in _bundles(sizes, most, room, worth):
        np.maximum(values[length:], values[: room + 1 - length] + count * each, out=values[length:])
    return np.maximum.accumulate(values)


def _full(sizes: Sequence[int], most: Sequence[int], left: int, counts: Sequence[int]) -> bool:
    return all(count >= cap or size > left for size, cap, count in zip(sizes, most, counts, strict=True))
