"""What the checks say, in words."""

from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.check import Check
from panewright.pack.verdict import by_need, by_room, cells_in_words, sentence, told, worst_of_each_room

CHECKS = st.lists(
    st.builds(
        Check,
        rule=st.sampled_from(["sag", "stress", "bite", "gap"]),
        demand=st.floats(0, 100),
        limit=st.one_of(st.none(), st.floats(0.1, 100)),
        unit=st.just("mm"),
        source=st.just("a test"),
        room=st.sampled_from(["glass", "frame", "seal", ""]),
    ),
    max_size=12,
)


@given(CHECKS)
def test_failing_checks_come_first_and_then_the_fullest(checks):
    ordered = by_need(checks)
    assert sorted(map(repr, ordered)) == sorted(map(repr, checks))
    assert [c.passed for c in ordered] == sorted(c.passed for c in ordered)
    holding = [c.utilisation for c in ordered if c.passed and c.demand != c.limit]
    assert holding == sorted(holding, reverse=True)
    sized = [c.passed and c.demand == c.limit for c in ordered]  # drawn to its limit: no news
    assert sized == sorted(sized)


@given(CHECKS)
def test_every_check_stands_in_one_room(checks):
    rooms = by_room(checks)
    assert sorted(repr(c) for group in rooms.values() for c in group) == sorted(map(repr, checks))
    assert "" not in rooms


@given(CHECKS)
def test_the_short_list_hides_no_failure_and_no_room(checks):
    short = worst_of_each_room(checks)
    assert {repr(c) for c in checks if not c.passed} <= {repr(c) for c in short}
    assert {c.room or "other" for c in short} == {c.room or "other" for c in checks}


@given(CHECKS)
def test_the_sentence_says_proven_only_when_all_hold(checks):
    proven = bool(checks) and all(c.passed for c in checks)
    assert sentence(checks).startswith("Every check holds") is proven
    assert sentence(checks).startswith("NOT PROVEN") is not proven


def test_a_check_without_a_limit_says_that_none_is_known():
    assert told(Check("sag", 3.0, None, "mm", "a test")) == "3.00\u2009mm of no limit known, NOT COVERED"


def test_a_check_is_told_in_the_units_of_the_order():
    assert told(Check("load", 1000.0, 2000.0, "Pa", "a test"), "us").startswith(
        "20.9\u2009psf of 41.8\u2009psf"
    )


@pytest.mark.parametrize(
    ("in_series", "columns", "words"), [(1, 1, "1 cell"), (9, 1, "9 cells in series, 1 column of 9")]
)
def test_one_is_told_as_one(in_series, columns, words):
    plan = SimpleNamespace(in_series=in_series, strings=1, columns=columns, rows=in_series)
    assert cells_in_words(SimpleNamespace(layup=SimpleNamespace(plan=plan))) == words
