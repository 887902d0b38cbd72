"""What a panel stands in: air, sky, ground, sun and wind.

A clear sky radiates like a black one that is colder than the air near the ground:

    sky = 0.0552 air^1.5, both in kelvin                                                             [S]

It is made of measurements over damp and dry ground alike and has no term of its own for humidity: under very
damp air the sky is up to ten kelvin warmer, under a desert's colder. Above 55 °C it would be warmer than the
air; the air's own heat is then taken. The ground is as warm as the air.

A face sees the sky with (1 + cos b) / 2 and the ground with the rest, where b is the angle between its normal
and straight up: plain geometry of a flat horizon [D].

[S] W. C. Swinbank, Q. J. R. Meteorol. Soc. 89, 1963, p. 339 (recalled; the same figures read in an open
    photovoltaic library's code).
[D] J. A. Duffie, W. A. Beckman, Solar Engineering of Thermal Processes: views of sky and ground (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.units import KELVIN

STEFAN_W_M2K4 = 5.670374419e-8  #: CODATA 2018


def clear_sky_c(air_c: float) -> float:
    """Temperature at which a clear sky radiates. [degC]  [S]

    >>> round(clear_sky_c(20.0), 1)
    3.9
    """
    air_k = air_c + KELVIN
    return min(air_c, 0.0552 * math.pow(air_k, 1.5) - KELVIN)


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Weather that lasts, and how the panel stands in it."""

    air_c: float
    sky_c: float
    sun_w_m2: float  #: on the panel's plane
    wind_m_s: float
    tilt_deg: float  #: 0 lies flat, 90 stands
    gap_mm: float | None = None  #: to a roof or wall behind it; None in the open
    air_share: float = 1.0  #: weight of the air over that at sea level

    def __post_init__(self) -> None:
        if not (self.sun_w_m2 >= 0 and self.wind_m_s >= 0 and 0 <= self.tilt_deg <= 90):
            raise ValueError(f"sun and wind are 0 or more and a panel tilts by 0 to 90 degrees, got {self}")
        if not self.air_share > 0:
            raise ValueError(f"air weighs something, got {self}")
        if self.gap_mm is not None and not self.gap_mm >= 0:
            raise ValueError(f"a gap is 0 mm or more, got {self}")
        if not -KELVIN < min(self.air_c, self.sky_c) <= max(self.air_c, self.sky_c) < math.inf:
            raise ValueError(f"air and sky have temperatures, got {self}")

    @property
    def air_k(self) -> float:
        """Air, and the ground with it. [K]"""
        return self.air_c + KELVIN

    @property
    def sky_k(self) -> float:
        """Sky. [K]"""
        return self.sky_c + KELVIN


def radiated_w_m2(face_k: float, emits: float, facing_deg: float, around: Surroundings) -> float:
    """Net radiation from a face to sky and ground; `facing_deg` 0 looks up, 180 down. [W/m2]"""
    sees_sky = (1 + math.cos(math.radians(facing_deg))) / 2
    back = sees_sky * around.sky_k**4 + (1 - sees_sky) * around.air_k**4
    return emits * STEFAN_W_M2K4 * (face_k**4 - back)
