"""Light on a tilted panel, hour by hour, in parts that a shadow takes one by one.

    beam    straight from the sun                                 goes with the sun
    halo    of the sky's light, what comes from around the sun    goes with the sun
    dome    of the sky's light, what comes evenly from all of it  goes with the share of the sky seen
    rim     of the sky's light, what the horizon has more or less a band at the horizon; Perez alone has it
    ground  thrown back by the ground                             goes with the albedo

[I]  Isotropic: B. Liu, R. Jordan, Solar Energy 4, 1960, p. 1. Too dull on every panel that faces the sun.
[HD] J. Hay, J. Davies, First Canadian Solar Radiation Data Workshop, 1980, p. 59.
[P]  R. Perez and others, Solar Energy 44, 1990, p. 271; coefficients of all sites.

Hay-Davies is taken unasked. It has a halo, without which a year on a tilted plane comes out 2 to 3 % short.
It needs no table that was fitted elsewhere. None of its parts goes below zero, as Perez's rim does, which no
shadow can take a share of. It lies between the other two. All as pvlib has them.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import Literal

import numpy as np

from panewright.sky.course import Course
from panewright.sky.hours import Floats, Light
from panewright.sky.place import Plane

Way = Literal["isotropic", "Hay-Davies", "Perez"]


@dataclass(frozen=True)
class Parts:
    """Light on a panel by the hour, part by part. [W/m2]"""

    beam_w_m2: Floats
    halo_w_m2: Floats
    dome_w_m2: Floats
    rim_w_m2: Floats
    ground_w_m2: Floats

    @property
    def sky_w_m2(self) -> Floats:
        """All of the sky's light."""
        return self.halo_w_m2 + self.dome_w_m2 + self.rim_w_m2

    @property
    def whole_w_m2(self) -> Floats:
        """All light on the panel."""
        return self.beam_w_m2 + self.sky_w_m2 + self.ground_w_m2


def on_plane(light: Light, course: Course, plane: Plane, way: Way = "Hay-Davies") -> Parts:
    """Light on a panel; arrays of several years may stand above each other.

    >>> noon = Course(np.array([30.0]), np.array([180.0]), np.array([1380.0]), np.array([1.154]))
    >>> light = Light(np.array([850.0]), np.array([800.0]), np.array([157.2]))
    >>> on_plane(light, noon, Plane(40, 180)).whole_w_m2.round(2)
    array([969.7])
    """
    beam = light.direct_w_m2 * np.maximum(course.projection(plane), 0.0)
    halo, dome, rim = _of_sky(light, course, plane, way)
    albedo = plane.albedo if light.albedo is None else light.albedo
    ground = light.level_w_m2 * albedo * (1 - np.cos(np.radians(plane.tilt_deg))) / 2
    return Parts(beam, halo, dome, rim, ground)


def _of_sky(light: Light, course: Course, plane: Plane, way: Way) -> tuple[Floats, Floats, Floats]:
    """Halo, dome and rim."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        from pvlib import irradiance
    tilt, turned, diffuse = plane.tilt_deg, plane.azimuth_deg, light.diffuse_w_m2
    none = np.zeros(np.broadcast_shapes(diffuse.shape, course.zenith_deg.shape))
    if way == "isotropic":
        return none, np.asarray(irradiance.isotropic(tilt, diffuse)) + none, none
    given = (tilt, turned, diffuse, light.direct_w_m2, course.outside_w_m2)
    sun = (course.zenith_deg, course.azimuth_deg)
    if way == "Hay-Davies":
        found = irradiance.haydavies(*given, *sun, return_components=True)
        return np.asarray(found["poa_circumsolar"]), np.asarray(found["poa_isotropic"]), none
    found = irradiance.perez(*given, *sun, course.air_mass, return_components=True)
    names = ("poa_circumsolar", "poa_isotropic", "poa_horizon")
    halo, dome, rim = (np.nan_to_num(np.asarray(found[name])) for name in names)
    return halo, dome, rim
