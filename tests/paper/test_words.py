"""Nothing unseen gets onto paper, everything seen does."""

from hypothesis import given
from hypothesis import strategies as st

from panewright.paper.words import printable


def test_letters_that_turn_the_reading_direction_are_left_out():
    assert printable("serial\u202e2400\u2066x") == "serial2400x"


def test_line_breaks_and_tabs_become_spaces():
    assert printable("one\r\ntwo\tthree") == "one two three"


def test_a_figure_and_its_unit_stay_together():
    assert printable("5\u2009mm") == "5\u00a0mm"


@given(st.text())
def test_what_is_printed_can_always_be_written_as_utf8(words):
    shown = printable(words)
    assert shown.encode("utf-8").decode("utf-8") == shown
    assert not any(ord(letter) < 32 for letter in shown)


@given(st.text(alphabet=st.characters(categories=["L", "N", "S", "P"]), max_size=50))
def test_letters_signs_and_figures_stay_as_typed(words):
    assert printable(words) == words
