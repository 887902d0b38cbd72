"""Von Karman's two plate equations for an evenly pressed rectangle, as matrices.

Edges: held out of plane and free to turn; in the plane they bear nothing, so they may pull in and bow, as
glass on a soft bead does (F and its slope vanish). Lengths are shares of the short side b; deflection is
scaled by t/sqrt(12(1-nu^2)) so that Poisson's ratio drops out and one set of equations serves every
material:

    biharmonic(w) = load + [w, F]        biharmonic(F) = -1/2 [w, w]
    [w, v] = w,xx v,yy + w,yy v,xx - 2 w,xy v,xy

In weak form only the values of F are needed beside w's second derivatives, because [w, F] can be shed onto
the test function: the tangent stays symmetric.

[K] Th. von Karman, Encyklopaedie der mathematischen Wissenschaften IV/4, 1910.
[TW] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, article 100.
"""

from __future__ import annotations

import numpy as np

from panewright.glass.plate.basis import Array, Basis, both_bases, half_gauss, legendre, top_order
from panewright.glass.plate.crossed import Crossed
from panewright.glass.plate.inverse import inverse_root
from panewright.glass.plate.shape import sum_of_products
from panewright.glass.plate.stretch import Give, flexible


class PlateEquations:
    """The matrices of one aspect ratio."""

    def __init__(self, aspect: float, along_long: int, along_short: int) -> None:
        self.aspect = aspect
        self.counts = along_long, along_short
        half = aspect / 2, 0.5
        at_x, wx = half_gauss((3 * along_long + 5) // 2)  # exact for all products below
        at_y, wy = half_gauss((3 * along_short + 5) // 2)
        self._wx, self._wy = wx * half[0], wy * half[1]
        self._x, self._gx = both_bases(along_long, legendre(top_order(along_long), at_x), half[0])
        self._y, self._gy = both_bases(along_short, legendre(top_order(along_short), at_y), half[1])
        self.weights = np.outer(self._wx, self._wy)
        self._crossed = Crossed(self._x, self._y, self.weights)
        self.bending = self._biharmonic(self._x, self._y)
        stretching = self._biharmonic(self._gx, self._gy)
        self.stretch_root = inverse_root(stretching)  # its square is the flexibility
        self.push: Array = np.asarray(
            np.kron(self._wx @ self._x[0], self._wy @ self._y[0]), dtype=np.float64
        )  #: even pressure of 1
        self._mixed_x = [_products(self._gx[0], d, self._wx) for d in self._x]
        self._mixed_y = [_products(self._gy[0], d, self._wy) for d in self._y]
        self._pairs_x = _pairs(self._x, self._wx)
        self._pairs_y = _pairs(self._y, self._wy)

    def _biharmonic(self, x: Basis, y: Basis) -> Array:
        """Laplacian against Laplacian over the whole pane."""

        def along(i: int, j: int) -> Array:
            return np.asarray((x[i].T * self._wx) @ x[j])

        def across(i: int, j: int) -> Array:
            return np.asarray((y[i].T * self._wy) @ y[j])

        pairs = ((2, 2), (0, 0), (2, 0), (0, 2))
        return sum_of_products([along(i, j) for i, j in pairs], [across(2 - i, 2 - j) for i, j in pairs])

    @property
    def at_rest(self) -> Give:
        """What the plate gives to a load while nothing is bent."""
        return flexible(self.bending)

    def curvatures(self, w: Array) -> Array:
        """w,xx w,yy w,xy at the Gauss points."""
        return self._crossed.curvatures(w)

    def stress_function(self, f: Array) -> Array:
        """F at the Gauss points."""
        values: Array = self._gx[0] @ f.reshape(self.counts) @ self._gy[0].T
        return values

    def coupling(self, curved: Array) -> Array:
        """Bracket of a bent state with each deflection function (columns), against each G (rows)."""
        x, y = self._mixed_x, self._mixed_y
        table = (x[0] @ curved[0]) @ y[2].T + (x[2] @ curved[1]) @ y[0].T - 2 * (x[1] @ curved[2]) @ y[1].T
        return self._regroup(table)

    def geometric(self, stress: Array) -> Array:
        """Bracket of each two deflection functions against F: what tension adds to the stiffness."""
        x, y = self._pairs_x, self._pairs_y
        table = (x[1] @ stress) @ y[0].T + (x[0] @ stress) @ y[1].T - 2 * (x[2] @ stress) @ y[2].T
        return self._regroup(table)

    def against_stress(self, field: Array) -> Array:
        """A field at the Gauss points against each G."""
        tested: Array = self._gx[0].T @ (field * self.weights) @ self._gy[0]
        return tested.ravel()

    def against_bending(self, fields: Array) -> Array:
        """Integral of F w,xx v,yy + F w,yy v,xx - 2 F w,xy v,xy for each deflection function v."""
        return self._crossed.against(fields)

    def _regroup(self, table: Array) -> Array:
        """From (x pair, y pair) to (first function, second function)."""
        nx, ny = self.counts
        return table.reshape(nx, nx, ny, ny).transpose(0, 2, 1, 3).reshape(nx * ny, nx * ny)


def _products(first: Array, second: Array, weight: Array) -> Array:
    """Weighted products of all functions of two tables: a row per pair, a column per point."""
    return (first[:, :, None] * second[:, None, :]).reshape(weight.size, -1).T * weight


def _pairs(basis: Basis, weight: Array) -> tuple[Array, Array, Array]:
    """Products value with curvature, curvature with value, slope with slope."""
    return (
        _products(basis[0], basis[2], weight),
        _products(basis[2], basis[0], weight),
        _products(basis[1], basis[1], weight),
    )
