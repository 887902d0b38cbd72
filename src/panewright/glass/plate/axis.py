"""Functions along one way of a plate, its ends held or free, for loads even about the middle or not.

Deflection: P(k+2) - P(k), nothing at a held edge; where the edge is free P(0) and P(1) are added, so that all
polynomials are there. Airy's stress function: Shen's combination, neither value nor slope at the edge, held
or free: glass bears nothing in its plane. An even load on even supports needs the even ones alone.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from panewright.glass.plate.basis import Array, Basis, legendre, slopes

Parity = Literal["even", "odd", "both"]


class Axis:
    """The tables of one way; places are shares of the half length, -1 to 1."""

    def __init__(self, length: float, *, held: bool, parity: Parity, count: int) -> None:
        self.length, self.half = length, length / 2
        k = np.arange(count, dtype=np.int64) * (1 if parity == "both" else 2) + (parity == "odd")
        self._top = int(k[-1]) + 4
        bent, pulled = _bent(k, held, self._top + 1), _pulled(k, self._top + 1)
        slope = slopes(self._top + 1)
        self._bent = (bent, slope @ bent, slope @ slope @ bent)
        self._pulled = (pulled, slope @ pulled, slope @ slope @ pulled)
        at, weight = _gauss(3 * self._top // 2 + 2, half=parity != "both")
        self.at, self.weight = at, weight * self.half
        self.bent, self.pulled = self.tables(at)

    @property
    def bent_count(self) -> int:
        """Functions of the deflection."""
        return int(self._bent[0].shape[1])

    @property
    def pulled_count(self) -> int:
        """Functions of the stress function."""
        return int(self._pulled[0].shape[1])

    def tables(self, at: Array) -> tuple[Basis, Basis]:
        """Deflection and stress functions at places."""
        rows = legendre(self._top, at)
        return self._derived(rows, self._bent), self._derived(rows, self._pulled)

    def mean(self, centre: float, width: float) -> Array:
        """Mean of each deflection function over a stretch `width` long; a width of 0 is a point."""
        at, weight = np.polynomial.legendre.leggauss(self._top // 2 + 4)
        places = centre + at * width / self.length
        return np.asarray(weight / 2 @ (legendre(self._top, places) @ self._bent[0]))

    def _derived(self, rows: Array, mixture: Basis) -> Basis:
        value, slope, curvature = mixture
        return rows @ value, rows @ slope / self.half, rows @ curvature / self.half**2


@lru_cache(maxsize=64)
def axis(length: float, held: bool, parity: Parity, count: int) -> Axis:
    """One way of a plate; kept, because loads and thicknesses share it."""
    return Axis(length, held=held, parity=parity, count=count)


def _bent(k: NDArray[np.int64], held: bool, size: int) -> Array:
    """How much of each P is in each deflection function."""
    bubbles, column = np.zeros((size, k.size)), np.arange(k.size)
    scale = 1 / (np.sqrt(2 * k + 3.0) * (k + 1))  # keeps the stiffness matrices near one size
    bubbles[k, column], bubbles[k + 2, column] = -scale, scale
    if held:
        return bubbles
    low = [order for order in (0, 1) if order in k]  # of the same parity
    return np.hstack((np.eye(size)[:, low], bubbles))


def _pulled(k: NDArray[np.int64], size: int) -> Array:
    """The same for the stress functions."""
    out, column = np.zeros((size, k.size)), np.arange(k.size)
    scale = 1 / ((2 * k + 3.0) * np.sqrt(2 * k + 5.0))
    out[k, column], out[k + 2, column] = scale, -scale * 2 * (2 * k + 5) / (2 * k + 7)
    out[k + 4, column] = scale * (2 * k + 3) / (2 * k + 7)
    return out


def _gauss(points: int, *, half: bool) -> tuple[Array, Array]:
    """Gauss points over (-1, 1), or over half of it for an even integrand; weights sum to 2 in both."""
    points += points % 2
    at, weight = np.polynomial.legendre.leggauss(points)
    return (at[points // 2 :], 2 * weight[points // 2 :]) if half else (at, weight)
