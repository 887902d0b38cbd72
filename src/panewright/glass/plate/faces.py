"""Stresses on both faces of a bent pane, and where they are largest.

Tension face: the one away from the pressure. Membrane stress is the second derivative of Airy's function, the
bending stress at a face is E t/2 times curvature over (1 - nu^2). All in units of E t^2/b^2; positive is
tension. The search looks at a grid that thickens towards the edges and takes the top of a parabola each way
through the largest value and its neighbours.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.glass.plate.basis import Array, Basis, both_bases, legendre, top_order
from panewright.glass.plate.stretch import State

_GRID = np.sin(np.linspace(0, np.pi / 2, 73))
_TENSION = 1.0


@dataclass(frozen=True, slots=True)
class Peak:
    """Largest principal stress and its place as shares of the half sides: middle 0, edge 1."""

    stress: float
    along_long: float
    along_short: float


@dataclass(frozen=True, slots=True)
class Extremes:
    """What a pane's proof asks of one state. Stress in E t^2/b^2."""

    centre_stress: float  #: larger principal stress at the middle of the tension face
    peak: Peak  #: on the face away from the pressure
    pressed_peak: Peak


@dataclass(frozen=True, slots=True)
class Tables:
    """The functions at some lines across each way, so that a state there costs two small products."""

    x: Basis
    y: Basis
    gx: Basis
    gy: Basis


def tables(aspect: float, counts: tuple[int, int], x: Array, y: Array) -> Tables:
    """Tables at x (shares of the half long side) and y (of the half short side)."""
    polynomials = legendre(top_order(max(counts)), np.concatenate((x, y)))
    bent_x, pulled_x = both_bases(counts[0], polynomials[: x.size], aspect / 2)
    bent_y, pulled_y = both_bases(counts[1], polynomials[x.size :], 0.5)
    return Tables(bent_x, bent_y, pulled_x, pulled_y)


@lru_cache(maxsize=32)
def _grid_tables(aspect: float, counts: tuple[int, int]) -> Tables:
    return tables(aspect, counts, _GRID, _GRID)


@lru_cache(maxsize=32)
def _grid_products(aspect: float, counts: tuple[int, int]) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
    """Tables along the long side and across it of stress functions, then of deflections.

    Three of each: for the stress along, for that across, for twice the shear.
    """
    at = _grid_tables(aspect, counts)
    pulled = np.stack((at.gx[0], at.gx[2], at.gx[1])), np.stack((at.gy[2].T, at.gy[0].T, -2 * at.gy[1].T))
    bent = np.stack((at.x[2], at.x[0], at.x[1])), np.stack((at.y[0].T, at.y[2].T, 2 * at.y[1].T))
    return (pulled[0], bent[0]), (pulled[1], bent[1])


