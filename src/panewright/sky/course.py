"""The sun over a place at many moments at once.

Position: I. Reda, A. Andreas, Solar Energy 76, 2004, p. 577. Light outside the air: J. W. Spencer, Search 2,
1971, p. 172, and 1366.1 W/m2. Air mass: F. Kasten, A. T. Young, Appl. Opt. 28, 1989, p. 4735, held at what it
is 87 degrees from straight up, for the rows of Perez's table know no thicker air. All as pvlib has them.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.sky.hours import Floats, Moments
from panewright.sky.place import Place, Plane

_REFRACTION_DEG = 0.5667  # at the horizon, the usual figure
_AIR_C = 12.0  # bends the rays a little; hardly matters
_LOWEST_ZENITH_DEG = 87.0


@dataclass(frozen=True)
class Course:
    """Where the sun stands, moment by moment; over 90 degrees from straight up it is night."""

    zenith_deg: Floats  #: from straight up, as seen, bent by the air
    azimuth_deg: Floats  #: from north over east
    outside_w_m2: Floats  #: on a plane that faces it, outside the air
    air_mass: Floats  #: relative: 1 straight up

    @property
    def upright(self) -> Floats:
        """Cosine of the zenith's angle: of light straight from the sun, the share on level ground."""
        return np.asarray(np.maximum(np.cos(np.radians(self.zenith_deg)), 0.0))

    @property
    def up(self) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
        """Whether the sun is over the horizon."""
        return np.asarray(self.zenith_deg < 90)

    def incidence_deg(self, plane: Plane) -> Floats:
        """Between the sun's rays and the panel's normal; over 90 the sun is behind it."""
        share = np.clip(self.projection(plane), -1, 1)
        return np.asarray(np.degrees(np.arccos(share)))

    def projection(self, plane: Plane) -> Floats:
        """Cosine of the incidence; below zero the sun is behind the panel."""
        zenith, tilt = np.radians(self.zenith_deg), np.radians(plane.tilt_deg)
        aside = np.cos(np.radians(self.azimuth_deg - plane.azimuth_deg))
        return np.asarray(np.cos(zenith) * np.cos(tilt) + np.sin(zenith) * np.sin(tilt) * aside)


def course_over(place: Place, moments: Moments) -> Course:
    """The sun's course over a place; moments in UTC."""
    seconds = moments.astype("datetime64[s]")
    return _course(place, seconds.tobytes())


@lru_cache(maxsize=16)
def _course(place: Place, moments: bytes) -> Course:
    """Kept, for one year is asked for many planes."""
    when = np.frombuffer(moments, "datetime64[s]")
    zenith, azimuth = _positions(place, when)
    days = (when.astype("datetime64[D]") - when.astype("datetime64[Y]")).astype(np.int64) + 1
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        from pvlib.atmosphere import get_relative_airmass
        from pvlib.irradiance import get_extra_radiation
    mass = get_relative_airmass(np.minimum(zenith, _LOWEST_ZENITH_DEG))
    parts = (zenith, azimuth, np.asarray(get_extra_radiation(days), float), np.asarray(mass, float))
    for part in parts:
        part.flags.writeable = False
    return Course(*parts)


def _positions(place: Place, when: Moments) -> tuple[Floats, Floats]:
    """Zenith as seen, and azimuth. [deg]"""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from pvlib import spa
        from pvlib.atmosphere import alt2pres
    middle = when[len(when) // 2].item()
    found = spa.solar_position_numpy(
        when.astype(np.int64).astype(float),
        place.latitude_deg,
        place.longitude_deg,
        place.altitude_m,
        float(alt2pres(place.altitude_m)) / 100,
        _AIR_C,
        spa.calculate_deltat(middle.year, middle.month),
        _REFRACTION_DEG,
        1,
    )
    return np.array(found[0]), np.array(found[4])
