"""The likeliest figures of every cell at once: what was read, against what its lot is like.

Newton's steps on half the sum of squares (Gauss's form), held back where a step would make things worse:
each cell has its own brake (Levenberg). Cells that have settled are left alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.standing.figures import Kin
from panewright.lots.standing.seen import Seen, seen
from panewright.lots.standing.table import Index, Table
from panewright.lots.standing.trust import Trust

_ROUNDS = 25
_STILL = 1e-2  # of a standard deviation: a step as small is the last
_FURTHEST = np.array([3.0, 0.5, 0.7, 6.0, 9.0, 9.0])  # no cell of a kind is so far off it
_REACH = np.array([0.3, 0.1, 0.3, 1.0, 2.0, 2.0])  # longest step of each figure


@dataclass(frozen=True, slots=True)
class Lot:
    """What the cells of a lot are like: mean (6,), covariance (6, 6), and how well the mean is known."""

    mean: Array
    covariance: Array
    mean_covariance: Array


@dataclass(frozen=True, slots=True)
class Likeliest:
    """Figures (n, 6) and their covariance (n, 6, 6), for a mean of the lot that is taken as known."""

    theta: Array
    covariance: Array
    known: Array  #: what the readings alone say (n, 6, 6)
    misfit: Array  #: half the square of what is left over


def likeliest(table: Table, kin: Kin, trust: Trust, lot: Lot, start: Array | None = None) -> Likeliest:
    """The likeliest figures of every cell of a lot."""
    precision = np.asarray(np.linalg.inv(lot.covariance), dtype=np.float64)
    theta = np.tile(lot.mean, (len(table.marks), 1)) if start is None else start.copy()
    at = seen(theta, table, kin, trust)
    brake = np.full(len(theta), 1e-6)
    restless = np.arange(len(theta))
    for _ in range(_ROUNDS):
        step = _step(theta[restless], _part(at, restless), (lot.mean, precision), brake[restless])
        moving = (
            np.abs(step) * np.sqrt(at.known[restless][:, range(6), range(6)] + np.diag(precision)) > _STILL
        )
        go = moving.any(axis=1)
        restless, step = restless[go], step[go]
        if not restless.size:
            break
        _try(theta, at, brake, (restless, step), (table, kin, trust, lot.mean, precision))
    covariance = np.asarray(np.linalg.inv(at.known + precision), dtype=np.float64)
    return Likeliest(theta, covariance, at.known, at.misfit)


def _part(at: Seen, cells: Index) -> Seen:
    return Seen(at.misfit[cells], at.pull[cells], at.known[cells])


def _step(theta: Array, at: Seen, prior: tuple[Array, Array], brake: Array) -> Array:
    """The next step of every cell."""
    mean, precision = prior
    right = at.pull - (theta - mean) @ precision
    left = at.known + precision
    diagonal = left[:, range(6), range(6)] * brake[:, None]
    left[:, range(6), range(6)] += diagonal
    step = np.linalg.solve(left, right[:, :, None])[:, :, 0]
    return np.asarray(step / np.maximum(1.0, np.abs(step / _REACH).max(axis=1))[:, None])


def _try(
    theta: Array,
    at: Seen,
    brake: Array,
    steps: tuple[Index, Array],
    asked: tuple[Table, Kin, Trust, Array, Array],
) -> None:
    """Take each cell's step where it helps, and loosen its brake; else keep still and tighten it."""
    restless, step = steps
    table, kin, trust, mean, precision = asked
    new = np.clip(theta[restless] + step, -_FURTHEST, _FURTHEST)
    with np.errstate(all="ignore"):
        there = seen(new, table.only(restless), kin, trust)
    before = at.misfit[restless] + _unlike(theta[restless], mean, precision)
    after = there.misfit + _unlike(new, mean, precision)
    good = after <= before * (1 + 1e-12) + 1e-12
    taken = restless[good]
    theta[taken] = new[good]
    for name in ("misfit", "pull", "known"):
        getattr(at, name)[taken] = getattr(there, name)[good]
    brake[taken] *= 0.1
    brake[restless[~good]] = np.maximum(brake[restless[~good]] * 10, 1e-2)


def _unlike(theta: Array, mean: Array, precision: Array) -> Array:
    """Half the square of how unlike the lot a cell is."""
    off = theta - mean
    return np.asarray(0.5 * ((off @ precision) * off).sum(axis=1))
