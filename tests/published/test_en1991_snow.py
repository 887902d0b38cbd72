"""EN 1991-1-3 tables 5.1 and 5.2 (seen): shape factor mu1, s = mu1 Ce Ct sk; statics of a tilted pane."""

import pytest

from panewright.climate.site import Site, Wind
from panewright.climate.snow.snow import across, en_shape_factor, snow_pressure


@pytest.mark.parametrize(
    ("tilt_deg", "mu"), [(0, 0.8), (30, 0.8), (35, 0.66667), (45, 0.4), (50, 0.26667), (60, 0.0), (75, 0.0)]
)
def test_mu1(tilt_deg, mu):
    assert en_shape_factor(tilt_deg) == pytest.approx(mu, abs=5e-6)


@pytest.mark.parametrize(("tilt_deg", "normal_pa"), [(0, 1000), (30, 750), (45, 500), (60, 250)])
def test_normal_part_of_1000_pa_on_plan(tilt_deg, normal_pa):
    assert across(1000.0, tilt_deg) == pytest.approx(normal_pa)


def test_snow_of_a_site_at_45_degrees():
    wind = Wind(26.0, "10 min mean", "EN 1991-1-4", return_years=50, ground="II")
    load = snow_pressure(Site("EN", wind, 2000.0, -20.0, 35.0, 45.0, 2.0, 300.0, "free-standing"))
    assert load.plan_pa == pytest.approx(0.4 * 2000)
    assert (load.normal_pa, load.along_pa) == pytest.approx((400.0, 400.0))
    assert load.strength_normal_pa == pytest.approx(600.0)
