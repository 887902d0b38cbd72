"""How clear each hour of a day is, given how clear the day is: TAG.

R. Aguiar, M. Collares-Pereira, Solar Energy 49, 1992, p. 167 (recalled). An hour's clearness is that of its
day at the sun's height, and scatters about it; what scatters follows the hour before.

    middle   lambda + eps exp(-kappa / sin h)
             lambda = -0.19 + 1.12 K + 0.24 exp(-8 K), eps = 0.32 - 1.6 (K - 0.5)^2,
             kappa = 0.19 + 2.27 K^2 - 2.51 K^3
    scatter  0.14 exp(-20 (K - 0.35)^2) exp(B (1 - sin h)), B = 3 (K - 0.45)^2 + 16 K^5
    follows  phi = 0.38 + 0.06 cos(7.4 K - 2.5)
    at most  0.88 cos(pi t / 30), t the hours from noon
"""

from __future__ import annotations

import numpy as np
from numpy.random import Generator

from panewright.sky.hours import Floats

_LEAST_SINE = 0.02  # of the sun's height; lower, the hour has next to no light


def middle(day: Floats, sine: Floats) -> Floats:
    """What an hour's clearness is in the middle.

    >>> middle(np.array([0.6]), np.array([0.2, 0.5, 0.9])).round(3)
    array([0.514, 0.604, 0.665])
    """
    k = day
    base = -0.19 + 1.12 * k + 0.24 * np.exp(-8 * k)
    rise, fall = 0.32 - 1.6 * (k - 0.5) ** 2, 0.19 + 2.27 * k**2 - 2.51 * k**3
    return np.asarray(base + rise * np.exp(-fall / np.maximum(sine, _LEAST_SINE)))


def scatter(day: Floats, sine: Floats) -> Floats:
    """How far an hour's clearness lies off it, as a standard deviation."""
    k = day
    bend = 3 * (k - 0.45) ** 2 + 16 * k**5
    return np.asarray(0.14 * np.exp(-20 * (k - 0.35) ** 2) * np.exp(bend * (1 - sine)))


def follows(day: Floats) -> Floats:
    """Of an hour's scatter, what the next one keeps."""
    return np.asarray(0.38 + 0.06 * np.cos(7.4 * day - 2.5))


def ceiling(from_noon_h: Floats) -> Floats:
    """The clearest that an hour can be."""
    return np.asarray(0.88 * np.cos(np.pi * np.clip(from_noon_h, -14, 14) / 30))


def drawn_hours(days: Floats, sine: Floats, rng: Generator) -> Floats:
    """Clearness by year, day and hour; `days` by year and day, `sine` of the sun's height by day and hour."""
    keeps = follows(days)
    fresh = rng.standard_normal((*days.shape, 24), dtype=np.float32)
    found = np.empty((*days.shape, 24))
    last = np.asarray(fresh[..., 0], float)
    for hour in range(24):
        up = np.maximum(sine[:, hour], 0.0)
        if hour:
            last = keeps * last + np.sqrt(1 - keeps**2) * fresh[..., hour]
        if (up > 0).any():
            found[..., hour] = middle(days, up) + scatter(days, up) * last
        else:
            found[..., hour] = 0.0
    return np.asarray(np.maximum(found, 0.0))
