"""ASCE/SEI 7-10 and 7-16 chapter 7, snow (memory): pf, Cs of unobstructed slippery and other slopes."""

import pytest

from panewright.climate.site import Site, Wind
from panewright.climate.snow.snow import asce_flat_pa, asce_slope_factor, snow_pressure


def site(ground_pa, tilt_deg, category="II"):
    wind = Wind(45.0, "3 s gust", "ASCE 7-16", risk_category=category)
    return Site("ASCE", wind, ground_pa, -20.0, 40.0, tilt_deg, 3.0, 0.0, "free-standing")


@pytest.mark.parametrize(
    ("tilt_deg", "thermal", "factor"),
    [(30, 1.2, 0.7273), (30, 1.0, 0.6154), (45, 1.2, 0.4545), (15, 1.2, 1.0), (70, 1.2, 0.0), (10, 1.1, 1.0)],
)
def test_slope_factor_of_a_slippery_pane(tilt_deg, thermal, factor):
    assert asce_slope_factor(tilt_deg, thermal) == pytest.approx(factor, abs=5e-5)


@pytest.mark.parametrize(("thermal", "start"), [(1.0, 30), (1.1, 37.5), (1.2, 45)])
def test_rough_slopes_keep_all_snow_up_to_their_start(thermal, start):
    assert asce_slope_factor(start, thermal, slippery=False) == 1.0
    assert asce_slope_factor((start + 70) / 2, thermal, slippery=False) == pytest.approx(0.5)


def test_example_of_1500_pa_on_the_ground():
    flat = asce_flat_pa(1500.0, 0.9, 1.2, 1.0)
    assert flat == pytest.approx(1134.0)
    assert flat * asce_slope_factor(30, 1.2) == pytest.approx(824.73, abs=0.005)


def test_site_takes_open_air_below_and_partly_sheltered_ground():
    load = snow_pressure(site(1500.0, 30.0))
    assert load.plan_pa == pytest.approx(0.7 * 1.2 * 1500 * (70 - 30) / 55)
    assert load.normal_pa == pytest.approx(0.75 * load.plan_pa)


def test_low_slopes_carry_at_least_the_ground_snow_up_to_20_psf():
    assert snow_pressure(site(800.0, 10.0)).plan_pa == pytest.approx(800.0)
    assert snow_pressure(site(800.0, 15.0)).plan_pa == pytest.approx(0.84 * 800.0)
