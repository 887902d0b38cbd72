"""Words on words are found, words beside words are not."""

import pytest

from panewright.drawing.drawing import Arc, Dimension, Drawing, Path, Text, box
from panewright.drawing.overlap import crossed, overlaps, texts


def pair(other):
    return Drawing("pair", (Text((0, 0), "demand", 10), other))


def test_words_on_words_are_found():
    assert overlaps(pair(Text((20, 3), "limit", 10))) == (("demand", "limit"),)


@pytest.mark.parametrize(
    "other",
    [
        Text((40, 0), "limit", 10),
        Text((0, 7), "limit", 10),
        Text((0, -7), "limit", 10),
        Text((-0.1, 0), "limit", 10, align="right"),
    ],
)
def test_words_beside_or_under_each_other_are_free(other):
    assert overlaps(pair(other)) == ()


def test_slanting_words_may_pass_close_by():
    slanting = Text((-3, 6), "a long slanting line", 4, angle_deg=45)
    assert overlaps(pair(slanting)) == ()
    assert overlaps(pair(Text((-3, -6), "a long slanting line", 4, angle_deg=45))) != ()


def test_the_figures_of_dimensions_count():
    drawing = Drawing("d", (Dimension((0, 0), (100, 0), 10, 5), Text((40, 11), "glass", 5)))
    assert len(texts(drawing)) == 2
    assert overlaps(drawing) == (("100\u2009mm", "glass"),)


def test_words_of_spaces_only_lie_on_nothing():
    assert overlaps(pair(Text((0, 0), "  ", 10))) == ()


def under(*lines):
    return Drawing("words", (*lines, Text((0, 0), "demand", 10)))


def test_a_line_through_words_is_found_whether_it_lies_over_or_under_them():
    line = Path(((-5, 3), (60, 3)), "dimension")
    assert crossed(under(line)) == (("demand", "dimension"),)
    assert crossed(Drawing("words", (Text((0, 0), "demand", 10), line))) == (("demand", "dimension"),)


@pytest.mark.parametrize(
    "line",
    [
        Path(((-5, -1), (60, -1)), "dimension"),
        Path(((-5, 7), (60, 7)), "dimension"),
        Path(((-2, -9), (-2, 9)), "dimension"),
        Path(((-5, 3), (60, 3)), "grid"),
        box(-5, -5, 60, 15, "cell", filled=True),
        Arc((15, 3), 40, "hole"),
    ],
)
def test_lines_beside_and_shapes_round_words_are_free(line):
    assert crossed(under(line)) == ()


def test_the_outline_of_a_shape_and_of_a_circle_cross_words():
    assert crossed(under(box(-5, -5, 15, 15, "cell", filled=True))) == (("demand", "cell"),)
    assert crossed(under(Arc((15, 3), 8, "hole"))) == (("demand", "hole"),)


def test_a_filled_patch_behind_the_whole_word_hides_what_lies_under_it():
    line, patch = Path(((-5, 3), (60, 3)), "busbar"), box(-2, -2, 60, 12, "cell", filled=True)
    assert crossed(under(line, patch)) == ()
    assert crossed(under(patch, line)) == (("demand", "busbar"),)


def test_slanting_words_are_judged_in_their_own_direction():
    words = Text((0, 0), "a long slanting line", 4, angle_deg=45)
    beside, through = Path(((3, 0), (23, 20)), "centre"), Path(((0, 20), (20, 0)), "centre")
    assert crossed(Drawing("d", (beside, words))) == ()
    assert crossed(Drawing("d", (through, words))) == (("a long slanting line", "centre"),)
