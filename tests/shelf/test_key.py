"""What a key takes and what it refuses."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.shelf.key import Fault, Key, described, nearest

WIDTH = Key("trial", "width", "size", "", "25 mm", least="5 mm", most="2500 mm")
COUNT = Key("trial", "panels", "count", "", 1, least=1, most=10)
SHARE = Key("trial", "margin", "share", "", "20 %", least="0 %", most="500 %")
MONEY = Key("trial", "labour", "money", "", "40 EUR/h")
CHOICE = Key("trial", "leads", "choice", "", "one end", choices=("one end", "any"))
NAME = Key("trial", "name", "text", "", "Jetty", required=True, most=12)


@pytest.mark.parametrize(
    ("key", "raw", "value"),
    [
        (WIDTH, "1 in", 25.4),
        (WIDTH, "5 mm", 5.0),
        (WIDTH, "2,5 m", 2500.0),
        (COUNT, 10, 10),
        (SHARE, "12.5 %", Decimal("0.125")),
        (MONEY, "38", Decimal(38)),
        (MONEY, "38,50 EUR/h", Decimal("38.50")),
        (MONEY, "38.50 EUR", Decimal("38.50")),
        (CHOICE, "One  End", "one end"),
        (CHOICE, "one-end", "one end"),
        (NAME, "  Jetty ", "Jetty"),
    ],
)
def test_a_value_is_read(key, raw, value):
    assert key.read(raw) == value


@pytest.mark.parametrize(
    ("key", "raw", "reason"),
    [
        (WIDTH, "4.9 mm", "less than 5 mm"),
        (WIDTH, "2501 mm", "more than 2500 mm"),
        (WIDTH, 25, "a number without its unit"),
        (WIDTH, True, "yes or no"),
        (WIDTH, None, "a date or time"),
        (COUNT, True, "not yes or no"),
        (COUNT, 1.0, "a number with a point"),
        (COUNT, float("inf"), "past all bounds"),
        (COUNT, 0, "less than 1"),
        (COUNT, 11, "more than 10"),
        (SHARE, "0.2", "no unit"),
        (MONEY, "1e5", "no sum of money"),
        (MONEY, "-3", "no sum of money"),
        (CHOICE, "one-nd", "Is one end meant?"),
        (CHOICE, "", "Nothing is none of the choices"),
        (NAME, " ", "Nothing is written here"),
        (NAME, "a" * 13, "at most 12 letters"),
        (NAME, "a\tb", "one line"),
        (NAME, [], "a list"),
    ],
)
def test_what_a_key_cannot_take_is_told_with_a_cure(key, raw, reason):
    with pytest.raises(Fault) as told:
        key.read(raw)
    assert reason in told.value.reason
    assert told.value.cure


@given(st.decimals(0, 500, places=6))
def test_shares_are_exact(percent):
    assert SHARE.read(f"{percent:f} %") == percent / 100


@given(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text() | st.lists(st.integers()) | st.dates()
)
def test_every_raw_value_has_a_name(raw):
    assert described(raw)


def test_names_are_found_in_spite_of_case_and_hyphens():
    assert nearest("Bypas-Diode", ["bypass_diodes", "strings"]) == " Is bypass_diodes meant?"
    assert nearest("zebra", ["bypass_diodes", "strings"]) == ""
