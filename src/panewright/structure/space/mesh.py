"""The nodes of all runs of a solve, as many in each, and what lies at them or between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.member import Array
from panewright.structure.space.run import Run, kinks, line_n_mm, nodes

Flags = np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
_LEAST = {False: 8, True: 16}  # members in a run: half a rail, a whole one
_STIFF = 1e4  # a length whose seat is part of a plate, against the rail's own


@dataclass(frozen=True, slots=True)
class Mesh:
    """A row for each run."""

    place_mm: Array  #: of nodes
    line_n_mm: tuple[Array, Array]  #: load at both ends of each member
    points_n: Array  #: force at each node that presses on the load's line
    held: Flags  #: whether a node is a bracket's
    seat: Array  #: how much stiffer a member is against twist and sideways than the rail alone
    whole: bool  #: from corner to corner, not to the middle

    def of(self, runs: NDArray[np.intp]) -> Mesh:
        """Some of its runs, as often as they are named."""
        first, last = self.line_n_mm
        line = first[runs], last[runs]
        return Mesh(
            self.place_mm[runs], line, self.points_n[runs], self.held[runs], self.seat[runs], self.whole
        )


def mesh(runs: Sequence[Run], stiff_mm: float, *, whole: bool) -> Mesh:
    """Nodes where something happens, and evenly between; `stiff_mm` from a corner the seat gets stiff."""
    more = [_more(run, stiff_mm, whole) for run in runs]
    needed = (_stretches(run, places) for run, places in zip(runs, more, strict=True))
    least = max(_LEAST[whole], *needed)
    cut = [_cut(run, places, least) for run, places in zip(runs, more, strict=True)]
    place = np.array([at for at, _, _ in cut])
    return Mesh(
        place_mm=place,
        line_n_mm=(np.array([first for _, first, _ in cut]), np.array([last for _, _, last in cut])),
        points_n=_points(runs, place),
        held=_held(runs, place),
        seat=_seat(place, stiff_mm, whole),
        whole=whole,
    )


@lru_cache(maxsize=2048)
def _stretches(run: Run, more: tuple[float, ...]) -> int:
    """How many members a run needs at least."""
    return len(kinks(run, more)) - 1


@lru_cache(maxsize=2048)
def _cut(run: Run, more: tuple[float, ...], members: int) -> tuple[Array, Array, Array]:
    """Places of a run's nodes, and its load at both ends of each member; kept, as frames share runs."""
    place = nodes(kinks(run, more), members)
    return place, *line_n_mm(run, place)


def _more(run: Run, stiff_mm: float, whole: bool) -> tuple[float, ...]:
    """Further nodes: where a stiff seat ends."""
    if not stiff_mm:
        return ()
    return (stiff_mm, run.length_mm - stiff_mm) if whole else (stiff_mm,)


def _seat(place: Array, stiff_mm: float, whole: bool) -> Array:
    middle = (place[:, :-1] + place[:, 1:]) / 2
    stiff = middle < stiff_mm
    if whole:
        stiff |= middle > place[:, -1:] - stiff_mm
    return np.where(stiff, _STIFF, 1.0)


def _held(runs: Sequence[Run], place: Array) -> Flags:
    held = np.zeros(place.shape, dtype=bool)
    for row, run in enumerate(runs):
        for bracket in run.held_mm:
            held[row, int(np.argmin(np.abs(place[row] - bracket)))] = True
    return held


def _points(runs: Sequence[Run], place: Array) -> Array:
    force = np.zeros(place.shape)
    for row, run in enumerate(runs):
        for at, push in run.points:
            force[row, int(np.argmin(np.abs(place[row] - at)))] += push
    return force
