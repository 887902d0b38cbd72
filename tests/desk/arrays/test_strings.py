"""Strings tried by hand: every panel stays in one place, and nothing else of the text changes."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.desk.arrays.strings import (
    Tried,
    into_text,
    known_of,
    left_out,
    moved,
    read,
    strings_of,
    typed_of,
    without_strings,
    written,
)
from panewright.errors import RecordError
from panewright.order.site.parse import parse_site

TEXT = (Path(__file__).parents[3] / "examples" / "arrays" / "boathouse.toml").read_text("utf-8")
TWO = TEXT.replace("[controller]\n", "[controller]\ninputs = 2\n")
SITE = parse_site(TWO, "boathouse.toml")
NAMES = [panel.name for panel in SITE.panels]
A, B, C, D = NAMES[:4]
BEGUN = (Tried(1, (A, B)), Tried(2, (C,)))


@pytest.mark.parametrize(
    ("panel", "to", "stands"),
    [
        (D, "1-3", [(1, (A, B, D)), (2, (C,))]),  # to the end
        (D, "1-1", [(1, (D, B)), (2, (C,))]),  # the one that lay there goes out
        (A, "2-1", [(1, (C, B)), (2, (A,))]),  # exchanged
        (A, "1-2", [(1, (B, A)), (2, (C,))]),  # in one string
        (A, "1-3", [(1, (B, A)), (2, (C,))]),  # behind the others of its own
        (C, "1-3", [(1, (A, B, C))]),  # a string without panels is none
        (B, "new-2", [(1, (A,)), (2, (C,)), (2, (B,))]),
        (B, "new-1", [(1, (A,)), (1, (B,)), (2, (C,))]),  # input after input
        (C, "out", [(1, (A, B))]),
        (D, "out", [(1, (A, B)), (2, (C,))]),
        (A, "1-1", [(1, (A, B)), (2, (C,))]),
    ],
)
def test_a_panel_goes_where_it_is_put(panel, to, stands):
    assert [(each.input, each.panels) for each in moved(SITE, BEGUN, panel, to)] == stands


@pytest.mark.parametrize(
    "to", ["", "3-1", "1-4", "0-1", "1-0", "new-3", "new-0", "1", "1-1-1", "ont", "-1-1"]
)
def test_a_place_that_is_none_is_refused(to):
    with pytest.raises(RecordError, match="no such"):
        moved(SITE, BEGUN, A, to)


def test_a_panel_that_is_none_is_refused():
    with pytest.raises(RecordError, match="no such panel"):
        moved(SITE, BEGUN, "nobody", "1-1")


PLACES = st.one_of(
    st.just("out"),
    st.sampled_from(["new-1", "new-2"]),
    st.tuples(st.integers(1, 4), st.integers(1, 4)).map(lambda at: f"{at[0]}-{at[1]}"),
)


@given(st.lists(st.tuples(st.sampled_from(NAMES), PLACES), max_size=25))
def test_however_panels_are_moved_each_lies_once_or_not_at_all(moves):
    strings = BEGUN
    for panel, to in moves:
        try:
            strings = moved(SITE, strings, panel, to)
        except RecordError:
            continue
    lie = [name for each in strings for name in each.panels]
    assert sorted([*lie, *left_out(SITE, strings)]) == sorted(NAMES)
    assert all(each.panels for each in strings)
    assert read(written(strings)) == strings
    again = parse_site(into_text(TWO, strings), "boathouse.toml")
    assert strings_of(again) == strings
    assert again.strings == typed_of(SITE, strings)


@pytest.mark.parametrize(
    "text",
    [TWO, TWO.replace("\n[controller]", '\n[[string]]\npanels = ["jetty 1"]\n# the box\n[controller]')],
)
def test_nothing_else_of_the_text_changes(text):
    fresh = into_text(text, BEGUN)
    before, after = tomllib.loads(text), tomllib.loads(fresh)
    assert after.pop("string") == [{"panels": [A, B], "input": 1}, {"panels": [C], "input": 2}]
    before.pop("string", None)
    assert before == after
    remarks = [line for line in text.splitlines() if line.startswith("#")]
    assert [line for line in fresh.splitlines() if line.startswith("#")] == remarks
    assert into_text(fresh, BEGUN) == fresh
    assert without_strings(fresh) == without_strings(text)


def test_strings_written_in_another_way_are_left_to_a_hand():
    with pytest.raises(RecordError, match="not changed from here"):
        into_text('note = """\n[[string]]\n"""\n' + TWO, BEGUN)
    with pytest.raises(RecordError, match="not changed from here"):
        into_text(f"{TWO}\n[[[", BEGUN)


def test_panels_that_the_text_lost_are_passed_over():
    told = (Tried(1, (A, "gone")), Tried(2, ("gone",)), Tried(9, (B,)))
    assert known_of(SITE, told) == (Tried(1, (A,)), Tried(9, (B,)))
    assert [each.input for each in typed_of(SITE, told)] == [0]
