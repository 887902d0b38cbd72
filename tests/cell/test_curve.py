"""Laws of the current-voltage curve of a cell, over all a cell can be."""

import math

import numpy as np
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from panewright.cell.curve import current_a, swallowed_a, voltage_and_ohm, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes

INF = math.inf


def spread(low, high):
    """Numbers spread evenly over the powers of ten."""
    return st.floats(math.log(low), math.log(high)).map(math.exp)


def or_zero(numbers):
    return st.one_of(st.just(0.0), numbers)


@st.composite
def diodes(draw):
    return Diode(
        light_a=draw(or_zero(spread(1e-9, 20))),
        saturation_a=draw(spread(1e-15, 1e-5)),
        ideality_v=draw(st.floats(0.015, 0.06)),
        series_ohm=draw(or_zero(spread(1e-6, 1))),
        shunt_ohm=draw(st.one_of(st.just(INF), spread(0.05, 1e7))),
        breakdown_siemens=draw(or_zero(spread(1e-9, 0.1))),
        breakdown_v=-draw(st.floats(3, 40)),
        breakdown_exponent=draw(st.floats(1, 6)),
    )


currents = st.one_of(st.just(0.0), spread(1e-9, 3000), spread(1e-9, 3000).map(lambda i: -i))


def misfit(diode, volt, current):
    """How far a point is off the law, against what the last digits of V and I allow."""
    vd = volt + current * diode.series_ohm
    swallowed, slope = swallowed_a(diode, vd)
    digits = 1e-15 * (abs(volt) + abs(current) * diode.series_ohm) * (1 + slope)
    size = abs(current) + diode.light_a + abs(swallowed)
    return abs(diode.light_a - swallowed - current) / (1e-12 * size + 4 * digits * slope + 1e-300)


@given(diodes(), currents)
@example(Diode(0.0, 1e-9, 0.026, 0.0, INF), 0.0)
@example(Diode(8.0, 1e-9, 0.026, 0.004, INF, 0.005, -18.0, 3.4), 3000.0)
@example(Diode(8.0, 1e-9, 0.026, 0.0, INF), -3000.0)
def test_the_voltage_at_a_current_obeys_the_law(diode, current):
    volt = voltage_v(diode, current)
    if volt == -INF:  # no shunt, no breakdown: nothing carries the rest
        assert diode.shunt_ohm == INF
        assert diode.breakdown_siemens == 0
        assert current >= (diode.light_a + diode.saturation_a) * (1 - 1e-12)
        return
    assert misfit(diode, volt, current) <= 1


@given(diodes(), st.floats(-60, 5))
def test_the_current_at_a_voltage_obeys_the_law(diode, volt):
    assume(diode.series_ohm > 0 or volt < 1.0)  # 5 V over a bare junction is no current a number can hold
    assume(diode.series_ohm > 0 or diode.breakdown_siemens == 0 or volt > diode.breakdown_v)
    assert misfit(diode, volt, current_a(diode, volt)) <= 1


@given(diodes(), currents)
@example(Diode(0.0, 6e-6, 0.03125, 9e-4, INF, 2e-9, -3.0, 1.0), 1.0)  # within 1e-8 of breakdown
def test_voltage_and_current_turn_each_other_round(diode, current):
    volt, ohm = voltage_and_ohm(diode, np.asarray(current))
    assume(np.isfinite(volt))
    assume(diode.series_ohm > 0 or volt > diode.breakdown_v * (1 - 1e-9))
    # where the curve is steep a last digit of the voltage is many digits of the current
    digits = 1e-15 * (abs(float(volt)) + 1e-6 + abs(current) * diode.series_ohm) / float(ohm)
    allowed = 1e-12 * (abs(current) + diode.light_a + diode.saturation_a) + 4 * digits
    assert current_a(diode, float(volt)) == pytest.approx(current, rel=0, abs=allowed)


@given(diodes(), currents, currents)
def test_voltage_falls_with_current(diode, one, other):
    less, more = sorted((one, other))
    assert voltage_v(diode, more) <= voltage_v(diode, less) + 1e-12


@given(diodes(), currents)
def test_the_slope_is_the_slope_of_the_curve(diode, current):
    step = 1e-6 * (abs(current) + 1e-3)
    around = voltage_v(Diodes.of([diode]), np.array([[current - step], [current], [current + step]])).ravel()
    assume(np.all(np.isfinite(around)))
    left, right = (around[0] - around[1]) / step, (around[1] - around[2]) / step
    assume(abs(left - right) < 1e-3 * abs(left))  # the slope means something over the step
    _, ohm = voltage_and_ohm(diode, np.asarray(current))
    noise = 1e-14 * abs(around[1]) / step
    assert float(ohm) == pytest.approx((left + right) / 2, rel=2e-3, abs=noise)


@given(st.lists(diodes(), min_size=1, max_size=9), st.lists(currents, min_size=1, max_size=5))
def test_many_cells_and_currents_at_once_equal_one_at_a_time(cells, asked):
    table = voltage_v(Diodes.of(cells), np.array(asked)[:, None])
    for row, current in zip(table, asked, strict=True):
        one_by_one = [voltage_v(cell, current) for cell in cells]
        for got, alone in zip(row, one_by_one, strict=True):
            assert got == alone or got == pytest.approx(alone, rel=1e-12, abs=1e-15)


def test_the_dark_cell_without_any_path_rests_at_zero():
    dark = Diode(0.0, 1e-12, 0.026, 0.0, INF)
    assert voltage_v(dark, 0.0) == 0
    assert current_a(dark, 0.0) == 0


def test_a_cell_without_reverse_path_gives_no_more_than_its_light():
    cell = Diode(5.0, 1e-9, 0.026, 0.005, INF)
    assert voltage_v(cell, 5.1) == -INF
    assert current_a(cell, -1000.0) == pytest.approx(5.0 + 1e-9, rel=1e-15)


def test_asking_at_or_past_breakdown_names_where_the_law_ends():
    cell = Diode(5.0, 1e-9, 0.026, 0.0, 20.0, 0.005, -18.0)
    with pytest.raises(ValueError, match="ends at -18 V"):
        current_a(cell, -18.0)
    assert current_a(cell, -17.99) > 1e3


def test_series_resistance_carries_the_law_past_breakdown_at_the_terminals():
    cell = Diode(5.0, 1e-9, 0.026, 0.004, 20.0, 0.005, -18.0)
    current = current_a(cell, -20.0)
    assert -18 < -20 + current * 0.004 < 0


@given(diodes())
def test_more_light_never_lowers_the_current(diode):
    brighter = Diode(diode.light_a + 1, *(getattr(diode, name) for name in list(Diode.__slots__)[1:]))
    assert current_a(brighter, 0.3) >= current_a(diode, 0.3)
