"""However a cell is described, the record at the end is the same."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.kind import CellKind
from panewright.cell.model import diode_at, fit_cell
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.curve.few import cell_from_readings
from panewright.curve.fit import fit
from panewright.curve.measured import Measured
from panewright.curve.origin import Drift, from_condition, from_fit, from_parameters
from panewright.curve.readings import Readings
from panewright.errors import CurveError

PLATE = Nameplate(8.57, 0.622, 8.05, 0.507, 0.0005, -0.0034)
KIND = fit_cell(CellKind("multi 156", Shape(156, 156), PLATE, front="minus"))


@given(st.floats(20, 1300), st.floats(-40, 95))
def test_a_diode_in_any_light_and_heat_goes_to_full_sun_and_back(light, cell_c):
    there = diode_at(KIND, light, cell_c)
    back = from_condition(there, (light, cell_c), KIND.area_mm2, Drift.of(KIND))
    again = diode_at(back, light, cell_c)
    for name in ("light_a", "saturation_a", "ideality_v", "series_ohm", "shunt_ohm"):
        assert getattr(back.stc, name) == pytest.approx(getattr(KIND.stc, name), rel=1e-12)
        assert getattr(again, name) == pytest.approx(getattr(there, name), rel=1e-12)


@pytest.mark.parametrize(("light", "cell_c"), [(1000.0, 25.0), (700.0, 50.0), (1000.0, -10.0)])
def test_a_stated_slope_of_voc_is_met(light, cell_c):
    diode = diode_at(KIND, light, cell_c)
    model = from_condition(diode, (light, cell_c), KIND.area_mm2, Drift(0.0005, -0.0031))
    cold, hot = (key_points(diode_at(model, 1000, heat)).voc_v for heat in (25.0, 65.0))
    assert (hot / cold - 1) / 40 == pytest.approx(-0.0031, rel=1e-6)


def test_parameters_nameplate_curve_and_meter_give_one_model():
    by_parameters = from_parameters(KIND.stc, KIND.area_mm2, Drift.of(KIND))
    warm = diode_at(KIND, 850.0, 47.0)
    volts = np.linspace(-0.1, 0.6, 40)
    curve = Measured(tuple(volts.tolist()), tuple(current_a(warm, volts).tolist()), 850.0, 47.0)
    by_curve = from_fit(fit(curve), KIND.area_mm2, Drift.of(KIND))
    points = key_points(warm)
    by_meter = cell_from_readings(Readings(points.isc_a, points.voc_v, 850.0, 47.0), KIND).model
    wanted = key_points(KIND.stc)
    for model in (by_parameters, by_curve, by_meter):
        got = key_points(model.stc)
        assert got.power_w == pytest.approx(wanted.power_w, rel=2e-4)  # the breakdown's forward leak
        assert got.voc_v == pytest.approx(wanted.voc_v, rel=3e-5)
        assert model.gap_ev == pytest.approx(KIND.gap_ev)
        assert model.assumed


def test_a_dark_curve_borrows_its_light_from_the_kind_and_says_so():
    dark = replace(KIND.stc, light_a=0.0, breakdown_siemens=0.0)
    volts = np.linspace(-0.5, 0.66, 50)
    found = fit(Measured(tuple(volts.tolist()), tuple(current_a(dark, volts).tolist()), 0.0, 25.0))
    model = from_fit(found, KIND.area_mm2, lit=KIND)
    assert key_points(model.stc).power_w == pytest.approx(key_points(KIND.stc).power_w, rel=0.01)
    assert any("curve was dark" in said for said in model.assumed)
    with pytest.raises(CurveError, match="does not tell what light frees"):
        from_fit(found, KIND.area_mm2)


def test_an_assumed_drift_is_said_to_be_assumed():
    model = from_parameters(Diode(8.57, 3.5e-9, 0.0288, 0.004, 20.0), 24336.0)
    assert "assumed" in model.assumed[0]


def test_a_dark_diode_cannot_be_taken_to_full_sun():
    with pytest.raises(ValueError, match="from some light"):
        from_condition(KIND.stc, (0.0, 25.0), KIND.area_mm2)
