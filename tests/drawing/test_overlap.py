"""Words on words are found, words beside words are not."""

import pytest

from panewright.drawing.drawing import Dimension, Drawing, Text
from panewright.drawing.overlap import overlaps, texts


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
