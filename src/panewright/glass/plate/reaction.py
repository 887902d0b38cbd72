"""What the edges of a far bent pane push back with, all along each side, and what holds its corners down.

Cut out a strip across the whole pane: the two edges carry what the load gives it less what its own moment
hands on. With M(x) the moment of the whole pane about its section at x, membrane and lever included,

    q b - M''(x) = 2 r(x)        M(x) = integral across of w,xx + (nu - F) w,yy        (D = 1)

so the pane is a beam, and no third derivative of w is needed: r is found in weak form, M against the
curvatures of functions that vanish at the corners. The same the other way for the short sides. What is left
of the load holds the corners down. Small loads give Levy's series (`linear`). As the pane bends far its
middle hangs in its own skin, the skin in its corners: the push falls in the middle of a side and grows beside
the corners, far above q b/2, and the short sides take more of it.

Against half as many functions again: 4e-5 q b anywhere at Q = 500, 1e-4 at 2000 up to a/b = 2, 2e-3 at
a/b = 4; the corner force 6e-5 and 9e-4 of itself. The whole is the pressure times the area by construction;
the corner force so found is held against 2 D (1 - nu) w,xy in the tests.

[TW] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, articles 21 and 31: edge
    reaction and corner force; the strip is our own derivation.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.glass.plate.almanac.edges import shares
from panewright.glass.plate.basis import Array, both_bases, half_gauss, legendre, top_order
from panewright.glass.plate.bending import Plate, area_m2
from panewright.glass.plate.faces import Faces, Tables, tables
from panewright.glass.plate.path import FINEST, WIDEST, functions, load_path, scale, walked_path
from panewright.units import MM

_GRID = np.sin(np.linspace(0, np.pi / 2, 65))  # thickens towards the corner, where the push peaks
_SMALL = 1e-3  # Q at which the pane is still a thin plate: shares at no load


@dataclass(frozen=True, slots=True)
class EdgeReaction:
    """Push of a pane on its edges; each table runs from the middle of a side to its corner."""

    long_at_mm: tuple[float, ...]  #: from the middle of the long side
    long_n_per_mm: tuple[float, ...]
    short_at_mm: tuple[float, ...]
    short_n_per_mm: tuple[float, ...]
    long_n: float  #: whole push of one long side, corner forces not counted
    short_n: float
    corner_n: float  #: force that holds each corner down
    known: bool  #: whether the pressure is inside the plate's range; else shares are those of its end

    @property
    def peak_n_per_mm(self) -> float:
        """Largest push anywhere. [N/mm]"""
        return max(*self.long_n_per_mm, *self.short_n_per_mm)

    @property
    def total_n(self) -> float:
        """All four sides less all four corners: the pressure times the area. [N]"""
        return 2 * self.long_n + 2 * self.short_n - 4 * self.corner_n


@lru_cache(maxsize=1024)
def edge_reaction(plate: Plate, pressure_pa: float) -> EdgeReaction:
    """Push along the edges of a pane held on four sides, under an even pressure.

    >>> from panewright.glass.plate.bending import Elastic
    >>> push = edge_reaction(Plate(1600, 1000, 3.2, Elastic(71.7e9, 0.22)), 2400)
    >>> round(push.long_n_per_mm[0], 3), round(push.peak_n_per_mm, 3)  # the trapezium says 1.2 everywhere
    (0.549, 1.654)
    >>> round(push.long_n), round(push.short_n), round(push.corner_n), round(push.total_n)
    (1303, 930, 157, 3840)
    """
    aspect = min(plate.aspect, WIDEST)
    path = load_path(aspect, plate.elastic.poisson)
    q = min(max(pressure_pa / plate.load_unit_pa, _SMALL), path.limit)
    long, short = _sides(aspect, plate.elastic.poisson, q)
    line = pressure_pa * plate.short_mm * MM * MM  # q b, N/mm
    whole = pressure_pa * area_m2(plate) / aspect
    return EdgeReaction(
        _table(_GRID * plate.long_mm / 2),
        _table(long.push * line),
        _table(_GRID * plate.short_mm / 2),
        _table(short.push * line),
        long.whole * whole,
        short.whole * whole,
        (2 * (long.whole + short.whole) - aspect) / 4 * whole,
        pressure_pa <= plate.known_pa,
    )


def _table(row: Array) -> tuple[float, ...]:
    return tuple(row.tolist())


@dataclass(frozen=True, slots=True)
class _Side:
    """One side's push over q b on the grid, and its whole over q b^2."""

    push: Array
    whole: float

    @classmethod
    def of(cls, share: Array, half: float) -> _Side:
        """Out of each function's share, along so long a half side."""
        grid, whole = _lines(len(share))
        return cls(grid @ share, float(whole @ share) * half)


