"""Von Karman's plate by finite differences: another way to the same pane, sharing nothing with ours.

A quarter of the pane on a grid of even steps. Middle lines mirror; at the edge w and its curvature are
nothing (ghost point -w), and F and its slope are nothing (ghost point +F). Central differences of second
order, Newton's method with rising load; two grids and Richardson's extrapolation take off the error that
goes with the square of the step. In SI.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import sparse
from scipy.sparse.linalg import splu

from panewright.glass.plate.bending import Plate
from panewright.units import MM

Array = NDArray[np.float64]
_LOAD_STEPS = (0.02, 0.06, 0.15, 0.35, 0.65, 1.0)


@dataclass(frozen=True, slots=True)
class Answer:
    """What finite differences say of a pane."""

    deflection_mm: float
    centre_mpa: float
    peak_mpa: float


class Line:
    """Differences along one half side: points 0 (middle) to n - 1, the edge is point n."""

    def __init__(self, half_m: float, n: int) -> None:
        self.n, self.h = n, half_m / n
        self.bent = self._second(-1.0)
        self.pulled = self._second(1.0)
        self.fourth_bent = self._fourth(-1.0)
        self.fourth_pulled = self._fourth(1.0)
        self.first = self._first()

    def _ghosted(self, stencil: tuple[float, ...], ghost: float) -> Any:
        """Rows of a stencil with the mirror at the middle and the edge's ghost."""
        n, reach = self.n, len(stencil) // 2
        matrix = sparse.lil_matrix((n, n))
        for i in range(n):
            for offset, weight in zip(range(-reach, reach + 1), stencil, strict=True):
                j, sign = abs(i + offset), 1.0
                if j > n:
                    j, sign = 2 * n - j, ghost
                if j < n:
                    matrix[i, j] += sign * weight
        return matrix.tocsr()

    def _second(self, ghost: float) -> Any:
        return self._ghosted((1.0, -2.0, 1.0), ghost) / self.h**2

    def _fourth(self, ghost: float) -> Any:
        return self._ghosted((1.0, -4.0, 6.0, -4.0, 1.0), ghost) / self.h**4

    def _first(self) -> Any:
        """Slope half way between points (n of them), so that the twist needs no wide stencil."""
        step = sparse.diags([-np.ones(self.n), np.ones(self.n - 1)], [0, 1], format="csr")
        return step / self.h

    def mean(self) -> Any:
        """From half-way points back to points; at the middle an even function of slopes is mirrored."""
        matrix = sparse.diags([np.full(self.n, 0.5), np.full(self.n - 1, 0.5)], [0, -1], format="lil")
        matrix[0, 0] = 1.0
        return matrix.tocsr()


class Grid:
    """The operators of one pane."""

    def __init__(self, plate: Plate, n: int) -> None:
        self.plate = plate
        x, y = Line(plate.long_mm * MM / 2, n), Line(plate.short_mm * MM / 2, n)
        one = sparse.identity(n, format="csr")
        self.x, self.y, self.n = x, y, n
        self.w_xx, self.w_yy = sparse.kron(x.bent, one, "csr"), sparse.kron(one, y.bent, "csr")
        self.f_xx, self.f_yy = sparse.kron(x.pulled, one, "csr"), sparse.kron(one, y.pulled, "csr")
        self.twist = sparse.kron(x.first, y.first, "csr")
        self.back = sparse.kron(x.mean(), y.mean(), "csr")
        self.bending = self._biharmonic(x.fourth_bent, y.fourth_bent, x.bent, y.bent)
        self.stretching = self._biharmonic(x.fourth_pulled, y.fourth_pulled, x.pulled, y.pulled)

    def _biharmonic(self, fourth_x: Any, fourth_y: Any, second_x: Any, second_y: Any) -> Any:
        one = sparse.identity(self.n, format="csr")
        return sparse.kron(fourth_x, one) + 2 * sparse.kron(second_x, second_y) + sparse.kron(one, fourth_y)

    def bracket(self, w: Array) -> Any:
        """Matrix of [w, v] for a deflection v."""
        return self._bracket(w, self.w_xx, self.w_yy)

    def bracket_f(self, w: Array) -> Any:
        """Matrix of [w, F] for a stress function F."""
        return self._bracket(w, self.f_xx, self.f_yy)

    def bracket_w(self, f: Array) -> Any:
        """Matrix of [w, F] for a deflection w, at a stress function F."""
        along, across, mixed = self.f_xx @ f, self.f_yy @ f, self.twist @ f
        return (
            sparse.diags(across) @ self.w_xx
            + sparse.diags(along) @ self.w_yy
            - 2 * self.back @ sparse.diags(mixed) @ self.twist
        )

    def _bracket(self, w: Array, xx: Any, yy: Any) -> Any:
        along, across, mixed = self.w_xx @ w, self.w_yy @ w, self.twist @ w
        return (
            sparse.diags(along) @ yy
            + sparse.diags(across) @ xx
            - 2 * self.back @ sparse.diags(mixed) @ self.twist
        )


