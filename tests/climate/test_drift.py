"""Laws of snow at a panel's low edge and below a higher roof."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.site import Site, Wind
from panewright.climate.snow.drift import pile_up
from panewright.climate.snow.snow import snow_pressure

ASCE = Site(
    "ASCE",
    Wind(45.0, "3 s gust", "ASCE 7-16", risk_category="II"),
    1000.0,
    -20.0,
    40.0,
    30.0,
    3.0,
    0.0,
    "free-standing",
)
EN = replace(ASCE, family="EN", wind=Wind(26.0, "10 min mean", "EN 1991-1-4", 50.0, ground="II"))
sites = st.builds(
    lambda site, mounting, tilt, ground, edge: replace(
        site, mounting=mounting, tilt_deg=tilt, ground_snow_pa=ground, lower_edge_mm=edge
    ),
    st.sampled_from([ASCE, EN]),
    st.sampled_from(["free-standing", "pole", "roof-parallel", "wall"]),
    st.floats(0, 90),
    st.floats(0, 8000),
    st.one_of(st.none(), st.floats(0, 2900)),
)
slopes = st.floats(100, 3000)


def piled(site, slope_mm):
    return pile_up(site, snow_pressure(site, free_to_slide=False), slope_mm)


@given(sites, slopes)
def test_a_drift_stays_on_the_pane_and_has_no_sign(site, slope_mm):
    drift = piled(site, slope_mm)
    assert 0 <= drift.drift_mm <= slope_mm * (1 + 1e-12)
    assert min(drift.depth_mm, drift.drift_pa, drift.along_pa, drift.lip_n_m) >= 0
    assert drift.strength_drift_pa >= drift.drift_pa
    assert drift.strength_lip_n_m >= drift.lip_n_m


@given(sites, slopes, st.floats(0, 1000))
def test_a_higher_edge_never_carries_more(site, slope_mm, more_mm):
    low = replace(site, lower_edge_mm=site.lower_edge_mm or 0.0)
    high = replace(low, lower_edge_mm=low.lower_edge_mm + more_mm)
    assert piled(high, slope_mm).drift_pa <= piled(low, slope_mm).drift_pa + 1e-6


@given(sites, slopes, st.floats(0, 2000))
def test_more_snow_never_means_less_at_the_edge(site, slope_mm, more_pa):
    heavy = replace(site, ground_snow_pa=site.ground_snow_pa + more_pa)
    light, more = piled(site, slope_mm), piled(heavy, slope_mm)
    assert more.lip_n_m >= light.lip_n_m * (1 - 1e-9)
    assert more.drift_pa >= light.drift_pa * (1 - 1e-9)


@given(sites, slopes)
def test_what_lies_on_a_roof_or_a_wall_makes_no_pile(site, slope_mm):
    drift = piled(site, slope_mm)
    if not site.in_the_open or site.ground_snow_pa == 0:
        assert (drift.depth_mm, drift.drift_pa, drift.checks) == (0.0, 0.0, ())


def test_a_panel_buried_whole_is_told():
    deep = replace(EN, ground_snow_pa=6000.0, tilt_deg=10.0, lower_edge_mm=300.0)
    assert not all(check.passed for check in piled(deep, 1000.0).checks)
    assert all(check.passed for check in piled(replace(deep, ground_snow_pa=600.0), 1000.0).checks)


@given(st.floats(350, 600), st.floats(10, 15))
def test_snow_that_the_wind_heaps_to_the_top_edge_does_not_bury_the_panel(edge_mm, tilt_deg):
    """The blown height is the panel's own by definition: a digit's rounding must not decide."""
    drift = piled(replace(EN, tilt_deg=tilt_deg, ground_snow_pa=800.0, lower_edge_mm=edge_mm), 600.0)
    (check,) = drift.checks
    assert drift.depth_mm == pytest.approx(check.limit)
    assert check.demand == pytest.approx(400.0)
    assert check.passed


def test_a_low_edge_that_is_not_stated_is_the_height_less_the_rise():
    stated = piled(replace(EN, height_m=1.2, lower_edge_mm=700.0), 1000.0)
    assert piled(replace(EN, height_m=1.2, lower_edge_mm=None), 1000.0) == stated


@given(st.sampled_from([ASCE, EN]), st.floats(1, 5000), st.floats(0, 20), st.floats(0, 10), st.floats(0, 5))
def test_a_higher_roof_never_takes_snow_away(site, ground_pa, depth_m, drop_m, more_m):
    alone = replace(site, ground_snow_pa=ground_pa)
    below = replace(alone, upper_roof_m=depth_m, upper_drop_m=drop_m)
    deeper = replace(below, upper_roof_m=depth_m + more_m)
    assert snow_pressure(alone).plan_pa <= snow_pressure(below).plan_pa <= snow_pressure(deeper).plan_pa


@pytest.mark.parametrize(("altitude_m", "holds"), [(1500.0, True), (1501.0, False)])
def test_en_ends_at_1500_m(altitude_m, holds):
    load = snow_pressure(replace(EN, altitude_m=altitude_m))
    assert all(check.passed for check in load.checks) is holds
    assert snow_pressure(replace(EN, altitude_m=altitude_m, ground_snow_pa=0.0)).checks == ()
