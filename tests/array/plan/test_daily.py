"""Mean power over the clock: each hour counted once, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from panewright.array.plan.daily import QUARTERS, by_clock
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Place

AIR = (10.0,) * 12


@pytest.mark.parametrize(("longitude", "zone_h"), [(9.0, 1.0), (151.0, 10.0), (-105.0, -7.0), (77.0, 5.5)])
def test_each_hour_lies_in_its_month_and_hour(longitude, zone_h):
    hours = clear_year(Place(20.0, longitude, 0.0), AIR, 0.7)
    watts = np.arange(8760.0) % 97
    found = by_clock(hours, watts, zone_h)
    sums = {}
    for middle, month, watt in zip(hours.middles, hours.months, watts, strict=True):
        local = (middle + np.timedelta64(round(60 * zone_h), "m")).astype("datetime64[h]").astype(int) % 24
        quarter = next(k for k, months in enumerate(QUARTERS) if month + 1 in months)
        sums.setdefault((quarter, local), []).append(watt)
    for (quarter, local), each in sums.items():
        assert found[quarter, local] == pytest.approx(np.mean(each), abs=1e-9)


def test_noon_is_brightest_and_the_summer_longest():
    hours = clear_year(Place(47.0, 9.0, 0.0), AIR, 0.7)
    found = by_clock(hours, hours.level_w_m2, 1.0)
    assert set(found.argmax(axis=1)) <= {11, 12, 13}
    assert (found[2] > 1).sum() > (found[0] > 1).sum() + 4
