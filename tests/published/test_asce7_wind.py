"""ASCE/SEI 7, Minimum Design Loads, editions 7-05, 7-10, 7-16 and 7-22, wind.

seen: velocity pressure constant, power law of 7-05 to 7-16 with its alpha and zg, the spreadsheet print of
ASCE 7-16 chapter 27 for V 35 m/s, Kd and G; figure 27.4-4 of 7-10 in two public copies; figures 6-19A and
6-20 of 7-05 in a national code that reprints them; walls, and gables to 27 degrees, of 7-22 in a public
copy. memory: the law of 7-22, Ke, the return period formula of the 7-10 commentary, gables of 7-16.
derived: figures evaluated from these by hand.
"""

from dataclasses import replace

import pytest

from panewright.climate.site import Site, Wind
from panewright.climate.wind import asce, asce_net, asce_open
from panewright.climate.wind.load import wind_pressures

HEIGHTS_M = (4.572, 6.096, 7.62, 9.144, 12.192, 15.24, 18.288)
KZ_2016 = {
    "B": (0.5747, 0.624, 0.665, 0.7006, 0.7606, 0.8107, 0.854),
    "C": (0.8489, 0.9019, 0.9453, 0.9823, 1.0436, 1.0938, 1.1366),
    "D": (1.0302, 1.0831, 1.1259, 1.1622, 1.2218, 1.2702, 1.3111),
}
KZ_2022 = {"B": (0.5729, 0.6892), "C": (0.8512, 0.9805), "D": (1.035, 1.1676)}  # at 15 and 30 ft
FREE_ROOF = {  # tilt: largest C_N of all directions, cases and halves that presses, and that lifts
    0: (1.2, 1.1),
    7.5: (1.6, 1.4),
    15: (1.8, 1.9),
    22.5: (2.2, 2.4),
    30: (2.6, 2.5),
    37.5: (2.7, 2.4),
    45: (2.6, 2.3),
}


def gust(speed_m_s, edition="ASCE 7-16", **more):
    return Wind(speed_m_s, "3 s gust", edition, **more)


def free_standing(wind, tilt_deg=30.0, altitude_m=0.0):
    return Site("ASCE", wind, 0.0, -20.0, 40.0, tilt_deg, 3.0, altitude_m, "free-standing")


@pytest.mark.parametrize("edition", ["ASCE 7-05", "ASCE 7-10", "ASCE 7-16"])
@pytest.mark.parametrize("ground", ["B", "C", "D"])
def test_kz_to_2016_meets_the_table(edition, ground):
    values = [asce.exposure_coefficient(edition, ground, z) for z in HEIGHTS_M]
    assert values == pytest.approx(KZ_2016[ground], abs=5.1e-5)


@pytest.mark.parametrize("ground", ["B", "C", "D"])
def test_kz_of_2022_meets_the_table_at_15_and_30_feet(ground):
    values = [asce.exposure_coefficient("ASCE 7-22", ground, z) for z in (4.572, 9.144)]
    assert values == pytest.approx(KZ_2022[ground], abs=5.1e-5)


def test_100_mph_with_all_factors_1_is_25_6_psf():
    pressure = asce.velocity_pressure_pa(44.704, kz=1.0, kd=1.0)
    assert pressure == pytest.approx(1225.05, abs=0.02)
    assert pressure / 47.88026 == pytest.approx(25.6, rel=1e-3)


@pytest.mark.parametrize(("height_m", "kz", "q"), [(5.0, 0.87, 552.14), (8.0, 0.95, 609.56)])
def test_worked_sheet_at_35_m_s_exposure_c(height_m, kz, q):
    found = asce.exposure_coefficient("ASCE 7-16", "C", height_m)
    assert found == pytest.approx(kz, abs=0.005)
    assert asce.velocity_pressure_pa(35, found) == pytest.approx(q, abs=0.1)


def test_panel_at_100_mph_exposure_c_by_hand():
    q = asce.velocity_pressure_pa(44.704, kz=0.85)
    assert q == pytest.approx(885.1, abs=0.05)
    assert [q * 0.85 * c for c in (1.8, 2.1, 2.5)] == pytest.approx([1354.2, 1579.9, 1880.8], abs=0.1)


@pytest.mark.parametrize(("tilt_deg", "pair"), FREE_ROOF.items())
def test_free_roof_takes_the_fuller_half_over_the_whole_panel(tilt_deg, pair):
    assert asce_open.free_roof_coefficients(tilt_deg) == pytest.approx(pair, abs=1e-12)


def test_free_roof_below_7_5_degrees_is_no_less_than_flat():
    down, up = asce_open.free_roof_coefficients(4.0)
    assert down == 1.2
    assert up == pytest.approx(1.1 + 0.3 * 4 / 7.5)


def test_free_roof_runs_straight_between_tilts():
    assert asce_open.free_roof_coefficients(18.75) == pytest.approx((2.0, 2.15))


def test_whole_chain_at_100_mph_exposure_c_at_30_degrees():
    load = wind_pressures(free_standing(gust(44.704, risk_category="II", ground="C")))
    q = 0.613 * 0.85 * 44.704**2 * KZ_2016["C"][0]
    assert load.velocity_pressure_pa == pytest.approx(q, rel=1e-4)
    assert load.strength_down_pa == pytest.approx(q * 0.85 * 2.6, rel=1e-4)
    assert load.strength_up_pa == pytest.approx(q * 0.85 * 2.5, rel=1e-4)
    assert (load.down_pa, load.up_pa) == pytest.approx(
        (0.6 * load.strength_down_pa, 0.6 * load.strength_up_pa)
    )


