"""Two or three meter readings make a cell that meets them and is like its kind in the rest."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.key_points import key_points
from panewright.cell.kind import CellKind
from panewright.cell.model import diode_at, fit_cell
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.curve.few import cell_from_readings
from panewright.curve.readings import Loaded, Readings, impossible
from panewright.errors import CurveError

PLATE = Nameplate(8.57, 0.622, 8.05, 0.507, 0.0005, -0.0034)
KIND = fit_cell(CellKind("multi 156", Shape(156, 156), PLATE, front="minus"))

real = st.fixed_dictionaries(
    {
        "light_a": st.floats(0.85, 1.1),
        "saturation_a": st.floats(0.2, 20.0),
        "series_ohm": st.floats(0.0, 4.0),
        "shunt_ohm": st.floats(0.03, 20.0),
        "ideality_v": st.floats(0.93, 1.2),
    }
)


def cell(light, cell_c, factors):
    kind = diode_at(KIND, light, cell_c)
    return replace(kind, **{name: getattr(kind, name) * factor for name, factor in factors.items()})


def readings_of(diode, light, cell_c, share, meter_ohm=0.0):
    isc = current_a(replace(diode, series_ohm=diode.series_ohm + meter_ohm), 0.0)
    voc = voltage_v(diode, 0.0)
    volt = share * voc if share else None
    loaded = Loaded(volt, current_a(diode, volt)) if volt else None
    return Readings(isc, voc, light, cell_c, loaded, meter_ohm)


@given(
    real,
    st.floats(50, 1100),
    st.floats(-10, 70),
    st.sampled_from([None, 0.5, 0.7, 0.8, 0.93]),
    st.sampled_from([0.0, 0.01]),
)
@settings(max_examples=40, deadline=None)
def test_the_cell_meets_the_readings_exactly(factors, light, cell_c, share, meter_ohm):
    read = readings_of(cell(light, cell_c, factors), light, cell_c, share, meter_ohm)
    assume(read.loaded is None or read.loaded.voltage_v > read.isc_a * meter_ohm)
    assume(not impossible(read, KIND.area_mm2))
    found = cell_from_readings(read, KIND)
    for diode in (found.diode, diode_at(found.model, light, cell_c)):
        assert current_a(diode, read.isc_a * meter_ohm) == pytest.approx(read.isc_a, rel=1e-9)
        assert voltage_v(diode, 0.0) == pytest.approx(read.voc_v, rel=1e-9)
        if read.loaded:
            assert current_a(diode, read.loaded.voltage_v) == pytest.approx(read.loaded.current_a, rel=1e-9)


def test_readings_of_the_kind_give_the_kind():
    points = key_points(KIND.stc)
    for loaded in (None, Loaded(points.vmp_v, points.imp_a)):
        found = cell_from_readings(Readings(points.isc_a, points.voc_v, 1000.0, 25.0, loaded), KIND)
        assert found.power_w == pytest.approx(points.power_w, rel=1e-8)
        assert found.diode.series_ohm == pytest.approx(KIND.stc.series_ohm, rel=1e-6)
        assert found.diode.shunt_ohm == pytest.approx(KIND.stc.shunt_ohm, rel=1e-4)


def test_two_readings_say_what_they_leave_open():
    found = cell_from_readings(Readings(8.5, 0.62, 1000.0, 25.0), KIND)
    assert found.moved == ("light_a", "saturation_a")
    assert any("Assumed as the kind's: the series resistance" in said for said in found.said)
    assert found.low_w < found.power_w < found.high_w


def test_a_third_reading_narrows_the_band():
    points = key_points(KIND.stc)
    two = Readings(points.isc_a, points.voc_v, 1000.0, 25.0)
    three = replace(two, loaded=Loaded(points.vmp_v, points.imp_a))
    wide, narrow = (cell_from_readings(read, KIND) for read in (two, three))
    assert narrow.high_w - narrow.low_w < 0.8 * (wide.high_w - wide.low_w)


def test_better_meters_narrow_the_band():
    points = key_points(KIND.stc)
    plain = Readings(points.isc_a, points.voc_v, 1000.0, 25.0, Loaded(points.vmp_v, points.imp_a))
    fine = replace(plain, current_share=0.001, voltage_share=0.001)
    wide, narrow = (cell_from_readings(read, KIND) for read in (plain, fine))
    assert narrow.high_w - narrow.low_w < 0.5 * (wide.high_w - wide.low_w)


def test_a_high_series_resistance_shows_near_maximum_power():
    bad = replace(KIND.stc, series_ohm=3 * KIND.stc.series_ohm)
    found = cell_from_readings(readings_of(bad, 1000.0, 25.0, 0.8), KIND)
    assert "series_ohm" in found.moved
    assert found.diode.series_ohm == pytest.approx(bad.series_ohm, rel=1e-6)


def test_a_shunt_shows_at_low_voltage():
    bad = replace(KIND.stc, shunt_ohm=0.3)
    found = cell_from_readings(readings_of(bad, 1000.0, 25.0, 0.4), KIND)
    assert "shunt_ohm" in found.moved
    assert found.diode.shunt_ohm == pytest.approx(0.3, rel=1e-3)


def test_a_voc_far_too_low_is_a_shunt():
    found = cell_from_readings(Readings(8.5, 0.4, 1000.0, 25.0), KIND)
    assert found.moved == ("light_a", "shunt_ohm")
    assert any("two readings cannot tell" in said for said in found.said)
    assert found.high_w > 1.2 * found.power_w  # a leaky junction would give more


def test_a_curve_sharper_than_the_kind_gives_up_the_series_resistance():
    sharp = replace(KIND.stc, series_ohm=0.0, ideality_v=0.8 * KIND.stc.ideality_v)
    found = cell_from_readings(readings_of(sharp, 1000.0, 25.0, 0.85), KIND)
    assert found.diode.series_ohm == 0.0
    assert any("no series resistance" in said for said in found.said)


def test_resistors_and_voltages_are_two_ways_to_one_point():
    assert Loaded.on_resistor(0.1, 0.5) == Loaded(0.5, 5.0)
    assert Loaded.through_resistor(0.1, 5.0) == Loaded(0.5, 5.0)


GOOD = Readings(8.5, 0.62, 1000.0, 25.0)


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"voc_v": 1.2}, "more than one silicon cell"),
        ({"isc_a": 12.0}, "can free in 243.4 cm2"),
        ({"isc_a": 8.5, "irradiance_w_m2": 300.0}, "300 W/m2 can free"),
        ({"isc_a": -1.0}, "above zero"),
        ({"loaded": Loaded(0.63, 1.0)}, "not below voc"),
        ({"loaded": Loaded(0.5, 8.6)}, "not below isc"),
        ({"loaded": Loaded(0.4, 2.0)}, "below the line from isc to voc"),
        ({"loaded": Loaded(0.6, 8.0)}, "more than the best cell"),
        ({"loaded": Loaded(-0.1, 8.0)}, "turn the leads"),
        ({"meter_ohm": 0.1}, "over the meter's 0.1 ohm"),
        ({"meter_ohm": 0.02, "loaded": Loaded(0.1, 8.0)}, "at which isc was read"),
        ({"cell_c": -300.0}, "above 0 K"),
    ],
)
def test_impossible_readings_have_their_reasons(changed, why):
    wrong = replace(GOOD, **changed)
    assert why in impossible(wrong, KIND.area_mm2)[0]
    with pytest.raises(CurveError):
        cell_from_readings(wrong, KIND)


def test_both_impossible_ends_are_told():
    assert len(impossible(replace(GOOD, voc_v=1.2, isc_a=20.0), KIND.area_mm2)) == 2


def test_a_cold_cell_may_have_a_higher_voc():
    assert impossible(replace(GOOD, voc_v=0.95, cell_c=-10.0), KIND.area_mm2) == ()
