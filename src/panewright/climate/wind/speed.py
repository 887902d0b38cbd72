"""One wind measured over different times: a gust is faster than a mean of ten minutes, that than an hour's.

ASCE: how much faster is read from Durst's curve [D], open country outside hurricanes. The fastest mile is the
mean over the time in which a mile of wind goes by, 3600 s / V with V in miles an hour. EN: its own peak
pressure holds the gust, V_gust = V_mean sqrt(1 + 7 Iv), at 10 m over terrain II where its basic speed is
defined [E]; a gust turned round so gives back its own pressure. EN has no rule for other kinds.

[D] ASCE 7 commentary, figure C26.5-1 (C6-1 in 7-95): 1.53 at 3 s and 1.28 at 45 s read in a worked example,
    the other points recalled, straight on the logarithm of time between them.
[E] EN 1991-1-4 4.2, 4.4 and 4.5 (read).
"""

from __future__ import annotations

import math

import numpy as np

from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Wind
from panewright.climate.wind import en

MILE_M = 1609.344
_HOUR_S = 3600.0
_DURST = (  # averaging time [s], speed over the hour's mean
    (3.0, 1.53),
    (10.0, 1.43),
    (30.0, 1.33),
    (45.0, 1.28),
    (60.0, 1.25),
    (100.0, 1.18),
    (300.0, 1.10),
    (600.0, 1.06),
    (_HOUR_S, 1.0),
)
_HELD = {"3 s gust": 3.0, "10 min mean": 600.0, "1 h mean": _HOUR_S}  # averaging time [s]
EN_KINDS = ("10 min mean", "3 s gust")  #: those that EN can turn into its own


def durst(averaging_s: float) -> float:
    """Speed over this time against the mean of an hour. [-]  [D]

    >>> durst(3), durst(45), durst(3600)
    (1.53, 1.28, 1.0)
    """
    times, ratios = zip(*_DURST, strict=True)
    return float(np.interp(math.log(averaging_s), np.log(times), ratios))


def averaging_s(wind: Wind) -> float:
    """How long the stated speed was measured over, an hour at most. [s]"""
    if wind.kind == "fastest mile":
        return min(_HOUR_S, MILE_M / max(wind.speed_m_s, MILE_M / _HOUR_S))
    return _HELD[wind.kind]


def as_gust(wind: Wind) -> tuple[float, tuple[Reckoning, ...]]:
    """The 3 s gust that a speed of any kind means by ASCE [m/s], and the step to it where there is one."""
    if wind.kind == "3 s gust":
        return wind.speed_m_s, ()
    seconds = averaging_s(wind)
    ratio = durst(3.0) / durst(min(max(seconds, 3.0), _HOUR_S))
    return wind.speed_m_s * ratio, (
        Reckoning(f"wind as stated, {wind.kind}, a mean over {seconds:.4g} s", wind.speed_m_s, "m/s"),
        Reckoning("3 s gust over it, Durst's curve of the ASCE 7 commentary", ratio, "-"),
    )


def as_ten_minutes(wind: Wind) -> tuple[float, tuple[Reckoning, ...]]:
    """The 10 min mean that a speed means by EN [m/s], and the step to it where there is one.

    >>> round(as_ten_minutes(Wind(40.0, "3 s gust", "EN 1991-1-4", 50.0, ground="II"))[0], 2)
    26.25
    """
    if wind.kind != "3 s gust":
        return wind.speed_m_s, ()
    ratio = math.sqrt(1 + 7 * en.turbulence("II", 10.0))
    return wind.speed_m_s / ratio, (
        Reckoning("wind as stated, 3 s gust", wind.speed_m_s, "m/s"),
        Reckoning("gust over 10 min mean, √(1 + 7 Iv) at 10 m over terrain II", ratio, "-"),
    )
