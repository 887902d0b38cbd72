"""How far years differ from each other.

A chain of days makes months that scatter by chance alone, some 2 to 4 % over a year. True years scatter more:
whole seasons go dry or wet together. Light on level ground differs by some 4 % of a year (standard deviation;
recalled of S. Wilcox, C. Gueymard, ASES 2010: 2 to 6 % over the United States), of a month by about 10 %. So
the spread is stated, not left to the chain: half of its variance moves a whole year, half each month by
itself. Unasked it is 4 %, or the chain's own where that is more.
"""

from __future__ import annotations

import numpy as np
from numpy.random import Generator

from panewright.sky.hours import Floats
from panewright.sky.made.days import drawn_days

USUAL_SHARE = 0.04
MOST_SHARE = 0.15
_FURTHEST = 0.35  # that a month is off its mean at most
_CHAIN_YEARS = 200


def month_factors(share: float, years: int, room: Floats, weights: Floats, rng: Generator) -> Floats:
    """By year and month, what its mean is multiplied by: the years' means are kept, the spread comes out.

    `room` by month: how far over its mean it can go, as a share; where that is little the spread stays under
    what is asked. `weights`: each month's part of the year's light. One year alone keeps its means.
    """
    if years == 1 or share == 0:
        return np.ones((years, 12))
    off = rng.standard_normal((years, 1)) + np.sqrt(12) * rng.standard_normal((years, 12))
    most = np.minimum(room, _FURTHEST)
    for _ in range(50):
        off = off - off.mean(0)
        off = off * share / (off @ weights / weights.sum()).std(ddof=1)
        off = np.clip(off, -most, most)
    return np.asarray(1 + off - off.mean(0))


def chain_share(clearness: Floats, weights: Floats, rng: Generator) -> float:
    """Standard deviation of a year's light, as a share, that the chain of days has by itself."""
    days = drawn_days(clearness, _CHAIN_YEARS, rng)
    sums = (days * weights).sum(1)
    return float(sums.std(ddof=1) / sums.mean())
