"""Mixes of bars: the cheapest first; bars filled by trial hold what they should."""

from __future__ import annotations

from itertools import pairwise
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.bars.filled import filled
from panewright.cutting.bars.listed_mixes import cheapest_listed
from panewright.cutting.bars.mixed import mixed
from panewright.cutting.bars.mixes import Cut, Mixes
from panewright.cutting.bars.programme import Answer, Stock, Wanted


@given(
    st.lists(st.integers(20, 70), min_size=1, max_size=4, unique=True),
    st.lists(st.integers(70, 130), min_size=1, max_size=5),
    st.data(),
)
@settings(max_examples=60)
def test_filled_bars_give_all_pieces_and_hold_no_more_than_they_have_room_for(sizes, rooms, data):
    sizes = tuple(sorted(sizes, reverse=True))
    counts = tuple(data.draw(st.integers(1, 3)) for _ in sizes)
    found = filled(sizes, counts, rooms, 1)
    if found is None:
        return
    assert [sum(column) for column in zip(*found, strict=True)] == list(counts)
    for pattern, room in zip(found, rooms, strict=True):
        assert sum(size * count for size, count in zip(sizes, pattern, strict=True)) <= room


def test_bars_that_hold_exactly_what_is_wanted_are_filled():
    chance, sizes, bars = Random(7), [], []
    for _ in range(12):
        cut = sorted(chance.sample(range(200, 5800), 4))
        ends = [0, *cut, 6000]
        bars.append([b - a for a, b in pairwise(ends)])
        sizes += bars[-1]
    distinct = tuple(sorted(set(sizes), reverse=True))
    counts = tuple(sizes.count(size) for size in distinct)
    assert filled(distinct, counts, [6001] * 12, 400) is not None
    assert filled(distinct, counts, [5999] * 12, 1) is None


def test_the_cheapest_mix_is_asked_for_until_all_are_passed_over():
    mixes = Mixes((3, 2), (60, 35), (2, 2), [Cut((), (60.0, 35.0), 70.0)])
    assert mixes.cheapest(100) == (0, 2)
    mixes.passed.append((0, 2))
    assert mixes.cheapest(100) == (1, 1)
    mixes.passed.append((1, 1))
    assert mixes.cheapest(100) == (2, 0)
    assert mixes.cheapest(6) is None


@given(st.data())
@settings(max_examples=40, deadline=None)
def test_the_list_of_all_mixes_finds_what_the_integer_programme_finds(data):
    kinds = data.draw(st.integers(1, 4))
    some = st.lists(st.integers(0, 9), min_size=kinds, max_size=kinds).map(tuple)
    worth = st.lists(st.integers(-9, 9), min_size=kinds, max_size=kinds).map(tuple)
    mixes = Mixes(
        data.draw(some.filter(any)),
        data.draw(st.lists(st.integers(1, 60), min_size=kinds, max_size=kinds).map(tuple)),
        data.draw(some),
        data.draw(st.lists(st.builds(Cut, st.just(()), worth, st.integers(-90, 90)), max_size=4)),
        data.draw(st.lists(some, max_size=3)),
    )
    rules = mixes.rules(data.draw(st.integers(0, 120)), data.draw(st.integers(0, 40)))
    assert rules.few
    listed, asked = cheapest_listed(rules), mixes.by_programme(rules)
    assert (listed is None) == (asked is None)
    if listed and asked:
        assert mixes.cost(listed) == mixes.cost(asked)
        assert room(mixes, listed) == room(mixes, asked)
        assert all(cut.spare(listed) >= -1e-3 for cut in mixes.cuts)


def room(mixes, mix):
    return sum(room * number for room, number in zip(mixes.rooms, mix, strict=True))


def test_a_mix_in_which_no_bar_holds_three_is_forbidden_though_it_has_room():
    wanted = Wanted((30,), (5,), (Stock(80, 1.0), Stock(80, 1.0, 1)), 1.0, 1.0)
    answer = mixed(wanted, Answer((), float("inf"), 0.0, proven=False))
    assert (answer.cost, answer.bound, answer.proven) == (3.0, 3.0, True)
