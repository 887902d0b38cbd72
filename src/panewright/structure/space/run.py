"""A run of rail that starts in a corner: whole to the next corner, or half to the rail's middle.

Its nodes lie where something happens to it (the load bends or starts, a bracket, a point force), and evenly
between; the solver's members are exact at their nodes, so a few are enough.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, pairwise

import numpy as np

_SAME_MM = 1e-6  # two places nearer than this are one


@dataclass(frozen=True, slots=True)
class Run:
    """Rail between the shear centres of corners, with what acts on it; places from its first corner."""

    length_mm: float
    load: tuple[tuple[float, float], ...]  #: (place, N/mm that press), straight between, nothing outside
    held_mm: tuple[float, ...] = ()  #: places of brackets
    points: tuple[tuple[float, float], ...] = ()  #: (place, N that press), on the line of the load

    def __post_init__(self) -> None:
        first, last = self._ends() if len(self.load) > 1 else (-math.inf, math.inf)
        if first < 0 or last > self.length_mm + _SAME_MM:
            raise ValueError(f"a run has a load of two places or more, and all within its length, got {self}")

    def __hash__(self) -> int:
        """Of its length, its brackets and one place of its load."""
        return hash((self.length_mm, self.held_mm, self.load[len(self.load) // 2], self.points))

    def _ends(self) -> tuple[float, float]:
        """The first and the last place at which anything is."""
        acts = self.load + self.points  # a place is the first of each, so pairs need no unpacking
        return min((min(acts)[0], *self.held_mm)), max((max(acts)[0], *self.held_mm))

    def half(self) -> Run:
        """From its first corner to its middle; for a run alike from both ends."""
        middle = self.length_mm / 2
        points = tuple(one for one in self.points if one[0] < middle - _SAME_MM)
        return Run(middle, _half_load(self.load, middle), (), points).held(self.held_mm)

    def held(self, places_mm: Iterable[float]) -> Run:
        """This half of a rail on those of the whole rail's brackets that it has."""
        end = self.length_mm
        held = tuple(min(place, end) for place in places_mm if place < end + _SAME_MM)
        return Run(end, self.load, held, self.points)

    def push_n(self) -> float:
        """All that presses on it. [N]"""
        place, line = np.transpose(self.load)
        return float(np.trapezoid(line, place)) + sum(force for _, force in self.points)


@lru_cache(maxsize=256)
def _half_load(load: tuple[tuple[float, float], ...], middle: float) -> tuple[tuple[float, float], ...]:
    """A load up to the middle; runs with brackets in other places have it in common."""
    table = [one for one in load if one[0] < middle - _SAME_MM]
    return (*table, (middle, float(np.interp(middle, *np.transpose(load)))))


def line_n_mm(run: Run, place: Sequence[float]) -> tuple[list[float], list[float]]:
    """Load at both ends of each member. [N/mm]"""
    at = _line_at(run.load, place)
    start, end = run.load[0][0], run.load[-1][0]
    under = [start < (here + there) / 2 < end for here, there in pairwise(place)]
    first = [line if within else 0.0 for line, within in zip(at, under, strict=False)]
    last = [line if within else 0.0 for line, within in zip(at[1:], under, strict=True)]
    return first, last


def _line_at(table: tuple[tuple[float, float], ...], place: Sequence[float]) -> list[float]:
    """Load at places in order, straight between those told."""
    found, after, last = [], 0, len(table)
    for each in place:
        while after < last and table[after][0] <= each:
            after += 1
        if after in (0, last):
            found.append(table[min(after, last - 1)][1])
            continue
        (start, low), (end, high) = table[after - 1], table[after]
        found.append((high - low) / (end - start) * (each - start) + low)
    return found


def kinks(run: Run, more: tuple[float, ...] = ()) -> list[float]:
    """Places where something happens, in order, none twice; `more` are further places that must be nodes."""
    told = {place for place, _ in run.load + run.points} | set(run.held_mm) | set(more)
    found: list[float] = []
    before = -math.inf
    for place in sorted(told | {0.0, run.length_mm}):
        if 0 <= place <= run.length_mm + _SAME_MM:
            if place - before > _SAME_MM:
                found.append(place)
            before = place
    return found


def nodes(places: Sequence[float], members: int) -> list[float]:
    """Places of the nodes of a run: the longest stretches cut up until there are so many members."""
    stretches = [after - before for before, after in pairwise(places)]
    parts, each = [1] * len(stretches), list(stretches)
    for _ in range(members - len(stretches)):
        longest = each.index(max(each))
        parts[longest] += 1
        each[longest] = stretches[longest] / parts[longest]
    steps = (step for step, count in zip(each, parts, strict=True) for _ in range(count))
    return list(accumulate(steps, initial=0.0))
