"""Hills: ASCE 7-16 figure 26.8-1 (K1, K3) and EN 1991-1-4 annex A.3 (c0), all from memory."""

import math
from dataclasses import replace

import pytest

from panewright.climate.site import Hill, Site, Wind
from panewright.climate.wind import en
from panewright.climate.wind.hill import orography_factor, topographic_factor
from panewright.climate.wind.load import wind_pressures

EN = Site(
    "EN",
    Wind(26.0, "10 min mean", "EN 1991-1-4", 50.0, ground="II"),
    0.0,
    -20.0,
    40.0,
    20.0,
    5.0,
    0.0,
    "free-standing",
)


@pytest.mark.parametrize(
    ("shape", "k1", "k3"), [("ridge", 0.72, 0.22), ("escarpment", 0.43, 0.29), ("hill", 0.53, 0.14)]
)
def test_crest_of_a_slope_of_1_in_2_in_exposure_c(shape, k1, k3):
    """K1 at H/Lh 0.5, K3 at z/Lh 0.5; both print two decimals."""
    hill = Hill(shape, 20.0, 80.0)
    at_ground, at_half = (math.sqrt(topographic_factor(hill, "C", z)) - 1 for z in (0.0, 20.0))
    assert at_ground == pytest.approx(k1, abs=0.006)
    assert at_half / at_ground == pytest.approx(k3, abs=0.006)


def test_a_slope_steeper_than_1_in_2_counts_as_one_of_1_in_2():
    steep, even = Hill("ridge", 20.0, 10.0), Hill("ridge", 20.0, 80.0)
    assert topographic_factor(steep, "C", 5.0) == topographic_factor(even, "C", 5.0)


@pytest.mark.parametrize(("slope_m", "c0"), [(400.0, 1.10), (100.0, 1.40), (50.0, 1.61), (401.0, 1.0)])
def test_crest_by_en_near_the_ground(slope_m, c0):
    """s is 1.01 at the ground: 1 + 2 s Phi to Phi 0.3, 1 + 0.6 s beyond, nothing below 0.05."""
    assert orography_factor(Hill("ridge", 20.0, slope_m), 0.0) == pytest.approx(c0, abs=0.006)


def test_peak_pressure_on_a_crest_by_hand():
    hill = Hill("hill", 30.0, 120.0)
    c0, log_z = orography_factor(hill, 5.0), math.log(5 / 0.05)
    mean = 0.19 * log_z * c0 * 26
    found = wind_pressures(replace(EN, hill=hill)).velocity_pressure_pa
    assert found == pytest.approx((1 + 7 / (c0 * log_z)) * 0.625 * mean**2)
    assert found > en.peak_pressure_pa(26.0, "II", 5.0)
