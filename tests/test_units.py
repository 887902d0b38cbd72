"""What a person writes, read as a number; a number, written for people."""

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from panewright.units import KINDS, THIN, UnitError, figure, read, read_exact, show, written

READ = [
    ("25 mm", "size", 25.0),
    ("25mm", "size", 25.0),
    (" 25  mm ", "size", 25.0),
    ("25 MM", "size", 25.0),
    ("2,5 cm", "size", 25.0),
    ("0,125 in", "size", 3.175),
    (".5 in", "size", 12.7),
    ("1 1/2 in", "size", 38.1),
    ("1-1/2 in", "size", 38.1),
    ("1½ in", "size", 38.1),
    ("3/16″", "size", 4.7625),
    ("5 ft 3 1/2 in", "size", 1612.9),
    ("5'-3 1/2\"", "size", 1612.9),
    ("5ft3in", "distance", 1.6002),
    ("1 m 20 cm", "size", 1200.0),
    ("0 ft 0 in", "size", 0.0),
    ("20 um", "size", 0.02),
    ("20 µm", "size", 0.02),
    ("1.5e3 mm", "size", 1500.0),
    ("4300 ft", "distance", 1310.64),
    ("-14 degC", "temperature", -14.0),
    ("−14 °C", "temperature", -14.0),
    ("- 14 ℃", "temperature", -14.0),
    ("-14,5 C", "temperature", -14.5),
    ("104 degF", "temperature", 40.0),
    ("-40 °F", "temperature", -40.0),
    ("273.15 K", "temperature", 0.0),
    ("0 K", "temperature", -273.15),
    ("0.8 kPa", "pressure", 800.0),
    ("0,8 kN/m²", "pressure", 800.0),
    ("17 psf", "pressure", 813.9644026657),
    ("20 psi", "pressure", 137895.1458634),
    ("100 mph", "speed", 44.704),
    ("100 MPH", "speed", 44.704),
    ("60 kn", "speed", 30.8666666666667),
    ("36 km/h", "speed", 10.0),
    ("25 %", "share", 0.25),
    ("25%", "share", 0.25),
    ("25 percent", "share", 0.25),
    ("-0.34 %/K", "per kelvin", -0.0034),
    ("0.05 %/degC", "per kelvin", 0.0005),
    ("0.05 %/°C", "per kelvin", 0.0005),
    ("-0.3 % per K", "per kelvin", -0.003),
    ("9e-6 /K", "per kelvin", 9e-6),
    ("72 ppm/K", "per kelvin", 72e-6),
    ("9 µm/(m K)", "per kelvin", 9e-6),
    ("40 ppm/degF", "per kelvin", 72e-6),
    ("-3 mV/K", "voltage per kelvin", -0.003),
    ("4 mm²", "area", 4.0),
    ("4 mm^2", "area", 4.0),
    ("5 mΩ", "resistance", 0.005),
    ("5000 ohm cm²", "area resistance", 5000.0),
    ("355 mA", "current", 0.355),
    ("12 volts", "voltage", 12.0),
    ("55 lb", "mass", 24.94758035),
    ("10 lb 4 oz", "mass", 4.6493217925),
    ("50 yr", "years", 50.0),
    ("30 d", "time", 2592000.0),
    ("1 h 30 min", "time", 5400.0),
    ("310 ml", "volume", 310.0),
    ("1 l", "volume", 1000.0),
    ("2500 kg/m3", "density", 2500.0),
    ("35°", "angle", 35.0),
    ("60 Wp", "power", 60.0),
    ("0.2 S", "conductance", 0.2),
    ("11 lbf", "force", 48.9304377678655),
]
REFUSED = [
    ("", "size", "Nothing"),
    ("   ", "size", "Nothing"),
    ("25", "size", "no unit"),
    ("26", "speed", "no unit"),
    ("mm", "size", "does not begin with a number"),
    ("nan mm", "size", "not a figure"),
    ("inf V", "voltage", "not a figure"),
    ("-Infinity V", "voltage", "not a figure"),
    ("5 kg", "size", "measures a mass"),
    ("12 mm", "pressure", "measures a size"),
    ("1,234 mm", "size", "may mean 1234 or 1.234"),
    ("1 200 mm", "size", "gap"),
    ("1'200 mm", "size", "follow"),
    ("1.234,5 mm", "size", "gap or a second mark"),
    ("5 ft 14 in", "size", "follow"),
    ("3 in 1 ft", "size", "follow"),
    ("5-10 mm", "size", "no unit of a size"),
    ("25 ± 1 mm", "size", "no unit of a size"),
    ("2^3 mm", "size", "no unit of a size"),
    ("5² mm", "size", "no unit of a size"),
    ("1/0 in", "size", "divides by nothing"),
    ("1 3/2 in", "size", "fraction of one or more"),
    ("1e400 mm", "size", "beyond"),
    ("1e999999999999 mm", "size", "beyond"),
    ("1e13 mm", "size", "larger than anything"),
    ("9" * 70 + " mm", "size", "larger than anything"),
    ("9" * 5000 + " mm", "size", "too long"),
    ("5 MV", "voltage", "no unit of a voltage"),
    ("12 mw", "power", "no unit of a power"),
    ("5 mpa", "pressure", "no unit of a pressure"),
    ("-300 degC", "temperature", "absolute zero"),
    ("-1 K", "temperature", "absolute zero"),
    ("AWG 99", "area", "no wire"),
    ("5/0 AWG", "area", "no wire"),
    ("-2.1 mV/K", "per kelvin", "of what Voc"),
    ("4 mA/K", "per kelvin", "of what Isc"),
    ("0.25", "share", "no unit"),
    ("about 5 mm", "size", "does not begin with a number"),
    ("٥ mm", "size", "does not begin with a number"),
]