def solve(plate: Plate, pressure_pa: float, n: int) -> Answer:
    """One grid."""
    grid = Grid(plate, n)
    thick, young, nu = plate.thickness_mm * MM, plate.elastic.young_pa, plate.elastic.poisson
    stiff = young * thick**3 / (12 * (1 - nu**2))
    scale = young * thick**2  # F of this size, so that both unknowns count alike
    w, f = np.zeros(n * n), np.zeros(n * n)
    for share in _LOAD_STEPS:
        w, f = _balanced(grid, w, f, (stiff, thick, young, scale, share * pressure_pa))
    return _answer(grid, w, f * scale, nu)


def _balanced(
    grid: Grid, w: Array, f: Array, figures: tuple[float, float, float, float, float]
) -> tuple[Array, Array]:
    """Newton's method on both equations."""
    stiff, thick, young, scale, pressure = figures
    couple = thick * scale / stiff
    compat = young / scale
    for _ in range(40):
        membrane, curved = grid.bracket_f(w), grid.bracket(w)
        out = grid.bending @ w - pressure / stiff - couple * (membrane @ f)
        fit = grid.stretching @ f + 0.5 * compat * (curved @ w)
        tangent = sparse.bmat(
            [
                [grid.bending - couple * grid.bracket_w(f), -couple * membrane],
                [compat * curved, grid.stretching],
            ],
            format="csc",
        )
        step = splu(tangent).solve(-np.concatenate((out, fit)))
        w, f = w + step[: w.size], f + step[w.size :]
        if np.abs(step[: w.size]).max() < 1e-9 * np.abs(w).max():
            return w, f
    raise ArithmeticError("finite differences found no balance")


def _answer(grid: Grid, w: Array, f: Array, nu: float) -> Answer:
    """Stresses on the tension face at every point, the edges with them."""
    plate = grid.plate
    thick = plate.thickness_mm * MM
    stiff = -plate.elastic.young_pa * thick / (2 * (1 - nu**2))
    along, across = grid.w_xx @ w, grid.w_yy @ w
    mixed = grid.back @ (grid.twist @ w)
    long = grid.f_yy @ f + stiff * (along + nu * across)
    short = grid.f_xx @ f + stiff * (across + nu * along)
    shear = -(grid.back @ (grid.twist @ f)) + stiff * (1 - nu) * mixed
    large = (long + short) / 2 + np.hypot((long - short) / 2, shear)
    edge = max(_edge(grid, w, f, nu, stiff, axis) for axis in (0, 1))
    return Answer(float(w[0]) / MM, float(large[0]) / 1e6, max(_top(large.reshape(grid.n, -1)), edge) / 1e6)


def _edge(grid: Grid, w: Array, f: Array, nu: float, stiff: float, axis: int) -> float:
    """Largest principal stress along an edge: there only F's curvature across it and the twist are left."""
    line = (grid.x, grid.y)[axis]
    table_w, table_f = (np.moveaxis(v.reshape(grid.n, -1), axis, 0) for v in (w, f))
    tension = 2 * table_f[-1] / line.h**2
    other = (grid.x, grid.y)[1 - axis]
    slope = (0.0 - 4 * table_w[-1] + table_w[-2]) / (2 * line.h)  # one-sided, second order
    padded = np.concatenate((slope[1:2], slope, [0.0]))
    twist = (padded[2:] - padded[:-2]) / (2 * other.h)
    shear = stiff * (1 - nu) * twist
    return float((tension / 2 + np.hypot(tension / 2, shear)).max())


def _top(stress: Array) -> float:
    """The largest value with what a parabola each way adds between points."""
    i, j = (int(k) for k in np.unravel_index(stress.argmax(), stress.shape))
    more = 0.0
    for line, k in ((stress[:, j], i), (stress[i, :], j)):
        if k < line.size - 1:
            before, here, after = line[abs(k - 1)], line[k], line[k + 1]
            bend = before - 2 * here + after
            more += 0.0 if bend >= 0 else -((before - after) ** 2) / (8 * bend)
    return float(stress[i, j] + more)


def extrapolated(plate: Plate, pressure_pa: float, n: int = 32) -> Answer:
    """Two grids, and what an endless one would say."""
    coarse, fine = solve(plate, pressure_pa, n), solve(plate, pressure_pa, 2 * n)

    def endless(name: str) -> float:
        one, other = getattr(coarse, name), getattr(fine, name)
        return float(other + (other - one) / 3)

    return Answer(endless("deflection_mm"), endless("centre_mpa"), endless("peak_mpa"))
