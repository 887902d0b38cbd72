"""Corners as people write them."""

import pytest

from panewright.shelf.key import Fault
from panewright.shelf.points import closed_lines

SQUARE = (((0.0, 0.0), (30.0, 0.0), (30.0, 30.0)),)


@pytest.mark.parametrize(
    "text",
    [
        "0, 0; 30, 0; 30, 30 mm",
        "0,0;30,0;30,30mm",
        "0 mm, 0 mm; 3 cm, 0 mm; 30 mm, 30 mm",
        "0, 0; 30, 0; 30, 30; 0, 0 mm",  # closed by hand
        "0, 0; 30, 0; 30, 30 mm;",
        "0, 0; 30, -0; 30, +30.0 mm",
    ],
)
def test_one_drawing_in_many_hands(text):
    assert closed_lines("outline", text) == SQUARE


def test_inches_with_fractions():
    ((first, second, third),) = closed_lines("outline", "0, 0; 1 1/2, 0; 0, 1/8 in")
    assert (first, second, third) == ((0.0, 0.0), (38.1, 0.0), (0.0, 3.175))


def test_lines_are_parted():
    assert len(closed_lines("holes", "1, 1; 2, 1; 2, 2 | 4, 1; 5, 1; 5, 2 mm")) == 2


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("0, 0; 30, 0; 30, 30", "without a unit"),
        ("0, 0; 30 0; 30, 30 mm", "Corner 2 of outline, '30 0'"),
        ("0, 0; 30, 0; 30, x mm", "Corner 3 of outline, '30, x'"),
        ("0, 0; ; 30, 30 mm", "Corner 2 of outline, ''"),
        ("0, 0; 30, 0; 30, 30 kg", "Corner 1 of outline"),
        ("0, 0; 30, 0; 30, 30 m", "Corner 2 of outline, '30, 0', lies more than 250 mm"),
    ],
)
def test_a_corner_that_cannot_be_read_is_named(text, words):
    with pytest.raises(Fault) as told:
        closed_lines("outline", text)
    assert words in told.value.reason
    assert told.value.key == "outline"
    assert told.value.cure