def _sides(aspect: float, poisson: float, q: float) -> tuple[_Side, _Side]:
    """Both sides by the almanac, or by the strip law along a walked path."""
    aspect = round(aspect, 12)
    kept = shares(aspect, q / scale(poisson) ** 3)
    if kept is None:
        kept = walked_shares(walked_path(aspect, poisson, fine=True).faces(q))
    counts = functions(aspect, FINEST)
    parts = np.split(kept, np.cumsum((counts[0], *counts))[:3])
    long, short = parts[0] + poisson * parts[1], parts[2] + poisson * parts[3]
    return _Side.of(long, aspect / 2), _Side.of(short, 0.5)


def walked_shares(faces: Faces) -> Array:
    """Each function's share of the push along a side, as the almanac keeps them: long sides, short sides."""
    return np.concatenate([part for axis in (0, 1) for part in _shares(faces, axis)])


def _shares(faces: Faces, axis: int) -> tuple[Array, Array]:
    """The strip law along one side, axis 0 the long one: without Poisson's ratio, and what one of it adds."""
    strip = _strip(faces.aspect, faces.counts, axis)
    bent, turned = (part / faces.state.load for part in _moments(faces, axis))
    return strip.solved @ (strip.even - bent @ strip.bent), -(strip.solved @ (turned @ strip.bent))


@dataclass(frozen=True, slots=True, eq=False)
class _Strip:
    """What the strip law along one side asks of the functions there, whatever the load."""

    even: Array  #: each function's share of the load
    bent: Array  #: curvature of each function (columns) at the Gauss points, weighed
    solved: Array  #: from what is pushed to each function's share


@lru_cache(maxsize=16)
def _lines(count: int) -> tuple[Array, Array]:
    """So many functions on the grid, and their integrals along a side whose half is 1."""
    at, weight = half_gauss(2 * count)
    (grid, _, _), _ = both_bases(count, legendre(top_order(count), _GRID), 1.0)
    (value, _, _), _ = both_bases(count, legendre(top_order(count), at), 1.0)
    return grid, weight @ value


@lru_cache(maxsize=16)
def _strip(aspect: float, counts: tuple[int, int], axis: int) -> _Strip:
    """Kept, for pressures and thicknesses share it."""
    count, half = counts[axis], (aspect / 2, 0.5)[axis]
    across = (1.0, aspect)[axis]
    at, weight = half_gauss(_points(counts))
    (value, _, curvature), _ = both_bases(count, legendre(top_order(count), at), half)
    weight = weight * half
    return _Strip(
        even=across / 2 * (weight @ value),
        bent=weight[:, None] * curvature / 2,
        solved=np.asarray(np.linalg.inv((value.T * weight) @ value), np.float64),
    )


def _points(counts: tuple[int, int]) -> int:
    """Enough for products of two deflections and a stress function to be exact."""
    return (3 * max(counts) + 5) // 2


@lru_cache(maxsize=16)
def _gauss_tables(aspect: float, counts: tuple[int, int]) -> Tables:
    at, _ = half_gauss(_points(counts))
    return tables(aspect, counts, at, at)


def _moments(faces: Faces, axis: int) -> tuple[Array, Array]:
    """Moment of the whole pane at sections along one side: D = 1, load as in the scaled equations.

    Without Poisson's ratio, and what one of it adds.
    """
    _, weight = half_gauss(_points(faces.counts))
    table, w = _gauss_tables(faces.aspect, faces.counts), faces.state.w.reshape(faces.counts)
    along_x = table.x[2] @ w @ table.y[0].T
    along_y = table.x[0] @ w @ table.y[2].T
    stress = table.gx[0] @ faces.state.f.reshape(faces.counts) @ table.gy[0].T
    if axis == 0:
        return (along_x - stress * along_y) @ weight / 2, along_y @ weight / 2
    half = faces.aspect / 2
    return weight @ (along_y - stress * along_x) * half, weight @ along_x * half
