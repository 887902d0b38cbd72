"""Ballast: statics by hand, and laws."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.support.block import Block
from panewright.structure.mounting.forces import Panel, Wind
from panewright.structure.mounting.ground.ballast import (
    Stand,
    judge_ballast,
    least_ballast_kg,
    least_blocks,
    needs,
    pressure_pa,
    under_panel_mm,
)

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
G = 9.80665
PAVER = Block("paver", 18.0, 400.0, 400.0, 50.0)
LIFT, LEVEL = 2560 * math.cos(math.radians(35)), 2560 * math.sin(math.radians(35))


def stand(family="EN", **changes):
    made = Stand(replace(EN, family=family), 1310.0, 1000.0, 150.0, 0.5, "stated by the order")
    return replace(made, **changes)


def weights(made):
    return {need.way: need.weight_n for need in needs(made)}


def test_lifting_and_sliding_by_hand():
    """0.9 W >= V and 0.9 W - V >= H / (0.5 / 1.25) in EN; 0.6 W and 0.5 in ASCE."""
    for family, holding, grip in (("EN", 0.9, 0.4), ("ASCE", 0.6, 0.5)):
        found = weights(stand(family))
        assert found["lifting off"] == pytest.approx(LIFT / holding)
        assert found["sliding"] == pytest.approx((LIFT + LEVEL / grip) / holding)


def test_turning_over_by_hand():
    """Middle of the panel 150 + 1600 sin 35 / 2 = 609 mm up; the lift acts 400 mm down the slope."""
    height, half, slope = 0.150 + 0.8 * math.sin(math.radians(35)), 0.655, math.radians(35)
    x, y = (
        -0.4 * math.cos(slope),
        height - 0.4 * math.sin(slope),
    )  # where it acts, from the middle of the foot
    forward = (LIFT * (half + x) + LEVEL * y) / half / 0.9
    assert weights(stand())["turning over forward"] == pytest.approx(forward)
    press = replace(EN, winds=EN.winds[:1])
    x, y = 0.4 * math.cos(slope), height + 0.4 * math.sin(slope)
    back = (2400 * math.sin(slope) * y - 2400 * math.cos(slope) * (half - x)) / half / 0.9
    assert weights(stand(panel=press))["turning over back"] == pytest.approx(max(0.0, back))
    side = LIFT * (0.5 + 0.25) / 0.5 / 0.9
    assert weights(stand())["turning over sideways"] == pytest.approx(side)


def test_least_ballast_is_just_enough():
    made = stand(width_mm=1300.0, low_edge_mm=500.0)
    blocks = least_blocks(made, PAVER)
    assert least_ballast_kg(made) <= blocks * PAVER.mass_kg < least_ballast_kg(made) + 2 * PAVER.mass_kg
    enough = judge_ballast(made, PAVER, blocks, (1e6, "stated"))
    short = judge_ballast(made, PAVER, blocks - 2, (1e6, "stated"))
    assert all(check.passed for check in enough)
    assert not all(check.passed for check in short)


def test_an_odd_block_and_an_unknown_roof_never_pass():
    rules = {check.rule: check for check in judge_ballast(stand(), PAVER, 31, (None, "ask"))}
    assert not rules["blocks shared evenly by both rows"].passed
    assert not rules["pressure under the blocks"].covered


def test_pressure_without_wind_and_snow_is_weight_over_feet():
    calm = stand("ASCE", panel=replace(EN, family="ASCE", winds=(), snow_plan_pa=0.0))
    assert pressure_pa(calm, PAVER, 4) == pytest.approx((25 + 72) * G / (4 * 0.16))
    # five blocks in a row of two places are stacked
    assert pressure_pa(calm, PAVER, 10) == pytest.approx((25 + 180) * G / (4 * 0.16))


@given(
    st.floats(-4000, 4000),
    st.floats(-0.3, 0.3),
    st.floats(1, 3),
    st.floats(0, 90),
    st.sampled_from(["EN", "ASCE"]),
)
def test_more_wind_never_needs_less_ballast(wind, off, factor, tilt, family):
    less, more = (
        replace(EN, family=family, tilt_deg=tilt, winds=(Wind(pa, pa, off, 0.2),))
        for pa in (wind, wind * factor)
    )
    assert least_ballast_kg(stand(panel=more)) >= least_ballast_kg(stand(panel=less)) * (1 - 1e-9)


@given(st.floats(0.05, 1), st.floats(1, 3), st.floats(200, 3000), st.floats(1, 2))
def test_more_friction_and_a_larger_footprint_never_need_more(friction, factor, depth, wider):
    base = stand(friction=friction, depth_mm=depth)
    for better in (
        replace(base, friction=friction * factor),
        replace(base, depth_mm=depth * wider),
        replace(base, width_mm=1000 * wider),
    ):
        assert least_ballast_kg(better) <= least_ballast_kg(base) * (1 + 1e-9)


@given(st.floats(1, 80), st.floats(1, 40), st.sampled_from(["EN", "ASCE"]))
def test_a_heavier_panel_never_needs_more(mass, more, family):
    light, heavy = (stand(panel=replace(EN, family=family, mass_kg=m)) for m in (mass, mass + more))
    assert least_ballast_kg(heavy) <= least_ballast_kg(light)


def test_a_stand_without_a_footprint_is_refused():
    with pytest.raises(ValueError, match="footprint"):
        stand(depth_mm=0.0)


def test_a_stack_under_the_low_edge_has_to_fit_below_the_frame():
    """Front row from 655 to 255 mm before the middle; the frame, 40 mm deep, hangs lowest there."""
    made = stand(low_edge_mm=200.0, panel=replace(EN, deep_mm=40.0))
    lowest = 200.0 - 40.0 * math.cos(math.radians(35))
    assert under_panel_mm(made, PAVER) == pytest.approx(lowest)
    rule = "blocks clear of the panel above them"
    found = {check.rule: check for check in judge_ballast(made, PAVER, 40, (1e6, "stated"))}
    assert found[rule].demand == pytest.approx(20 / 2 * 50.0)
    assert not found[rule].passed
    before = replace(made, depth_mm=2 * (EN.reach_mm / 2 + 400.0))
    assert rule not in {check.rule for check in judge_ballast(before, PAVER, 40, (1e6, "stated"))}


def test_a_short_footprint_leaves_more_room_under_the_slope():
    made = stand(low_edge_mm=200.0, depth_mm=900.0)
    assert under_panel_mm(made, PAVER) == pytest.approx(
        200 + (EN.reach_mm / 2 - 450) * math.tan(math.radians(35))
    )


def test_snow_piled_up_over_a_low_edge_presses_on_the_front_row_and_may_turn_the_stand_over():
    """1000 N, 700 mm down the slope: 573 mm before the middle, 123 mm before a footprint of 900 mm."""
    piled = replace(EN, drift_n=1000.0, drift_off_mm=700.0)
    made, plain = stand(panel=piled, depth_mm=900.0), stand(depth_mm=900.0)
    out = 700 * math.cos(math.radians(35)) - 450
    assert weights(made)["turning over in piled-up snow"] == pytest.approx(1000 * out / 450 / 0.9)
    row = 1000 / 2 + 1000 * 0.7 * math.cos(math.radians(35)) / 0.9
    more = pressure_pa(made, PAVER, 4) - pressure_pa(plain, PAVER, 4)
    assert more == pytest.approx(row / 2 / 0.16)
