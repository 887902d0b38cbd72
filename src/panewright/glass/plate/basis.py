"""Polynomials that a quarter of a pane bends in.

Everything evenly pressed is even about both middle lines, so one coordinate runs from 0 at the middle to 1
at the edge and only even Legendre polynomials P(k) are used. Deflection: P(k+2) - P(k), nothing at the
edge. Airy's stress function: Shen's combination of P(k), P(k+2), P(k+4), with neither value nor slope at
the edge. Derivatives are again sums of P(k), so all of it is one recurrence and some small products.

[S] J. Shen, SIAM J. Sci. Comput. 15 (1994) 1489: bases for second and fourth order equations.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Basis = tuple[Array, Array, Array]  #: value, slope, curvature; a row per point, a column per function


def legendre(top: int, at: Array) -> Array:
    """P(0)..P(top), a row per point."""
    value = np.empty((top + 1, at.size))
    value[0], value[1] = 1.0, at
    for k in range(1, top):
        np.multiply(at, value[k], out=value[k + 1])
        value[k + 1] *= (2 * k + 1) / (k + 1)
        value[k + 1] -= k / (k + 1) * value[k - 1]
    return value.T


def top_order(count: int) -> int:
    """Highest polynomial in so many functions."""
    return 2 * count + 2


def both_bases(count: int, polynomials: Array, half_length: float) -> tuple[Basis, Basis]:
    """Deflection and stress functions, with derivatives over a length of which 1 is `half_length`."""
    rows = polynomials[:, : top_order(count) + 1]
    deflection, stress = _mixtures(count)
    return _derived(rows, deflection, half_length), _derived(rows, stress, half_length)


def _derived(rows: Array, mixture: Basis, half_length: float) -> Basis:
    """Values, slopes and curvatures out of the polynomials."""
    value, slope, curvature = mixture
    return rows @ value, rows @ slope / half_length, rows @ curvature / half_length**2


@lru_cache(maxsize=32)
def _mixtures(count: int) -> tuple[Basis, Basis]:
    """How much of each P(k) is in each function and its derivatives: deflection, then stress. [S] eq. 3.2."""
    size, column = top_order(count) + 1, np.arange(count)
    k = 2 * column
    deflection, stress = np.zeros((size, count)), np.zeros((size, count))
    scale = 1 / (np.sqrt(2 * k + 3.0) * (k + 1))  # keeps the stiffness matrices near one size
    deflection[k, column], deflection[k + 2, column] = -scale, scale
    scale = 1 / ((2 * k + 3.0) * np.sqrt(2 * k + 5.0))
    stress[k, column], stress[k + 2, column] = scale, -scale * 2 * (2 * k + 5) / (2 * k + 7)
    stress[k + 4, column] = scale * (2 * k + 3) / (2 * k + 7)
    slope = slopes(size)
    return (
        (deflection, slope @ deflection, slope @ slope @ deflection),
        (stress, slope @ stress, slope @ slope @ stress),
    )


def slopes(size: int) -> Array:
    """Matrix of differentiation: P'(k) = sum of (2j+1) P(j) over j = k-1, k-3, ..."""
    j, k = np.arange(size)[:, None], np.arange(size)[None, :]
    return np.where((j < k) & ((k - j) % 2 == 1), 2.0 * j + 1.0, 0.0)


@lru_cache(maxsize=128)
def gauss(points: int) -> tuple[Array, Array]:
    """Gauss points in (-1, 1) and weights."""
    at, weight = np.polynomial.legendre.leggauss(points)
    return at, weight


@lru_cache(maxsize=64)
def half_gauss(points: int) -> tuple[Array, Array]:
    """Gauss points in (0, 1) and weights for an even integrand over (-1, 1): they sum to 2."""
    at, weight = gauss(2 * points)
    return at[points:], 2 * weight[points:]
