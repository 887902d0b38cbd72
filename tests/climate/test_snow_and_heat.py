"""Laws of snow and of heat."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.heat import temperatures
from panewright.climate.site import Site, Wind
from panewright.climate.snow import snow_pressure

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
EN = Site(
    "EN",
    Wind(26.0, "10 min mean", "EN 1991-1-4", 50.0, ground="II"),
    1000.0,
    -20.0,
    40.0,
    20.0,
    3.0,
    0.0,
    "free-standing",
)
families = st.sampled_from([ASCE, EN])


@given(families, st.floats(0, 90), st.floats(0, 5000), st.floats(0, 1000))
def test_more_snow_on_the_ground_never_means_less_on_the_panel(site, tilt_deg, ground_pa, more_pa):
    light = replace(site, tilt_deg=tilt_deg, ground_snow_pa=ground_pa)
    heavy = replace(light, ground_snow_pa=ground_pa + more_pa)
    assert snow_pressure(heavy).normal_pa >= snow_pressure(light).normal_pa


@given(families, st.floats(0, 80), st.floats(0, 10))
def test_a_steeper_panel_never_carries_more_snow_across(site, tilt_deg, more_deg):
    flat, steep = replace(site, tilt_deg=tilt_deg), replace(site, tilt_deg=tilt_deg + more_deg)
    assert snow_pressure(steep).normal_pa <= snow_pressure(flat).normal_pa * (1 + 1e-12)


@given(families, st.floats(0, 90))
def test_snow_across_and_along_are_the_sides_of_one_weight(site, tilt_deg):
    load = snow_pressure(replace(site, tilt_deg=tilt_deg))
    weight_on_the_slope = load.plan_pa**2 * (load.normal_pa / load.plan_pa if load.plan_pa else 0.0)
    assert load.normal_pa**2 + load.along_pa**2 == pytest.approx(weight_on_the_slope, abs=1e-6)


def test_a_panel_for_risk_category_iv_carries_a_fifth_more():
    careful = replace(ASCE, wind=replace(ASCE.wind, risk_category="IV"))
    assert snow_pressure(careful).plan_pa == pytest.approx(1.2 * snow_pressure(ASCE).plan_pa)


@given(st.floats(-40, 20), st.floats(21, 55), st.sampled_from(["free-standing", "roof-parallel", "wall"]))
def test_parts_are_ordered_by_heat(cold_c, heat_c, mounting):
    heat = temperatures(replace(ASCE, record_cold_c=cold_c, record_heat_c=heat_c, mounting=mounting))
    assert heat.cold_c < cold_c < heat_c == heat.hot_air_c <= heat.hot_frame_c <= heat.hot_glass_c
    assert heat_c < heat.hot_cell_c <= heat.hot_glass_c
    assert heat.running_cell_c <= heat.hot_cell_c


def test_an_open_pane_is_40_k_above_the_record_in_calm_air_and_its_cells_31_in_a_breeze():
    heat = temperatures(ASCE)
    assert (heat.hot_glass_c, heat.hot_frame_c) == (80.0, 80.0)
    assert (heat.hot_cell_c, heat.running_cell_c) == pytest.approx((71.4070352, 56.4070352))
    assert (heat.cold_c, heat.build_c) == (-25.0, 20.0)


def test_an_air_gap_before_the_cell_keeps_its_heat_but_not_the_pane():
    bonded, boxed = temperatures(ASCE), temperatures(ASCE, "air gap")
    assert boxed.hot_cell_c - 40 == pytest.approx(1000 / 31.84 * 25 / (12.5 + 1 / (1 / 12.5 + 0.15)))
    assert boxed.hot_glass_c == bonded.hot_glass_c


@given(st.sampled_from([ASCE, EN]), st.floats(0, 90))
def test_snow_behind_a_lip_is_never_less_than_snow_free_to_slide(site, tilt_deg):
    tilted = replace(site, tilt_deg=tilt_deg)
    assert snow_pressure(tilted, free_to_slide=False).normal_pa >= snow_pressure(tilted).normal_pa
