"""Where the sun stands, and through how much air its rays come.

Position: I. Reda, A. Andreas, Solar position algorithm for solar radiation applications, Solar Energy 76,
2004, p. 577, good to 0.0003 degrees, as pvlib has it. Air mass: F. Kasten, A. T. Young, Appl. Opt. 28, 1989,
p. 4735, times the pressure over that at the sea.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from math import acos, cos, degrees, radians, sin

from panewright.errors import Problem, SkyError
from panewright.sky.place import Air, Place, Plane

SEA_PA = 101325.0
LOWEST_DEG = 5.0  #: of the sun over the horizon: lower, no model of a clear sky holds
_REFRACTION_DEG = 0.5667  # at the horizon, the usual figure
_YEARS = (1950, 2100)


@dataclass(frozen=True, slots=True)
class Sun:
    """The sun over a place at a moment."""

    height_deg: float  #: over the horizon, as seen, bent by the air
    azimuth_deg: float  #: from north over east
    air_mass: float  #: absolute: 1 straight up from the sea
    outside_w_m2: float  #: on a plane that faces it, outside the air
    moment: datetime

    @property
    def zenith_deg(self) -> float:
        """From straight up."""
        return 90 - self.height_deg


def sun_at(place: Place, moment: datetime, air: Air | None = None) -> Sun:
    """The sun; `SkyError` at night, and where the clock has no zone."""
    _must_be_a_moment(moment)
    own = air or Air()
    pressure = own.pressure_pa if own.pressure_pa is not None else _pressure_pa(place)
    height, azimuth = _position(place, moment, pressure, own.air_c)
    _must_be_day(height, moment)
    return Sun(height, azimuth, _air_mass(90 - height, pressure), _outside_w_m2(moment), moment)


def incidence_deg(sun_height_deg: float, sun_azimuth_deg: float, plane: Plane) -> float:
    """Between the sun's rays and the panel's normal; over 90 the sun is behind it.

    >>> round(incidence_deg(90.0, 0.0, Plane(30, 180)), 9)
    30.0
    """
    zenith, tilt = radians(90 - sun_height_deg), radians(plane.tilt_deg)
    aside = radians(sun_azimuth_deg - plane.azimuth_deg)
    share = cos(zenith) * cos(tilt) + sin(zenith) * sin(tilt) * cos(aside)
    return degrees(acos(max(-1.0, min(1.0, share))))


def _must_be_a_moment(moment: datetime) -> None:
    if moment.utcoffset() is None:
        reason = f"The clock's {moment:%Y-%m-%d %H:%M} has no zone."
        raise SkyError([Problem(reason, "Write the zone behind it, as in 12:30+02:00.", key="moment")])
    if not _YEARS[0] <= moment.year <= _YEARS[1]:
        reason = f"The sun is reckoned for the years {_YEARS[0]} to {_YEARS[1]}."
        raise SkyError([Problem(reason, "Set the date right.", key="moment", value=f"{moment:%Y-%m-%d}")])


def _must_be_day(height_deg: float, moment: datetime) -> None:
    if height_deg >= LOWEST_DEG:
        return
    when = f"{moment:%Y-%m-%d %H:%M %z}"
    where = "is below the horizon" if height_deg < 0 else f"stands only {height_deg:.1f} degrees high"
    cure = "Look at the place, the date and the zone of the clock; measure with the sun well up."
    raise SkyError([Problem(f"The sun {where} at that place and moment.", cure, key="moment", value=when)])


@lru_cache(maxsize=64)
def _position(place: Place, moment: datetime, pressure_pa: float, air_c: float) -> tuple[float, float]:
    """Height as seen, and azimuth; kept, for one moment is asked many times. [deg]"""
    import numpy as np
    from pvlib import spa

    found = spa.solar_position_numpy(
        np.array([moment.timestamp()]),
        place.latitude_deg,
        place.longitude_deg,
        place.altitude_m,
        pressure_pa / 100,
        air_c,
        spa.calculate_deltat(moment.year, moment.month),
        _REFRACTION_DEG,
        1,
    )
    return float(90 - found[0][0]), float(found[4][0])


def _pressure_pa(place: Place) -> float:
    from pvlib.atmosphere import alt2pres

    return float(alt2pres(place.altitude_m))


def _air_mass(zenith_deg: float, pressure_pa: float) -> float:
    from pvlib.atmosphere import get_absolute_airmass, get_relative_airmass

    return float(get_absolute_airmass(get_relative_airmass(zenith_deg), pressure_pa))


def _outside_w_m2(moment: datetime) -> float:
    from pvlib.irradiance import get_extra_radiation

    return float(get_extra_radiation(moment.timetuple().tm_yday))
