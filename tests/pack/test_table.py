"""Rows of words set as tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.pack.pages.table import widths, words_table

CELLS = st.text("abcdefg ", max_size=200)


@given(st.lists(st.tuples(CELLS, st.text("xyz", max_size=5), CELLS), max_size=8))
def test_columns_share_the_whole_page(rows):
    shares = widths(("one", "two", "three"), tuple(rows))
    assert sum(shares) == pytest.approx(1, abs=1e-3)
    assert min(shares) > 0


def test_a_short_column_beside_a_long_one_gets_all_it_asks():
    rows = (("upright", "many words " * 40),)
    short, long = widths(("Leg", "From the datum"), rows)
    assert short * 172.0 > 12.0
    assert long > 0.8


@pytest.mark.parametrize(
    "words", ["9.00\u2009mm", "-2313 Pa", "1\u2009234.50", "78 7/8\u2009in (2003\u2009mm)", "25%", "4"]
)
def test_a_figure_with_its_unit_stands_at_the_right(words):
    assert words_table(("name", "value"), (("bite", words),)).align == ("left", "right")


@pytest.mark.parametrize("words", ["4 columns of 10", "2 × side rail", "holds", "chosen"])
def test_words_stand_at_the_left_even_where_they_begin_with_a_figure(words):
    assert words_table(("name", "value"), (("bite", words),)).align == ("left", "left")
