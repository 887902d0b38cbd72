"""Runs of rail joined in the corners, and solved.

Global axes: X along the first rail, Y from it inward, Z up, the sunny side. A corner has seven movements:
three ways, turns about X and Y, the mean turn of its two rails about Z and how much they turn apart, which
the corner's stiffness is against. So a corner that is as good as rigid costs no digits. The inside of every
run is solved out first, so that only the corners are left together.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.element import Members
from panewright.structure.space.holds import Stops
from panewright.structure.space.member import Array
from panewright.structure.space.mesh import Flags

_CORNER = 7


def assembled(parts: Members, shift: Array, points: Array) -> tuple[Array, Array]:
    """Stiffness and load of whole runs, axes (conditions, runs, movements)."""
    count = shift.shape[1]
    pair = np.zeros((len(shift), count - 1, 12, 12))
    pair[..., :6, :6], pair[..., 6:, 6:] = shift[:, :-1], shift[:, 1:]
    turned = np.swapaxes(pair, -1, -2)
    stiffness, load = turned @ parts.stiffness @ pair, _times(turned, parts.push)
    matrix = np.zeros((*parts.push.shape[:2], count, 6, count, 6))
    push = np.broadcast_to(_times(np.swapaxes(shift, -1, -2), points), (*matrix.shape[:3], 6)).copy()
    at = np.arange(count - 1)
    block = np.moveaxis(stiffness, 2, 0)
    for row in (0, 1):
        push[..., row : count - 1 + row, :] += load[..., 6 * row : 6 * row + 6]
        for column in (0, 1):
            part = block[..., 6 * row : 6 * row + 6, 6 * column : 6 * column + 6]
            matrix[:, :, at + row, :, at + column, :] += part
    size = 6 * count
    return matrix.reshape(*matrix.shape[:2], size, size), push.reshape(*matrix.shape[:2], size)


def strike(matrix: Array, push: Array, may: Flags) -> None:
    """Take out what is held, in place."""
    may = may.reshape(len(may), -1)
    matrix *= may[:, :, None] & may[:, None, :]
    diagonal = np.arange(matrix.shape[-1])
    matrix[..., diagonal, diagonal] += ~may
    push *= may


@dataclass(frozen=True, slots=True)
class Rows:
    """Which of the springs and runs that were solved each condition and each run of a frame has."""

    ways: NDArray[np.intp]
    runs: NDArray[np.intp]

    def of(self, solved: Array) -> Array:
        """One for each condition and run."""
        return np.asarray(solved[self.ways[:, None], self.runs])


@dataclass(frozen=True, slots=True)
class _Inside:
    """The inside of each run by what its ends do, its own load, and forces of its brackets along it."""

    left: Array  #: stiffness of the ends alone
    load: Array
    by_ends: Array
    alone: Array
    by_stops: Array
    seen: tuple[Array, Array, Array]  #: the last three where brackets are, along the rail

    def of(self, rows: Rows) -> _Inside:
        """One for each condition and run."""
        by_ends, alone, by_stops = (rows.of(each) for each in self.seen)
        return _Inside(
            rows.of(self.left),
            rows.of(self.load),
            rows.of(self.by_ends),
            rows.of(self.alone),
            rows.of(self.by_stops),
            (by_ends, alone, by_stops),
        )


def solved(
    matrix: Array, push: Array, rows: Rows, stops: Stops, turn: Array, *, frames: int, whole: bool
) -> Array:
    """Movements of all nodes, axes (conditions, runs, nodes, 6).

    A bracket that holds along the rail is one further force that keeps its place from moving: rails held so
    or not have the same inside.
    """
    size = matrix.shape[-1]
    ends = np.r_[0:6, size - 6 : size] if whole else np.arange(6)
    inside = slice(6, size - 6 if whole else size)
    inner = _inside(matrix, push, stops, ends, inside).of(rows)
    pushed = _stopped(inner, stops.held[:, rows.runs])
    against = np.swapaxes(inner.seen[0] * stops.held[:, rows.runs, :, None], -1, -2)
    left, load = inner.left + against @ pushed[..., :-1], inner.load + _times(against, pushed[..., -1])
    moved = np.empty((len(rows.ways), len(rows.runs), size))
    moved[..., ends] = found = _corners(left, load, turn, frames, whole)
    force = pushed[..., -1] - _times(pushed[..., :-1], found)
    moved[..., inside] = inner.alone - _times(inner.by_ends, found) - _times(inner.by_stops, force)
    return moved.reshape(*moved.shape[:2], -1, 6)


def _inside(matrix: Array, push: Array, stops: Stops, ends: NDArray[np.intp], inside: slice) -> _Inside:
    """Insides solved out, every run free to slide along itself."""
    to_ends = matrix[..., inside, :][..., ends]
    run, at = np.arange(len(stops.node))[:, None], np.maximum(6 * stops.node - 6, 0)
    unit = np.zeros((*to_ends.shape[:-1], at.shape[1]))
    unit[:, run, at, np.arange(at.shape[1])] = stops.real
    right = np.concatenate([to_ends, push[..., inside, None], unit], axis=-1)
    inner = np.linalg.solve(matrix[..., inside, inside], right)
    by_ends, alone, by_stops = inner[..., : len(ends)], inner[..., len(ends)], inner[..., len(ends) + 1 :]
    back = np.swapaxes(to_ends, -1, -2)
    return _Inside(
        matrix[..., ends[:, None], ends] - back @ by_ends,
        push[..., ends] - _times(back, alone),
        by_ends,
        alone,
        by_stops,
        (by_ends[:, run, at], alone[:, run, at], by_stops[:, run, at]),
    )


def _stopped(inner: _Inside, held: Flags) -> Array:
    """Forces that keep brackets that hold from sliding: by each movement of the ends, and by the load."""
    by_ends, alone, by_stops = inner.seen
    both = held[..., :, None] & held[..., None, :]
    matrix = by_stops * both + np.eye(held.shape[-1]) * ~held[..., None]
    right = np.concatenate([by_ends, alone[..., None]], axis=-1) * held[..., None]
    return np.asarray(right / matrix if held.shape[-1] == 1 else np.linalg.solve(matrix, right))


def _times(matrix: Array, vector: Array) -> Array:
    return np.asarray((matrix @ vector[..., None])[..., 0])


def _corners(left: Array, load: Array, turn: Array, frames: int, whole: bool) -> Array:
    """Movements of the runs' ends, each in its own axes."""
    seen = maps(whole)
    split = len(turn), frames, len(seen)
    left, load = left.reshape(*split, *left.shape[2:]), load.reshape(*split, -1)
    turned = np.swapaxes(seen, -1, -2)
    matrix = (turned @ left @ seen).sum(axis=2)
    push = (turned @ load[..., None]).sum(axis=2)[..., 0]
    gape = np.arange(_CORNER - 1, matrix.shape[-1], _CORNER)
    matrix[..., gape, gape] += turn[:, None, None]
    moved = np.linalg.solve(matrix, push[..., None])
    return np.asarray((seen @ moved[:, :, None])[..., 0]).reshape(len(turn), frames * len(seen), -1)


