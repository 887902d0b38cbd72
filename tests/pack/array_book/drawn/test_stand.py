"""Where the panels lie: to scale, each with its string and serial, leads from plus to minus."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

import pytest

from invented_plans import GAP_MM, HIGH_MM, WIDE_MM, Invented, made
from panewright.drawing.drawing import Dimension, Path, Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.pack.array_book.drawn.patterns import PATTERNS, pattern
from panewright.pack.array_book.drawn.schemed import places_of
from panewright.pack.array_book.drawn.stand import stand_drawing
from panewright.pack.figures.scale import figure, page_room

ASKED = {
    "one": Invented(1, 1),
    "two by two, two spare": Invented(2, 2, columns=3, spare=2),
    "eight strings": Invented(8, 5, 2, columns=10),
    "two stands": Invented(4, 5, columns=4, stands=2, serial="Boathouse roof number {:04d}"),
    "inches": Invented(2, 6, columns=12, units="us", paper="Letter"),
}


@pytest.mark.parametrize("asked", ASKED.values(), ids=ASKED.keys())
def test_each_panel_lies_there_once_with_its_place_and_nothing_overlaps(asked):
    plan = made(asked)
    places = places_of(plan)
    said = []
    for number in range(asked.stands):
        make = partial(stand_drawing, plan, number)
        drawing = figure(make, page_room(asked.paper, 52.0), "", asked.units).drawing
        assert overlaps(drawing, asked.units) == ()
        assert crossed(drawing, asked.units) == ()
        said += [item.words for item in drawing.items if isinstance(item, Text)]
    assert all(said.count(place) == 1 for place in places.values())
    joined = "".join(said).replace(" ", "")
    assert all(joined.count(placed.serial.replace(" ", "")) == 1 for placed in plan.panels)
    assert said.count("not wired") == asked.spare


def test_leads_run_from_each_plus_to_the_next_minus_of_the_string():
    plan = made(Invented(2, 3, columns=2))
    drawing = stand_drawing(plan, 0, 40.0)
    leads = [item.points for item in drawing.items if isinstance(item, Path) and item.layer == "lead"]
    ends = {(start, end) for start, *_, end in leads}
    wanted = set()
    for string in plan.strings():
        for one, other in pairwise(string):
            plus = (one.left_mm + 0.66 * WIDE_MM, one.up_mm + 0.8 * HIGH_MM)
            minus = (other.left_mm + 0.34 * WIDE_MM, other.up_mm + 0.8 * HIGH_MM)
            wanted.add((plus, minus))
    assert ends == wanted
    assert len(leads) == 4


def test_a_string_that_goes_on_at_another_stand_says_where():
    plan = made(Invented(1, 2, columns=1, stands=2))
    first, second = (
        [item.words for item in stand_drawing(plan, n, 40.0).items if isinstance(item, Text)] for n in (0, 1)
    )
    assert any(line.startswith("+ to A2") for line in first)
    assert any(line.startswith("− from A1") for line in second)


def test_the_dimensions_are_those_of_all_panels_with_their_gaps():
    drawing = stand_drawing(made(Invented(2, 3, columns=3)), 0, 40.0)
    lengths = sorted(item.length_mm for item in drawing.items if isinstance(item, Dimension))
    assert lengths == [3 * WIDE_MM + 2 * GAP_MM, 2 * HIGH_MM + GAP_MM]


def test_strings_differ_by_pattern_without_any_colour():
    area = (0.0, 0.0, 40.0, 60.0)
    strokes = [tuple(str(item) for item in pattern(n, area, 3.0, "ink")) for n in range(PATTERNS)]
    assert len(set(strokes)) == PATTERNS
    assert strokes[0] == ()
    assert tuple(str(item) for item in pattern(PATTERNS + 3, area, 3.0, "ink")) == strokes[3]


@pytest.mark.parametrize("number", range(PATTERNS))
def test_a_pattern_stays_within_its_area(number):
    for item in pattern(number, (1.0, 2.0, 9.0, 23.0), 2.0, "ink"):
        if isinstance(item, Path):
            assert all(
                1.0 - 1e-9 <= x <= 9.0 + 1e-9 and 2.0 - 1e-9 <= y <= 23.0 + 1e-9 for x, y in item.points
            )
