"""Section of a rail from its outline, with sharp corners.

The heel, where seat and upright meet outside, is the origin; x runs along the seat, under the pane, y along
the upright. All integrals over the outline are exact. Rounded inner corners of real extrusions change the
area and the moments by less than one part in a hundred; who wants them draws them.

    upright
    | |          an angle: seat along x, upright along y
    | |_______
    |_________|  seat

An angle loaded along y also moves along x: free to do so it bends about its weak principal axis and sags with
I = Ix - Ixy^2 / Iy; held sideways it sags with Ix. The truth lies between.

Load through the shear centre bends and does not twist. An angle's lies by the crossing of its legs' middle
lines, a channel's outside, behind its web. Torsion: `frame/shape/twist.py` for walls of one thickness,
`frame/shape/torsion.py` for drawn ones and for stout ones.

[R] W. Young, R. Budynas, Roark's Formulas for Stress and Strain, chapter 8: unsymmetrical bending.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from panewright.frame.metals.aluminium import alloy
from panewright.frame.rail import Rail
from panewright.frame.shape.outline import Moments, moments
from panewright.frame.shape.profile import outlines
from panewright.frame.shape.torsion import Torsion, torsion
from panewright.frame.shape.twist import Twist, slender, twist


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
    shear_x_mm: float  #: shear centre from the heel, along the seat
    shear_y_mm: float  #: shear centre from the heel, along the upright
    warping_mm6: float  #: warping constant about the shear centre
    torsion_mm3: float  #: torque over the largest shear stress at a face, sharp inner corners left out

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
    >>> angle = section(Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 3000))
    >>> round(angle.ix_mm4, 1), round(angle.shear_x_mm, 2)
    (32368.2, 1.67)
    """
    lines = outlines(rail)
    shape = moments(lines)
    twisted = _twisted(rail, shape)
    middle = (shape.ix_mm4 + shape.iy_mm4) / 2
    radius = math.hypot((shape.ix_mm4 - shape.iy_mm4) / 2, shape.ixy_mm4)
    return Section(
        area_mm2=shape.area_mm2,
        x_mm=shape.x_mm,
        y_mm=shape.y_mm,
        ix_mm4=shape.ix_mm4,
        iy_mm4=shape.iy_mm4,
        ixy_mm4=shape.ixy_mm4,
        imax_mm4=middle + radius,
        imin_mm4=middle - radius,
        principal_deg=math.degrees(0.5 * math.atan2(-2 * shape.ixy_mm4, shape.ix_mm4 - shape.iy_mm4)),
        j_mm4=twisted.j_mm4,
        mass_kg_m=shape.area_mm2 * 1e-6 * alloy(rail.alloy).density_kg_m3,
        corners_mm=tuple((x - shape.x_mm, y - shape.y_mm) for x, y in lines[0]),
        shear_x_mm=twisted.x_mm,
        shear_y_mm=twisted.y_mm,
        warping_mm6=twisted.warping_mm6,
        torsion_mm3=twisted.modulus_mm3,
    )


def _twisted(rail: Rail, shape: Moments) -> Twist | Torsion:
    return twist(rail, shape) if slender(rail) else torsion(outlines(rail))
