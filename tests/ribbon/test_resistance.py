"""Laws of coated strips and of the current they collect."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.ribbon.resistance import (
    TabRun,
    cell_equivalent_ohm,
    coat_area_mm2,
    collected_mm,
    kg_per_m,
    ohm_per_m,
    tab_length_mm,
    tab_loss,
)
from panewright.ribbon.strip import Strip

widths, thicknesses = st.floats(0.5, 6.0), st.floats(0.08, 0.5)
lengths = st.floats(20.0, 220.0)


@given(widths, thicknesses, st.floats(0.0, 0.05))
def test_a_coat_never_makes_a_strip_resist_more(width, thickness, coat):
    bare, coated = Strip("", width, thickness, coat_mm=0.0), Strip("", width, thickness, coat_mm=coat)
    assert ohm_per_m(coated) <= ohm_per_m(bare)
    assert kg_per_m(coated) >= kg_per_m(bare)


@given(widths, thicknesses)
def test_a_coat_of_copper_is_copper(width, thickness):
    coated = Strip("", width, thickness, coat_mm=0.02, coat_ohm_m=1.724e-8)
    larger = Strip("", width + 0.04, thickness + 0.04, coat_mm=0.0)
    assert ohm_per_m(coated) == pytest.approx(ohm_per_m(larger), rel=1e-12)


def test_the_coat_is_what_is_left_of_the_outer_rectangle():
    assert coat_area_mm2(Strip("", 2.0, 0.15, coat_mm=0.02)) == pytest.approx(2.04 * 0.19 - 0.3)


def test_a_metre_of_copper_strip_weighs_its_volume():
    assert kg_per_m(Strip("", 2.0, 0.5, coat_mm=0.0)) == pytest.approx(8890 * 1e-6)


@given(lengths, st.integers(1, 12), st.floats(0.5, 14.0))
def test_the_equivalent_resistance_loses_what_the_tabs_lose(length, busbars, current):
    strip, run = Strip("", 1.5, 0.2), TabRun(busbars, length, gap_mm=3.0, loop_mm=1.0)
    lost = tab_loss(strip, run, current, 60.0).total_w
    assert cell_equivalent_ohm(strip, run, 60.0) * current**2 == pytest.approx(lost, rel=1e-12)


@given(lengths, st.integers(1, 6))
def test_twice_the_busbars_halve_the_resistance(length, busbars):
    strip = Strip("", 1.5, 0.2)
    once, twice = TabRun(busbars, length, 3.0), TabRun(2 * busbars, length, 3.0)
    assert cell_equivalent_ohm(strip, twice) == pytest.approx(cell_equivalent_ohm(strip, once) / 2)


@given(lengths, st.floats(0.0, 1.0))
def test_a_tab_that_stops_short_loses_less_itself_but_more_per_millimetre(length, share):
    bare = share * length
    short = collected_mm(length, bare)
    assert short <= collected_mm(length) * (1 + 1e-12)
    assert short >= (length - bare) / 3 * (1 - 1e-12)


def test_gap_and_loop_carry_the_whole_share():
    strip = Strip("", 1.5, 0.2)
    straight, looped = TabRun(2, 78.0, 3.0), TabRun(2, 78.0, 3.0, loop_mm=5.0)
    more = cell_equivalent_ohm(strip, looped) - cell_equivalent_ohm(strip, straight)
    assert more == pytest.approx(ohm_per_m(strip) * 0.005 / 2)


def test_ribbon_for_a_cell_is_front_gap_loop_and_back_on_every_busbar():
    run = TabRun(3, 156.0, 2.0, loop_mm=1.0, front_bare_mm=4.0, back_bare_mm=10.0)
    assert tab_length_mm(run) == 3 * (152.0 + 2.0 + 1.0 + 146.0)


@pytest.mark.parametrize(
    "wrong", [{"busbars": 0}, {"length_mm": 0.0}, {"gap_mm": -1.0}, {"back_bare_mm": 157.0}]
)
def test_nonsense_is_refused_at_birth(wrong):
    sound = {"busbars": 2, "length_mm": 156.0, "gap_mm": 3.0}
    with pytest.raises(ValueError, match="got TabRun"):
        TabRun(**{**sound, **wrong})
