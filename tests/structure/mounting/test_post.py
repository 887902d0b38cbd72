"""A post in the ground: statics by hand, and laws."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.support.post import Post
from panewright.structure.mounting.forces import Panel, Wind
from panewright.structure.mounting.ground import embedment
from panewright.structure.mounting.ground.post import Standing, judge_post, needed_depth_mm, with_depth
from panewright.structure.mounting.ground.post_loads import (
    bending_mpa,
    post_loads,
    shear_mpa,
    sway_factor,
    sway_mm,
)
from panewright.structure.mounting.ground.soil import soil

EN = Panel(
    family="EN",
    tilt_deg=35.0,
    width_mm=1000.0,
    slope_mm=1600.0,
    mass_kg=25.0,
    winds=(Wind(1500.0, 1000.0, 0.25, 0.25), Wind(-1600.0, -1067.0, -0.25, 0.25)),
    wind_on_post_pa=900.0,
    snow_plan_pa=600.0,
)
TUBE = Post("tube", "round", 88.9, 4.0, 6000.0, metal="S235")
PIPE = replace(TUBE, metal="A500 B")
WOOD = Post("wood", "timber", 140.0, 0.0, 4000.0, species="C24")


def standing(family="EN", post=None, **changes):
    whole = replace(EN, family=family)
    made = Standing(whole, post or (TUBE if family == "EN" else PIPE), 1500.0, 300.0, 1500.0, "clay")
    return replace(made, **changes)


def checks(made):
    return {check.rule: check for check in judge_post(made)}


def test_loads_by_hand():
    """1500 Pa x 1.6 m2 = 2400 N pressing 0.4 m up the slope of 35 degrees at 1.5 m; wind on the post."""
    press, lift, still = post_loads(EN, TUBE, 1500.0)
    slope, post = math.sin(math.radians(35)), 0.0889 * 1.5 * 1.2 * 900
    assert press.level_n == pytest.approx(2400 * slope + post)
    assert press.moment_nm == pytest.approx(2400 * (1.5 * slope + 0.4) + post * 0.75)
    assert lift.moment_nm == pytest.approx(2560 * (1.5 * slope - 0.4) + post * 0.75)
    assert press.torque_nm == pytest.approx(2400 * slope * 0.25)
    assert lift.sideways_nm == pytest.approx(2560 * math.cos(math.radians(35)) * 0.25)
    assert (still.level_n, still.torque_nm) == (0.0, 0.0)
    weight = (25 + TUBE.kg_m * 1.5) * 9.80665
    assert lift.lift_n == pytest.approx(2560 * math.cos(math.radians(35)) - 0.9 * weight)


def test_sections_by_hand():
    """Tube 88.9 x 4: I = 96.3 cm4, W = 21.7 cm3, A = 10.7 cm2 (EN 10219-2 tables, recalled)."""
    assert TUBE.inertia_mm4 / 1e4 == pytest.approx(96.3, abs=0.05)
    assert TUBE.modulus_mm3 / 1e3 == pytest.approx(21.7, abs=0.05)
    assert TUBE.area_mm2 / 100 == pytest.approx(10.7, abs=0.05)
    assert WOOD.modulus_mm3 == pytest.approx(140**3 / 6)


def test_stress_and_sway_of_a_cantilever():
    assert bending_mpa(TUBE, 300.0, 400.0, 0.0) == pytest.approx(500e3 / TUBE.modulus_mm3)
    assert bending_mpa(WOOD, 300.0, 400.0, 0.0) == pytest.approx(700e3 / WOOD.modulus_mm3)
    assert shear_mpa(TUBE, 100.0, 0.0) == pytest.approx(100e3 / (2 * math.pi / 4 * 84.9**2 * 4))
    level = replace(EN, tilt_deg=90.0, winds=(Wind(1500.0, 1000.0, 0.25, 0.25),))
    force = 1000 * 1.6
    bend = 210e3 * TUBE.inertia_mm4
    expected = force * 1500**3 / (3 * bend) + force * 400 * 1500**2 / (2 * bend)
    assert sway_mm(TUBE, 210e3, level, 1500.0) == pytest.approx(expected)


def test_weight_at_half_the_critical_load_doubles_the_moment():
    critical = math.pi**2 * 210e3 * TUBE.inertia_mm4 / (2 * 1500) ** 2
    assert sway_factor(TUBE, 210e3, 1500.0, critical / 2) == pytest.approx(2.0)
    assert sway_factor(TUBE, 210e3, 1500.0, critical) == math.inf


def test_families_keep_to_themselves():
    assert checks(standing("ASCE", TUBE))["post bending at the ground"].limit is None
    assert checks(standing("EN", PIPE))["post bending at the ground"].limit is None
    assert checks(standing("ASCE", WOOD))["post bending at the ground"].limit is None


def test_the_american_rules_have_nothing_on_twisted_timber():
    pine = Post("pine", "timber", 140.0, 0.0, 4000.0, species="southern pine")
    assert not checks(standing("ASCE", pine))["post twisted and bent"].covered
    assert checks(standing("EN", WOOD))["post twisted and bent"].covered


def test_sand_by_hand():
    """Kp 3 at 30 degrees: 0.5 x 3 x 17 kN/m3 x 0.3 m x 1 m3 / (1 + 1) m = 3825 N."""
    assert embedment.sand_limit_n(1.0, 1.0, 0.3, 30.0, 17e3) == pytest.approx(3825)


def test_clay_balances():
    """Forces and moments of the two pressures about the ground, by quadrature-free statics."""
    depth, arm, across, cohesion = 1.5, 1.2, 0.3, 30e3
    force = embedment.clay_limit_n(depth, arm, across, cohesion)
    press, dead = 9 * cohesion * across, 1.5 * across
    turn = (force / press + (depth - dead)) / 2 + dead
    moment = press * (turn**2 - dead**2) / 2 - press * (depth**2 - turn**2) / 2
    assert moment == pytest.approx(-force * arm)


@given(st.floats(0.3, 3), st.floats(0.1, 1), st.floats(0.3, 4), st.sampled_from(["gravel", "sand", "clay"]))
def test_more_depth_never_bears_less_and_is_found_back(depth, more, arm, name):
    ground = soil(name)
    here, deeper = (embedment.en_limit_n(d, arm, 0.3, ground) for d in (depth, depth + more))
    assert deeper >= here
    if here > 1:
        assert embedment.en_depth_m(here, arm, 0.3, ground) == pytest.approx(depth, rel=1e-6)


@given(st.floats(10, 5000), st.floats(1, 3), st.floats(0.3, 4), st.sampled_from(["gravel", "sand", "clay"]))
def test_more_wind_never_needs_less_depth(level_n, factor, arm, name):
    for law in (embedment.asce_depth_m, embedment.en_depth_m):
        assert law(level_n * factor, arm, 0.3, soil(name)) >= law(level_n, arm, 0.3, soil(name)) * (1 - 1e-9)


@given(st.floats(200, 4000), st.sampled_from(["ASCE", "EN"]), st.sampled_from(["gravel", "sand", "clay"]))
def test_the_depth_chosen_is_enough(wind, family, ground):
    made = standing(family, ground=ground)
    winds = (Wind(wind, wind, 0.1, 0.1), Wind(-wind, -wind, 0.1, 0.1))
    deep = with_depth(replace(made, panel=replace(made.panel, winds=winds)))
    found = checks(deep)
    assert found["post deep enough in the ground"].passed
    assert found["post held down by its foot"].passed
    assert deep.embedment_mm % 50 == 0


@given(st.floats(300, 3000), st.floats(1, 2))
def test_a_higher_panel_is_never_safer(height, factor):
    for family in ("ASCE", "EN"):
        low, high = (checks(standing(family, height_mm=h)) for h in (height, height * factor))
        for rule in ("post bending at the ground", "post twisted and bent", "post sway in the wind"):
            assert high[rule].utilisation >= low[rule].utilisation * (1 - 1e-9)
        assert needed_depth_mm(standing(family, height_mm=height * factor)) >= needed_depth_mm(
            standing(family, height_mm=height)
        ) * (1 - 1e-9)


def test_a_panel_on_the_ground_and_a_short_post_are_told():
    assert not checks(standing(height_mm=300.0))["panel clear of the ground"].passed
    assert not checks(standing(post=replace(TUBE, length_mm=2000.0)))["post out of one length"].passed
    assert not checks(standing(post=replace(TUBE, wall_mm=0.9)))["post wall thick enough"].passed


def test_a_post_too_slender_for_its_load_is_told_so_and_no_figure_is_without_end():
    slender = standing(height_mm=60_000.0)
    rules = {check.rule: check for check in judge_post(slender)}
    assert not rules["post stands under its load"].passed
    assert all(math.isfinite(check.demand) for check in rules.values())


def test_snow_piled_up_over_the_low_edge_turns_and_presses_the_post():
    piled = replace(EN, drift_n=1000.0, drift_off_mm=600.0)
    with_it, without = (post_loads(panel, TUBE, 1500.0)[0] for panel in (piled, EN))
    assert with_it.press_n - without.press_n == pytest.approx(1000.0)
    assert with_it.moment_nm - without.moment_nm == pytest.approx(600 * math.cos(math.radians(35)))
