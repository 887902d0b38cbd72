"""EN 1991-1-4:2005+A1, wind.

seen: formulas of 4.3 to 4.5, the printed calculation for category I, z0 of 0, I, II, table 7.6 in a public
copy, zones F, G, H of table 7.2; tables 7.3 and 7.4 in another. memory: table 7.1, z0 of III and IV, z_min,
7.4.3, figure 7.16, c_prob. derived: peak pressures in category II.
"""

import math
from dataclasses import replace

import pytest

from panewright.climate.site import Site, Wind
from panewright.climate.wind import en, en_net
from panewright.climate.wind.load import wind_pressures

RIM = {  # tilt: largest of zones B and C that presses, and that lifts
    0: (1.8, 2.2),
    5: (2.1, 2.5),
    10: (2.4, 2.7),
    15: (2.7, 3.0),
    20: (2.9, 3.0),
    25: (3.1, 3.2),
    30: (3.2, 3.8),
}


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
        (10, 1.2, 2.1),
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
    net = en_net.net_coefficients(replace(site(tilt_deg, "roof-parallel"), roof="duopitch"))
    assert (net.down, net.up) == pytest.approx((press, 2.0))


def test_wall_takes_the_local_coefficients_of_its_edge_zone():
    net = en_net.net_coefficients(site(90.0, "wall"))
    assert (net.down, net.up) == (1.0, 1.4)


@pytest.mark.parametrize(("tilt_deg", "pair"), RIM.items())
@pytest.mark.parametrize("zone", ["edge", "corner"])
def test_rim_of_a_large_canopy(zone, tilt_deg, pair):
    assert en_net.canopy_coefficients(tilt_deg, zone) == pytest.approx(pair)


@pytest.mark.parametrize(("zone", "lift"), [("middle", 1.2), ("edge", 2.0), ("corner", 2.5)])
def test_roof_by_zone(zone, lift):
    assert (
        en_net.net_coefficients(replace(site(20.0, "roof-parallel"), zone=zone, roof="duopitch")).up == lift
    )


def test_middle_of_a_wall():
    net = en_net.net_coefficients(replace(site(90.0, "wall"), zone="middle"))
    assert (net.down, net.up) == (1.0, 1.1)


@pytest.mark.parametrize(
    ("tilt_deg", "press", "lift"),
    [
        (0, 0.2, 1.3),
        (5, 0.4, 1.4),
        (10, 0.5, 1.4),
        (15, 0.7, 1.4),
        (20, 0.8, 1.4),
        (25, 1.0, 1.6),
        (30, 1.2, 1.8),
    ],
)
def test_whole_canopy_is_pushed_a_quarter_of_its_length_from_an_edge(tilt_deg, press, lift):
    grips = en_net.open_grips(tilt_deg, one_post=True)
    assert {(grip.coefficient, grip.along_share) for grip in grips} == {
        (press, -0.25),
        (press, 0.25),
        (-lift, -0.25),
        (-lift, 0.25),
    }
    assert {grip.across_share for grip in grips} == {0.25}


def test_a_steep_panel_is_a_signboard_too():
    boards = [grip for grip in en_net.open_grips(60.0, one_post=False) if "board" in grip.words]
    assert [(grip.coefficient, grip.across_share) for grip in boards] == [(1.8, 0.25), (-1.8, 0.25)]


def test_a_gust_gives_back_its_own_pressure_at_10_m_over_terrain_ii():
    gust = Wind(40.0, "3 s gust", "EN 1991-1-4", return_years=50, ground="II")
    load = wind_pressures(replace(site(height_m=10.0), wind=gust))
    mean_over_basic = 0.19 * math.log(10 / 0.05)
    assert load.velocity_pressure_pa == pytest.approx(0.625 * 40.0**2 * mean_over_basic**2)


