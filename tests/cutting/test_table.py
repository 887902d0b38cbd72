"""A table holds the dearest ways for every length of bar, with every piece in turn."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cutting.bars import table
from panewright.cutting.bars.table import SHARE, Pieces, Table, fits

PIECES = st.lists(
    st.tuples(st.integers(10, 70), st.integers(1, 4), st.integers(0, 50)),
    min_size=1,
    max_size=4,
    unique_by=lambda each: each[0],
).map(lambda rows: Pieces(*(tuple(column) for column in zip(*rows, strict=True))))


def value(pieces, pattern):
    return sum(worth * count for worth, count in zip(pieces.worth, pattern, strict=True))


def every(pieces, room):
    ways = product(*(range(most + 1) for most in pieces.most))
    return [way for way in ways if fits(way, pieces.sizes, room)]


@given(PIECES, st.integers(70, 140), st.integers(0, 60))
def test_one_table_tells_the_dearest_way_for_every_length(pieces, room, less):
    table = Table(pieces, room)
    for length, ways in zip((room, room - less), table.ways((room, room - less), (0.0, 0.0)), strict=True):
        dearest = max(value(pieces, way) for way in every(pieces, length))
        assert table.most(length) == pytest.approx(dearest)
        assert (ways[0].worth if ways else 0.0) == pytest.approx(dearest)


@given(PIECES, st.integers(70, 140))
def test_every_way_fits_and_is_worth_what_it_says(pieces, room):
    for way in Table(pieces, room).ways((room,), (0.0,))[0]:
        assert fits(way.pattern, pieces.sizes, room)
        assert all(count <= most for count, most in zip(way.pattern, pieces.most, strict=True))
        assert way.worth == pytest.approx(value(pieces, way.pattern))


@given(PIECES, st.integers(70, 140))
def test_every_piece_that_fits_and_is_worth_something_is_in_a_way(pieces, room):
    ways = Table(pieces, room).ways((room,), (0.0,))[0]
    for place, (size, worth) in enumerate(zip(pieces.sizes, pieces.worth, strict=True)):
        assert any(way.pattern[place] for way in ways) == (size <= room and worth > 0)


@given(PIECES, st.integers(70, 140))
def test_no_way_worth_less_than_is_asked_is_told(pieces, room):
    asked = 40.0
    assert all(way.worth > asked for way in Table(pieces, room).ways((room,), (asked,))[0])


@given(PIECES, st.integers(70, 140))
def test_a_coarse_table_gives_ways_that_fit_and_a_worth_that_none_exceeds(pieces, room):
    dearest = max(value(pieces, way) for way in every(pieces, room))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(table, "CELLS", 0)
        patch.setattr(table, "COARSE", 200)
        up, down = Table(pieces, room), Table(pieces, room, up=False)
    assert all(fits(way.pattern, pieces.sizes, room) for way in up.ways((room,), (0.0,))[0])
    assert up.most(room) <= dearest + 1e-6
    assert down.most(room) >= dearest - 1e-6


def test_worths_are_rounded_up_to_whole_shares_so_that_none_is_missed():
    pieces = Pieces((50,), (2,), (0.3 * SHARE,))
    assert Table(pieces, 100).most(100) == 2 * SHARE


def test_great_worths_do_not_overflow():
    pieces = Pieces((50, 1), (100, 100), (1e6, 1.0))
    assert Table(pieces, 100).most(100) == 2e6
