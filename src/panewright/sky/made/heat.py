"""Air by the hour from twelve means: a season without steps, and a day's wave.

Wave: D. Erbs, S. Klein, W. Beckman, ASHRAE Journal, June 1983, p. 60, four harmonics; its height, where
nobody tells it, 25.8 K - 5.21 kelvin of the month's clearness K. Both recalled. From day to day nothing
moves: a cloudy day is as warm as a clear one, which matters by a few tenths of a percent of power.
"""

from __future__ import annotations

import numpy as np

from panewright.sky.hours import MONTH_DAYS, Floats
from panewright.sky.made.days import day_months

_LEAST_SWING_K = 2.0
_WAVE = ((0.4632, 3.805), (0.0984, 0.360), (0.0168, 0.822), (0.0138, 3.513))


def swings_k(clearness: Floats) -> Floats:
    """From a usual day's coldest to its warmest, by how clear the month is."""
    return np.asarray(np.maximum(25.8 * clearness - 5.21, _LEAST_SWING_K))


def day_wave() -> Floats:
    """A day's wave at the middle of each hour by the sun, in swings; it adds up to nothing."""
    turn = 2 * np.pi * (np.arange(24) + 0.5 - 1) / 24
    return np.asarray(sum(size * np.cos(n * turn - late) for n, (size, late) in enumerate(_WAVE, start=1)))


def air_c(means: Floats, swings: Floats) -> Floats:
    """Air in each hour of the year by the local clock; each month keeps its mean."""
    months = day_months()
    season = _season(np.asarray(means, float))
    return np.asarray((season[:, None] + np.asarray(swings)[months, None] * day_wave()).ravel())


def _season(means: Floats) -> Floats:
    """Of each day: straight from middle to middle of the months, by knots that keep the means."""
    starts = np.cumsum((0, *MONTH_DAYS))[:-1]
    middles = starts + np.array(MONTH_DAYS) / 2
    days, months = np.arange(365) + 0.5, day_months()
    hats = np.array([np.interp(days, middles, np.eye(12)[m], period=365) for m in range(12)])
    averages = np.array([hats[:, months == m].mean(1) for m in range(12)])
    return np.asarray(np.linalg.solve(averages, means) @ hats)
