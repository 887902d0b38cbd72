"""A dimension's figure is its length, its lines lie outside the part, its words stand upright."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.drawing.dimension import dimension_words, explode, line_ends
from panewright.drawing.drawing import Dimension, Path, Text

PLACES = st.tuples(st.floats(-2000, 2000), st.floats(-2000, 2000))


def words_of(dimension, system="metric"):
    return next(part for part in explode(dimension, system) if isinstance(part, Text))


@pytest.mark.parametrize(
    ("end", "axis", "words"),
    [
        ((1000, 0), "along", "1000\u2009mm"),
        ((156.75, 0), "along", "156.75\u2009mm"),
        ((3, 4), "along", "5\u2009mm"),
        ((1637.5, 40), "x", "1637.5\u2009mm"),
        ((1637.5, 40), "y", "40\u2009mm"),
        ((-52.3333, 0), "x", "52.33\u2009mm"),
    ],
)
def test_the_figure_is_the_length(end, axis, words):
    assert dimension_words(Dimension((0, 0), end, 10, 3, axis)) == words


def test_customary_figures_are_inches_with_the_millimetres_beside():
    words = dimension_words(Dimension((0, 0), (38.1, 0), 10, 3), "us")
    assert words == "1 1/2\u2009in (38.1\u2009mm)"


def test_a_note_follows_the_figure():
    assert dimension_words(Dimension((0, 0), (3, 0), 10, 3, note="typ.")) == "3\u2009mm typ."


@given(PLACES, PLACES)
def test_the_figure_never_differs_from_the_length_by_more_than_half_a_hundredth(start, end):
    dimension = Dimension(start, end, 10, 3)
    figure = float(dimension_words(dimension).removesuffix("\u2009mm"))
    assert abs(figure - dimension.length_mm) <= 0.005 + 1e-9


@given(PLACES, PLACES, st.floats(-50, 50), st.sampled_from(["along", "x", "y"]))
def test_the_dimension_line_is_as_long_as_the_figure_says(start, end, offset, axis):
    dimension = Dimension(start, end, offset, 3, axis)
    first, last, _, _ = line_ends(dimension)
    assert math.dist(first, last) == pytest.approx(dimension.length_mm, abs=1e-6)


@given(PLACES, PLACES, st.floats(-50, 50), st.sampled_from(["along", "x", "y"]))
def test_words_are_never_upside_down(start, end, offset, axis):
    angle = words_of(Dimension(start, end, offset, 3, axis)).angle_deg
    assert -90 < angle <= 90 + 1e-6


def test_the_line_lies_left_of_the_way_from_start_to_end():
    first, last, _, _ = line_ends(Dimension((0, 0), (100, 0), 12, 3))
    assert (first, last) == ((0, 12), (100, 12))
    first, _, _, _ = line_ends(Dimension((0, 0), (0, 100), 12, 3))
    assert first == (-12, 0)


def test_a_slanting_part_is_dimensioned_clear_of_its_further_end():
    first, last, _, _ = line_ends(Dimension((0, 0), (100, 30), 12, 3, "x"))
    assert (first, last) == ((0, 42), (100, 42))
    first, _, _, _ = line_ends(Dimension((0, 0), (100, 30), -12, 3, "x"))
    assert first[1] == -12


def test_words_that_do_not_fit_between_the_arrows_stand_past_the_end():
    narrow, wide = Dimension((0, 0), (3, 0), 10, 3), Dimension((0, 0), (300, 0), 10, 3)
    assert words_of(narrow).at[0] > 3
    assert words_of(wide).at[0] == 150


def test_arrow_tips_touch_both_ends_of_the_line():
    dimension = Dimension((0, 0), (100, 0), 10, 3)
    tips = {part.points[0] for part in explode(dimension) if isinstance(part, Path) and part.filled}
    assert tips == {(0, 10), (100, 10)}


def test_a_length_of_nothing_is_drawn_without_complaint():
    assert words_of(Dimension((5, 5), (5, 5), 10, 3)).words == "0\u2009mm"
