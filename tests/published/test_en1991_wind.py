"""EN 1991-1-4:2005+A1, wind.

seen: formulas of 4.3 to 4.5, the printed calculation for category I, z0 of 0, I, II. memory: tables 7.2
and 7.4, z0 of III and IV, z_min, table 7.6, 7.4.3, c_prob. derived: peak pressures in category II.
"""

import math

import pytest

from panewright.climate import en, en_net
from panewright.climate.load import wind_pressures
from panewright.climate.site import Site, Wind


def site(tilt_deg=20.0, mounting="free-standing", **more):
    wind = Wind(26.0, "10 min mean", "EN 1991-1-4", return_years=50, ground="II")
    return Site("EN", wind, 0.0, -20.0, 40.0, tilt_deg, more.get("height_m", 3.0), 0.0, mounting)


def test_printed_example_in_category_i():
    assert en.peak_pressure_pa(27.0, "I", 3.5) == pytest.approx(988.95, abs=0.005)


@pytest.mark.parametrize(("vb", "z", "qp"), [(26, 10, 993.84), (26, 3, 692.82), (24, 2, 512.43)])
def test_peak_pressure_in_category_ii(vb, z, qp):
    assert en.peak_pressure_pa(vb, "II", z) == pytest.approx(qp, abs=0.005)


@pytest.mark.parametrize(
    ("terrain", "z0", "least_m"),
    [("0", 0.003, 1), ("I", 0.01, 1), ("II", 0.05, 2), ("III", 0.3, 5), ("IV", 1.0, 10)],
)
def test_terrain_law_and_its_least_height(terrain, z0, least_m):
    log_z = math.log(12 / z0)
    mean = 0.19 * (z0 / 0.05) ** 0.07 * log_z * 25
    assert en.peak_pressure_pa(25, terrain, 12) == pytest.approx((1 + 7 / log_z) * 0.625 * mean**2)
    assert en.peak_pressure_pa(25, terrain, 0.1) == en.peak_pressure_pa(25, terrain, least_m)


@pytest.mark.parametrize(("years", "factor"), [(50, 1.0), (10, 0.902), (100, 1.038)])
def test_probability_factor(years, factor):
    assert en.probability_factor(years) == pytest.approx(factor, abs=1e-3)


@pytest.mark.parametrize(
    ("tilt_deg", "press", "lift"),
    [
        (0, 0.5, 1.5),
        (5, 0.8, 1.6),
        (10, 1.2, 1.6),
        (15, 1.4, 1.8),
        (20, 1.7, 2.2),
        (25, 2.0, 2.6),
        (30, 2.2, 3.0),
    ],
)
def test_monopitch_canopy_zone_a_of_the_worse_blockage(tilt_deg, press, lift):
    assert en_net.canopy_coefficients(tilt_deg) == pytest.approx((press, lift))


def test_whole_chain_at_20_degrees():
    load = wind_pressures(site())
    assert load.velocity_pressure_pa == pytest.approx(692.82, abs=0.005)
    assert load.down_pa == pytest.approx(692.82 * 1.7, abs=0.01)
    assert load.up_pa == pytest.approx(692.82 * 2.2, abs=0.02)
    assert load.strength_up_pa == pytest.approx(1.5 * load.up_pa)


@pytest.mark.parametrize(
    ("tilt_deg", "press"), [(5, 0.2), (15, 0.2), (30, 0.7), (45, 0.7), (60, 0.7), (75, 0.8)]
)
def test_roof_parallel_takes_the_edge_band_of_a_duopitch_roof(tilt_deg, press):
    net = en_net.net_coefficients("roof-parallel", tilt_deg)
    assert (net.down, net.up) == pytest.approx((press, 2.0))


def test_wall_takes_the_local_coefficients_of_its_edge_zone():
    net = en_net.net_coefficients("wall", 90.0)
    assert (net.down, net.up) == (1.0, 1.4)