@pytest.mark.parametrize(("text", "kind", "value"), READ)
def test_a_quantity_is_read(text, kind, value):
    assert read(text, kind) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(("text", "kind", "part"), REFUSED)
def test_what_cannot_be_read_is_told_with_a_cure(text, kind, part):
    with pytest.raises(UnitError) as told:
        read(text, kind)
    assert part in told.value.reason
    assert told.value.cure.startswith(("Write", "Divide", "Each"))
    assert str(told.value) == f"{told.value.reason} {told.value.cure}"


@pytest.mark.parametrize("kind", KINDS)
def test_the_cure_for_every_kind_shows_what_can_be_read(kind):
    with pytest.raises(UnitError) as told:
        read("many", kind)
    shown = told.value.cure.split('"')[1]
    assert math.isfinite(read(shown, kind))


def test_a_misspelt_unit_is_answered_with_the_nearest():
    with pytest.raises(UnitError, match="Is mm meant"):
        read("25 mmm", "size")


def test_what_is_not_text_is_refused_and_not_guessed():
    with pytest.raises(UnitError, match="not text"):
        read(25, "size")


@pytest.mark.parametrize(
    ("gauge", "area_mm2"),
    [("AWG 18", 0.823046834), ("14 AWG", 2.08090772), ("AWG 10", 5.26115495), ("#2 AWG", 33.630834)],
)
def test_wire_gauges_are_areas(gauge, area_mm2):
    """d = 0.127 mm 92^((36-n)/39), ASTM B258; areas derived from the formula outside this project."""
    assert read(gauge, "area") == pytest.approx(area_mm2, rel=1e-8)


def test_heavier_gauges_count_downward_past_nought():
    areas = [read(gauge, "area") for gauge in ("AWG 1", "AWG 1/0", "AWG 2/0", "AWG 3/0", "AWG 4/0")]
    ratio = 92 ** (2 / 39)
    assert [b / a for a, b in pairwise(areas)] == pytest.approx([ratio] * 4)


@given(st.integers(0, 400), st.integers(0, 31))
def test_an_inch_fraction_reads_back_exactly(whole, part):
    shown = show((whole + part / 32) * 25.4, "mm", "us").split(" (")[0]
    assert read_exact(shown, "size") == (whole + Fraction(part, 32)) * Fraction("25.4")


@given(st.floats(4, 3000))
def test_inches_on_paper_are_within_a_sixty_fourth(value_mm):
    shown = show(value_mm, "mm", "us").split(" (")[0]
    assert abs(read(shown, "size") - value_mm) <= 25.4 / 64 + 1e-9


@given(st.floats(0.001, 2))
def test_thin_things_stay_in_decimals_of_an_inch(value_mm):
    shown = show(value_mm, "mm", "us").split(" (")[0]
    assert read(shown, "size") == pytest.approx(value_mm, rel=0.006)


