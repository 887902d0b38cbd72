"""Records as JSON: read back the same, the same bytes whatever the order of making."""

import json
from dataclasses import dataclass
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.check import Check
from panewright.paper.record import json_bytes


@dataclass(frozen=True, slots=True)
class Nest:
    zulu: float
    alpha: tuple
    money: Decimal = Decimal("12.50")
    more: object = None


def test_fields_stand_as_in_the_record():
    assert json_bytes(Nest(1.5, (1, "x"))).decode().split() == (
        [
            "{",
            '"zulu":',
            "1.5,",
            '"alpha":',
            "[",
            "1,",
            '"x"',
            "],",
            '"money":',
            '"12.50",',
            '"more":',
            "null",
            "}",
        ]
    )


def test_a_check_is_written_with_all_its_fields():
    back = json.loads(json_bytes(Check("sag", 3.0, None, "mm", "L/300")))
    assert back == {
        "rule": "sag",
        "demand": 3.0,
        "limit": None,
        "unit": "mm",
        "source": "L/300",
        "cure": "",
        "room": "",
    }


@pytest.mark.parametrize(
    "number", [float("nan"), float("inf"), -float("inf"), np.float64("nan"), Decimal("NaN")]
)
def test_what_is_not_a_number_is_null(number):
    assert json.loads(json_bytes(Nest(number, ())))["zulu"] is None


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_floats_read_back_to_the_last_bit(number):
    assert json.loads(json_bytes([number])) == [number]


def test_mappings_and_sets_are_sorted():
    assert json_bytes({"b": 1, "a": {3, 1, 2}}) == json_bytes({"a": {2, 3, 1}, "b": 1})
    assert list(json.loads(json_bytes({"b": 1, "a": 2}))) == ["a", "b"]


def test_numbers_of_the_numerical_library_are_plain_numbers():
    assert json.loads(json_bytes([np.int64(3), np.float64(0.5), np.array([[1.0, 2.0]])])) == [
        3,
        0.5,
        [[1.0, 2.0]],
    ]


def test_what_cannot_be_written_is_refused():
    with pytest.raises(TypeError, match="object"):
        json_bytes(Nest(1.0, (object(),)))
