"""Bars filled by shifting: every piece once, no bar overfilled, the same plan again."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cutting.bars.filled import filled
from panewright.cutting.bars.shifted import shifted

SHORT = st.lists(st.integers(120, 900), min_size=1, max_size=12, unique=True)


def sound(sizes, counts, rooms, bars) -> bool:
    given_each = [sum(bar[place] for bar in bars) for place in range(len(sizes))]
    lengths = [sum(size * n for size, n in zip(sizes, bar, strict=True)) for bar in bars]
    return given_each == list(counts) and all(have <= room for have, room in zip(lengths, rooms, strict=True))


@given(SHORT, st.lists(st.integers(900, 3000), min_size=1, max_size=6))
def test_every_piece_is_cut_once_and_no_bar_is_overfilled(sizes, rooms):
    sizes = tuple(sorted(sizes, reverse=True))
    counts = (1,) * len(sizes)
    bars = shifted(sizes, counts, rooms, 50)
    assert bars is None or sound(sizes, counts, rooms, bars)


def test_more_length_than_there_is_room_for_is_not_tried():
    assert shifted((60,), (2,), (100,), 10) is None


def test_what_is_begun_is_gone_on_from():
    assert shifted((60, 40), (1, 2), (100, 40), 0, ((1, 1), (0, 0))) == [(1, 1), (0, 1)]


@pytest.fixture(scope="module")
def tight():
    """Bars of 6 m that are all used up but for 3 mm at most, as they were parted."""
    chance = Random(2)
    rooms = [6000] * 40
    pieces: list[int] = []
    for room in rooms:
        one, two = chance.randint(1800, 2200), chance.randint(1800, 2200)
        pieces += [one, two, room - one - two - chance.randint(0, 3)]
    sizes = tuple(sorted(set(pieces), reverse=True))
    return sizes, tuple(pieces.count(size) for size in sizes), rooms


def test_bars_that_filling_one_after_the_other_does_not_fill_are_filled(tight):
    sizes, counts, rooms = tight
    assert filled(sizes, counts, rooms, 8) is None
    bars = shifted(sizes, counts, rooms, 5000)
    assert bars is not None
    assert sound(sizes, counts, rooms, bars)
    assert bars == shifted(sizes, counts, rooms, 5000)
