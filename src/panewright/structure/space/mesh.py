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
    cuts = [_cut(run, rail, _LEAST[rail.whole]) for run in runs]
    most = max(len(cut.place_mm) - 1 for cut in cuts)
    if most > _LEAST[rail.whole]:
        cuts = [_cut(run, rail, most) for run in runs]
    rows = zip(*(cut.columns for cut in cuts), strict=True)
    place, first, last, points, held, alone, seat = (np.array(each) for each in rows)
    return Mesh(place, (first, last), points, held, alone, seat, rail.whole)


@dataclass(frozen=True, slots=True)
class _Cut:
    """One run's row of a mesh, column by column."""

    place_mm: Array
    columns: tuple[Array | Flags, ...]


@lru_cache(maxsize=2048)
def _cut(run: Run, rail: Rail, least: int) -> _Cut:
    """A run cut into so many members, or as many as it needs; kept, as frames share runs."""
    places = kinks(run, _more(run, rail))
    place = nodes(places, max(least, len(places) - 1))
    first, last = line_n_mm(run, place)
    held = _held(run, place)
    columns = place, first, last, _points(run, place), held, _alone(place, held, rail), _seat(place, rail)
    return _Cut(place, columns)


def _more(run: Run, rail: Rail) -> tuple[float, ...]:
    """Further nodes: where a stiff seat ends."""
    if not rail.stiff_mm:
        return ()
    return (rail.stiff_mm, run.length_mm - rail.stiff_mm) if rail.whole else (rail.stiff_mm,)


def _seat(place: Array, rail: Rail) -> Array:
    middle = (place[:-1] + place[1:]) / 2
    stiff = middle < rail.stiff_mm
    if rail.whole:
        stiff |= middle > place[-1] - rail.stiff_mm
    return np.where(stiff, _STIFF, 1.0)


def _held(run: Run, place: Array) -> Flags:
    held = np.zeros(place.shape, dtype=bool)
    for bracket in run.held_mm:
        held[int(np.argmin(np.abs(place - bracket)))] = True
    return held


def _points(run: Run, place: Array) -> Array:
    force = np.zeros(place.shape)
    for at, push in run.points:
        force[int(np.argmin(np.abs(place - at)))] += push
    return force


def _alone(place: Array, held: Flags, rail: Rail) -> Flags:
    """Brackets that neither another nor a corner comes near to."""
    alone, others, end = np.zeros_like(held), place[held], place[-1]
    beyond = [0.0, end] if rail.whole else [0.0, *(2 * end - others[others < end])]
    for node in np.flatnonzero(held):
        away = np.abs(np.append(others, beyond) - place[node])
        alone[node] = (away < rail.room_mm).sum() == 1
    return alone
