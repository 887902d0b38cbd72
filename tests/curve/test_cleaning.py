"""Raw readings become a curve, whichever way they were written, and every step is told."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.curve.cleaning import Sweep, clean
from panewright.errors import CurveError

CELL = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
VOLTS = np.linspace(-0.02, 0.64, 34)
AMPERES = np.round(current_a(CELL, VOLTS), 3)


def sweep(volts=VOLTS, amperes=AMPERES, light=1000.0):
    return Sweep(tuple(np.asarray(volts).tolist()), tuple(np.asarray(amperes).tolist()), light, 25.0)


CLEAN = clean(sweep()).curve


def test_a_clean_sweep_stays_as_it_is():
    cleaned = clean(sweep())
    assert cleaned.said == ()
    assert cleaned.left_out == ()
    assert cleaned.curve.voltage_v == tuple(VOLTS.tolist())
    assert cleaned.curve.current_a == tuple(AMPERES.tolist())


@given(
    st.sampled_from([1, -1]),
    st.sampled_from([1, -1]),
    st.permutations(range(34)),
    st.integers(0, 33),
)
@settings(max_examples=60, deadline=None)
def test_signs_and_order_do_not_matter(turn_v, turn_i, order, twice):
    order = [*order, order[-1], twice]
    cleaned = clean(sweep(turn_v * VOLTS[order], turn_i * AMPERES[order]))
    assert cleaned.curve.voltage_v == CLEAN.voltage_v
    assert cleaned.curve.current_a == pytest.approx(CLEAN.current_a)


@pytest.mark.parametrize("turn", [1, -1])
@pytest.mark.parametrize("part", [slice(0, 20), slice(0, 8), slice(22, 34)])
def test_half_a_curve_is_turned_the_right_way_too(turn, part):
    cleaned = clean(sweep(VOLTS[part], turn * AMPERES[part]))
    assert cleaned.curve.current_a == tuple(AMPERES[part].tolist())


@pytest.mark.parametrize("turn", [1, -1])
def test_a_dark_curve_takes_power_at_every_voltage(turn):
    dark = current_a(replace(CELL, light_a=0.0), VOLTS)
    cleaned = clean(sweep(VOLTS, turn * dark, light=0.0))
    assert cleaned.curve.current_a == pytest.approx(tuple(dark.tolist()))


def test_signs_that_are_given_are_not_sought():
    backward = replace(sweep(VOLTS, -AMPERES), signs="generator")
    assert clean(backward).curve.current_a == tuple((-AMPERES).tolist())
    assert clean(replace(backward, signs="load")).curve == CLEAN


def test_up_and_down_are_put_together_and_their_difference_is_told():
    both = sweep([*VOLTS, *VOLTS[::-1]], [*AMPERES, *(AMPERES[::-1] + 0.02)])
    cleaned = clean(both)
    assert cleaned.sweeps == 2
    assert "2 sweeps were put together, 1 up and 1 down." in cleaned.said
    assert any("differ by 0.02 A" in said for said in cleaned.said)
    assert cleaned.curve.repeats == (2,) * 34
    assert cleaned.curve.current_a == pytest.approx(tuple((AMPERES + 0.01).tolist()))


def test_rows_that_are_no_numbers_are_counted():
    volts, amperes = [*VOLTS, float("nan"), 0.3], [*AMPERES, 1.0, float("inf")]
    cleaned = clean(sweep(volts, amperes))
    assert cleaned.curve == CLEAN
    assert cleaned.said[0] == "2 rows without a finite voltage and current were left out."
    assert len(cleaned.left_out) == 2


@pytest.mark.parametrize("range_a", [8.0, 7.0, 5.5])
def test_currents_stuck_at_the_end_of_the_range_go(range_a):
    cleaned = clean(sweep(VOLTS, np.minimum(AMPERES, range_a)))
    assert cleaned.clipped
    assert max(cleaned.curve.current_a) < range_a
    assert len(cleaned.left_out) == np.sum(range_a <= AMPERES)
    assert any("stuck at the end of the meter's range" in said for said in cleaned.said)


@pytest.mark.parametrize("digits", [0, 1, 2, 3, 6])
def test_a_flat_top_is_not_taken_for_the_end_of_a_range(digits):
    square = replace(CELL, shunt_ohm=float("inf"))
    cleaned = clean(sweep(VOLTS, np.round(current_a(square, VOLTS), digits)))
    assert not cleaned.clipped


def test_voltages_stuck_at_the_end_of_the_range_go():
    cleaned = clean(sweep(np.minimum(VOLTS, 0.55), AMPERES))
    assert cleaned.clipped
    assert max(cleaned.curve.voltage_v) < 0.55


@pytest.mark.parametrize("off", [2.0, -3.0])
@pytest.mark.parametrize("place", [3, 12, 20])
def test_a_lone_point_goes_and_is_kept_aside(place, off):
    amperes = AMPERES.copy()
    amperes[place] += off
    cleaned = clean(sweep(VOLTS, amperes))
    assert cleaned.left_out == ((VOLTS[place], amperes[place]),)
    assert cleaned.said == ("1 lone point far off the curve was left out.",)


def test_the_steps_of_a_shaded_panel_are_no_lone_points():
    volts = np.linspace(0.0, 22.0, 60)
    step = np.where(volts < 10.5, 8.0, 4.0 - 0.3 * np.maximum(volts - 20.0, 0.0) ** 2) - 0.01 * volts
    assert clean(sweep(volts, step)).left_out == ()


def test_every_problem_is_told_at_once():
    with pytest.raises(CurveError) as caught:
        clean(Sweep((0.0, 0.1), (1.0,), -5.0, -400.0))
    assert len(caught.value.problems) == 3


@pytest.mark.parametrize("rows", [(), ((0.0, 1.0),), ((0.3, 1.0), (0.3, 1.2)), ((float("nan"), 1.0),) * 9])
def test_what_is_left_must_be_a_curve(rows):
    with pytest.raises(CurveError, match="Fewer than two"):
        clean(sweep([v for v, _ in rows], [i for _, i in rows]))
