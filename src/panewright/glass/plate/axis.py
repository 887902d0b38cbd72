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

from panewright.glass.plate.basis import Array, Basis, gauss, legendre, slopes

Parity = Literal["even", "odd", "both"]


class Axis:
    """The tables of one way; places are shares of the half length, -1 to 1."""

    def __init__(self, length: float, *, held: bool, parity: Parity, count: int) -> None:
        self.length, self.half = length, length / 2
        self._unit = _unit(held, parity, count)
        self.at, self.weight = self._unit.at, self._unit.weight * self.half
        self.bent, self.pulled = (self._scaled(each) for each in self._unit.tables)

    @property
    def bent_count(self) -> int:
        """Functions of the deflection."""
        return int(self.bent[0].shape[1])

    @property
    def pulled_count(self) -> int:
        """Functions of the stress function."""
        return int(self.pulled[0].shape[1])

    def tables(self, at: Array) -> tuple[Basis, Basis]:
        """Deflection and stress functions at places."""
        bent, pulled = self._unit.tables_at(at)
        return self._scaled(bent), self._scaled(pulled)

    def mean(self, centre: float, width: float) -> Array:
        """Mean of each deflection function over a stretch `width` long; a width of 0 is a point."""
        at, weight = gauss(self._unit.top // 2 + 4)
        return np.asarray(weight / 2 @ self._unit.bent_at(centre + at * width / self.length))

    def _scaled(self, table: Basis) -> Basis:
        value, slope, curvature = table
        return value, slope / self.half, curvature / self.half**2


class _Unit:
    """The tables of a way whose half length is 1."""

    def __init__(self, held: bool, parity: Parity, count: int) -> None:
        k = np.arange(count, dtype=np.int64) * (1 if parity == "both" else 2) + (parity == "odd")
        self.top = int(k[-1]) + 4
        bent, pulled = _bent(k, held, self.top + 1), _pulled(k, self.top + 1)
        slope = slopes(self.top + 1)
        self._bent = (bent, slope @ bent, slope @ slope @ bent)
        self._pulled = (pulled, slope @ pulled, slope @ slope @ pulled)
        self.at, self.weight = _gauss(3 * self.top // 2 + 2, half=parity != "both")
        self.tables = self.tables_at(self.at)

    def tables_at(self, at: Array) -> tuple[Basis, Basis]:
        rows = legendre(self.top, at)
        return _derived(rows, self._bent), _derived(rows, self._pulled)

    def bent_at(self, at: Array) -> Array:
        """Values of the deflection functions."""
        return np.asarray(legendre(self.top, at) @ self._bent[0])


def _derived(rows: Array, mixture: Basis) -> Basis:
    value, slope, curvature = mixture
    return rows @ value, rows @ slope, rows @ curvature


@lru_cache(maxsize=64)
def _unit(held: bool, parity: Parity, count: int) -> _Unit:
    return _Unit(held, parity, count)


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
    at, weight = gauss(points)
    return (at[points // 2 :], 2 * weight[points // 2 :]) if half else (at, weight)
