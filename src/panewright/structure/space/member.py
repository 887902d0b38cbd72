"""A rail as a straight member in space: what its section does about the line of its shear centre.

Axes of a rail: s along it, n inward over the seat, z up along the upright. Its nodes lie on the line of the
shear centres: a force through that line bends the rail and does not twist it. Bending goes by the whole
tensor about the centroid, so an angle pushed across the pane also moves sideways. Twist is St Venant's,
G J; warping held at a bracket or corner is left out. For an angle, whose walls meet in one line, that is
nothing. A channel is stiffer in truth, so sag and twist are told too large, and so on the safe side; but the
stress of held warping is not told.

Shear bends a short stretch too: the walls along a force bear it, 5/6 of their area (a rectangle's share).

[R] W. Young, R. Budynas, Roark's Formulas for Stress and Strain, chapters 8 to 10: unsymmetrical bending,
    shear's share of the deflection, torsion of thin walls.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from panewright.frame.metals.aluminium import POISSON
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section

Array = NDArray[np.float64]
Point = tuple[float, float]  #: inward, up [mm]

_SHEAR_SHARE = 5 / 6


@dataclass(frozen=True, slots=True)
class Member:
    """Section and metal of a rail, about its own axes."""

    young_mpa: float
    shear_mpa: float
    area_mm2: float
    ix_mm4: float  #: resists load across the pane
    iy_mm4: float  #: resists load sideways
    ixy_mm4: float
    j_mm4: float
    centroid_mm: Point  #: from the shear centre
    shear_area_mm2: Point  #: of walls that bear a force sideways, and across
    fibres_mm: tuple[Point, ...]  #: extreme fibres, from the centroid
    torsion_mm3: float  #: torque over the largest shear stress it makes

    @property
    def tensor_nmm2(self) -> Array:
        """Moments over curvatures: sideways first, then across. [N mm2]"""
        return self.young_mpa * np.array([[self.iy_mm4, self.ixy_mm4], [self.ixy_mm4, self.ix_mm4]])

    @property
    def stress_rows(self) -> Array:
        """Stress at each fibre for a unit of pull, of moment sideways, of moment across; a row each."""
        return _stress_rows(self)


@lru_cache(maxsize=512)
def _stress_rows(member: Member) -> Array:
    """Kept, for a search of places reads them off the same member again and again."""
    bend = -member.young_mpa * np.array(member.fibres_mm) @ np.linalg.inv(member.tensor_nmm2)
    return np.column_stack([np.full(len(bend), 1 / member.area_mm2), bend])


@lru_cache(maxsize=512)
def member(rail: Rail, young_mpa: float) -> Member:
    """A rail of the shelf as a member."""
    whole = section(rail)
    return Member(
        young_mpa=young_mpa,
        shear_mpa=young_mpa / (2 * (1 + POISSON)),
        area_mm2=whole.area_mm2,
        ix_mm4=whole.ix_mm4,
        iy_mm4=whole.iy_mm4,
        ixy_mm4=whole.ixy_mm4,
        j_mm4=whole.j_mm4,
        centroid_mm=(whole.x_mm - whole.shear_x_mm, whole.y_mm - whole.shear_y_mm),
        shear_area_mm2=_shear_areas_mm2(rail),
        fibres_mm=whole.corners_mm,
        torsion_mm3=whole.torsion_mm3,
    )


def _shear_areas_mm2(rail: Rail) -> Point:
    """Of the walls along the seat and along the upright."""
    flanges = 2 if rail.profile in ("channel", "tube") else 1  # a drawn rail is taken for an angle here
    webs = 2 if rail.profile == "tube" else 1
    wide, high = (side - rail.wall_mm / 2 for side in (rail.seat_mm, rail.upright_mm))
    return _SHEAR_SHARE * flanges * wide * rail.wall_mm, _SHEAR_SHARE * webs * high * rail.wall_mm