@given(
    st.floats(1e-3, 1e8) | st.floats(-1e8, -1e-3),
    st.sampled_from(
        [("Pa", "pressure"), ("V", "voltage"), ("A", "current"), ("kg", "mass"), ("mm2", "area")]
    ),
)
def test_what_is_shown_reads_back_to_its_digits(value, unit_kind):
    unit, kind = unit_kind
    assert read(show(value, unit), kind) == pytest.approx(value, rel=0.0051)


@given(st.floats(-200, 200))
def test_fahrenheit_on_paper_reads_back(value_c):
    shown = show(value_c, "degC", "us", digits=6)
    assert read(shown, "temperature") == pytest.approx(value_c, abs=1e-3)


@given(
    st.floats(1e-9, 1e6) | st.floats(-1e6, -1e-9) | st.just(0.0),
    st.sampled_from([kind for kind in KINDS if kind != "temperature"]),
)
def test_what_is_written_for_an_order_reads_back(value, kind):
    assert read(written(value, kind), kind) == pytest.approx(value, rel=1e-11, abs=1e-12)


@given(st.text(max_size=60), st.sampled_from(KINDS))
@example("1e5 ft 3e5 in", "size")
@example("1/2/3 in", "size")
@example("--5 mm", "size")
def test_any_text_is_a_finite_number_or_a_told_mistake(text, kind):
    try:
        said = math.isfinite(read(text, kind))
    except UnitError as mistake:
        said = bool(mistake.reason and mistake.cure)
    assert said


@given(st.decimals(-1000, 1000, places=3))
def test_a_decimal_comma_reads_like_a_point(number):
    assert read(f"{number}00 V".replace(".", ","), "voltage") == float(number)


@pytest.mark.parametrize(
    ("value", "unit", "system", "words"),
    [
        (61.625 * 25.4, "mm", "us", "61 5/8 in (1565 mm)"),
        (38.1, "mm", "us", "1 1/2 in (38.1 mm)"),
        (-38.1, "mm", "us", "-1 1/2 in (-38.1 mm)"),
        (25.4, "mm", "us", "1 in (25.4 mm)"),
        (0.0, "mm", "us", "0 in (0 mm)"),
        (0.2, "mm", "us", "0.00787 in (0.200 mm)"),
        (3.2, "mm", "us", "1/8 in (3.20 mm)"),
        (3.175, "mm", "us", "1/8 in (3.17 mm)"),
        (1565.4, "mm", "metric", "1565 mm"),
        (2400.0, "Pa", "metric", "2400 Pa"),
        (2400.0, "Pa", "us", "50.1 psf"),
        (104.24, "MPa", "us", "15.1 ksi"),
        (0.138, "MPa", "us", "20.0 psi"),
        (-0.048, "MPa", "us", "-6.96 psi"),
        (100.0, "N", "us", "22.5 lbf"),
        (11.34, "kg", "us", "25.0 lb"),
        (-14.0, "degC", "us", "6.80 °F"),
        (-14.0, "degC", "metric", "-14.0 °C"),
        (44.704, "m/s", "us", "100 mph"),
        (3.048, "m", "us", "10.0 ft"),
        (4.0, "mm2", "us", "0.00620 in² (4.00 mm²)"),
        (0.012345, "ohm", "us", "0.0123 Ω"),
        (25.0, "%", "metric", "25.0 %"),
        (30.0, "deg", "metric", "30.0°"),
        (36, "-", "metric", "36"),
        (18.04, "V", "us", "18.0 V"),
        (9.996, "A", "metric", "10.0 A"),
        (6.8e-6, "A", "metric", "6.80e-6 A"),
        (math.nan, "V", "metric", "unknown"),
        (math.inf, "mm", "us", "∞ mm"),
    ],
)
def test_figures_are_written_in_one_way(value, unit, system, words):
    assert show(value, unit, system).replace(THIN, " ") == words


@given(st.floats(1e-4, 9e8), st.integers(1, 8))
def test_a_figure_keeps_its_digits_and_never_rounds_before_the_point(value, digits):
    shown = figure(value, digits)
    assert float(shown) == pytest.approx(value, rel=0.51 * 10 ** (1 - digits), abs=0)
    assert abs(float(shown) - value) <= 0.51
