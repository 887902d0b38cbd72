"""Snow that drifts and slides.

seen: a public calculation by EN 1991-1-3 6.2 (an obstruction 2 m high, sk 1.5 kN/m2, 2 kN/m3: mu2 2.67, held
to 2.0) and its 6.4 (Fs = s b sin a, no friction); mu_s = 0.8 b / ls in a note on amendment 2 of the Czech
edition. memory: ASCE 7-16 7.7.1 (snow weight, hd; 3.5 ft in figure 7.6-1 at lu 100 ft and pg 30 psf), 7.9
(0.4 pf W over 15 ft); mu_w and the limits of ls in EN 1991-1-3 5.3.6.
"""

import math
from dataclasses import replace

import pytest

from panewright.climate.site import Site, Wind
from panewright.climate.snow.drift import pile_up
from panewright.climate.snow.higher_roof import drift_height_m
from panewright.climate.snow.snow import snow_pressure
from panewright.climate.snow.snow_weight import snow_weight_n_m3
from panewright.units import PCF_N_M3, PSF_PA

FOOT_MM = 304.8
EN = Site(
    "EN",
    Wind(26.0, "10 min mean", "EN 1991-1-4", 50.0, ground="II"),
    1500.0,
    -20.0,
    40.0,
    30.0,
    5.0,
    0.0,
    "free-standing",
    lower_edge_mm=1000.0,
)
ASCE = replace(EN, family="ASCE", wind=Wind(45.0, "3 s gust", "ASCE 7-16", risk_category="II"))


@pytest.mark.parametrize(("ground_psf", "pcf"), [(20, 16.6), (30, 17.9), (60, 21.8), (200, 30.0)])
def test_lying_snow_weighs_by_the_ground_s_load(ground_psf, pcf):
    assert snow_weight_n_m3("ASCE", ground_psf * PSF_PA) / PCF_N_M3 == pytest.approx(pcf)


def test_drift_height_of_the_figure():
    assert drift_height_m(100 * 0.3048, 30 * PSF_PA) / 0.3048 == pytest.approx(3.5, abs=0.05)
    assert drift_height_m(1.0, 30 * PSF_PA) == drift_height_m(20 * 0.3048, 30 * PSF_PA)


def test_wind_heaps_no_more_than_twice_the_ground_s_snow_behind_a_thing_2_m_high():
    """mu2 2.67 is held to 2.0: 2.0 x 1.5 / 2 = 1.5 m, which is more than what lies and slides."""
    panel = pile_up(EN, snow_pressure(EN, free_to_slide=False), 2000.0)  # its top is 2 m up
    assert panel.depth_mm == pytest.approx(1500.0)
    assert panel.drift_pa == pytest.approx(2000 * 0.5 * 0.75)
    assert panel.drift_mm == pytest.approx(500 / math.sin(math.radians(30)))


def test_a_thing_lower_than_that_heaps_no_more_than_its_own_height():
    low = replace(EN, lower_edge_mm=200.0, tilt_deg=10.0, ground_snow_pa=800.0)
    panel = pile_up(low, snow_pressure(low, free_to_slide=False), 1000.0)
    assert panel.depth_mm == pytest.approx(max(400.0, 200 + 1000 * math.sin(math.radians(10))))


def test_what_slides_off_lies_in_a_pile_four_times_as_long_as_high_under_asce():
    site = replace(ASCE, ground_snow_pa=40 * PSF_PA, lower_edge_mm=500.0)
    panel = pile_up(site, snow_pressure(site, free_to_slide=False), 1600.0)
    weight = (0.13 * 40 + 14) * PCF_N_M3
    slid = 0.4 * 0.7 * 1.2 * 40 * PSF_PA * 1.6 * math.cos(math.radians(30))
    assert panel.depth_mm == pytest.approx(1000 * (40 * PSF_PA / weight + math.sqrt(slid / (2 * weight))))


def test_snow_pulls_on_the_lip_without_friction():
    """EN 6.4: s 0.8 x 1.5 kN/m2, b 2 m x cos 30."""
    high = replace(EN, lower_edge_mm=4000.0)
    panel = pile_up(high, snow_pressure(high, free_to_slide=False), 2000.0)
    assert panel.drift_pa == 0.0
    assert panel.lip_n_m == pytest.approx(1200 * 2 * math.cos(math.radians(30)) * math.sin(math.radians(30)))
    assert panel.strength_lip_n_m == pytest.approx(1.5 * panel.lip_n_m)


def test_below_a_higher_roof_en_adds_what_slides_and_what_the_wind_drops():
    load = snow_pressure(replace(EN, upper_roof_m=6.0, upper_drop_m=3.0))
    assert load.plan_pa == pytest.approx((0.8 * 6 / 6 + 4.0) * 1500)
    low = snow_pressure(replace(EN, upper_roof_m=6.0, upper_drop_m=1.0))
    assert low.plan_pa == pytest.approx((0.8 * 6 / 5 + 2000 / 1500) * 1500)


def test_below_a_higher_roof_asce_takes_the_larger_of_slide_and_drift():
    site = replace(ASCE, ground_snow_pa=30 * PSF_PA, upper_roof_m=100 * 0.3048, upper_drop_m=10.0)
    flat = 0.7 * 1.2 * 30 * PSF_PA
    alone = snow_pressure(replace(site, upper_roof_m=0.0)).plan_pa
    slid, blown = 0.4 * flat * 100 / 15, 17.9 * PCF_N_M3 * drift_height_m(30.48, 30 * PSF_PA)
    assert snow_pressure(site).plan_pa == pytest.approx(alone + max(slid, blown))
