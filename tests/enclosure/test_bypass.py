"""Bypass diodes keep a shaded cell out of breakdown, or the checks say so."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.enclosure.bypass import (
    Bypass,
    Guarded,
    bare_string_check,
    choose_bypass,
    diode_checks,
    forward_v,
    guard_checks,
    heat_w,
    most_cells,
    rating_checks,
    reverse_cell_v,
)

SCHOTTKY = Bypass("15 A", 1e-5, 0.0283, 0.008, rated_a=15.0, reverse_v=45.0)


@given(st.floats(0.0, 20.0))
def test_forward_voltage_solves_the_diode_law(current):
    junction = forward_v(SCHOTTKY, current) - current * SCHOTTKY.series_ohm
    back = SCHOTTKY.saturation_a * math.expm1(junction / SCHOTTKY.ideality_v)
    assert back == pytest.approx(current, rel=1e-9, abs=1e-12)
    assert heat_w(SCHOTTKY, current) == pytest.approx(current * forward_v(SCHOTTKY, current))


@given(st.floats(0.4, 0.8), st.floats(0.2, 1.0), st.floats(-30.0, -5.0))
def test_most_cells_hold_and_one_more_would_not(voc, drop, breakdown):
    most = most_cells(voc, drop, breakdown)
    backward, usual = guard_checks(most, voc, drop, breakdown)
    assert backward.passed
    assert usual.passed
    assert not all(check.passed for check in guard_checks(most + 1, voc, drop, breakdown))


def test_18_cells_a_diode_hold_and_36_without_one_do_not():
    assert all(check.passed for check in guard_checks(18, 0.70, 0.5, -15.0))
    assert not bare_string_check(36, 0.70, -15.0).passed


def test_other_cells_and_diode_drive_the_shaded_one():
    assert reverse_cell_v(18, 0.62, 0.45) == pytest.approx(17 * 0.62 + 0.45)


def test_diode_is_held_against_current_and_voltage():
    current, voltage = rating_checks(SCHOTTKY, 8.57, 13.0)
    assert (current.demand, current.limit) == (pytest.approx(10.7125), 15.0)
    assert (voltage.demand, voltage.limit) == (26.0, 45.0)
    assert current.passed
    assert voltage.passed
    assert not rating_checks(SCHOTTKY, 12.1, 13.0)[0].passed
    assert not rating_checks(SCHOTTKY, 8.57, 23.0)[1].passed


STRONG = Bypass("20 A", 1e-7, 0.028, 0.01, rated_a=20.0, reverse_v=100.0)


def test_the_first_diode_that_serves_is_taken_and_the_strongest_where_none_does():
    assert choose_bypass((SCHOTTKY, STRONG), Guarded(18, 0.72, -18.0, 8.0), always=True) == SCHOTTKY
    assert choose_bypass((SCHOTTKY, STRONG), Guarded(36, 0.72, -18.0, 8.0), always=False) == STRONG
    assert choose_bypass((SCHOTTKY, STRONG), Guarded(18, 0.72, -18.0, 40.0), always=True) == STRONG


def test_few_cells_get_no_diode_unless_there_are_several():
    few = Guarded(12, 0.72, -12.0, 8.0)
    assert choose_bypass((SCHOTTKY,), few, always=False) is None
    assert choose_bypass((SCHOTTKY,), few, always=True) == SCHOTTKY
    assert [check.rule for check in diode_checks(None, few)] == ["shaded cell stays out of breakdown"]


@given(st.integers(1, 60), st.floats(0.5, 0.8), st.booleans())
def test_a_colder_morning_never_helps_a_shaded_cell(cells, voc, bare):
    bypass = None if bare else SCHOTTKY
    mild, cold = (diode_checks(bypass, Guarded(cells, v, -18.0, 8.0))[0] for v in (voc, voc * 1.15))
    assert cold.demand >= mild.demand
    assert cold.limit == mild.limit
