"""How clear each day of a month is: K, light on level ground as a share of that outside the air.

Which K a month has: P. Bendt, M. Collares-Pereira, A. Rabl, Solar Energy 27, 1981, p. 1: between Kmin 0.05
and Kmax days are as likely as exp(gamma K), with gamma such that the month's mean comes out.

    F(K) = (exp(gamma Kmin) - exp(gamma K)) / (exp(gamma Kmin) - exp(gamma Kmax))

Kmax = 0.6313 + 0.267 K' - 11.9 (K' - 0.75)^8: K. Hollands, R. Huget, Solar Energy 30, 1983, p. 195.
In which order they come: V. Graham, K. Hollands, T. Huget, Solar Energy 40, 1988, p. 83: what a normal
variable would be at that place of the distribution follows its own day before by 0.29. All recalled.
"""

from __future__ import annotations

import numpy as np
from numpy.random import Generator
from scipy.special import ndtr

from panewright.sky.hours import MONTH_DAYS, Floats

DULLEST_DAY = 0.05
DAY_TO_DAY = 0.29
_DAY_MONTH = np.repeat(np.arange(12), MONTH_DAYS)  # of each day of the year
_STRAIGHT = 1e-6  # gamma times width, under which all days are alike likely


def day_months() -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Of each day of the year its month, 0 to 11."""
    return _DAY_MONTH


def clearest_day(mean: Floats) -> Floats:
    """Kmax of a month of that mean.

    >>> clearest_day(np.array([0.3, 0.5, 0.7])).round(3)
    array([0.691, 0.765, 0.818])
    """
    return np.asarray(0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8)


def gamma(mean: Floats) -> Floats:
    """The distribution's exponent, with which its mean is the month's."""
    width = clearest_day(mean) - DULLEST_DAY
    wanted = np.clip((mean - DULLEST_DAY) / width, 1e-3, 1 - 1e-3)
    low, high = np.full(np.shape(mean), -800.0), np.full(np.shape(mean), 800.0)
    for _ in range(60):  # halved: the mean only grows with it
        middle = (low + high) / 2
        short = _mean_share(middle) < wanted
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.asarray((low + high) / 2 / width)


def _mean_share(steep: Floats) -> Floats:
    """Of the width, where the mean lies."""
    safe = np.where(np.abs(steep) < 1e-4, 1e-4, steep)
    with np.errstate(over="ignore"):
        return np.asarray(-1 / np.expm1(-safe) - 1 / safe)


def day_at(share: Floats, mean: Floats) -> Floats:
    """The K that this share of a month's days stays under."""
    steep, width = gamma(mean), clearest_day(mean) - DULLEST_DAY
    bend = steep * width
    flat = np.abs(bend) < _STRAIGHT
    safe = np.where(flat, 1.0, bend)
    falling = np.log1p(share * np.expm1(np.minimum(safe, 0))) / safe
    rising = 1 + np.log1p((1 - share) * np.expm1(-np.maximum(safe, 0))) / safe
    place = np.where(flat, share, np.where(safe < 0, falling, rising))
    return np.asarray(DULLEST_DAY + width * place)


def drawn_days(mean: Floats, years: int, rng: Generator) -> Floats:
    """K of each day of each year; `mean` by year and month, or by month. Means are those of chance alone."""
    by_month = np.broadcast_to(mean, (years, 12))
    shares = ndtr(_chain(years, rng))
    found = np.empty((years, len(_DAY_MONTH)))
    for month in range(12):
        days = month == _DAY_MONTH
        found[:, days] = day_at(shares[:, days], by_month[:, month, None])
    return found


def _chain(years: int, rng: Generator) -> Floats:
    """Days of which each follows the one before, normal by itself."""
    fresh = rng.standard_normal((years, len(_DAY_MONTH)))
    for day in range(1, len(_DAY_MONTH)):
        fresh[:, day] = DAY_TO_DAY * fresh[:, day - 1] + np.sqrt(1 - DAY_TO_DAY**2) * fresh[:, day]
    return np.asarray(fresh)


def to_the_mean(days: Floats, mean: Floats, weights: Floats) -> Floats:
    """The same days, each moved a little, so that each month has its mean; none leaves its bounds.

    A day moves by how far it stands from both bounds, so that dull and clear days stay as they are. Days are
    weighed by the light outside the air.
    """
    by_month = np.broadcast_to(mean, (len(days), 12))
    found = days.copy()
    for month in range(12):
        part = month == _DAY_MONTH
        found[:, part] = _moved(found[:, part], by_month[:, month, None], weights[part])
    return found


def _moved(days: Floats, mean: Floats, weights: Floats) -> Floats:
    if weights.sum() <= 0:
        return days
    top = clearest_day(mean)
    for _ in range(30):
        off = mean - (days * weights).sum(1, keepdims=True) / weights.sum()
        room = (days - DULLEST_DAY) * (top - days)
        step = off / np.maximum((room * weights).sum(1, keepdims=True) / weights.sum(), 1e-9)
        days = np.clip(days + room * np.clip(step, -1, 1), DULLEST_DAY, top)
    return days
