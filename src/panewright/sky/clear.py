"""What a clear sky gives a tilted panel, and how much of it comes through the panel's face.

Clear sky: P. Ineichen, R. Perez, Solar Energy 73, 2002, p. 151, by Linke's turbidity; its monthly mean for
every place from the table that pvlib ships. On the tilted plane: R. Perez and others, Solar Energy 44, 1990,
p. 271. What comes slantwise is thrown back more: Fresnel and Bouguer for a plain glass, after W. De Soto and
others, Solar Energy 80, 2006, p. 78; light from sky and ground by the mean over its angles. All as pvlib has
them.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from math import cos, radians

from panewright.errors import Problem, SkyError
from panewright.sky.place import Air, Place, Plane
from panewright.sky.sun import Sun, incidence_deg, sun_at


@dataclass(frozen=True, slots=True)
class ClearSky:
    """Light on a panel under a clear sky. [W/m2]"""

    sun: Sun
    turbidity: float
    incidence_deg: float
    level_w_m2: float  #: on level ground
    direct_w_m2: float  #: on a plane that faces the sun
    diffuse_w_m2: float  #: of the sky, on level ground
    beam_w_m2: float  #: the sun's own, on the panel
    sky_w_m2: float  #: the sky's, on the panel
    ground_w_m2: float  #: the ground's, on the panel
    seen_w_m2: float  #: what comes through its face, as light that falls straight on

    @property
    def plane_w_m2(self) -> float:
        """On the panel, before its face."""
        return self.beam_w_m2 + self.sky_w_m2 + self.ground_w_m2


def clear_sky(place: Place, plane: Plane, moment: datetime, air: Air | None = None) -> ClearSky:
    """Light on the panel; `SkyError` at night, with the sun behind it, or for a clock without a zone."""
    own = air or Air()
    sun = sun_at(place, moment, own)
    aside = incidence_deg(sun.height_deg, sun.azimuth_deg, plane)
    if aside >= 90:
        cure = "Look at tilt and azimuth, which counts from north over east, and at the clock."
        reason = f"The sun stands behind the panel, {aside:.0f} degrees off its face."
        raise SkyError(
            [Problem(reason, cure, key="plane", value=f"{plane.tilt_deg:g}, {plane.azimuth_deg:g}")]
        )
    turbidity = own.turbidity if own.turbidity is not None else usual_turbidity(place, moment)
    level, direct, diffuse = _on_level(sun, turbidity, place.altitude_m)
    beam = direct * cos(radians(aside))
    sky, ground = _sky_w_m2(sun, plane, direct, diffuse), level * plane.albedo * _ground_share(plane)
    through = _through(aside, plane)
    seen = sum(part * share for part, share in zip((beam, sky, ground), through, strict=True))
    return ClearSky(sun, turbidity, aside, level, direct, diffuse, beam, sky, ground, seen)


def usual_turbidity(place: Place, moment: datetime) -> float:
    """Linke's turbidity of that place in that month, the mean of many years."""
    return _turbidity_on(place, moment.date())


@lru_cache(maxsize=64)
def _turbidity_on(place: Place, day: date) -> float:
    """Kept, for it is read from a file."""
    import pandas
    from pvlib.clearsky import lookup_linke_turbidity

    when = pandas.DatetimeIndex([day]).tz_localize("UTC")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        found = lookup_linke_turbidity(when, place.latitude_deg, place.longitude_deg)
    return float(found.iloc[0])


def _on_level(sun: Sun, turbidity: float, altitude_m: float) -> tuple[float, float, float]:
    """On level ground, straight from the sun, from the sky."""
    from pvlib.clearsky import ineichen

    found = ineichen(sun.zenith_deg, sun.air_mass, turbidity, altitude_m, sun.outside_w_m2)
    return float(found["ghi"]), float(found["dni"]), float(found["dhi"])


def _sky_w_m2(sun: Sun, plane: Plane, direct: float, diffuse: float) -> float:
    from pvlib.irradiance import perez

    found = perez(
        plane.tilt_deg,
        plane.azimuth_deg,
        diffuse,
        direct,
        sun.outside_w_m2,
        sun.zenith_deg,
        sun.azimuth_deg,
        sun.air_mass,
    )
    return float(found)


def _ground_share(plane: Plane) -> float:
    """Of what the panel sees, the ground."""
    return (1 - cos(radians(plane.tilt_deg))) / 2


def _through(aside_deg: float, plane: Plane) -> tuple[float, float, float]:
    """Of beam, sky and ground, the shares that come through the face, against light straight on."""
    from pvlib.iam import physical

    return (float(physical(aside_deg)), *_spread_through(plane.tilt_deg))


@lru_cache(maxsize=64)
def _spread_through(tilt_deg: float) -> tuple[float, float]:
    """Of the light from sky and ground, what comes through; kept, for it is a double integral."""
    from pvlib.iam import marion_diffuse

    spread = marion_diffuse("physical", tilt_deg)
    return float(spread["sky"]), float(spread["ground"]) if tilt_deg > 0 else 1.0
