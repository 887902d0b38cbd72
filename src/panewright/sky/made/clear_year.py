"""A year under a clear sky, or under one that lets through a stated share of a clear sky's light.

Clear sky: P. Ineichen, R. Perez, Solar Energy 73, 2002, p. 151, by Linke's turbidity. Under a duller one
light on level ground is the stated share of that; what comes straight shrinks as it does in D. Erbs and
others, Solar Energy 28, 1982, p. 293, and the sky gives the rest. Every day of such a year is alike: it says
what a place can give at most, and what a dull week gives, not what a year gives.
"""

from __future__ import annotations

import warnings
from collections.abc import Sequence

import numpy as np

from panewright.errors import Problem, SkyError
from panewright.sky.course import Course, course_over
from panewright.sky.hours import MONTH_DAYS, YEAR_HOURS, Floats, Hours, Light, Moments, typical_middles
from panewright.sky.made.heat import air_c as hourly_air_c
from panewright.sky.made.heat import swings_k
from panewright.sky.made.means import USUAL_WIND_M_S
from panewright.sky.place import Air, Place
from panewright.sky.split import split

DULLEST = 0.05
_CLEAR_MONTH = 0.7  # how clear a month of clear days is, for the day's swing of the air


def clear_year(place: Place, air_c: Sequence[float], clearness: float = 1.0, air: Air | None = None) -> Hours:
    """That year, with twelve means of the air; `SkyError` for a clearness or means that cannot be."""
    _must_be(clearness, air_c)
    zone_h = float(round(place.longitude_deg / 15))
    middles = typical_middles(zone_h)
    course = course_over(place, middles)
    stated = air.turbidity if air is not None else None
    light = duller(_clear(place, course, _turbidity(place, middles, stated)), course, clearness)
    swings = swings_k(np.full(12, _CLEAR_MONTH * clearness))
    haze = "the usual haze of each month" if stated is None else f"Linke's turbidity {stated:g}"
    return Hours(
        place, zone_h, middles, light.level_w_m2, light.direct_w_m2, light.diffuse_w_m2,
        hourly_air_c(np.array(air_c), swings), np.full(YEAR_HOURS, USUAL_WIND_M_S),
        source=f"clear sky by Ineichen and Perez 2002, {haze}, {clearness:.0%} of its light",
    )  # fmt: skip


def duller(clear: Light, course: Course, clearness: float) -> Light:
    """A share of a clear sky's light on level ground, parted as duller skies part it."""
    if clearness == 1:
        return clear
    level = clear.level_w_m2 * clearness
    was, now = split(clear.level_w_m2, course).direct_w_m2, split(level, course).direct_w_m2
    left = np.divide(now, was, out=np.zeros_like(now), where=was > 0)
    direct = clear.direct_w_m2 * np.minimum(left, clearness)
    return Light(level, direct, np.maximum(level - direct * course.upright, 0.0))


def _clear(place: Place, course: Course, turbidity: Floats) -> Light:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        from pvlib.atmosphere import alt2pres, get_absolute_airmass, get_relative_airmass
        from pvlib.clearsky import ineichen
    mass = get_absolute_airmass(get_relative_airmass(course.zenith_deg), alt2pres(place.altitude_m))
    with np.errstate(divide="ignore", invalid="ignore"):  # at night
        found = ineichen(course.zenith_deg, mass, turbidity, place.altitude_m, course.outside_w_m2)
    level, direct, diffuse = (np.nan_to_num(np.asarray(found[key], float)) for key in ("ghi", "dni", "dhi"))
    return Light(level, direct, diffuse)


def _turbidity(place: Place, middles: Moments, stated: float | None) -> Floats:
    """Of each hour; what nobody states is its month's of many years."""
    if stated is not None:
        return np.full(YEAR_HOURS, stated)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pandas
        from pvlib.clearsky import lookup_linke_turbidity

        days = pandas.DatetimeIndex(middles[::24]).tz_localize("UTC")
        found = lookup_linke_turbidity(days, place.latitude_deg, place.longitude_deg)
    return np.repeat(np.asarray(found, float), 24)


def _must_be(clearness: float, air_c: Sequence[float]) -> None:
    problems = []
    if not DULLEST <= clearness <= 1:
        cure = f"Give {DULLEST:g} to 1: the share of a clear sky's light."
        problems.append(Problem("This cannot be.", cure, key="clearness", value=f"{clearness:g}"))
    if len(air_c) != len(MONTH_DAYS) or not np.isfinite(np.array(air_c, float)).all():
        problems.append(Problem("These are no twelve means.", "Give twelve, January first.", key="air"))
    if problems:
        raise SkyError(problems)
