"""A year under a clear sky is the clear sky hour by hour, and a duller one closes too."""

import warnings
from datetime import UTC

import numpy as np
import pandas
import pvlib
import pytest

from panewright.errors import SkyError
from panewright.sky.clear import clear_sky
from panewright.sky.course import course_over
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Air, Place, Plane

VALE, AIR = Place(47.1, 8.6, 430.0), (9.0,) * 12


def test_each_hour_is_that_of_the_clear_sky_alone():
    year = clear_year(VALE, AIR, air=Air(turbidity=3.0))
    for hour in (12, 4092, 6014):
        moment = year.middles[hour].item().replace(tzinfo=UTC)
        sky = clear_sky(VALE, Plane(0, 180), moment, Air(turbidity=3.0))
        assert year.level_w_m2[hour] == pytest.approx(sky.level_w_m2, rel=1e-5)
        assert year.direct_w_m2[hour] == pytest.approx(sky.direct_w_m2, rel=1e-5)


@pytest.mark.parametrize("share", [0.999, 0.8, 0.4, 0.1])
def test_a_duller_sky_gives_its_share_closes_and_loses_straight_light_first(share):
    clear, dull = clear_year(VALE, AIR), clear_year(VALE, AIR, share)
    up = course_over(VALE, dull.middles).upright
    assert np.abs(dull.level_w_m2 - share * clear.level_w_m2).max() < 1e-6
    assert np.abs(dull.level_w_m2 - dull.direct_w_m2 * up - dull.diffuse_w_m2).max() < 0.5
    assert (dull.direct_w_m2 <= share * clear.direct_w_m2 + 1e-9).all()
    if share == 0.999:  # no step beside the clear sky itself
        assert dull.direct_w_m2.sum() == pytest.approx(clear.direct_w_m2.sum(), rel=0.02)
    if share == 0.1:
        assert dull.direct_w_m2.sum() < 0.01 * clear.direct_w_m2.sum()


def test_what_cannot_be_is_told():
    with pytest.raises(SkyError) as wrong:
        clear_year(VALE, (9.0,) * 11, 1.2)
    assert [problem.key for problem in wrong.value.problems] == ["clearness", "air"]


def test_a_clear_year_beside_pvlib_s_own_clear_sky():
    when = pandas.date_range("1990-01-01 00:30", periods=8760, freq="h", tz="Etc/GMT-1")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        theirs = pvlib.location.Location(47.1, 8.6, altitude=430).get_clearsky(when)
    ours = clear_year(VALE, AIR)
    assert ours.level_w_m2.sum() == pytest.approx(theirs.ghi.sum(), rel=1e-3)
    assert ours.direct_w_m2.sum() == pytest.approx(theirs.dni.sum(), rel=1e-3)


def test_haze_that_nobody_states_is_the_month_s_usual_one():
    usual, clean = clear_year(VALE, AIR), clear_year(VALE, AIR, air=Air(turbidity=2.0))
    assert 0.8 < usual.level_kwh_m2 / clean.level_kwh_m2 < 1
    assert "usual haze" in usual.source
    assert np.isfinite(usual.air_c).all()
