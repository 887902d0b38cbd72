"""Laws of the foam: what holds for any panel, fall and foam."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from panewright.crate.cushion import (
    CREPT,
    Bearing,
    Cushion,
    best_area,
    choose_cushion,
    cushion_factor,
    least_mm,
    shock_g,
    slender_mm2,
)
from panewright.crate.timber import YARDS
from panewright.shelf.carriage import Foam
from panewright.shelf.load import load_shelf
from panewright.units import GRAVITY_M_S2

FOAMS = tuple(row.part for row in load_shelf().foams)
THICK = YARDS["metric"].foam_mm

masses = st.floats(1.0, 500.0)
heights = st.floats(30.0, 1000.0)
fragilities = st.floats(12.0, 120.0)
rooms = st.floats(5e3, 3e6)
pads = st.sampled_from([(4, 2), (2,)])
bearings = st.builds(Bearing, st.just("face"), masses, heights, fragilities, rooms, pads)


@given(bearings, st.floats(1.01, 3.0))
def test_a_higher_fall_never_needs_less_foam(asked, more):
    higher = choose_cushion(FOAMS, replace(asked, fall_mm=more * asked.fall_mm), THICK)
    assume(higher.does)
    lower = choose_cushion(FOAMS, asked, THICK)
    assert lower.does
    assert lower.thickness_mm <= higher.thickness_mm


@given(bearings, st.floats(0.3, 0.99))
def test_a_more_fragile_panel_never_needs_less_foam(asked, share):
    fragile = choose_cushion(FOAMS, replace(asked, fragile_g=share * asked.fragile_g), THICK)
    assume(fragile.does)
    tough = choose_cushion(FOAMS, asked, THICK)
    assert tough.does
    assert tough.thickness_mm <= fragile.thickness_mm


@given(bearings)
def test_foam_that_does_keeps_every_rule_and_is_never_thinner_than_the_best_spring_that_stops_at_once(asked):
    made = choose_cushion(FOAMS, asked, THICK)
    assume(made.does)
    assert made.shock_g <= asked.fragile_g * (1 + 1e-9)
    assert made.static_pa <= made.foam.most_static_pa * (1 + 1e-9)
    assert slender_mm2(made.pads, made.thickness_mm) <= made.area_mm2 * (1 + 1e-9)
    assert made.area_mm2 <= asked.room_mm2 * (1 + 1e-9)
    assert made.thickness_mm > asked.fall_mm / (asked.fragile_g - 1) / CREPT * 0.99


@given(st.sampled_from(FOAMS), bearings, st.sampled_from(THICK), st.floats(0.2, 5.0))
def test_no_other_area_that_is_allowed_passes_on_less(foam, asked, thick, times):
    best = best_area(foam, asked, thick, asked.pads[0])
    assume(best is not None)
    other = replace(best, area_mm2=times * best.area_mm2)
    allowed = (
        other.area_mm2 <= asked.room_mm2
        and other.slender_mm2 <= other.area_mm2
        and other.static_pa <= foam.most_static_pa
        and other.energy_pa <= foam.most_energy_pa
    )
    assume(allowed)
    assert other.shock_g >= best.shock_g * (1 - 1e-9)


@given(st.sampled_from(FOAMS), heights, fragilities)
def test_at_its_best_place_the_thickness_is_the_cushion_factor_times_fall_over_shock(foam, fall, bears):
    thickness = cushion_factor(foam) * fall / bears
    static = foam.energy_pa * thickness / fall
    assert shock_g(foam, static, fall, thickness) == pytest.approx(bears)


def test_the_energy_of_the_fall_is_the_work_that_stops_it():
    foam = Foam("trial", 30.0, 60e3, 60e3, 100e3, 15e3)
    asked = Bearing("face", 20.0, 500.0, 40.0, 1e6, (4,))
    made = Cushion(asked, foam, 50.0, 40e3, 4)
    volume_m3 = made.area_mm2 * CREPT * made.thickness_mm * 1e-9
    assert made.energy_pa * volume_m3 == pytest.approx(20.0 * GRAVITY_M_S2 * 0.5)


def test_where_nothing_does_the_gentlest_is_taken_and_says_so():
    asked = Bearing("face", 2.0, 2000.0, 12.0, 4e4, (4, 2))
    made = choose_cushion(FOAMS, asked, THICK)
    assert not made.does
    assert made.shock_g > asked.fragile_g


def test_a_spring_that_gives_way_by_all_of_itself():
    assert least_mm(600.0, 42.0) == pytest.approx(30.0)
    with pytest.raises(ValueError, match="more than 2 G"):
        least_mm(600.0, 2.0)
    with pytest.raises(ValueError, match="no foam"):
        choose_cushion((), Bearing("face", 2.0, 600.0, 40.0, 4e4, (4,)), THICK)
