"""A panel read with nothing but a meter: points, errors, contradictions, bounds of its power."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.curve.fit import fit
from panewright.curve.meter.bracket import power_bounds
from panewright.curve.meter.contradiction import refuse_contradictions
from panewright.curve.meter.meter_points import MeterPoint, light_sigma, points_of
from panewright.curve.meter.meter_set import Load, MeterClass, MeterSet
from panewright.curve.meter.onward import accuracy_of, cell_readings, curve_of
from panewright.errors import CurveError

VOLTS, AMPERES = MeterClass(0.005, 2, 0.01), MeterClass(0.015, 3, 0.01)
CELLS = 36
DIODE = Diode(light_a=4.62, saturation_a=4e-9, ideality_v=0.0277, series_ohm=0.006, shunt_ohm=25.0)
TRUE = key_points(DIODE)


def volts_over(ohm: float) -> float:
    """Voltage of the invented panel over a resistor, by halving."""
    low, high = 0.0, CELLS * TRUE.voc_v
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (
            (middle, high) if float(current_a(DIODE, middle / CELLS)) > middle / ohm else (low, middle)
        )
    return low


def readings(*ohms: float, **told) -> MeterSet:
    loads = tuple(Load(f"{ohm:g} ohm", ohm, 0.05, voltage_v=volts_over(ohm)) for ohm in ohms)
    return MeterSet(VOLTS, AMPERES, CELLS * TRUE.voc_v, TRUE.isc_a, loads, cells=CELLS, **told)


def test_a_limit_of_error_is_a_rectangle():
    """JCGM 100:2008, 4.3.7: an error anywhere within +- a has the uncertainty a / sqrt 3 (recalled)."""
    chance = np.random.default_rng(1)
    limit = 0.005 * 20.0 + 2 * 0.01
    assert VOLTS.sigma(20.0) == pytest.approx(np.std(chance.uniform(-limit, limit, 200_000)), rel=0.01)


def test_errors_of_a_point_are_those_of_many_readings():
    """Propagation beside a trial: voltage read, resistor within its tolerance, current by both."""
    chance = np.random.default_rng(2)
    v, r = 17.2, 4.7
    shown = v + math.sqrt(3) * VOLTS.sigma(v) * chance.uniform(-1, 1, 200_000)
    true = r * (1 + 0.05 * chance.uniform(-1, 1, 200_000))
    (point,) = [
        each
        for each in points_of(MeterSet(VOLTS, AMPERES, 20.8, 4.6, (Load("R", r, 0.05, v),)))
        if each.name == "R"
    ]
    assert point.current_sigma_a == pytest.approx(np.std(shown / true), rel=0.01)


def test_leads_and_shunt_are_counted():
    load = Load("R", 4.7, 0.01, voltage_v=17.0)
    at_panel = MeterSet(VOLTS, AMPERES, 20.8, 4.6, (load,), ammeter_ohm=0.02, leads_ohm=0.1)
    isc, point, _ = points_of(at_panel)
    assert isc.voltage_v == pytest.approx(4.6 * 0.02)
    assert point.current_a == pytest.approx(17.0 / 4.8)
    _, far, _ = points_of(replace(at_panel, volts_at="load"))
    assert (far.current_a, far.voltage_v) == (
        pytest.approx(17.0 / 4.7),
        pytest.approx(17.0 + 17.0 / 4.7 * 0.1),
    )
    _, by_current, _ = points_of(replace(at_panel, loads=(Load("R", 4.7, 0.01, current_a=3.6),)))
    assert by_current.voltage_v == pytest.approx(3.6 * 4.82)


def test_a_lamp_needs_both_and_gets_a_point():
    refuse_contradictions(
        MeterSet(VOLTS, AMPERES, 20.8, 4.6, (Load("lamp", voltage_v=17.2, current_a=3.66),))
    )
    with pytest.raises(CurveError, match="lamp: Its resistance is not known"):
        refuse_contradictions(MeterSet(VOLTS, AMPERES, 20.8, 4.6, (Load("lamp", voltage_v=17.2),)))


def test_light_that_moved_widens_every_current():
    moved = readings(3.3, before={"isc_a": 4.70}, after={"isc_a": 4.54})
    assert light_sigma(moved) == pytest.approx(0.16 / 4.62 / 2 / math.sqrt(3))
    still, wide = (next(p for p in points_of(each) if p.name == "Isc") for each in (readings(3.3), moved))
    assert wide.current_sigma_a == pytest.approx(
        math.hypot(still.current_sigma_a, light_sigma(moved) * TRUE.isc_a)
    )


def test_honest_readings_contradict_nothing():
    refuse_contradictions(readings(1.0, 2.2, 3.3, 4.7, 8.2, 15.0))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(-1, 1), min_size=10, max_size=10))
def test_readings_within_the_meter_s_class_are_never_refused(off):
    """Whatever the errors, as long as they keep to what the leaflet and the resistors promise."""

    def shown(value, meter, share):
        return value + share * math.sqrt(3) * meter.sigma(value)

    loads = tuple(
        Load(f"{ohm}", ohm / (1 + 0.05 * off[k]), 0.05, shown(volts_over(ohm), VOLTS, off[k + 4]))
        for k, ohm in enumerate((2.2, 3.3, 4.7, 8.2))
    )
    set_ = MeterSet(
        VOLTS, AMPERES, shown(CELLS * TRUE.voc_v, VOLTS, off[8]), shown(TRUE.isc_a, AMPERES, off[9]), loads
    )
    refuse_contradictions(set_)
    bounds = power_bounds(points_of(set_))
    assert bounds.low_w < CELLS * TRUE.power_w
    assert bounds.high_w is None or bounds.high_w > 0.97 * CELLS * TRUE.power_w


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"loads": (Load("lamp", voltage_v=22.4, current_a=0.5),)}, "Voc and lamp"),
        ({"loads": (Load("lamp", voltage_v=12.0, current_a=5.4),)}, "Isc and lamp"),
        ({"loads": (Load("4R7", 4.7, 0.05, 17.2, 2.9),)}, "4R7: volts and amps"),
        ({"loads": (Load("a", 3.3, 0.05, 10.0), Load("b", 4.7, 0.05, 17.2))}, "a and b"),
        ({"before": {"isc_a": 5.2}, "after": {"isc_a": 5.1}}, "isc and isc before and after"),
    ],
)
def test_two_readings_that_contradict_are_named_together(change, named):
    with pytest.raises(CurveError) as told:
        refuse_contradictions(replace(MeterSet(VOLTS, AMPERES, 20.8, 4.6), **change))
    assert [each.key for each in told.value.problems] == [named]
    assert all(each.cure for each in told.value.problems)


def test_readings_that_say_too_little_are_all_told():
    loads = (Load("a"), Load("a", 3.3, voltage_v=-1.0))
    with pytest.raises(CurveError) as told:
        refuse_contradictions(MeterSet(VOLTS, AMPERES, None, -4.6, loads))
    assert sorted(each.key for each in told.value.problems) == ["a", "a: volts", "isc", "load"]
    with pytest.raises(CurveError, match="One reading is no curve"):
        refuse_contradictions(MeterSet(VOLTS, AMPERES, 20.8))


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.floats(0.5, 40.0), min_size=1, max_size=6, unique_by=lambda ohm: round(math.log(ohm), 1)),
    st.floats(0.0, 0.02),
    st.floats(5.0, 500.0),
)
def test_the_bounds_hold_the_power_of_any_concave_curve(ohms, series_ohm, shunt_ohm):
    diode = replace(DIODE, series_ohm=series_ohm, shunt_ohm=shunt_ohm)
    true = key_points(diode)
    volts = [0.0, *np.sort([true.voc_v * ohm / (ohm + 5) for ohm in ohms]), true.voc_v]
    assume(min(np.diff(volts)) > 1e-6)
    at = [
        MeterPoint(f"{k}", v, float(current_a(diode, v)) if k < len(volts) - 1 else 0.0, 0, 0, "")
        for k, v in enumerate(volts)
    ]
    bounds = power_bounds(at)
    assert bounds.high_w is not None
    assert bounds.low_w <= true.power_w + 1e-6
    assert true.power_w <= bounds.high_w + 1e-3 * true.power_w  # the grid on which the bound is sought


def test_more_points_bound_the_power_closer():
    one, many = (
        power_bounds(points_of(readings(*ohms))) for ohms in ((4.0,), (1, 2.2, 3.3, 3.9, 4.7, 6.8, 12))
    )
    assert one.high_w is not None
    assert many.high_w is not None
    assert many.high_w - many.low_w < one.high_w - one.low_w


def test_a_point_below_the_chord_is_told_and_leaves_the_power_open():
    found = power_bounds(
        [
            MeterPoint(n, v, i, 0.01, 0.01, "")
            for n, v, i in [("Isc", 0, 4.6), ("R", 9, 2.0), ("S", 14, 1.9), ("Voc", 20.8, 0)]
        ]
    )
    assert found.high_w is None
    assert found.said[0].startswith("R lies")


def test_enough_resistors_make_a_curve_that_can_be_fitted():
    set_ = readings(0.5, 1.0, 2.2, 3.3, 3.9, 4.7, 6.8, 15.0, 47.0)
    found = fit(curve_of(set_, points_of(set_)).curve, CELLS)
    assert found.points.power_w == pytest.approx(CELLS * TRUE.power_w, rel=0.005)
    assert accuracy_of(set_).voltage_gain == pytest.approx(0.005 / math.sqrt(3))


def test_readings_of_a_panel_are_those_of_one_of_its_cells():
    set_ = readings(2.2, 4.0, 15.0, irradiance_w_m2=812.0, cell_c=41.0)
    few = cell_readings(set_, points_of(set_))
    assert few is not None
    assert few.voc_v == pytest.approx(TRUE.voc_v)
    assert few.loaded is not None
    assert few.loaded.voltage_v == pytest.approx(volts_over(4.0) / CELLS)
    assert cell_readings(readings(4.0), ()) is None
