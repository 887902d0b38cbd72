"""The model of a cell: its shunt, its light, its heat, its cut strips."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.key_points import key_points
from panewright.cell.kind import CellKind
from panewright.cell.model import diode_at, fit_cell, strip_models
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape, area_mm2, strips

MULTI = CellKind(
    "multi 156", Shape(156, 156), Nameplate(8.57, 0.622, 8.05, 0.507, 0.0005, -0.0034), front="minus"
)
CLIPPED = Shape(156, 156, circle_mm=200)


def kind(parts=1, shape=CLIPPED, **changed):
    return CellKind("mono 156", shape, MULTI.nameplate, front="minus", parts=parts, **changed)


def test_the_assumed_shunt_is_taken_where_a_diode_has_it():
    model = fit_cell(MULTI)
    assert model.stc.shunt_ohm == pytest.approx(5000 / 243.36, rel=1e-6)
    assert any("20.5 ohm is assumed" in said for said in model.assumed)


def test_a_shunt_no_diode_has_is_moved_and_said():
    leaky = CellKind("leaky", Shape(156, 156), Nameplate(8.5, 0.6, 7.2, 0.425, 0.0005, -0.0034), "minus")
    model = fit_cell(leaky)
    assert model.stc.shunt_ohm < 5
    assert model.stc.series_ohm >= 0
    assert any("nearest" in said for said in model.assumed)


def test_a_square_curve_moves_the_shunt_the_other_way():
    square = CellKind("square", Shape(156, 156), Nameplate(9.5, 0.72, 9.25, 0.64, 0.0003, -0.0024), "minus")
    model = fit_cell(CellKind("square", square.shape, square.nameplate, "minus", shunt_ohm_cm2=200.0))
    assert model.stc.shunt_ohm > 200 / 243.36
    assert key_points(model.stc).power_w == pytest.approx(9.25 * 0.64, rel=1e-12)


def test_an_impossible_nameplate_is_refused():
    wrong = Nameplate(8.57, 0.622, 8.5, 0.59, 0.0005, -0.0034)
    with pytest.raises(ValueError, match="no diode"):
        fit_cell(CellKind("wrong", Shape(156, 156), wrong, "minus"))


def test_breakdown_lies_where_the_kind_says():
    assert fit_cell(kind(breakdown_v=-12.0)).stc.breakdown_v == -12.0


def test_the_dark_cell_gives_nothing():
    dark = diode_at(fit_cell(MULTI), 0.0, 25.0)
    assert key_points(dark).power_w == 0
    assert dark.shunt_ohm == math.inf


@given(st.floats(1, 1500), st.floats(-40, 100))
def test_current_is_in_proportion_to_light(irradiance, cell_c):
    model = fit_cell(MULTI)
    one, two = diode_at(model, irradiance, cell_c), diode_at(model, 2 * irradiance, cell_c)
    assert two.light_a == pytest.approx(2 * one.light_a, rel=1e-12)
    assert voltage_v(two, 0.0) > voltage_v(one, 0.0)


@given(st.floats(-40, 99), st.floats(0.5, 20))
def test_heat_costs_voltage_and_adds_a_little_current(cell_c, warmer):
    model = fit_cell(MULTI)
    cold, hot = diode_at(model, 1000, cell_c), diode_at(model, 1000, cell_c + warmer)
    assert voltage_v(hot, 0.0) < voltage_v(cold, 0.0)
    assert current_a(hot, 0.0) > current_a(cold, 0.0)
    assert key_points(hot).power_w < key_points(cold).power_w


def test_light_below_nothing_is_refused():
    with pytest.raises(ValueError, match="0 W/m2 or more"):
        diode_at(fit_cell(MULTI), -1.0, 25.0)


@pytest.mark.parametrize("parts", [2, 3])
def test_strips_share_the_current_by_area(parts):
    models = strip_models(kind(parts))
    whole = fit_cell(kind())
    assert sum(model.stc.light_a for model in models) == pytest.approx(whole.stc.light_a, rel=1e-12)
    assert [model.area_mm2 for model in models] == [area_mm2(s) for s in strips(CLIPPED, parts)]
    for model in models:
        assert model.stc.light_a / model.area_mm2 == pytest.approx(whole.stc.light_a / whole.area_mm2)


def test_the_middle_third_has_two_cut_edges_and_loses_twice_as_much():
    square = Shape(156, 156)
    whole = fit_cell(kind(shape=square))
    end, middle, other = strip_models(kind(3, square))
    density = key_points(whole.stc).power_w / whole.area_mm2
    losses = [1 - key_points(m.stc).power_w / m.area_mm2 / density for m in (end, middle, other)]
    assert losses[0] == pytest.approx(losses[2], rel=1e-9)
    assert losses[1] == pytest.approx(2 * losses[0], rel=0.05)
    assert any("cut edge" in said for said in middle.assumed)


def test_a_half_cell_loses_the_published_half_to_one_per_cent_or_less():
    perc = CellKind("perc", CLIPPED, Nameplate(9.77, 0.67, 9.30, 0.565, 0.0005, -0.0031), "minus", parts=2)
    whole, half = fit_cell(perc), strip_models(perc)[0]
    loss = 1 - 2 * key_points(half.stc).power_w / key_points(whole.stc).power_w
    assert 0.002 < loss < 0.01  # common practice says 0.5 to 1 % for a laser-cut edge (memory)


def test_a_cell_that_is_not_cut_has_no_cut_edge():
    (model,) = strip_models(kind(1))
    assert model == fit_cell(kind(1))