MONOPITCH = {  # tilt: c_pe,1 of tables 7.3a (0 and 180 degrees) and 7.3b by zone, each way of the wind
    5: {"corner": (2.5, 2.5, 2.6, 2.4), "edge": (2.0, 2.0, 2.0), "middle": (1.2, 1.2, 1.2)},
    15: {"corner": (2.0, 2.8, 2.9, 2.4), "edge": (1.5, 2.0, 2.5), "middle": (0.3, 1.2, 1.2)},
    30: {"corner": (1.5, 2.3, 2.9, 2.0), "edge": (1.5, 1.5, 2.0), "middle": (0.2, 0.8, 1.3)},
    45: {"corner": (0.0, 1.3, 2.4, 2.0), "edge": (0.0, 1.0, 2.0), "middle": (0.0, 0.8, 1.3)},
    60: {"corner": (1.0, 2.0), "edge": (1.0, 2.0), "middle": (0.8, 1.3)},
    75: {"corner": (1.0, 2.0), "edge": (1.0, 2.0), "middle": (0.8, 1.3)},
}
DUOPITCH = {  # tables 7.4a and 7.4b, ridges; zone J along the ridge belongs to the edge
    5: {"corner": (2.5, 2.2), "edge": (2.0, 2.0, 0.6), "middle": (1.2, 1.2)},
    15: {"corner": (2.0, 2.0), "edge": (1.5, 2.0, 1.5), "middle": (0.3, 1.2)},
    30: {"corner": (1.5, 1.5), "edge": (1.5, 2.0, 0.5), "middle": (0.2, 1.2)},
    45: {"corner": (0.0, 1.5), "edge": (0.0, 2.0, 0.3), "middle": (0.0, 1.2)},
    60: {"corner": (1.5,), "edge": (2.0, 0.3), "middle": (1.0,)},
    75: {"corner": (1.5,), "edge": (2.0, 0.3), "middle": (1.0,)},
}


@pytest.mark.parametrize("tilt_deg", MONOPITCH)
@pytest.mark.parametrize("zone", ["corner", "edge", "middle"])
def test_a_monopitch_roof_takes_the_largest_of_its_directions(tilt_deg, zone):
    found = en_net.net_coefficients(
        replace(site(float(tilt_deg), "roof-parallel"), zone=zone, roof="monopitch")
    )
    assert found.up == pytest.approx(max(MONOPITCH[tilt_deg][zone]))


@pytest.mark.parametrize("tilt_deg", DUOPITCH)
@pytest.mark.parametrize("zone", ["corner", "edge", "middle"])
def test_a_duopitch_roof_takes_no_less_than_its_tables(tilt_deg, zone):
    roof = replace(site(float(tilt_deg), "roof-parallel"), zone=zone)
    shaped = en_net.net_coefficients(replace(roof, roof="duopitch")).up
    assert shaped >= max(DUOPITCH[tilt_deg][zone])
    monopitch = en_net.net_coefficients(replace(roof, roof="monopitch")).up
    assert en_net.net_coefficients(roof).up == max(shaped, monopitch)


def test_the_middle_of_a_roof_is_a_tenth_of_e_from_its_edges():
    roof = replace(site(20.0, "roof-parallel", height_m=4.0), zone="middle", roof_edge_mm=800.0)
    assert all(check.passed for check in wind_pressures(roof).checks)
    near = wind_pressures(replace(roof, roof_edge_mm=799.0)).checks
    assert [check.rule for check in near if not check.passed] == ["panel clear of the roof's edge zones"]
    assert all(check.passed for check in wind_pressures(replace(roof, zone="edge", roof_edge_mm=0.0)).checks)


@pytest.mark.parametrize(
    ("tilt_deg", "press", "lift"), [(0, 1.8 / 0.5, 2.2 / 1.5), (20, 2.9 / 1.7, 3.0 / 2.2)]
)
def test_edges_bear_zone_a_and_a_tenth_of_the_rim_by_the_lever(tilt_deg, press, lift):
    """A beam of length 1 under A, with R - A more on a tenth at either end: half of the whole at each end."""
    down, up = en_net.edge_factors(tilt_deg)
    assert down == pytest.approx((0.5 + 0.1 * (press - 1)) / 0.5)
    assert up == pytest.approx((0.5 + 0.1 * (lift - 1)) / 0.5)
