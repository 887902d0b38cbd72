"""What an array gives over the day, in four quarters of the year by the local clock."""

from __future__ import annotations

import numpy as np

from panewright.array.plan.weather import local_hour
from panewright.sky.hours import Floats, Hours

#: months of each quarter, 1 to 12: named by months, for half of the world has its summer in January
QUARTERS = ((12, 1, 2), (3, 4, 5), (6, 7, 8), (9, 10, 11))
DAY = 24


def by_clock(hours: Hours, watts: Floats, zone_h: float) -> Floats:
    """Mean power of each hour of the local clock, quarter by quarter: (4, 24). [W]

    `watts` of every hour of the year; an hour that no quarter has is 0.
    """
    quarter = np.asarray((hours.months + 1) % 12 // 3)  # December, January, February come first
    place = quarter * DAY + local_hour(hours, zone_h)
    size = len(QUARTERS) * DAY
    total = np.bincount(place, weights=watts, minlength=size)
    count = np.bincount(place, minlength=size)
    return np.asarray((total / np.maximum(count, 1)).reshape(len(QUARTERS), DAY))