@dataclass(frozen=True, slots=True)
class Faces:
    """One state of a pane. Stress in E t^2/b^2, deflection in t."""

    aspect: float
    poisson: float
    counts: tuple[int, int]
    state: State
    scale: float  #: deflection of the scaled equations to w/t

    @property
    def centre_deflection(self) -> float:
        """w/t at the middle. [-]"""
        at = _grid_tables(self.aspect, self.counts)
        w = self.state.w.reshape(self.counts) * self.scale
        return float(at.x[0][0] @ w @ at.y[0][0])

    @property
    def centre_stress(self) -> float:
        """Larger principal stress at the middle of the tension face. [-]"""
        return self.extremes().centre_stress

    @property
    def peak(self) -> Peak:
        """Largest tension on the face away from the pressure."""
        return self.extremes().peak

    @property
    def pressed_peak(self) -> Peak:
        """Largest tension on the face that is pressed."""
        return self.extremes().pressed_peak

    def extremes(self) -> Extremes:
        """Both faces searched at once."""
        half, bent = self._on_grid()
        away = _larger(*(mid + more for mid, more in zip(half, bent, strict=True)))
        pressed = _larger(*(mid - more for mid, more in zip(half, bent, strict=True)))
        return Extremes(float(away[0, 0]), _top(away), _top(pressed))

    def _on_grid(self) -> tuple[tuple[Array, Array, Array], tuple[Array, Array, Array]]:
        """Mean of both stresses, half their difference and shear all over the usual grid.

        Half way through, and what bending adds at the tension face.
        """
        along, across = _grid_products(self.aspect, self.counts)
        f, w = self.state.f.reshape(self.counts), self.state.w.reshape(self.counts)
        nu = self.poisson
        long, short, shear = along[0] @ (f * (self.scale**2 / 2)) @ across[0]
        first, second, twist = along[1] @ (w * (-self.scale / (4 * (1 - nu**2)))) @ across[1]
        mean, difference = first + second, first - second
        for each, factor in ((mean, 1 + nu), (difference, 1 - nu), (twist, 1 - nu)):
            each *= factor
        return (long + short, long - short, shear), (mean, difference, twist)

    def tables_at(self, x: Array, y: Array) -> Tables:
        """Tables at other places than the usual grid."""
        return tables(self.aspect, self.counts, x, y)

    def membrane(self, at: Tables) -> Array:
        """Stress along the long side, along the short side and in shear, half way through. [-]"""
        f = self.state.f.reshape(self.counts) * self.scale**2
        long = at.gx[0] @ f @ at.gy[2].T
        short = at.gx[2] @ f @ at.gy[0].T
        return np.stack((long, short, -at.gx[1] @ f @ at.gy[1].T))

    def bending(self, at: Tables) -> Array:
        """The same from bending alone, at the tension face. [-]"""
        w, nu = self.state.w.reshape(self.counts) * self.scale, self.poisson
        long = at.x[2] @ w @ at.y[0].T
        short = at.x[0] @ w @ at.y[2].T
        twist = at.x[1] @ w @ at.y[1].T
        stiff = -1 / (2 * (1 - nu**2))
        return stiff * np.stack((long + nu * short, short + nu * long, (1 - nu) * twist))

    def principal(self, at: Tables, side: float = _TENSION) -> tuple[Array, Array]:
        """Larger and smaller principal stress at a face. [-]"""
        return _principal(self.membrane(at) + side * self.bending(at))


def _principal(stress: Array) -> tuple[Array, Array]:
    """Larger and smaller principal stress out of long, short and shear. [-]"""
    long, short, shear = stress
    mean, radius = (long + short) / 2, np.sqrt(((long - short) / 2) ** 2 + shear**2)
    return mean + radius, mean - radius


def _larger(mean: Array, difference: Array, shear: Array) -> Array:
    """The larger principal stress alone; all three are worked in."""
    difference *= difference
    shear *= shear
    difference += shear
    np.sqrt(difference, out=difference)
    mean += difference
    return mean


def _top(stress: Array) -> Peak:
    """The largest value on the grid, and how much higher and where the surface tops between its lines."""
    i, j = (int(k) for k in np.unravel_index(stress.argmax(), stress.shape))
    more_x, step_x = _vertex(stress[:, j], i)
    more_y, step_y = _vertex(stress[i, :], j)
    return Peak(float(stress[i, j]) + more_x + more_y, _place(i + step_x), _place(j + step_y))


def _vertex(line: Array, best: int) -> tuple[float, float]:
    """Height of a parabola's top above the best of its three points, and its place in steps of the grid."""
    if best == line.size - 1:
        return 0.0, 0.0
    before, here, after = float(line[abs(best - 1)]), float(line[best]), float(line[best + 1])
    bend = before - 2 * here + after
    if bend >= 0:
        return 0.0, 0.0
    step = (before - after) / (2 * bend)
    return -bend * step**2 / 2, step


def _place(line: float) -> float:
    return float(np.sin(line / (_GRID.size - 1) * np.pi / 2))
