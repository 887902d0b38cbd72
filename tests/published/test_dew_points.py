"""A printed table of damp air (seen): water in g/m3, dew point in whole degrees, by heat and humidity.

Its dew points are rounded to whole degrees, some of them upward or downward by one; its water to a tenth.
"""

import pytest

from panewright.enclosure.moist_air import dew_point_c, saturation_pa, water_g_m3


@pytest.mark.parametrize(
    ("at_c", "humidity", "water", "dew_c"),
    [
        (50.0, 0.7, 58.1, 43.0),
        (40.0, 0.5, 25.6, 27.0),
        (30.0, 0.6, 18.2, 21.0),
        (30.0, 0.3, 9.1, 10.0),
        (25.0, 0.5, 11.5, 13.0),
        (20.0, 0.5, 8.7, 9.0),
        (20.0, 0.9, 15.6, 18.0),
        (15.0, 0.7, 9.0, 9.0),
        (10.0, 0.8, 7.5, 6.0),
        (5.0, 0.9, 6.1, 3.0),
    ],
)
def test_water_and_dew_point(at_c, humidity, water, dew_c):
    vapour = humidity * saturation_pa(at_c)
    assert water_g_m3(vapour, at_c) == pytest.approx(water, rel=0.012)
    assert dew_point_c(vapour) == pytest.approx(dew_c, abs=1.0)


def test_the_triple_point():
    assert saturation_pa(0.0) == pytest.approx(611.2)
    assert saturation_pa(-1e-9) == pytest.approx(611.15, abs=0.1)