@lru_cache(maxsize=2)
def maps(whole: bool) -> Array:
    """From the corners' movements to those of each run's ends, in the run's own axes."""
    if not whole:
        return np.stack([_along_x(0, 0.5), _mirrored()])
    seen = np.zeros((4, 12, 4 * _CORNER))
    for rail in range(4):
        after = (rail + 1) % 4
        seen[rail, :6, _CORNER * rail : _CORNER * (rail + 1)] = _along_x(rail, 0.5)
        seen[rail, 6:, _CORNER * after : _CORNER * (after + 1)] = _along_x(rail, -0.5)
    return seen


def _along_x(quarters: int, apart: float) -> Array:
    """A corner's movement as a rail sees it whose s runs along X, turned by so many right angles; `apart` is
    its share of the turn between both rails."""
    cosine, sine = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarters]
    seen = np.zeros((6, _CORNER))
    for block in (0, 3):
        seen[block, block : block + 2] = cosine, sine
        seen[block + 1, block : block + 2] = -sine, cosine
    seen[2, 2] = seen[5, 5] = 1.0
    seen[5, 6] = apart
    return seen


def _mirrored() -> Array:
    """As the short rail sees it that runs along Y, inward along X: a left hand, so turns change sign."""
    seen = np.zeros((6, _CORNER))
    places = (0, 1, 1), (1, 0, 1), (2, 2, 1), (3, 4, -1), (4, 3, -1), (5, 5, -1), (5, 6, 0.5)
    for row, column, sign in places:
        seen[row, column] = sign
    return seen
