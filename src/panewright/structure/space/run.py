"""A run of rail that starts in a corner: whole to the next corner, or half to the rail's middle.

Its nodes lie where something happens to it (the load bends or starts, a bracket, a point force), and evenly
between; the solver's members are exact at their nodes, so a few are enough.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.structure.space.member import Array

_SAME_MM = 1e-6  # two places nearer than this are one


@dataclass(frozen=True, slots=True)
class Run:
    """Rail between the shear centres of corners, with what acts on it; places from its first corner."""

    length_mm: float
    load: tuple[tuple[float, float], ...]  #: (place, N/mm that press), straight between, nothing outside
    held_mm: tuple[float, ...] = ()  #: places of brackets
    points: tuple[tuple[float, float], ...] = ()  #: (place, N that press), on the line of the load

    def __post_init__(self) -> None:
        places = [place for place, _ in self.load + self.points] + list(self.held_mm)
        if len(self.load) < 2 or min(places) < 0 or max(places) > self.length_mm + _SAME_MM:
            raise ValueError(f"a run has a load of two places or more, and all within its length, got {self}")

    def __hash__(self) -> int:
        """Of its length, its brackets and one place of its load."""
        return hash((self.length_mm, self.held_mm, self.load[len(self.load) // 2], self.points))

    def half(self) -> Run:
        """From its first corner to its middle; for a run alike from both ends."""
        return _half(self)

    def push_n(self) -> float:
        """All that presses on it. [N]"""
        place, line = np.transpose(self.load)
        return float(np.trapezoid(line, place)) + sum(force for _, force in self.points)


@lru_cache(maxsize=2048)
def _half(run: Run) -> Run:
    middle = run.length_mm / 2
    table = [one for one in run.load if one[0] < middle - _SAME_MM]
    line = (*table, (middle, float(np.interp(middle, *np.transpose(run.load)))))
    held = tuple(place for place in run.held_mm if place < middle + _SAME_MM)
    points = tuple(one for one in run.points if one[0] < middle - _SAME_MM)
    return Run(middle, line, tuple(min(place, middle) for place in held), points)


def line_n_mm(run: Run, place: Array) -> tuple[Array, Array]:
    """Load at both ends of each member. [N/mm]"""
    table, line = np.transpose(run.load)
    middle = (place[:-1] + place[1:]) / 2
    under = (middle > table[0]) & (middle < table[-1])
    found = np.interp(place, table, line)
    return np.where(under, found[:-1], 0.0), np.where(under, found[1:], 0.0)


def kinks(run: Run, more: tuple[float, ...] = ()) -> Array:
    """Places where something happens, in order, none twice; `more` are further places that must be nodes."""
    table = {place for place, _ in run.load + run.points} | set(run.held_mm) | set(more)
    places = np.array(sorted(table | {0.0, run.length_mm}))
    places = places[(places >= 0) & (places <= run.length_mm + _SAME_MM)]
    return np.asarray(places[np.append(True, np.diff(places) > _SAME_MM)])


def nodes(places: Array, members: int) -> Array:
    """Places of the nodes of a run: the longest stretches cut up until there are so many members."""
    stretches = np.diff(places)
    parts = np.ones(len(stretches), dtype=int)
    for _ in range(members - len(stretches)):
        parts[int(np.argmax(stretches / parts))] += 1
    steps = np.repeat(stretches / parts, parts)
    return np.concatenate([[0.0], np.cumsum(steps)])
