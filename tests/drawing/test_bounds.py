"""Bounds hold everything that is drawn and nothing more."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.bounds import Bounds, bounds, item_bounds
from panewright.drawing.drawing import Arc, Dimension, Drawing, Path, Text, box
from panewright.drawing.lettering import text_width_mm

ANGLES = st.floats(0, 360)


def test_bounds_of_paths_are_their_furthest_points():
    drawing = Drawing("two", (box(1, 2, 30, 4, "pane"), Path(((-5, 3), (0, 50)), "lead")))
    assert bounds(drawing) == Bounds(-5, 2, 30, 50)


def test_a_whole_circle_reaches_its_radius_on_all_sides():
    assert item_bounds(Arc((10, 20), 3, "hole")) == pytest.approx((7, 17, 13, 23))


def test_a_quarter_circle_reaches_only_its_own_quarter():
    assert item_bounds(Arc((0, 0), 10, "rail", 0, 90)) == pytest.approx((0, 0, 10, 10))


@given(st.floats(-360, 360), st.floats(1, 360))
def test_every_point_of_an_arc_lies_within_its_bounds(start, span):
    around = item_bounds(Arc((3, -2), 7, "rail", start, start + span)).grown(1e-9)
    for step in range(101):
        angle = math.radians(start + span * step / 100)
        x, y = 3 + 7 * math.cos(angle), -2 + 7 * math.sin(angle)
        assert around.left <= x <= around.right
        assert around.bottom <= y <= around.top


def test_words_take_their_width_on_the_side_they_are_aligned_to():
    wide = text_width_mm("glass", 10)
    assert item_bounds(Text((0, 0), "glass", 10)).right == pytest.approx(wide)
    assert item_bounds(Text((0, 0), "glass", 10, align="right")).left == pytest.approx(-wide)
    assert item_bounds(Text((0, 0), "glass", 10, align="centre")).left == pytest.approx(-wide / 2)


def test_upright_words_are_tall_instead_of_wide():
    seen = item_bounds(Text((0, 0), "a long line of words", 10, angle_deg=90))
    assert seen.height_mm > 5 * seen.width_mm


def test_a_dimension_counts_with_its_figure():
    plain = bounds(Drawing("p", (box(0, 0, 100, 50, "pane"),)))
    dimensioned = bounds(Drawing("p", (box(0, 0, 100, 50, "pane"), Dimension((0, 0), (100, 0), -20, 5))))
    assert dimensioned.bottom < -20
    assert dimensioned.top == plain.top


def test_a_drawing_of_nothing_is_a_point():
    assert bounds(Drawing("nothing", ())) == Bounds(0, 0, 0, 0)


def test_rectangles_meet_when_they_share_a_point():
    assert Bounds(0, 0, 1, 1).meets(Bounds(1, 1, 2, 2))
    assert not Bounds(0, 0, 1, 1).meets(Bounds(1.1, 0, 2, 1))
