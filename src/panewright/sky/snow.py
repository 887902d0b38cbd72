"""How much of a panel lies under snow, hour by hour, from its lower edge up.

B. Marion, R. Schaefer, H. Caine, G. Sanchez, Solar Energy 97, 2013, p. 112, as pvlib has it: a fall of 1 cm
in an hour or more covers all of it; in an hour with air over -G / 80 degC it slides by 0.197 sin(tilt) of the
panel's length; with less than 1 cm on the ground nothing is left. A fall is what the depth on the ground
gains.
"""

from __future__ import annotations

import warnings
from dataclasses import replace

import numpy as np

from panewright.sky.hours import Floats, Hours, Light
from panewright.sky.place import Plane

_CM = 10.0  # millimetres


SNOWY_ALBEDO = 0.7  #: of fresh snow: B. Liu, R. Jordan, ASHRAE Journal, July 1963, p. 54 (recalled)


def with_snowy_ground(hours: Hours, bare: float) -> Light:
    """The light with what the ground throws back where no file tells it: more under a centimetre of snow."""
    if hours.albedo is not None or hours.snow_mm is None:
        return hours.light
    albedo = np.where(hours.snow_mm >= _CM, SNOWY_ALBEDO, bare)
    return replace(hours.light, albedo=albedo)


def snow_cover(hours: Hours, plane: Plane, plane_w_m2: Floats) -> Floats:
    """Share of the panel's length that is covered; none where the weather tells no snow."""
    if hours.snow_mm is None or not hours.snow_mm.any():
        return np.zeros_like(hours.level_w_m2)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        import pandas
        from pvlib.snow import coverage_nrel

        when = pandas.DatetimeIndex(hours.middles).tz_localize("UTC")
        depth = hours.snow_mm / _CM
        fallen = np.maximum(np.diff(depth, prepend=depth[-1]), 0.0)
        light, air, fall, lies = (
            pandas.Series(each, when) for each in (plane_w_m2, hours.air_c, fallen, depth)
        )
        found = coverage_nrel(fall, light, air, plane.tilt_deg, snow_depth=lies)
    return np.asarray(found, float)
