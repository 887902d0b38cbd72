"""The nodes of all runs of a solve, as many in each, and what lies at them or between them."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.member import Array
from panewright.structure.space.run import Run, kinks, line_n_mm, nodes

Flags = np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
LEAST = {False: 8, True: 16}  #: members in a run: half a rail, a whole one
_STIFF = 1e4  # a length whose seat is part of a plate, against the rail's own


@dataclass(frozen=True, slots=True)
class Mesh:
    """A row for each run."""

    place_mm: Array  #: of nodes
    line_n_mm: tuple[Array, Array]  #: load at both ends of each member
    points_n: Array  #: force at each node that presses on the load's line
    held: Flags  #: whether a node is a bracket's
    alone: Flags  #: and has room about it for the legs to bend as about a single bolt
    seat: Array  #: how much stiffer a member is against twist and sideways than the rail alone
    whole: bool  #: from corner to corner, not to the middle

    def of(self, runs: NDArray[np.intp]) -> Mesh:
        """Some of its runs, as often as they are named."""
        first, last = self.line_n_mm
        return Mesh(
            self.place_mm[runs],
            (first[runs], last[runs]),
            self.points_n[runs],
            self.held[runs],
            self.alone[runs],
            self.seat[runs],
            self.whole,
        )


@dataclass(frozen=True, slots=True)
class Rail:
    """What of a rail tells where nodes lie and what brackets find there."""

    stiff_mm: float  #: from a corner the seat is stiff
    room_mm: float  #: about a bracket that no other comes into
    whole: bool  #: runs from corner to corner, not to the middle


def mesh(runs: Sequence[Run], rail: Rail) -> Mesh:
    """Nodes where something happens, and evenly between; as many in every run."""
    cuts = [_cut(run, rail, LEAST[rail.whole]) for run in runs]
    most = max(len(cut[0]) for cut in cuts) - 1
    if most > LEAST[rail.whole]:
        cuts = [_cut(run, rail, most) for run in runs]
    place, first, last, points, held, alone, seat = (np.array(each) for each in zip(*cuts, strict=True))
    return Mesh(place, (first, last), points, held, alone, seat, rail.whole)


_Cut = tuple[list[float], list[float], list[float], list[float], list[bool], list[bool], list[float]]


@lru_cache(maxsize=2048)
def _cut(run: Run, rail: Rail, least: int) -> _Cut:
    """One run's row of a mesh, column by column: cut into so many members, or as many as it needs.

    Kept, as frames share runs.
    """
    places = kinks(run, _more(run, rail))
    place = nodes(places, max(least, len(places) - 1))
    held = _held(run, place)
    alone = _alone(place, held, rail)
    return place, *line_n_mm(run, place), _points(run, place), held, alone, _seat(place, rail)


def _more(run: Run, rail: Rail) -> tuple[float, ...]:
    """Further nodes: where a stiff seat ends."""
    if not rail.stiff_mm:
        return ()
    return (rail.stiff_mm, run.length_mm - rail.stiff_mm) if rail.whole else (rail.stiff_mm,)


def _seat(place: list[float], rail: Rail) -> list[float]:
    if not rail.stiff_mm:
        return [1.0] * (len(place) - 1)
    beyond = place[-1] - rail.stiff_mm if rail.whole else math.inf
    middles = ((before + after) / 2 for before, after in pairwise(place))
    return [_STIFF if middle < rail.stiff_mm or middle > beyond else 1.0 for middle in middles]


def _nearest(place: list[float], at: float) -> int:
    """The node nearest to a place, of two as near the first; nodes are in order."""
    after = bisect_left(place, at)
    if after in (0, len(place)):
        return min(after, len(place) - 1)
    return after - 1 if abs(place[after - 1] - at) <= abs(place[after] - at) else after


def _held(run: Run, place: list[float]) -> list[bool]:
    held = [False] * len(place)
    for bracket in run.held_mm:
        held[_nearest(place, bracket)] = True
    return held


def _points(run: Run, place: list[float]) -> list[float]:
    force = [0.0] * len(place)
    for at, push in run.points:
        force[_nearest(place, at)] += push
    return force


def _alone(place: list[float], held: list[bool], rail: Rail) -> list[bool]:
    """Brackets that neither another nor a corner comes near to."""
    end, others = place[-1], [at for at, bracket in zip(place, held, strict=True) if bracket]
    beyond = [0.0, end] if rail.whole else [0.0, *(2 * end - at for at in others if at < end)]
    near = [*others, *beyond]
    alone = [False] * len(place)
    for node, bracket in enumerate(held):
        alone[node] = bracket and sum(abs(other - place[node]) < rail.room_mm for other in near) == 1
    return alone
