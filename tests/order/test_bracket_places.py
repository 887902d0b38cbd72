"""Brackets where the order wants each of them: what is read, and what is told of a mistake."""

from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.shelf.load import load_shelf

JETTY = (Path(__file__).parents[2] / "examples" / "jetty.toml").read_text("utf-8")


def parsed(parts):
    return parse_order(JETTY.replace("[parts]\n", f"[parts]\n{parts}\n"), "jetty.toml", load_shelf())


def test_places_are_read_in_any_unit():
    places = parsed('bracket_places = "150 mm, 0.8 m, 57 in"').parts.bracket_places_mm
    assert places == pytest.approx((150.0, 800.0, 1447.8))
    assert parsed("brackets = 2").parts.bracket_places_mm is None


@pytest.mark.parametrize(
    ("parts", "key", "reason"),
    [
        ('bracket_places = "150, 800 mm"', "parts.bracket_places", "unit"),
        ('bracket_places = "150 mm"', "parts.bracket_places", "2 to 12"),
        ('bracket_places = "800 mm, 150 mm"', "parts.bracket_places", "left end to its right"),
        ('bracket_places = "150 mm, 150 mm"', "parts.bracket_places", "left end to its right"),
        ('bracket_places = "150 mm, , 800 mm"', "parts.bracket_places", ""),
        ("bracket_places = 150", "parts.bracket_places", "text in quotes"),
        ('brackets = 3\nbracket_places = "150 mm, 800 mm"', "parts.bracket_places", "2 places"),
        (
            'bracket_from_end = "90 mm"\nbracket_places = "150 mm, 800 mm"',
            "parts.bracket_from_end",
            "every bracket",
        ),
    ],
)
def test_a_mistake_is_told_once_at_its_key_with_a_cure(parts, key, reason):
    with pytest.raises(OrderError) as told:
        parsed(parts)
    (problem,) = told.value.problems
    assert problem.key == key
    assert reason in problem.reason
    assert problem.cure
    assert problem.line is not None
