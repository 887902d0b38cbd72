"""Numbers as people write them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.intake.measure import UNITS
from panewright.intake.quantity import QUANTITIES
from panewright.intake.written import figures

UNIT = {unit.name: unit for units in UNITS.values() for unit in units}


def one(text: str, quantity: str = "isc_a", unit: str = "A", mark: str = ".") -> float:
    return float(figures([text], QUANTITIES[quantity], UNIT[unit], mark).values[0])


def why(text: str, quantity: str = "isc_a", unit: str = "A", mark: str = ".") -> str:
    column = figures([text], QUANTITIES[quantity], UNIT[unit], mark)
    assert math.isnan(column.values[0])
    return column.faults[0].reason


@pytest.mark.parametrize(
    ("text", "mark", "value"),
    [
        ("9.12", ".", 9.12),
        ("9,12", ",", 9.12),
        (" 9.12 ", ".", 9.12),
        ("+9.12", ".", 9.12),
        ("9.12 A", ".", 9.12),
        ("9120mA", ".", 9.12),
        ("9,12 A", ",", 9.12),
        ("9.12E0", ".", 9.12),
        ("9.12", ",", 9.12),
        ("9,12", ".", 9.12),
        (".912", ".", 0.912),
        ("−0,3", ",", -0.3),
        ("9\u00a0A", ".", 9.0),
        ("9.123", ",", 9.123),  # 9123 A is no cell
    ],
)
def test_a_current(text, mark, value):
    assert one(text, mark=mark) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "mark", "value"),
    [
        ("1.012,5", ",", 1012.5),
        ("1,012.5", ".", 1012.5),
        ("1 012", ".", 1012.0),
        ("1'012.5", ".", 1012.5),
        ("1.012", ",", 1012.0),
        ("1,012", ".", 1012.0),
        ("0.98 sun", ".", 980.0),
        ("98 mW/cm2", ".", 980.0),
    ],
)
def test_a_light(text, mark, value):
    assert one(text, "irradiance_w_m2", "W/m2", mark) == pytest.approx(value, rel=1e-12)


def test_heat_with_its_unit_beside():
    assert one("77 °F", "cell_c", "degC") == pytest.approx(25)
    assert one("298,15 K", "cell_c", "degC", ",") == pytest.approx(25)


@pytest.mark.parametrize("text", ["", " ", "-", "n/a", "N/A", "k.A.", "#N/A", "NaN", "—"])
def test_nothing_read_is_no_mistake(text):
    column = figures([text], QUANTITIES["isc_a"], UNIT["A"], ".")
    assert math.isnan(column.values[0])
    assert not column.faults


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("chip", "no number"),
        ("OL", "overloaded"),
        ("#DIV/0!", "own formula"),
        ("=A1*2", "formula without its value"),
        ("2020-05-09 00:00:00", "a date"),
        ("5. Mai", "a date"),
        ("9.1 V", "no unit"),
        ("9.1.2", "no number"),
        ("1,2,3", "no number"),
        ("inf", "no number"),
        ("1e999", "no number"),
        ("1_0", "no unit"),
        ("٩", "no number"),
        ("9" * 400, "no number"),
    ],
)
def test_what_is_no_reading_is_told(text, part):
    assert part in why(text)


def test_two_ways_are_refused_where_a_cell_could_show_both():
    assert "may mean 9123 or 9.123" in why("9.123", "shunt_ohm", "ohm", ",")


def test_an_overload_of_a_shunt_is_told_and_no_mistake():
    column = figures(["OL", "12"], QUANTITIES["shunt_ohm"], UNIT["ohm"], ".")
    assert not column.faults
    assert list(column.notes) == ["beyond the meter's range, counted as not read"]


@given(
    st.lists(st.floats(0.03, 25).map(lambda value: round(value, 4)), min_size=1, max_size=30),
    st.sampled_from(".,"),
)
def test_plain_columns_and_mixed_ones_read_alike(values, mark):
    texts = [f"{value:.4f}".replace(".", mark) for value in values]
    plain = figures(texts, QUANTITIES["isc_a"], UNIT["A"], mark).values
    mixed = figures([*texts, "n/a"], QUANTITIES["isc_a"], UNIT["A"], mark).values[:-1]
    np.testing.assert_array_equal(plain, values)
    np.testing.assert_array_equal(mixed, values)


@given(st.text(max_size=70))
def test_any_text_is_a_number_or_told(text):
    column = figures([text], QUANTITIES["voc_v"], UNIT["V"], ".")
    assert not (math.isfinite(column.values[0]) and column.faults)
    assert not math.isinf(column.values[0])