def test_pressure_of_2005_is_already_at_service_level():
    load = wind_pressures(free_standing(gust(40.0, "ASCE 7-05", return_years=50, ground="C")))
    q = 0.613 * 0.85 * 40.0**2 * KZ_2016["C"][0]
    assert load.up_pa == pytest.approx(q * 0.85 * 2.5, rel=1e-4)
    assert load.strength_up_pa == pytest.approx(1.6 * load.up_pa)


def test_thin_air_counts_from_2016_on():
    assert asce.elevation_factor("ASCE 7-16", 1828.8) == pytest.approx(0.80, abs=0.005)  # 6000 ft, memory
    assert asce.elevation_factor("ASCE 7-10", 1828.8) == 1.0


@pytest.mark.parametrize(("years", "factor"), [(10, 0.84), (25, 0.93), (50, 1.0), (100, 1.07)])
def test_return_factor_meets_the_older_conversion_table(years, factor):
    assert asce.return_factor(years) == pytest.approx(factor, abs=0.005)


def test_a_50_year_gust_is_raised_before_a_2016_map_rule_takes_it():
    stated = asce.design_speed(gust(40.0, return_years=50))
    assert stated.value == pytest.approx(40.0 * 1.2636 / 0.9997, rel=1e-4)


def test_cladding_is_never_designed_for_less_than_16_psf():
    load = wind_pressures(free_standing(gust(10.0)))
    assert load.strength_up_pa == pytest.approx(16 * 47.88026)


EDGE = {
    0: (1.8, 1.7),
    7.5: (2.4, 2.1),
    15: (2.7, 2.9),
    30: (3.9, 3.8),
    45: (3.9, 3.5),
}  # zone 2, at most 4 a2
CORNER = {0: (2.4, 3.3), 7.5: (3.2, 4.2), 15: (3.6, 3.8), 30: (5.2, 5.0), 45: (5.2, 4.6)}  # zone 3, a2


@pytest.mark.parametrize(("zone", "table"), [("edge", EDGE), ("corner", CORNER)])
def test_rim_of_a_large_free_roof(zone, table):
    for tilt_deg, pair in table.items():
        face, back = asce_open.open_ways(tilt_deg, zone)
        assert (face.down, back.up) == pytest.approx(pair)


def test_wind_on_the_face_presses_and_wind_on_the_back_lifts():
    face, back = asce_open.free_roof_ways(30.0)
    assert (face.down, face.up) == (2.6, 0.0)
    assert (back.down, back.up) == (0.0, 2.5)


@pytest.mark.parametrize("tilt_deg", [60, 75, 90])
def test_an_upright_panel_is_a_freestanding_sign_three_times_as_wide_as_high(tilt_deg):
    net = asce_net.net_coefficients(free_standing(gust(40.0), tilt_deg=float(tilt_deg)))
    assert (net.down, net.up) == pytest.approx((0.85 * 2.6, 0.85 * 2.6))


def test_force_of_a_free_roof_lies_where_its_halves_put_it():
    by_name = {grip.words: grip for grip in asce_open.open_grips(30.0, one_post=True)}
    press = by_name["wind on the face, over the low edge, free roof, case B"]
    lift = by_name["wind on the back, over the high edge, free roof, case B"]
    assert press.coefficient == pytest.approx(0.85 * (2.6 + 1.0) / 2)
    assert press.along_share == pytest.approx(-(2.6 - 1.0) / 4 / (2.6 + 1.0))  # the low edge is windward
    assert lift.coefficient == pytest.approx(-0.85 * (2.5 + 0.5) / 2)
    assert lift.along_share == pytest.approx((2.5 - 0.5) / 4 / (2.5 + 0.5))
    assert press.across_share == lift.across_share == 0.2


def test_a_sign_is_pushed_at_its_middle_or_a_fifth_of_its_width_aside():
    signs = [grip for grip in asce_open.open_grips(80.0, one_post=False) if "sign" in grip.words]
    assert [(grip.coefficient, grip.across_share) for grip in signs] == [
        (pytest.approx(0.85 * 1.95), 0.2),
        (pytest.approx(-0.85 * 1.95), 0.2),
    ]


@pytest.mark.parametrize(("zone", "lift"), [("middle", 1.1), ("edge", 1.4), ("corner", 1.4)])
def test_walls_by_zone(zone, lift):
    site = replace(free_standing(gust(40.0), 90.0), mounting="wall", zone=zone)
    net = asce_net.net_coefficients(site)
    assert (net.down, net.up) == (1.0, lift)


@pytest.mark.parametrize(
    ("tilt_deg", "lifts"),
    [(5, (1.7, 2.3, 3.2)), (15, (2.0, 3.0, 3.6)), (25, (1.5, 2.5, 3.6)), (40, (1.8, 2.0, 3.2))],
)
def test_gables_by_zone_times_1_2(tilt_deg, lifts):
    site = replace(free_standing(gust(40.0), float(tilt_deg)), mounting="roof-parallel")
    for zone, lift in zip(("middle", "edge", "corner"), lifts, strict=True):
        assert asce_net.net_coefficients(replace(site, zone=zone)).up == pytest.approx(1.2 * lift)


def test_rule_for_panels_over_a_roof_ends_at_a_gap_of_ten_inches_and_near_its_edges():
    site = replace(
        free_standing(gust(40.0), 20.0), mounting="roof-parallel", roof_gap_mm=254.0, roof_edge_mm=508.0
    )
    assert all(check.passed for check in wind_pressures(site).checks)
    assert not all(check.passed for check in wind_pressures(replace(site, roof_gap_mm=255.0)).checks)
    assert not all(check.passed for check in wind_pressures(replace(site, roof_edge_mm=507.0)).checks)
