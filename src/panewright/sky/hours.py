"""A year of weather over a place, hour by hour, each hour as it was at its middle.

Light falls on level ground (level, also GHI), on a plane that faces the sun (direct, DNI) and on level ground
from the sky alone (diffuse, DHI). A year has 8760 hours: a leap day is left out before.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from panewright.sky.place import Place

Floats = NDArray[np.float64]
Moments = NDArray[np.datetime64]

YEAR_HOURS = 8760
TYPICAL_YEAR = 1990  #: that the sun is reckoned for where a year is put together from several; no leap year
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True)
class Light:
    """Light by the hour on level ground, straight from the sun, and from the sky alone. [W/m2]"""

    level_w_m2: Floats
    direct_w_m2: Floats
    diffuse_w_m2: Floats
    albedo: Floats | None = None  #: of the ground, where it is told by the hour


@dataclass(frozen=True)
class Hours:
    """Weather of 8760 hours; `ValueError` where the arrays do not belong together."""

    place: Place
    zone_h: float  #: of the local clock against UTC, east positive; says in which month an hour lies
    middles: Moments  #: of the hours, UTC, in the order of the days there
    level_w_m2: Floats
    direct_w_m2: Floats
    diffuse_w_m2: Floats
    air_c: Floats
    wind_m_s: Floats
    source: str
    albedo: Floats | None = None  #: share of the light that the ground throws back, where it is told
    snow_mm: Floats | None = None  #: depth of snow on the ground, where it is told
    said: tuple[str, ...] = ()  #: what was found and settled on the way

    def __post_init__(self) -> None:
        light = (self.level_w_m2, self.direct_w_m2, self.diffuse_w_m2)
        told = [each for each in (self.albedo, self.snow_mm) if each is not None]
        for each in (*light, self.air_c, self.wind_m_s, *told):
            if each.shape != self.middles.shape or not np.isfinite(each).all():
                raise ValueError("every hour has a figure of each kind")
        if self.middles.shape != (YEAR_HOURS,) or min(each.min() for each in (*light, self.wind_m_s)) < 0:
            raise ValueError("a year has 8760 hours, and neither light nor wind is below zero")

    @cached_property
    def months(self) -> NDArray[np.int64]:
        """Of each hour by the local clock, 0 to 11."""
        return months_of(self.middles, self.zone_h)

    @property
    def light(self) -> Light:
        """The light alone, as a panel is asked for it."""
        return Light(self.level_w_m2, self.direct_w_m2, self.diffuse_w_m2, self.albedo)

    @property
    def level_kwh_m2(self) -> float:
        """Light on level ground over the year."""
        return float(self.level_w_m2.sum() / 1e3)

    def by_month(self, each: Floats) -> Floats:
        """Sum over each month's hours."""
        return np.asarray(np.bincount(self.months, weights=each, minlength=12), float)


def months_of(middles: Moments, zone_h: float) -> NDArray[np.int64]:
    """Month by the local clock, 0 to 11.

    >>> months_of(np.array(["1990-03-01T02:30"], "datetime64[s]"), -5.0)
    array([1])
    """
    local = middles + np.timedelta64(round(zone_h * 3600), "s")
    return local.astype("datetime64[M]").astype(np.int64) % 12


def typical_middles(zone_h: float, after_min: float = 30.0) -> Moments:
    """Middles of the hours of the typical year by the local clock, in UTC."""
    first = np.datetime64(f"{TYPICAL_YEAR}-01-01", "s") + np.timedelta64(round(after_min * 60), "s")
    local = first + np.arange(YEAR_HOURS) * np.timedelta64(3600, "s")
    return np.asarray(local - np.timedelta64(round(zone_h * 3600), "s"))
