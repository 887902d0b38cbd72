"""The weather of a site: one year that stands for all, and years in which a bank is tried."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from panewright.array.doubts import Source
from panewright.order.site.site import OfClearness, OfMeans, Site
from panewright.sky.hours import YEAR_HOURS, Floats, Hours
from panewright.sky.made.clear_year import clear_year
from panewright.sky.made.means import of_days
from panewright.sky.made.years import make_years

_EARTH_KM, _NEAR_KM = 6371.0, 30.0


@dataclass(frozen=True)
class Weathered:
    """Years of hours."""

    usual: Hours  #: that keeps the means
    years: tuple[Hours, ...]  #: one after the other; the usual one alone where nobody knows others
    source: Source


def weathered(site: Site, of_file: Hours | None) -> Weathered:
    """The site's years; `of_file` where its text names a file."""
    told = site.weather
    if isinstance(told, OfMeans):
        means = of_days(site.place, told.light_kwh_m2_day, told.air_c)
        usual = make_years(means, told.seed).year(0)
        if told.years == 1 or site.bank is None:
            return Weathered(usual, (usual,), "twelve means")
        made = make_years(means, told.seed, told.years)
        usual = replace(usual, said=(f"This year keeps the means. {made.told()}",))
        return Weathered(usual, tuple(made.year(n) for n in range(told.years)), "twelve means")
    if isinstance(told, OfClearness):
        usual = clear_year(site.place, told.air_c, told.share)
        return Weathered(usual, (usual,), "share of a clear sky")
    if of_file is None:
        raise ValueError(f"the site's weather stands in {told.file}, and its hours were not given")
    return Weathered(of_file, (of_file,), "typical year")


def apart_said(site: Site, hours: Hours) -> tuple[str, ...]:
    """A sentence where the weather is of another place than the site's: the sun goes by the weather's.

    Great circle on a sphere of 6371 km.
    """
    one, other = site.place, hours.place
    north, south = (np.radians(each.latitude_deg) for each in (one, other))
    turned = np.radians(one.longitude_deg - other.longitude_deg)
    cosine = np.sin(north) * np.sin(south) + np.cos(north) * np.cos(south) * np.cos(turned)
    apart_km = float(_EARTH_KM * np.arccos(np.clip(cosine, -1, 1)))
    if apart_km <= _NEAR_KM:
        return ()
    where = f"{other.latitude_deg:.2f}° north, {other.longitude_deg:.2f}° east"
    return (f"LOOK: the weather is of {where}, {apart_km:.0f} km from the place that was typed.",)


def local_hour(hours: Hours, zone_h: float) -> NDArray[np.int64]:
    """Hour of the day by the local clock in which each hour of the year begins, 0 to 23."""
    minutes = hours.middles.astype("datetime64[m]").astype(np.int64) + round(60 * zone_h)
    return np.asarray(minutes // 60 % 24)


def drawn_w(site: Site, hours: Hours) -> Floats:
    """What all loads draw in each hour of the year. [W]"""
    total = np.zeros(YEAR_HOURS)
    clock = local_hour(hours, site.zone_h)
    for draw in site.draws:
        total += np.array(draw.watts)[clock] * np.array(draw.months)[hours.months]
    return total
