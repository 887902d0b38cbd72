"""What comes through a panel's face when light falls slantwise, against light that falls straight on.

[physical] Fresnel and Bouguer for a plain glass, n 1.526, 4 /m, 2 mm: W. De Soto and others, Solar Energy 80,
           2006, p. 78. Taken unasked: it has no figure that somebody has to fit.
[ashrae]   1 - b0 (1 / cos - 1), b0 0.05: A. Souka, H. Safwat, Solar Energy 10, 1966, p. 170.

Light from the dome, the horizon and the ground by the mean over its angles: B. Marion, Solar Energy 147,
2017, p. 344. All as pvlib has them.
"""

from __future__ import annotations

import warnings
from functools import lru_cache
from typing import Literal

import numpy as np

from panewright.sky.course import Course
from panewright.sky.hours import Floats
from panewright.sky.place import Plane
from panewright.sky.tilted import Parts

Face = Literal["physical", "ashrae"]


def through(parts: Parts, course: Course, plane: Plane, face: Face = "physical") -> Parts:
    """Each part as light that falls straight on. [W/m2]"""
    slant = straight_share(course.incidence_deg(plane), face)
    dome, rim, ground = _spread(plane.tilt_deg, face)
    return Parts(
        parts.beam_w_m2 * slant,
        parts.halo_w_m2 * slant,
        parts.dome_w_m2 * dome,
        parts.rim_w_m2 * rim,
        parts.ground_w_m2 * ground,
    )


def straight_share(incidence_deg: Floats, face: Face = "physical") -> Floats:
    """Of light that falls in at an angle, the share that comes through; none from behind.

    >>> straight_share(np.array([0.0, 60.0, 80.0, 95.0])).round(4)
    array([1.    , 0.946 , 0.6341, 0.    ])
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        from pvlib import iam
    way = iam.physical if face == "physical" else iam.ashrae
    return np.asarray(way(np.minimum(incidence_deg, 90.0)), float)


@lru_cache(maxsize=256)
def _spread(tilt_deg: float, face: Face) -> tuple[float, float, float]:
    """For dome, rim and ground; kept, for each is a double integral."""
    from pvlib.iam import marion_diffuse

    found = marion_diffuse(face, tilt_deg)
    if tilt_deg == 0:  # a level panel sees no ground
        return float(found["sky"]), float(found["horizon"]), 1.0
    return float(found["sky"]), float(found["horizon"]), float(found["ground"])
