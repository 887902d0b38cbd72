"""Twelve means of a place, as a person types them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import isfinite

import numpy as np

from panewright.errors import Problem, SkyError
from panewright.sky.course import course_over
from panewright.sky.hours import MONTH_DAYS, Floats, months_of, typical_middles
from panewright.sky.place import Place

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")  # fmt: skip
USUAL_WIND_M_S = 2.0  #: common practice, no source
DULLEST, CLEAREST = 0.10, 0.78  #: of the light outside the air, a month's share: no place has another
_NIGHT_KWH_M2 = 1e-3
_ROUNDED_KWH_M2_DAY = 0.05  # what a table of one decimal tells as 0


@dataclass(frozen=True, slots=True)
class Means:
    """Twelve means of a place, January first; `SkyError` naming each month that cannot be."""

    place: Place
    level_kwh_m2: tuple[float, ...]  #: light on level ground in the month, not in a day of it
    air_c: tuple[float, ...]
    swing_k: tuple[float, ...] | None = None  #: between a usual day's warmest and coldest; None: by the light
    wind_m_s: tuple[float, ...] = (USUAL_WIND_M_S,) * 12

    def __post_init__(self) -> None:
        problems = [
            *_within("light", self.level_kwh_m2, (0, 400), "kWh/m2 in the month"),
            *_within("air", self.air_c, (-60, 50), "degC"),
            *_within("swing", self.swing_k or (0.0,) * 12, (0, 40), "kelvin"),
            *_within("wind", self.wind_m_s, (0, 30), "m/s"),
        ]
        if problems := problems or list(_clearness_problems(self)):
            raise SkyError(problems)

    @property
    def zone_h(self) -> float:
        """Of a clock that goes by the sun to half an hour."""
        return float(round(self.place.longitude_deg / 15))

    @property
    def clearness(self) -> Floats:
        """Each month's light as a share of that outside the air; 0 where the sun does not rise."""
        outside = outside_kwh_m2(self.place, self.zone_h)
        return np.where(outside > _NIGHT_KWH_M2, np.array(self.level_kwh_m2) / np.maximum(outside, 1e-9), 0.0)


def of_days(
    place: Place,
    level_kwh_m2_day: Sequence[float],
    air_c: Sequence[float],
    swing_k: Sequence[float] | None = None,
) -> Means:
    """Means of a usual day of each month, as tables give them.

    >>> dull = of_days(Place(47, 8), [1, 2, 3, 4, 5, 5.5, 5.5, 5, 3.5, 2, 1, 0.8], [9.0] * 12)
    >>> dull.level_kwh_m2[0], dull.clearness.round(2)[:3]
    (31, array([0.32, 0.43, 0.44]))
    """
    if len(level_kwh_m2_day) != 12:
        raise SkyError([_twelve("light", len(level_kwh_m2_day))])
    months = tuple(day * days for day, days in zip(level_kwh_m2_day, MONTH_DAYS, strict=True))
    return Means(place, months, tuple(air_c), None if swing_k is None else tuple(swing_k))


def of_extremes(
    coldest_c: Sequence[float], warmest_c: Sequence[float]
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Air and swing of usual days' coldest and warmest; `SkyError` where they are the wrong way round.

    >>> of_extremes((-2.0,) * 12, (8.0,) * 12)[0][:2], of_extremes((-2.0,) * 12, (8.0,) * 12)[1][:2]
    ((3.0, 3.0), (10.0, 10.0))
    """
    counts = (len(coldest_c), len(warmest_c))
    if counts != (12, 12):
        raise SkyError([_twelve("air", next(count for count in counts if count != 12))])
    turned = [
        Problem(
            "The coldest is warmer than the warmest.",
            "Change the two.",
            key=f"air, {month}",
            value=f"{low:g}",
        )
        for month, low, high in zip(MONTHS, coldest_c, warmest_c, strict=True)
        if not low <= high
    ]
    if turned:
        raise SkyError(turned)
    pairs = tuple(zip(coldest_c, warmest_c, strict=True))
    return tuple((low + high) / 2 for low, high in pairs), tuple(high - low for low, high in pairs)


def outside_kwh_m2(place: Place, zone_h: float) -> Floats:
    """Light on level ground outside the air, month by month."""
    middles = typical_middles(zone_h)
    course = course_over(place, middles)
    hourly = course.outside_w_m2 * course.upright / 1e3
    return np.asarray(np.bincount(months_of(middles, zone_h), weights=hourly, minlength=12), float)


def _within(key: str, values: Sequence[float], span: tuple[float, float], words: str) -> Iterator[Problem]:
    if len(values) != 12:
        yield _twelve(key, len(values))
        return
    for month, value in zip(MONTHS, values, strict=True):
        if not (isfinite(value) and span[0] <= value <= span[1]):
            cure = f"Give {span[0]:g} to {span[1]:g}, {words}."
            yield Problem("This cannot be.", cure, key=f"{key}, {month}", value=f"{value:g}")


def _twelve(key: str, count: int) -> Problem:
    return Problem(f"There are {count} means.", "Give twelve, January first.", key=key)


def _clearness_problems(means: Means) -> Iterator[Problem]:
    outside = outside_kwh_m2(means.place, means.zone_h)
    for month, level, most, days in zip(MONTHS, means.level_kwh_m2, outside, MONTH_DAYS, strict=True):
        value = f"{level:g} kWh/m2"
        if most <= _NIGHT_KWH_M2:
            if level > _NIGHT_KWH_M2:
                reason = "The sun does not rise there in this month."
                yield Problem(
                    reason, "Look at the latitude; else give 0.", key=f"light, {month}", value=value
                )
        elif level == 0 and DULLEST * most <= _ROUNDED_KWH_M2_DAY * days:
            continue  # hardly any sun, told as none
        elif not DULLEST <= level / most <= CLEAREST:
            reason = (
                f"That is {level / most:.0%} of the light outside the air, {most:.0f} kWh/m2 in that month."
            )
            cure = f"No place has less than {DULLEST:.0%} or more than {CLEAREST:.0%}."
            hint = f" Of a day? Multiply by {days}." if DULLEST <= level * days / most <= CLEAREST else ""
            yield Problem(reason, cure + hint, key=f"light, {month}", value=value)
