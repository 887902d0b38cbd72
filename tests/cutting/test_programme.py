"""Patterns are what they claim to be, and the programme's bound lies below every answer."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.bars import programme
from panewright.cutting.bars.patterns import fullest, worthy_patterns
from panewright.cutting.bars.programme import Answer, Stock, Wanted, column_cost, solve

SIZES = st.lists(st.integers(10, 70), min_size=1, max_size=5, unique=True).map(
    lambda sizes: tuple(sorted(sizes, reverse=True))
)
NONE = Answer((), math.inf, 0.0, proven=False)


def length(sizes, pattern):
    return sum(size * count for size, count in zip(sizes, pattern, strict=True))


@given(SIZES, st.integers(70, 140), st.data())
def test_full_patterns_fit_and_take_no_further_piece(sizes, room, data):
    most = tuple(data.draw(st.integers(1, 4)) for _ in sizes)
    patterns = worthy_patterns(sizes, most, room, [1.0] * len(sizes), 0.0, 5000)
    assert patterns is not None
    assert len(set(patterns)) == len(patterns)
    for pattern in patterns:
        left = room - length(sizes, pattern)
        assert left >= 0
        assert all(count == cap or size > left for size, count, cap in zip(sizes, pattern, most, strict=True))


def every(sizes, most, room):
    return worthy_patterns(sizes, most, room, [0.0] * len(sizes), 0.0, 5000)


@given(SIZES, st.integers(70, 140), st.data())
def test_patterns_worth_enough_are_those_of_all_that_are_worth_it(sizes, room, data):
    most = tuple(data.draw(st.integers(1, 4)) for _ in sizes)
    worth = [data.draw(st.integers(0, 50)) / 10 for _ in sizes]
    least = data.draw(st.integers(0, 80)) / 10
    values = {p: sum(w * n for w, n in zip(worth, p, strict=True)) for p in every(sizes, most, room)}
    found = worthy_patterns(sizes, most, room, worth, least, 5000)
    assert set(found) == {pattern for pattern, value in values.items() if value >= least - 1e-9}


def test_a_short_search_fills_a_bar_as_well_as_any_of_its_few_ways():
    sizes, most, room = (997, 801, 655, 433, 301), (3, 3, 3, 3, 3), 6000
    found = fullest(sizes, most, room, [float(size) for size in sizes])
    assert length(sizes, found) == max(length(sizes, pattern) for pattern in every(sizes, most, room))


def test_too_many_patterns_are_not_listed():
    assert worthy_patterns(tuple(range(40, 10, -1)), (5,) * 30, 400, [1.0] * 30, 0.0, 100) is None


@settings(deadline=None, max_examples=25)
@given(SIZES, st.data())
def test_without_a_list_of_all_patterns_the_bound_still_holds(sizes, data):
    counts = tuple(data.draw(st.integers(1, 6)) for _ in sizes)
    wanted = Wanted(sizes, counts, (Stock(140, 1.0),), 1.0, 1.0)
    best = solve(wanted, NONE)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(programme, "LISTED", 0)
        generated = solve(wanted, NONE)
    assert best.proven
    assert generated.bound <= best.cost + 1e-6 <= generated.cost + 2e-6
    assert generated.cost - best.cost <= 1 + 1e-6


def test_a_rest_is_taken_off_a_bars_cost_by_what_it_is_longer_than_the_least():
    stock = Stock(100, 1.0, None, spare=100, keep=40, rate=0.01)
    assert column_cost((35,), (stock,), (0, (1,))) == pytest.approx(0.75)
    assert column_cost((61,), (stock,), (0, (1,))) == 1.0


def test_bars_that_run_out_leave_pieces_uncut():
    wanted = Wanted((60,), (3,), (Stock(100, 1.0, have=2),), 1.0, 1.0)
    assert solve(wanted, NONE).uncut == 1
