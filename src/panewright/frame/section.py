"""Section of a rail from the rectangles it is made of, with sharp corners.

The heel, where seat and upright meet outside, is the origin; x runs along the seat, under the pane, y along
the upright. All integrals over rectangles are exact. Rounded inner corners of real extrusions change the
area and the moments by less than one part in a hundred.

    upright
    | |          an angle: seat along x, upright along y
    | |_______
    |_________|  seat

An angle loaded along y also moves along x: free to do so it bends about its weak principal axis and sags with
I = Ix - Ixy^2 / Iy; held sideways it sags with Ix. The truth lies between.

[R] W. Young, R. Budynas, Roark's Formulas for Stress and Strain, chapters 8 and 10: unsymmetrical bending,
    torsion of thin open walls (sum of b t^3 / 3) and of one closed cell (Bredt).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from panewright.frame.aluminium import alloy
from panewright.frame.rail import Rail

Box = tuple[float, float, float, float, float]  # x0, y0, x1, y1, +1 for metal or -1 for a hole


@dataclass(frozen=True, slots=True)
class Section:
    """Exact properties of a rail's section, about its own centroid."""

    area_mm2: float
    x_mm: float  #: centroid from the heel, along the seat
    y_mm: float  #: centroid from the heel, along the upright
    ix_mm4: float  #: resists load across the pane
    iy_mm4: float
    ixy_mm4: float
    imax_mm4: float
    imin_mm4: float
    principal_deg: float  #: from x to the axis of the largest moment
    j_mm4: float
    mass_kg_m: float
    corners_mm: tuple[tuple[float, float], ...]  #: extreme fibres, from the centroid

    @property
    def free_ix_mm4(self) -> float:
        """Moment that resists load across the pane while the rail may move sideways. [mm4]"""
        return self.ix_mm4 - self.ixy_mm4**2 / self.iy_mm4

    @property
    def sx_mm3(self) -> float:
        """Ix over the farther fibre along the upright. [mm3]"""
        return self.ix_mm4 / max(abs(y) for _, y in self.corners_mm)

    @property
    def sy_mm3(self) -> float:
        """Iy over the farther fibre along the seat. [mm3]"""
        return self.iy_mm4 / max(abs(x) for x, _ in self.corners_mm)

    @property
    def radius_min_mm(self) -> float:
        """Least radius of gyration. [mm]"""
        return math.sqrt(self.imin_mm4 / self.area_mm2)

    @property
    def free_sx_mm3(self) -> float:
        """Moment across the pane over the largest stress it makes in a rail free to move sideways. [mm3]"""
        whole = self.ix_mm4 * self.iy_mm4 - self.ixy_mm4**2
        worst = max(abs(self.iy_mm4 * y - self.ixy_mm4 * x) for x, y in self.corners_mm)
        return whole / worst


@lru_cache(maxsize=512)
def section(rail: Rail) -> Section:
    """Properties of a rail's section.

    >>> from panewright.frame.rail import Rail
    >>> round(section(Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 3000)).ix_mm4, 1)
    32368.2
    """
    boxes = _boxes(rail)
    area = sum(_area(box) for box in boxes)
    x = sum(_area(box) * (box[0] + box[2]) / 2 for box in boxes) / area
    y = sum(_area(box) * (box[1] + box[3]) / 2 for box in boxes) / area
    ix = sum(box[4] * (box[2] - box[0]) * ((box[3] - y) ** 3 - (box[1] - y) ** 3) / 3 for box in boxes)
    iy = sum(box[4] * (box[3] - box[1]) * ((box[2] - x) ** 3 - (box[0] - x) ** 3) / 3 for box in boxes)
    ixy = sum(_area(box) * ((box[0] + box[2]) / 2 - x) * ((box[1] + box[3]) / 2 - y) for box in boxes)
    middle, radius = (ix + iy) / 2, math.hypot((ix - iy) / 2, ixy)
    return Section(
        area_mm2=area,
        x_mm=x,
        y_mm=y,
        ix_mm4=ix,
        iy_mm4=iy,
        ixy_mm4=ixy,
        imax_mm4=middle + radius,
        imin_mm4=middle - radius,
        principal_deg=math.degrees(0.5 * math.atan2(-2 * ixy, ix - iy)),
        j_mm4=_torsion(rail),
        mass_kg_m=area * 1e-6 * alloy(rail.alloy).density_kg_m3,
        corners_mm=tuple((cx - x, cy - y) for cx, cy in _corners(rail)),
    )


def _area(box: Box) -> float:
    return box[4] * (box[2] - box[0]) * (box[3] - box[1])


def _boxes(rail: Rail) -> tuple[Box, ...]:
    b, h, t = rail.seat_mm, rail.upright_mm, rail.wall_mm
    if rail.profile == "tube":
        return (0.0, 0.0, b, h, 1.0), (t, t, b - t, h - t, -1.0)
    seat, upright = (t, 0.0, b, t, 1.0), (0.0, 0.0, t, h, 1.0)
    if rail.profile == "angle":
        return seat, upright
    return seat, upright, (t, h - t, b, h, 1.0)


def _corners(rail: Rail) -> tuple[tuple[float, float], ...]:
    b, h, t = rail.seat_mm, rail.upright_mm, rail.wall_mm
    if rail.profile == "angle":
        return (0, 0), (b, 0), (b, t), (t, h), (0, h)
    return (0, 0), (b, 0), (b, h), (0, h)


def _torsion(rail: Rail) -> float:
    """J. [mm4]  [R]"""
    b, h, t = rail.seat_mm, rail.upright_mm, rail.wall_mm
    if rail.profile == "angle":
        return (h + b - t) * t**3 / 3
    if rail.profile == "channel":
        return (h + 2 * (b - t)) * t**3 / 3
    return 2 * t * (b - t) ** 2 * (h - t) ** 2 / (b + h - 2 * t)
