"""How a section of any shape twists: torsion constant, shear centre, shear stress, warping constant.

A twisted rail is sheared, and the shear of a unit twist can be had in two ways [S]:

    from a stress function   phi_xx + phi_yy = -2, nothing outside, one number on the rim of every hole such
                             that the shear round it closes;     shear (phi_y, -phi_x)
    from the warping         w_xx + w_yy = 0, no force on any rim;      shear (w_x - y, w_y + x)

Both are solved on triangles, each a parabola on every one of them. The first makes the rail too soft, the
second too stiff: J lies between. How far they differ on each triangle is known exactly [H]; the worst ones
are halved until J is caught between bounds two parts in ten thousand apart. No wall needs to be thin. Then
the faces that are sheared most are cut once more, and the shear stress is good to about 0.3 %.

The shear centre is the point about which the warping bears no bending [T]: it does not depend on Poisson's
ratio. (The definition by Timoshenko does, by little in thin walls.) J and shear centre of a drawn shape are
as good as the drawing: fillets count.

A sharp inner corner has no largest stress: in theory it is without end, in truth the fillet and a little
yielding end it. So on the two faces that meet there, stress is told from one thickness of the wall on.

[S] A. de Saint-Venant's torsion; L. Prandtl's stress function; R. Bredt's closed cells (textbooks, recalled).
[H] W. Prager, J. Synge: the energy of the difference is the difference of the bounds (recalled, derived
    anew).
[T] E. Trefftz, ZAMM 15, 1935 (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.frame.shape.mesh import Line, Mesh
from panewright.frame.shape.outline import Moments, Outline, Point, area_mm2, edges, moments, side

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

BOUNDS_APART = 2e-4  #: of J, where halving stops
_MOST_TRIANGLES = 20_000
_WORST_SHARE = 0.7  # of the difference of the bounds that the halved triangles hold
_SHARP_DEG = 30.0  # an inner corner that turns more than this is sharp, less is a step of a drawn fillet

# On a triangle with corners 0, 1, 2: a parabola by its values at 0, 1, 2 and at the middles of 12, 20, 01.
_MASS = np.array(
    [
        [6, -1, -1, -4, 0, 0],
        [-1, 6, -1, 0, -4, 0],
        [-1, -1, 6, 0, 0, -4],
        [-4, 0, 0, 32, 16, 16],
        [0, -4, 0, 16, 32, 16],
        [0, 0, -4, 16, 16, 32],
    ]
)
_MASS = _MASS / 180.0  # integrals of products of two of them, over a triangle of area 1
_MIDDLES = np.array(
    [[0, 0.5, 0.5], [0.5, 0, 0.5], [0.5, 0.5, 0]]
)  # points at which squares are summed exactly
_ALONG = np.array([0.5 - math.sqrt(1 / 12), 0.5 + math.sqrt(1 / 12)])  # where slopes are best (Gauss)
_ON_EDGES = tuple(
    (a, b, np.outer(_ALONG, np.eye(3)[a]) + np.outer(1 - _ALONG, np.eye(3)[b]))
    for a, b in ((0, 1), (1, 2), (2, 0))
)


@dataclass(frozen=True, slots=True)
class Torsion:
    """How a section twists."""

    j_mm4: float
    j_low_mm4: float  #: the bounds that J was caught between
    j_high_mm4: float
    x_mm: float  #: shear centre, in the outline's own axes
    y_mm: float
    warping_mm6: float  #: about the shear centre
    modulus_mm3: float  #: torque over the largest shear stress at a face
    triangles: int


@lru_cache(maxsize=64)
def torsion(outlines: tuple[Outline, ...], apart: float = BOUNDS_APART) -> Torsion:
    """Torsion of the metal between outlines, J known to half of `apart`.

    >>> square = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    >>> round(torsion((square,)).j_mm4 / 16, 4)
    0.1406
    """
    shape = moments(outlines)
    mesh = Mesh(outlines)
    twist = _Twisted(mesh, shape, outlines)
    while twist.high - twist.low > apart * twist.high and len(mesh.triangles) < _MOST_TRIANGLES:
        mesh.halve(_worst(list(mesh.triangles), twist.difference()))
        twist = _Twisted(mesh, shape, outlines)
    mesh.split(twist.strained())
    twist = _Twisted(mesh, shape, outlines)
    j, (x, y, constant) = (twist.low + twist.high) / 2, twist.pole()
    peak = max(twist.faces().values())
    return Torsion(j, twist.low, twist.high, x, y, constant, j / peak, len(mesh.triangles))


class _Twisted:
    """One mesh solved both ways."""

    def __init__(self, mesh: Mesh, shape: Moments, outlines: Sequence[Outline]) -> None:
        self.shape, self.outlines = shape, outlines
        self.parts = parts = _Parts(mesh, shape, len(outlines))
        self.stress, self.warping = parts.stress_function(outlines), parts.warping()
        self.low = float(parts.energy(parts.flow(self.stress)).sum())
        self.high = float(parts.energy(parts.shear(self.warping)).sum())

    def difference(self) -> Array:
        """What each triangle adds to the distance of the bounds. [mm4]"""
        return self.parts.energy(self.parts.flow(self.stress) - self.parts.shear(self.warping))

    def pole(self) -> tuple[float, float, float]:
        """Shear centre [mm] in the outline's axes and the warping constant about it. [mm6]  [T]

        w - py x + px y must bear no bending: its integrals with x and with y are nothing.
        """
        parts, shape, w = self.parts, self.shape, self.warping
        x, y = parts.linear(0), parts.linear(1)
        left = np.array([[shape.ixy_mm4, -shape.iy_mm4], [shape.ix_mm4, -shape.ixy_mm4]])
        right = [-parts.product(x, w), -parts.product(y, w)]
        px, py = (float(value) for value in np.linalg.solve(left, right))
        about = w - py * x + px * y
        return shape.x_mm + px, shape.y_mm + py, parts.product(about, about)

    def strained(self) -> list[Line]:
        """Edges on a rim whose shear is near to the largest."""
        faces = self.faces()
        return [line for line, shear in faces.items() if shear > 0.9 * max(faces.values())]

    def faces(self) -> dict[Line, float]:
        """Largest shear of a unit twist along every edge on a rim, sharp inner corners left out. [mm]

        At two points of it, the mean of both ways to the shear.
        """
        rim = set(self.parts.rim)
        found: dict[Line, float] = {}
        for a, b, share in _ON_EDGES:
            shear = (self.parts.flow(self.stress, share) + self.parts.shear(self.warping, share)) / 2
            size = np.where(self._told(share), np.hypot(shear[..., 0], shear[..., 1]), 0.0).max(axis=1)
            ends = np.sort(self.parts.corners[:, [a, b]], axis=1).tolist()
            found |= {(p, q): float(each) for (p, q), each in zip(ends, size, strict=True) if (p, q) in rim}
        return found

    def _told(self, share: Array) -> NDArray[np.bool_]:
        """Whether a point is far enough from sharp inner corners for its stress to be told."""
        place = self.parts.places(share)
        told = np.ones(place.shape[:2], dtype=bool)
        for corner, near in _sharp(self.outlines):
            away = place - np.subtract(corner, (self.shape.x_mm, self.shape.y_mm))
            told &= np.hypot(away[..., 0], away[..., 1]) >= near * (1 - 1e-9)
        return told


class _Parts:
    """The triangles of one mesh as arrays (triangles, ...), coordinates from the centroid."""

    def __init__(self, mesh: Mesh, shape: Moments, outlines: int) -> None:
        self.xy = np.array(mesh.points) - (shape.x_mm, shape.y_mm)
        corners = np.array(list(mesh.triangles.values()))
        self.corners = corners
        x, y = self.xy[corners].transpose(2, 0, 1)
        ahead, behind = np.roll(np.arange(3), -1), np.roll(np.arange(3), 1)
        steep = np.stack([y[:, ahead] - y[:, behind], x[:, behind] - x[:, ahead]], axis=-1)
        self.area = 0.5 * (steep[:, 0, 0] * steep[:, 1, 1] - steep[:, 0, 1] * steep[:, 1, 0])
        self.steep = steep / (2 * self.area[:, None, None])  # slopes of the three corner shares
        self.nodes, self.middles = _numbered(corners, len(mesh.points))
        self.count = int(self.nodes.max()) + 1
        self.rim = mesh.rim()
        self.free = self._free(mesh, outlines)

    def _free(self, mesh: Mesh, outlines: int) -> Whole:
        """Unknown of every node: each rim of a hole is one, the outer rim none (-1)."""
        loop = np.zeros(self.count, dtype=np.int64) - 1
        for a, b in self.rim:
            for node in (a, b, self.middles[a, b]):
                loop[node] = mesh.loop[a]
        free = np.where(loop < 0, 0, -1)
        inner = int(np.sum(loop < 0))
        free[loop < 0] = np.arange(inner)
        free[loop > 0] = inner + loop[loop > 0] - 1
        self.unknowns = inner + outlines - 1
        return free

    def slopes_of_shapes(self, share: Array) -> Array:
        """Slopes of the six parabolas at points given by their three shares: (triangles, points, 6, 2)."""
        own = (4 * share - 1)[None, :, :, None] * self.steep[:, None, :, :]
        pairs = ((1, 2), (2, 0), (0, 1))
        mixed = [
            4 * (share[:, j, None] * self.steep[:, None, k] + share[:, k, None] * self.steep[:, None, j])
            for j, k in pairs
        ]
        return np.concatenate([own, np.stack(mixed, axis=2)], axis=2)

    def slopes(self, values: Array, share: Array = _MIDDLES) -> Array:
        """Slopes of a function: (triangles, points, 2)."""
        return np.asarray(np.einsum("tpnd,tn->tpd", self.slopes_of_shapes(share), values[self.nodes]))

    def stiffness(self) -> Array:
        """Integral of slope times slope: (triangles, 6, 6)."""
        slopes = self.slopes_of_shapes(_MIDDLES)
        return np.asarray(np.einsum("tpnd,tpmd,t->tnm", slopes, slopes, self.area / 3))

    def places(self, share: Array = _MIDDLES) -> Array:
        """Points by their shares: (triangles, points, 2)."""
        return np.asarray(np.einsum("pc,tcd->tpd", share, self.xy[self.corners]))

    def stress_function(self, outlines: Sequence[Outline]) -> Array:
        """phi of every node. [mm2]"""
        load = np.zeros(self.unknowns + 1)
        middle = self.free[self.nodes[:, 3:]]
        np.add.at(load, middle, np.broadcast_to((2 * self.area / 3)[:, None], middle.shape))
        for number, hole in enumerate(outlines[1:], self.unknowns - len(outlines) + 1):
            load[number] += 2 * abs(area_mm2(hole))
        solved = self._solved(self.free[self.nodes], load[:-1])
        return np.asarray(np.append(solved, 0.0)[self.free])

    def warping(self) -> Array:
        """w of every node for a twist about the centroid, its mean nothing. [mm2]"""
        place = self.places()
        push = np.stack([place[..., 1], -place[..., 0]], axis=-1)
        each = np.einsum("tpnd,tpd,t->tn", self.slopes_of_shapes(_MIDDLES), push, self.area / 3)
        load = np.zeros(self.count)
        np.add.at(load, self.nodes, each)
        w = np.append(self._solved(self.nodes - 1, load[1:]), 0.0)[np.arange(self.count) - 1]
        return np.asarray(w - self.product(w, np.ones(self.count)) / self.area.sum())

    def _solved(self, unknown: Whole, load: Array) -> Array:
        """Unknowns from their load; -1 is no unknown, its value nothing."""
        from scipy.sparse import csc_array
        from scipy.sparse.linalg import spsolve

        rows = np.repeat(unknown[:, :, None], 6, axis=2)
        columns = rows.transpose(0, 2, 1)
        kept = (rows >= 0) & (columns >= 0)
        whole = csc_array((self.stiffness()[kept], (rows[kept], columns[kept])), shape=(load.size, load.size))
        return np.asarray(spsolve(whole, load, permc_spec="MMD_AT_PLUS_A"))

    def product(self, first: Array, second: Array) -> float:
        """Integral of the product of two functions over the metal."""
        return float(np.einsum("tn,nm,tm,t->", first[self.nodes], _MASS, second[self.nodes], self.area))

    def linear(self, axis: int) -> Array:
        """x or y of every node. [mm]"""
        values = np.empty(self.count)
        values[self.corners] = self.xy[self.corners][..., axis]
        values[self.nodes[:, 3:]] = self.places()[..., axis]
        return values

    def shear(self, warping: Array, share: Array = _MIDDLES) -> Array:
        """Shear of a unit twist by the warping: (triangles, points, 2). [mm]"""
        place, slope = self.places(share), self.slopes(warping, share)
        return np.stack([slope[..., 0] - place[..., 1], slope[..., 1] + place[..., 0]], axis=-1)

    def flow(self, stress: Array, share: Array = _MIDDLES) -> Array:
        """The same by the stress function. [mm]"""
        slope = self.slopes(stress, share)
        return np.stack([slope[..., 1], -slope[..., 0]], axis=-1)

    def energy(self, shear: Array) -> Array:
        """Integral of shear squared over each triangle. [mm4]"""
        return np.asarray((shear**2).sum(axis=(1, 2)) * self.area / 3)


def _numbered(corners: Whole, points: int) -> tuple[Whole, dict[Line, int]]:
    """Six nodes of every triangle, and the node in the middle of every edge."""
    ends = np.sort(corners[:, [[1, 2], [2, 0], [0, 1]]], axis=2).reshape(-1, 2)
    lines, which = np.unique(ends, axis=0, return_inverse=True)
    nodes = np.hstack([corners, points + which.reshape(-1, 3)])
    return nodes, {(int(a), int(b)): points + number for number, (a, b) in enumerate(lines)}


def _worst(numbers: list[int], difference: Array) -> list[int]:
    """The fewest triangles that hold most of the difference."""
    order = np.argsort(difference, kind="stable")[::-1]
    held = np.cumsum(difference[order])
    count = int(np.searchsorted(held, _WORST_SHARE * held[-1])) + 1
    return [numbers[at] for at in order[:count]]


def _sharp(outlines: Sequence[Outline]) -> list[tuple[Point, float]]:
    """Sharp inner corners, each with the thickness of the wall there: the way to the nearest edge beyond."""
    lines = [line for outline in outlines for line in edges(outline)]
    found = []
    for outline in outlines:
        for before, here, after in zip(
            (*outline[-1:], *outline[:-1]), outline, (*outline[1:], outline[0]), strict=True
        ):
            if _turn_deg(before, here, after) < -_SHARP_DEG:
                found.append((here, min(_distance(here, line) for line in lines if here not in line)))
    return found


def _turn_deg(before: Point, here: Point, after: Point) -> float:
    """How much a line turns to the left in a corner. [deg]"""
    ahead = (here[0] - before[0]) * (after[0] - here[0]) + (here[1] - before[1]) * (after[1] - here[1])
    return math.degrees(math.atan2(side(before, here, after), ahead))


def _distance(point: Point, line: tuple[Point, Point]) -> float:
    """From a point to the nearest place of an edge. [mm]"""
    (ax, ay), (bx, by) = line
    long = math.dist(*line)
    share = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / long**2
    share = min(1.0, max(0.0, share))
    return math.dist(point, (ax + share * (bx - ax), ay + share * (by - ay)))
