"""Cells beside pvlib: Lambert W for the lit curve, Bishop's explicit form in reverse."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pvlib import pvsystem, singlediode

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points

usual_cells = st.builds(
    Diode,
    light_a=st.floats(0.1, 12),
    saturation_a=st.floats(-11, -7).map(lambda x: 10**x),
    ideality_v=st.floats(0.0255, 0.04),
    series_ohm=st.floats(0.001, 0.02),
    shunt_ohm=st.floats(0.7, 4).map(lambda x: 10**x),
)


def five(cell):
    return cell.light_a, cell.saturation_a, cell.series_ohm, cell.shunt_ohm, cell.ideality_v


@given(usual_cells)
def test_key_points_equal_the_lambert_w_solution(cell):
    theirs = pvsystem.singlediode(*five(cell))
    ours = key_points(cell)
    assert ours.isc_a == pytest.approx(float(theirs["i_sc"]), rel=1e-10)
    assert ours.voc_v == pytest.approx(float(theirs["v_oc"]), rel=1e-10)
    assert ours.power_w == pytest.approx(float(theirs["p_mp"]), rel=1e-10)


@given(usual_cells, st.floats(-0.5, 0.7))
def test_the_current_at_a_voltage_equals_the_lambert_w_solution(cell, volt):
    theirs = float(pvsystem.i_from_v(volt, *five(cell), method="lambertw"))
    assert current_a(cell, volt) == pytest.approx(theirs, rel=1e-9, abs=1e-9)


@given(usual_cells, st.floats(-17.9, 0.75))
def test_points_of_bishops_explicit_curve_lie_on_ours(cell, junction):
    breaking = Diode(
        cell.light_a,
        cell.saturation_a,
        cell.ideality_v,
        cell.series_ohm,
        cell.shunt_ohm,
        0.1 / cell.shunt_ohm,
    )
    current, volt, _ = singlediode.bishop88(
        np.array(junction),
        *five(cell),
        breakdown_factor=0.1,
        breakdown_voltage=-18.0,
        breakdown_exp=3.4,
    )
    assert voltage_v(breaking, float(current)) == pytest.approx(float(volt), rel=1e-9, abs=1e-9)
    assert current_a(breaking, float(volt)) == pytest.approx(float(current), rel=1e-9, abs=1e-9)
