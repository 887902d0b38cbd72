"""Laws of combined loads, and the combinations by hand."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.site import Site, Wind
from panewright.climate.snow.snow import snow_pressure
from panewright.climate.wind.load import wind_pressures
from panewright.structure.loads import combine, equal_duration_s, hardest_pane_loads

ASCE = Site(
    "ASCE",
    Wind(45.0, "3 s gust", "ASCE 7-16", risk_category="II", ground="C"),
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
    Wind(26.0, "10 min mean", "EN 1991-1-4", return_years=50, ground="II"),
    1000.0,
    -20.0,
    40.0,
    20.0,
    3.0,
    0.0,
    "free-standing",
)


def loads(site, mass_kg_m2=12.0):
    return combine(site, wind_pressures(site), snow_pressure(site), mass_kg_m2)


def weight_pa(site, mass_kg_m2=12.0):
    return mass_kg_m2 * 9.80665 * math.cos(math.radians(site.tilt_deg))


def test_asce_takes_the_worst_of_allowable_stress_combinations():
    wind, snow, dead = wind_pressures(ASCE), snow_pressure(ASCE).normal_pa, weight_pa(ASCE)
    found = loads(ASCE)
    by_hand = max(dead + snow, dead + wind.down_pa, dead + 0.75 * snow + 0.75 * wind.down_pa)
    assert found.down_pa == pytest.approx(by_hand)
    assert found.up_pa == pytest.approx(wind.up_pa - 0.6 * dead)
    assert (found.design_down_pa, found.design_up_pa) == (found.down_pa, found.up_pa)
    assert not any(load.factored for load in found.pane_loads)


def test_en_takes_the_worst_of_factored_combinations():
    wind, snow, dead = wind_pressures(EN), snow_pressure(EN).normal_pa, weight_pa(EN)
    found = loads(EN)
    press = wind.edge_down * wind.down_pa
    by_hand = 1.35 * dead + 1.5 * max(snow + 0.6 * press, 0.5 * snow + press)
    assert found.design_down_pa == pytest.approx(by_hand)
    assert found.design_up_pa == pytest.approx(1.5 * wind.edge_up * wind.up_pa - dead)
    assert found.down_pa == pytest.approx(dead + max(snow + 0.6 * press, 0.5 * snow + press))
    assert {load.factored for load in found.pane_loads} == {True, False}


def test_high_ground_keeps_more_snow_beside_the_wind_under_en():
    high = loads(replace(EN, altitude_m=1500.0))
    snow = snow_pressure(EN).normal_pa
    by_name = {case.name: case.pressure_pa for case in high.cases}
    low = {case.name: case.pressure_pa for case in loads(EN).cases}
    with_more = by_name["own weight, wind gust and 0.7 snow"]
    assert with_more - low["own weight, wind gust and 0.5 snow"] == pytest.approx(0.2 * snow)


def test_the_bead_gets_no_help_from_own_weight():
    assert loads(ASCE).suction_pa == wind_pressures(ASCE).up_pa


def test_an_upright_panel_without_snow_bears_only_wind():
    wall = replace(ASCE, mounting="wall", tilt_deg=90.0, ground_snow_pa=0.0)
    assert {load.kind for load in loads(wall).pane_loads if load.pressure_pa > 1e-9} <= {"wind", "combined"}


@given(st.sampled_from([ASCE, EN]), st.floats(1.0, 2.0), st.floats(0.0, 2000.0))
def test_more_wind_or_snow_is_never_safer(site, factor, more_snow_pa):
    worse = replace(
        site,
        wind=replace(site.wind, speed_m_s=site.wind.speed_m_s * factor),
        ground_snow_pa=site.ground_snow_pa + more_snow_pa,
    )
    before, after = loads(site), loads(worse)
    assert after.down_pa >= before.down_pa
    assert after.up_pa >= before.up_pa
    assert after.design_down_pa >= before.design_down_pa
    assert after.design_up_pa >= before.design_up_pa
    assert after.suction_pa >= before.suction_pa


parts = st.lists(st.tuples(st.floats(0.1, 5000), st.floats(3, 1e9)), min_size=1, max_size=4).map(tuple)


@pytest.mark.parametrize("mass_kg_m2", [6.0, 20.0])
@pytest.mark.parametrize("site", [ASCE, EN], ids=lambda site: site.family)
def test_of_the_pane_s_loads_no_other_of_their_kind_is_harder(site, mass_kg_m2):
    wind, snow = wind_pressures(site), snow_pressure(site)
    every = combine(site, wind, snow, mass_kg_m2).pane_loads
    hardest = hardest_pane_loads(site, wind, snow, mass_kg_m2)
    assert set(hardest) <= set(every)
    for load in every:
        alike = [
            each for each in hardest if (each.factored, each.duration_s) == (load.factored, load.duration_s)
        ]
        assert max(each.pressure_pa for each in alike) >= load.pressure_pa
    assert site.family == "EN" or hardest == every


@given(parts)
def test_joined_loads_last_between_the_shortest_and_the_longest(some):
    duration = equal_duration_s(some)
    durations = [one for _, one in some]
    assert min(durations) * (1 - 1e-9) <= duration <= max(durations) * (1 + 1e-9)


@given(parts)
def test_joined_loads_tire_glass_as_much_as_their_parts(some):
    duration = equal_duration_s(some)
    total = sum(pressure for pressure, _ in some)
    harm = sum(pressure * one ** (1 / 16) for pressure, one in some)
    assert total * duration ** (1 / 16) == pytest.approx(harm)


def test_en_takes_the_shortest_duration_of_a_combination():
    lasting = {case.name: case.duration_s for case in loads(EN).cases}
    assert lasting["own weight, wind gust and 0.5 snow"] == 5.0
    assert lasting["own weight and snow"] == 21 * 86400.0
    assert lasting["own weight"] > 1e9


def test_asce_hands_each_part_of_a_combination_to_the_glass_with_its_own_duration():
    combined = next(load for load in loads(ASCE).pane_loads if "3/4 snow" in load.name)
    assert [part.duration_s for part in combined.parts] == [30 * 86400.0, 30 * 86400.0, 3.0]
    assert sum(part.pressure_pa for part in combined.parts) == pytest.approx(combined.pressure_pa)


@given(st.floats(0, 90), st.floats(0, 3000))
def test_weight_and_snow_pull_down_the_slope(tilt_deg, snow_pa):
    site = replace(EN, tilt_deg=tilt_deg, ground_snow_pa=snow_pa)
    own = 12.0 * 9.80665 * math.sin(math.radians(tilt_deg))
    assert loads(site).along_pa == pytest.approx(own + snow_pressure(site).along_pa, abs=1e-9)


@given(st.sampled_from([ASCE, EN]), st.floats(0, 90), st.floats(0, 6000), st.floats(0, 2500))
def test_snow_over_the_low_edge_is_never_safer(site, tilt_deg, snow_pa, edge_mm):
    site = replace(site, tilt_deg=tilt_deg, ground_snow_pa=snow_pa, lower_edge_mm=edge_mm)
    wind, snow = wind_pressures(site), snow_pressure(site, free_to_slide=False)
    without, beside = combine(site, wind, snow, 12.0), combine(site, wind, snow, 12.0, slope_mm=1500.0)
    assert beside.design_down_pa >= without.design_down_pa
    assert beside.along_pa >= without.along_pa
    assert beside.up_pa == without.up_pa
    assert without.drift is None


def test_snow_over_the_low_edge_goes_into_every_combination_with_snow():
    site = replace(EN, ground_snow_pa=2000.0, lower_edge_mm=300.0)
    wind, snow = wind_pressures(site), snow_pressure(site, free_to_slide=False)
    found = combine(site, wind, snow, 12.0, slope_mm=1500.0)
    lying = next(case for case in found.cases if case.name == "own weight and snow, factored")
    by_hand = 1.35 * weight_pa(site) + 1.5 * (snow.normal_pa + found.drift.drift_pa)
    assert found.drift.drift_pa > 0
    assert lying.pressure_pa == pytest.approx(by_hand)


@pytest.mark.parametrize(("zone", "more"), [("middle", True), ("edge", False)])
def test_rails_and_bead_see_the_strips_along_a_canopy_s_edges_and_the_pane_does_not(zone, more):
    site = replace(EN, zone=zone)
    wind = wind_pressures(site)
    loads = combine(site, wind, snow_pressure(site, free_to_slide=False), 12.0)
    lift = -min(case.pressure_pa for case in loads.cases)
    assert (wind.edge_up > 1) is (wind.edge_down > 1) is more
    assert loads.suction_pa == pytest.approx(wind.edge_up * wind.up_pa)
    weight = 12.0 * 9.80665 * math.cos(math.radians(site.tilt_deg))
    assert loads.design_up_pa == pytest.approx(wind.edge_up * wind.strength_up_pa - weight)
    assert lift == pytest.approx(wind.strength_up_pa - weight)
