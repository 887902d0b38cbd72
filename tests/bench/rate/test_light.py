"""Instruments, and light and heat however they were known."""

from dataclasses import replace
from datetime import UTC, date, datetime
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.bench.rate import heat, light
from panewright.bench.rate.instrument import Instrument, of_certificate, of_class
from panewright.bench.rate.light import Sensor, Slant
from panewright.curve.moved.coefficients import Coefficient, typical
from panewright.errors import BenchError
from panewright.sky.light import clear_light
from panewright.sky.place import Place, Plane

DAY = date(2026, 6, 20)
CELL = of_certificate("cell 1", "reference cell", 0.02)
THERMOMETER = of_class("back 1", "thermometer", 0.0, within=1.0)
BY = typical(8.5, 22.0)


def test_a_class_and_a_certificate_are_counted_as_the_guide_does():
    assert of_class("a", "multimeter", 0.01).sigma(100) == pytest.approx(1 / sqrt(3))
    assert of_certificate("a", "multimeter", 0.01).sigma(100) == pytest.approx(0.5)
    assert of_class("a", "multimeter", 0.0, 0.01).sigma(100) == pytest.approx(0.01 / sqrt(12))
    assert of_class("a", "thermometer", 0.0, within=1.5).sigma(40) == pytest.approx(1.5 / sqrt(3))


@pytest.mark.parametrize(
    ("calibrated", "due", "words"),
    [
        (None, None, "never calibrated"),
        (date(2026, 7, 1), date(2027, 7, 1), "only later"),
        (date(2026, 1, 1), None, "no day on which it is due"),
        (date(2025, 1, 1), date(2026, 1, 1), "was due for calibration on 2026-01-01"),
        (date(2026, 1, 1), DAY, ""),
    ],
)
def test_a_calibration_has_a_first_and_a_last_day(calibrated, due, words):
    told = of_class("meter", "multimeter", 0.01, calibrated=calibrated, due=due).wrong_on(DAY)
    assert (words in told) if words else told == ""


def test_an_instrument_is_told_to_be_due_within_a_month():
    soon = of_class("meter", "multimeter", 0.01, due=date(2026, 7, 10))
    assert soon.soon_due(DAY)
    assert not soon.soon_due(date(2026, 5, 1))
    assert not soon.soon_due(date(2026, 7, 11))


def test_a_reference_cell_is_put_right_for_its_heat():
    """0.05 % a kelvin over 40 K, an error of 2 % at 65 degC if forgotten (typical, memory)."""
    cool = light.by_cell(0.100, 25.0, Sensor(CELL, 0.1))
    hot = light.by_cell(0.102, 65.0, Sensor(CELL, 0.1))
    assert cool.value_w_m2 == pytest.approx(1000)
    assert hot.value_w_m2 == pytest.approx(1000)
    assert hot.sigma_w_m2 > cool.sigma_w_m2  # its drift is only recalled


@pytest.mark.parametrize(("askew", "share"), [(2.0, 0.000609173), (5.0, 0.0038053)])
def test_a_sensor_askew_of_a_panel_that_faces_the_sun_errs_by_one_less_the_cosine(askew, share):
    assert Slant(0.0, askew).doubt.sigma == pytest.approx(share, rel=1e-4)
    assert Slant(50.0, askew).doubt.sigma > 10 * share


def test_each_way_to_know_the_light_has_the_uncertainty_it_deserves():
    """From best to worst; a careful shop's pyranometer comes to some 2.6 % (typical, memory)."""
    cell = light.by_cell(0.09, 40.0, Sensor(CELL, 0.1))
    panel = light.by_panel(7.7, 45.0, Sensor(of_certificate("panel 7", "panel", 0.04), 8.5))
    meter = light.by_meter(900.0, of_certificate("meter 3", "light meter", 0.04))
    phone = light.by_meter(900.0, light.phone_grade("telephone"))
    sky = light.by_sky(clear_light(Place(43, 5), Plane(40, 180), datetime(2026, 6, 20, 11, 40, tzinfo=UTC)))
    shares = [each.sigma_w_m2 / each.value_w_m2 for each in (cell, panel, meter, sky, phone)]
    assert shares == sorted(shares)
    assert shares[0] < 0.02
    assert 0.02 < shares[2] < 0.03
    assert shares[4] > 0.08


def test_light_by_its_own_isc_rates_no_current_and_no_power():
    made = light.by_own_isc(7.6, 45.0, Sensor(of_class("meter", "multimeter", 0.01), 8.5))
    assert made.unrated == ("isc_a", "imp_a", "power_w")


@pytest.mark.parametrize("reading", [-0.02, 0.0, 0.2])
def test_light_that_no_sun_gives_is_refused(reading):
    with pytest.raises(BenchError, match=r"light by reference cell = .*No sun gives that"):
        light.by_cell(reading, 25.0, Sensor(CELL, 0.1))


def test_cells_are_hotter_than_their_back_by_as_much_as_the_sun_is_bright():
    made = heat.by_back(45.0, THERMOMETER)
    assert made.cell_c(1000) == pytest.approx(48)
    assert made.cell_c(500) == pytest.approx(46.5)


@given(st.floats(200, 1100), st.floats(0, 80))
def test_voc_tells_the_temperature_it_was_made_by(lit, cell_c):
    """Procedure 2's own Voc there and back; what it was taken for is then not rated."""
    fall = BY.fall(lit)
    voc = BY.voc_v * (BY.beta_per_k.value * fall * (cell_c - 25) + 1 / fall)
    made = heat.by_voc(BY)
    assert made.cell_c(lit, voc) == pytest.approx(cell_c, abs=1e-9)
    assert made.unrated == ("voc_v", "vmp_v")


def test_each_way_to_know_the_heat_has_the_uncertainty_it_deserves():
    gun = of_class("gun 1", "infrared gun", 0.0, within=2.0)
    ways = (heat.by_back(45, THERMOMETER), heat.by_gun(45, gun), heat.by_air(25, 2, THERMOMETER))
    assert [way.sigma_k for way in ways] == sorted(way.sigma_k for way in ways)
    assert heat.by_voc(BY).sigma_k == pytest.approx(0.01 / 0.003374, rel=1e-6)


def test_the_air_and_the_wind_tell_it_badly_but_tell_it():
    """Faiman 2008: 25 degC, 1 m/s and full sun make 56.4 degC (derived)."""
    assert heat.by_air(25.0, 1.0, THERMOMETER).cell_c(1000) == pytest.approx(56.4070352)


def test_heat_that_no_cell_has_is_refused():
    with pytest.raises(BenchError, match="heat by back sensor = 150"):
        heat.by_back(150.0, THERMOMETER).cell_c(100)
    with pytest.raises(BenchError, match="short of open circuit"):
        heat.by_voc(BY).cell_c(900, None)


def test_what_makes_no_sense_is_our_own_mistake():
    with pytest.raises(ValueError, match="uncertainties of 0 or more"):
        Instrument("meter", "multimeter", -0.1)
    with pytest.raises(ValueError, match="an uncertainty of 0 or more"):
        replace(Coefficient(1.0, 0.1, "recalled"), sigma=-1.0)
