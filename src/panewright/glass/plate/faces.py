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
        at = _grid_tables(self.aspect, self.counts)
        pairs = tuple(zip(self._membrane(at), self._bending(at), strict=True))
        away = _larger(*(half + bent for half, bent in pairs))
        pressed = _larger(*(half - bent for half, bent in pairs))
        return Extremes(float(away[0, 0]), _top(away), _top(pressed))

    def tables_at(self, x: Array, y: Array) -> Tables:
        """Tables at other places than the usual grid."""
        return tables(self.aspect, self.counts, x, y)

    def membrane(self, at: Tables) -> Array:
        """Stress along the long side, along the short side and in shear, half way through. [-]"""
        return np.stack(self._membrane(at))

    def _membrane(self, at: Tables) -> tuple[Array, Array, Array]:
        f = self.state.f.reshape(self.counts) * self.scale**2
        long = at.gx[0] @ f @ at.gy[2].T
        short = at.gx[2] @ f @ at.gy[0].T
        return long, short, -at.gx[1] @ f @ at.gy[1].T

    def bending(self, at: Tables) -> Array:
        """The same from bending alone, at the tension face. [-]"""
        return np.stack(self._bending(at))

    def _bending(self, at: Tables) -> tuple[Array, Array, Array]:
        w, nu = self.state.w.reshape(self.counts) * self.scale, self.poisson
        long = at.x[2] @ w @ at.y[0].T
        short = at.x[0] @ w @ at.y[2].T
        twist = at.x[1] @ w @ at.y[1].T
        stiff = -1 / (2 * (1 - nu**2))
        return stiff * (long + nu * short), stiff * (short + nu * long), stiff * ((1 - nu) * twist)

    def principal(self, at: Tables, side: float = _TENSION) -> tuple[Array, Array]:
        """Larger and smaller principal stress at a face. [-]"""
        return _principal(self.membrane(at) + side * self.bending(at))


def _principal(stress: Array) -> tuple[Array, Array]:
    """Larger and smaller principal stress out of long, short and shear. [-]"""
    long, short, shear = stress
    mean, radius = (long + short) / 2, np.sqrt(((long - short) / 2) ** 2 + shear**2)
    return mean + radius, mean - radius


def _larger(long: Array, short: Array, shear: Array) -> Array:
    """The larger principal stress alone; all three are worked in, and no more of what they were."""
    mean = long + short
    mean /= 2
    long -= short
    long /= 2
    long *= long
    shear *= shear
    long += shear
    np.sqrt(long, out=long)
    return np.asarray(mean + long)


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
