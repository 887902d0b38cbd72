"""Where a fit starts: the best of a grid on which most of the work is done exactly.

With the measured current on both sides, and with x and Rs given, the equation is straight in IL, J and G:
the best of those three is a small linear problem. So a grid over x and Rs alone sees the whole landscape
(variable projection, [G]), whatever the curve; its valleys are where the fits start.

[G] G. H. Golub, V. Pereyra, SIAM J. Numerical Analysis 10, 1973, p. 413.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.curve.equation import Frame

_X = np.geomspace(1 / 100, 1 / 3, 28)
_SERIES = np.concatenate([[0.0], np.geomspace(2e-3, 1.0, 17)])


def starts(frame: Frame, weight: Array, dark: bool, most: int = 4) -> list[Array]:
    """Parameters at the lowest valleys of the grid, the best first."""
    x, series = (grid.ravel() for grid in np.meshgrid(_X, _SERIES, indexing="ij"))
    cost, straight = _straight_part(frame, weight, dark, x, series)
    ranked = [k for k in np.argsort(cost) if np.isfinite(cost[k])]
    valleys = _valleys(cost.reshape(_X.size, _SERIES.size)).ravel()
    chosen = [k for k in ranked if valleys[k]][:most]
    chosen += [k for k in ranked[: 12 * most : 12] if k not in chosen][: most - len(chosen)]
    return [_theta(x[k], series[k], straight[k]) for k in chosen]


def straight_cost(frame: Frame, weight: Array) -> float:
    """Sum of squares that a straight line leaves: what a curve without a knee would."""
    root = np.sqrt(weight)
    columns = np.stack([np.ones_like(frame.volts), frame.volts], axis=1) * root[:, None]
    left = columns @ np.linalg.lstsq(columns, frame.amperes * root, rcond=None)[0] - frame.amperes * root
    return float(left @ left)


def _theta(x: float, series: float, straight: Array) -> Array:
    light, swallowed, shunt = straight
    return np.array([light, np.log(max(swallowed, 1e-12)), np.log(x), series, shunt])


def _straight_part(frame: Frame, weight: Array, dark: bool, x: Array, series: Array) -> tuple[Array, Array]:
    """Least cost and the best (IL, J, G) for each x and Rs; infinite cost where no diode would be left."""
    vd = frame.volts + series[:, None] * frame.amperes
    with np.errstate(over="ignore", invalid="ignore"):
        bend = -(np.exp((vd - 1) / x[:, None]) - np.exp(-1 / x[:, None]))
    columns = np.stack([np.ones_like(vd), np.clip(bend, -1e12, 1e12), -vd], axis=2)
    best, coefficients = np.full(x.size, np.inf), np.zeros((x.size, 3))
    for used in ((0, 1, 2), (0, 1), (1, 2), (1,)):
        if dark and 0 in used:
            continue
        cost, found = _least_squares(columns[:, :, used], frame.amperes, weight)
        better = (cost < best) & np.all(found >= 0, axis=1) & (found[:, used.index(1)] > 0)
        best = np.where(better, cost, best)
        spread = np.zeros_like(coefficients)
        spread[:, used] = found
        coefficients = np.where(better[:, None], spread, coefficients)
    return best, coefficients


def _least_squares(columns: Array, amperes: Array, weight: Array) -> tuple[Array, Array]:
    """Many small linear problems at once: the cost and the solution of each."""
    root = np.sqrt(weight)
    scale = np.maximum(np.sqrt((columns**2).sum(axis=1)), 1e-300)
    q, r = np.linalg.qr(columns / scale[:, None, :] * root[:, None])
    right = amperes * root
    inside = np.einsum("knj,n->kj", q, right)
    safe = r + 1e-14 * np.eye(r.shape[-1])
    found = np.linalg.solve(safe, inside[..., None])[..., 0] / scale
    left = np.einsum("knj,kj->kn", columns * root[:, None], found) - right
    return np.asarray((left**2).sum(axis=1)), np.asarray(found)


def _valleys(cost: Array) -> NDArray[np.bool_]:
    """Places of the grid no neighbour lies below."""
    wide = np.pad(cost, 1, constant_values=np.inf)
    rows, columns = cost.shape
    around = [
        wide[1 + i : 1 + i + rows, 1 + j : 1 + j + columns] for i in (-1, 0, 1) for j in (-1, 0, 1) if i or j
    ]
    return np.asarray(np.isfinite(cost) & (cost <= np.min(around, axis=0)))
