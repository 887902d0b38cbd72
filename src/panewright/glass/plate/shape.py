"""What the scaled equations of a plate hang on, without sizes: sides, holding, where what presses.

Lengths in the short side b, loads as shares of the whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from panewright.glass.plate.axis import Axis, axis
from panewright.glass.plate.basis import Array, Basis

Spot = tuple[float, float, float, float]  #: middle along x and y as shares of half lengths, sizes in b


@dataclass(frozen=True, slots=True)
class Shape:
    """A plate, its holding and its load."""

    aspect: float
    poisson: float
    held: tuple[bool, bool]
    clips: tuple[Spot, ...]
    patches: tuple[tuple[float, Spot], ...]  #: share of the load, where
    pressure: float  #: share of the load that is even pressure, times b^2

    @property
    def even(self) -> tuple[bool, bool]:
        """Whether all is alike on both sides of each middle line; clips always are."""
        patches = [spot for _, spot in self.patches]
        return all(spot[0] == 0 for spot in patches), all(spot[1] == 0 for spot in patches)

    @property
    def bare(self) -> Shape:
        """The same without what it is pressed with: only where."""
        return replace(self, patches=tuple((1.0, spot) for _, spot in self.patches), pressure=1.0)

    def axes(self, counts: tuple[int, int]) -> tuple[Axis, Axis]:
        """Functions both ways."""
        x, y = ("even" if even else "both" for even in self.even)
        return axis(self.aspect, self.held[0], x, counts[0]), axis(1.0, self.held[1], y, counts[1])

    @property
    def distinct_clips(self) -> tuple[Spot, ...]:
        """Clips that are not mirror images of one another."""
        even_x, even_y = self.even
        kept = {
            (abs(x) if even_x else x, abs(y) if even_y else y, wide, deep) for x, y, wide, deep in self.clips
        }
        return tuple(sorted(kept))


def bending_matrix(x: Axis, y: Axis, poisson: float) -> Array:
    """Bending energy of each two deflection functions, D = 1."""
    (x0, x1, x2, x02), (y0, y1, y2, y02) = (_integrals(way.bent, way.weight) for way in (x, y))
    twist, mixed = 2 * (1 - poisson), poisson
    along = (x2, x0, mixed * x02.T, mixed * x02, twist * x1)
    return sum_of_products(along, (y0, y2, y02, y02.T, y1))


def stretching_matrix(x: Axis, y: Axis) -> Array:
    """Laplacian against Laplacian of each two stress functions."""
    (x0, _, x2, x02), (y0, _, y2, y02) = (_integrals(way.pulled, way.weight) for way in (x, y))
    return sum_of_products((x2, x0, x02.T, x02), (y0, y2, y02, y02.T))


def _integrals(table: Basis, weight: Array) -> tuple[Array, Array, Array, Array]:
    """Products value with value, slope with slope, curvature with curvature, value with curvature."""
    value, slope, curvature = table
    weighed = value.T * weight
    return (
        weighed @ value,
        (slope.T * weight) @ slope,
        (curvature.T * weight) @ curvature,
        weighed @ curvature,
    )


def sum_of_products(along: Sequence[Array], across: Sequence[Array]) -> Array:
    """Sum of Kronecker's products of a matrix along and one across."""
    nx, ny = len(along[0]), len(across[0])
    table = np.stack([each.ravel() for each in along], axis=1) @ np.stack([each.ravel() for each in across])
    return np.asarray(table.reshape(nx, nx, ny, ny).transpose(0, 2, 1, 3).reshape(nx * ny, nx * ny))


def spot_row(x: Axis, y: Axis, spot: Spot) -> Array:
    """Mean of each deflection function over a patch: the push of a force of 1 spread over it."""
    return np.asarray(np.kron(x.mean(spot[0], spot[2]), y.mean(spot[1], spot[3])))


def mass_matrix(x: Axis, y: Axis) -> Array:
    """Product of each two deflection functions over the plate: an even bedding of stiffness 1."""

    def along(way: Axis) -> Array:
        return np.asarray((way.bent[0].T * way.weight) @ way.bent[0])

    return np.asarray(np.kron(along(x), along(y)))
