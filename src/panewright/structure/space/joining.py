"""Runs of rail joined in the corners, and solved.

Global axes: X along the first rail, Y from it inward, Z up, the sunny side. A corner has seven movements:
three ways, turns about X and Y, and one turn about Z for each of its two rails, joined by the corner's
stiffness. The inside of every run is solved out first, so that only the corners are left together.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.element import Members
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
    outer = parts.push.shape[:2]
    matrix, push = np.zeros((*outer, 6 * count, 6 * count)), np.zeros((*outer, 6 * count))
    push += _times(np.swapaxes(shift, -1, -2), points).reshape(len(points), -1)
    for number in range(count - 1):
        at = slice(6 * number, 6 * number + 12)
        matrix[..., at, at] += stiffness[:, :, number]
        push[..., at] += load[:, :, number]
    return matrix, push


def strike(matrix: Array, push: Array, may: Flags) -> None:
    """Take out what is held, in place."""
    may = may.reshape(*may.shape[:2], -1)
    matrix *= may[..., :, None] & may[..., None, :]
    diagonal = np.arange(matrix.shape[-1])
    matrix[..., diagonal, diagonal] += ~may
    push *= may


@dataclass(frozen=True, slots=True)
class Rows:
    """Which of the runs that were solved each condition and each run of a frame is alike to."""

    ways: NDArray[np.intp]
    runs: NDArray[np.intp]

    def of(self, solved: Array) -> Array:
        """One for each condition and run."""
        return np.asarray(solved[self.ways[:, None], self.runs])


def solved(matrix: Array, push: Array, rows: Rows, turn: Array, *, frames: int, whole: bool) -> Array:
    """Movements of all nodes, axes (conditions, runs, nodes, 6)."""
    size = matrix.shape[-1]
    ends = np.r_[0:6, size - 6 : size] if whole else np.arange(6)
    inside = np.arange(6, size - 6 if whole else size)
    to_ends = matrix[..., inside[:, None], ends]
    right = np.concatenate([to_ends, push[..., inside, None]], axis=-1)
    inner = np.linalg.solve(matrix[..., inside[:, None], inside], right)
    from_ends, alone = inner[..., :-1], inner[..., -1]
    back = np.swapaxes(to_ends, -1, -2)
    left, load = matrix[..., ends[:, None], ends] - back @ from_ends, push[..., ends] - _times(back, alone)
    moved = np.empty((len(rows.ways), len(rows.runs), size))
    moved[..., ends] = _corners(rows.of(left), rows.of(load), turn, frames, whole)
    moved[..., inside] = rows.of(alone) - _times(rows.of(from_ends), moved[..., ends])
    return moved.reshape(*moved.shape[:2], -1, 6)


def _times(matrix: Array, vector: Array) -> Array:
    return np.asarray((matrix @ vector[..., None])[..., 0])


def _corners(left: Array, load: Array, turn: Array, frames: int, whole: bool) -> Array:
    """Movements of the runs' ends, each in its own axes."""
    maps = _maps(whole)
    split = len(turn), frames, len(maps)
    left, load = left.reshape(*split, *left.shape[2:]), load.reshape(*split, -1)
    turned = np.swapaxes(maps, -1, -2)
    matrix = (turned @ left @ maps).sum(axis=2)
    push = (turned @ load[..., None]).sum(axis=2)[..., 0]
    for first in range(5, matrix.shape[-1], _CORNER):
        for row, column, sign in ((0, 0, 1), (1, 1, 1), (0, 1, -1), (1, 0, -1)):
            matrix[..., first + row, first + column] += sign * turn[:, None]
    moved = np.linalg.solve(matrix, push[..., None])
    return np.asarray((maps @ moved[:, :, None])[..., 0]).reshape(len(turn), frames * len(maps), -1)


@lru_cache(maxsize=2)
def _maps(whole: bool) -> Array:
    """From the corners' movements to those of each run's ends, in the run's own axes."""
    if not whole:
        return np.stack([_along_x(0, 5), _mirrored()])
    maps = np.zeros((4, 12, 4 * _CORNER))
    for rail in range(4):
        after = (rail + 1) % 4
        maps[rail, :6, _CORNER * rail : _CORNER * (rail + 1)] = _along_x(rail, 5)
        maps[rail, 6:, _CORNER * after : _CORNER * (after + 1)] = _along_x(rail, 6)
    return maps


def _along_x(quarters: int, turn: int) -> Array:
    """A corner's movement as a rail sees it whose s runs along X, turned by so many right angles."""
    cosine, sine = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarters]
    seen = np.zeros((6, _CORNER))
    for block in (0, 3):
        seen[block, block : block + 2] = cosine, sine
        seen[block + 1, block : block + 2] = -sine, cosine
    seen[2, 2] = seen[5, turn] = 1.0
    return seen


def _mirrored() -> Array:
    """As the short rail sees it that runs along Y, inward along X: a left hand, so turns change sign."""
    seen = np.zeros((6, _CORNER))
    for row, column, sign in ((0, 1, 1), (1, 0, 1), (2, 2, 1), (3, 4, -1), (4, 3, -1), (5, 6, -1)):
        seen[row, column] = sign
    return seen
