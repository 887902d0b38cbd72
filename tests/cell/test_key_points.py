"""Laws of short circuit, open circuit and maximum power."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points

powers = {
    "light_a": st.floats(-9, 1.3).map(lambda x: 10**x),
    "saturation_a": st.floats(-14, -6).map(lambda x: 10**x),
    "ideality_v": st.floats(0.015, 0.06),
    "series_ohm": st.one_of(st.just(0.0), st.floats(-5, -0.5).map(lambda x: 10**x)),
    "shunt_ohm": st.one_of(st.just(math.inf), st.floats(-0.5, 6).map(lambda x: 10**x)),
    "breakdown_siemens": st.one_of(st.just(0.0), st.floats(-7, -2).map(lambda x: 10**x)),
}
lit_cells = st.builds(Diode, **powers)


@given(lit_cells)
def test_no_point_of_the_curve_gives_more_power(diode):
    points = key_points(diode)
    volts = np.linspace(0, points.voc_v, 301)
    assert np.max(volts * current_a(diode, volts)) <= points.power_w * (1 + 1e-12)


@given(lit_cells)
def test_power_is_level_at_its_maximum(diode):
    points = key_points(diode)
    vd = points.vmp_v + points.imp_a * diode.series_ohm
    _, g = swallowed_a(diode, vd)
    assert float(g / (1 + g * diode.series_ohm)) == pytest.approx(points.imp_a / points.vmp_v, rel=1e-9)


@given(lit_cells)
def test_the_points_lie_in_order(diode):
    points = key_points(diode)
    assert 0 < points.vmp_v < points.voc_v
    assert 0 < points.imp_a < points.isc_a <= diode.light_a
    assert points.fill_factor < 1
    if diode.breakdown_siemens == 0:  # the breakdown term alone may bend the curve the other way
        assert points.fill_factor >= 0.25 * (1 - 1e-9)


def test_a_cell_in_the_dark_has_no_power():
    points = key_points(Diode(0.0, 1e-9, 0.026, 0.004, 20.0))
    assert (points.isc_a, points.voc_v, points.power_w, points.fill_factor) == (0, 0, 0, 0)
