"""Laws of every cut plan: all pieces, no bar overfilled, never below the bound, and best where proven."""

from __future__ import annotations

import math
from collections import Counter
from functools import lru_cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from panewright.cutting.bars.bars import count_by_rule, cut_bars, cut_by_rule
from panewright.cutting.bars.fit import by_prices, fewest_bars
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, PieceTooLong, Saw

PIECES = st.lists(
    st.builds(Piece, st.sampled_from("abcdef"), st.integers(100, 2900).map(float), st.integers(0, 4)),
    max_size=5,
)
KERFS = st.sampled_from((0.0, 2.5, 3.0))


@given(PIECES, KERFS, st.sampled_from((0.0, 5.0)))
@settings(deadline=None)
def test_every_piece_is_cut_once_and_no_bar_is_overfilled(pieces, kerf, trim):
    plan = cut_bars(pieces, 3000.0, kerf, trim)
    wanted = Counter()
    for piece in pieces:
        wanted[piece.name, piece.length_mm] += piece.quantity
    assert Counter((p.name, p.length_mm) for bar in plan.bars for p in bar.pieces) == +wanted
    for bar in plan.bars:
        cuts = (len(bar.pieces) - 1) * kerf
        assert sum(p.length_mm for p in bar.pieces) + cuts + 2 * trim <= bar.bar_mm + 1e-5


@given(PIECES, KERFS)
@settings(deadline=None)
def test_what_is_bought_is_pieces_kerf_trim_and_remnants(pieces, kerf):
    plan = cut_bars(pieces, 3000.0, kerf, 4.0)
    for bar in plan.bars:
        parted = sum(p.length_mm for p in bar.pieces) + len(bar.pieces) * kerf + 2 * 4.0 + bar.remnant_mm
        assert parted == pytest.approx(3000.0, abs=kerf + 1e-5)
    assert 0 <= plan.waste < 1


@given(st.lists(st.integers(10, 100), min_size=1, max_size=8), st.integers(100, 150), st.sampled_from((0, 3)))
@settings(deadline=None, max_examples=60)
def test_small_orders_are_cut_from_as_few_bars_as_trying_everything_finds(lengths, bar, kerf):
    plan = cut_bars([Piece("p", float(each), 1) for each in lengths], float(bar), kerf, 0.0)
    assert len(plan.bars) == fewest_by_trying(tuple(length + kerf for length in lengths), bar + kerf)
    assert plan.proven
    assert plan.bound_mm == len(plan.bars) * bar


def fewest_by_trying(sizes: tuple[int, ...], room: int) -> int:
    """Dynamic programme over subsets: fewest bars, then the room used in the last one."""
    best = {0: (1, 0)}
    for subset in range(1, 1 << len(sizes)):
        ways = []
        for index, size in enumerate(sizes):
            if subset >> index & 1:
                bars, used = best[subset ^ (1 << index)]
                ways.append((bars, used + size) if used + size <= room else (bars + 1, size))
        best[subset] = min(ways)
    return best[(1 << len(sizes)) - 1][0]


@given(
    st.lists(st.integers(10, 80), min_size=1, max_size=6),
    st.sampled_from(((80, 100), (85, 130), (90, 95, 200))),
)
@settings(deadline=None, max_examples=40)
def test_with_several_bar_lengths_no_shorter_purchase_exists(lengths, stocks):
    plan = cut_bars(
        [Piece("p", float(each), 1) for each in lengths], [float(bar) for bar in stocks], 0.0, 0.0
    )
    assert plan.proven
    assert plan.bought_mm == shortest_by_trying(tuple(sorted(lengths)), stocks)


def shortest_by_trying(lengths: tuple[int, ...], stocks: tuple[int, ...]) -> int:
    @lru_cache
    def left(rest: tuple[int, ...]) -> int:
        if not rest:
            return 0
        first, others = rest[0], rest[1:]
        answers = []
        for mask in range(1 << len(others)):
            together = first + sum(x for i, x in enumerate(others) if mask >> i & 1)
            bars = [bar for bar in stocks if together <= bar]
            if bars:
                answers.append(min(bars) + left(tuple(x for i, x in enumerate(others) if not mask >> i & 1)))
        return min(answers)

    return left(lengths)


@given(PIECES, KERFS)
@settings(deadline=None)
def test_the_plan_never_lies_below_its_bound_and_a_proven_one_meets_it(pieces, kerf):
    plan = cut_bars(pieces, 3000.0, kerf)
    assert plan.bound_mm <= plan.bought_mm + 1e-6
    assert plan.proven == (plan.bought_mm <= plan.bound_mm * (1 + 1e-9))


@given(PIECES)
@settings(deadline=None)
def test_the_order_of_the_pieces_does_not_change_the_plan(pieces):
    assert cut_bars(pieces, 3000.0) == cut_bars(pieces[::-1], 3000.0)


@given(st.lists(st.floats(0.05, 0.95), min_size=1, max_size=7))
def test_the_lower_bound_is_never_above_the_truth(sizes):
    whole = sorted((round(size * 1000) for size in sizes), reverse=True)
    bound = fewest_bars([float(size) for size in whole], [1] * len(whole), 1000.0)
    assert math.ceil(sum(whole) / 1000) <= bound <= fewest_by_trying(tuple(whole), 1000)


@given(
    st.tuples(st.integers(1, 40), st.integers(1, 40), st.integers(1, 99), st.integers(1, 99)),
    st.integers(41, 150),
)
def test_for_two_sizes_the_bound_is_the_linear_programmes(counts_and_sizes, room):
    """Held against the programme over every way to cut a bar, as another solver finds it."""
    longs, shorts, *sizes = counts_and_sizes
    short, long = sorted(size % room + 1 for size in sizes)
    ways = [(n, (room - n * long) // short) for n in range(room // long + 1)]
    least = linprog(
        [1.0] * len(ways), A_ub=[[-way[0] for way in ways], [-way[1] for way in ways]], b_ub=[-longs, -shorts]
    )
    bound = by_prices([(long, longs), (short, shorts)], room)
    assert bound <= math.ceil(least.fun - 1e-7)
    assert max(bound, math.ceil(longs / (room // long)), math.ceil(shorts / (room // short))) == math.ceil(
        least.fun - 1e-7
    )


def test_four_frames_come_from_three_bars():
    """Eight rails of 1500 mm and eight of 690 mm, mitred: 17.5 m and 57 mm of kerf, from bars of 6 m."""
    plan = cut_bars([Piece("long", 1500.0, 8, 2), Piece("short", 690.0, 8, 2)], 6000.0, 3.0, 5.0)
    assert len(plan.bars) == 3
    assert plan.proven
    assert plan.waste == pytest.approx(1 - 17520 / 18000)


def test_pieces_that_end_with_the_bar_need_no_last_cut():
    assert len(cut_bars([Piece("p", 1000.0, 3)], 3006.0, 3.0, 0.0).bars) == 1
    assert len(cut_bars([Piece("p", 1000.0, 3)], 3005.9, 3.0, 0.0).bars) == 2


def test_trimmed_ends_are_lost():
    assert cut_bars([Piece("p", 990.0, 1)], 1000.0, 3.0, 5.0).bars[0].remnant_mm == 0.0
    with pytest.raises(PieceTooLong):
        cut_bars([Piece("p", 990.1, 1)], 1000.0, 3.0, 5.0)


def test_a_mitred_cut_takes_the_square_root_of_two_times_the_kerf():
    square, mitred = (cut_bars([Piece("p", 900.0, 3, ends)], 3000.0, 3.0, 0.0).bars[0] for ends in (0, 2))
    assert square.remnant_mm - mitred.remnant_mm == pytest.approx(3 * 3.0 * (math.sqrt(2) - 1), abs=1e-5)


def test_rails_that_cannot_be_nested_lose_more_for_each_mitre():
    tight = [Piece("p", 990.0, 3, 2)]
    assert len(cut_bars(tight, 3000.0, 3.0, 0.0).bars) == 1
    assert len(cut_bars(tight, 3000.0, 3.0, 0.0, mitre_mm=20.0).bars) == 2


def test_a_piece_longer_than_any_bar_is_named():
    with pytest.raises(
        PieceTooLong, match=r"long rail is 6200\.0 mm long; a bar of 6000 mm leaves 5990\.0 mm"
    ):
        cut_bars([Piece("long rail", 6200.0, 1)], 6000.0)


def test_nothing_to_cut_needs_no_bar():
    plan = cut_bars([Piece("p", 100.0, 0)], 6000.0)
    assert (plan.bars, plan.proven, plan.waste, plan.bought_mm) == ((), True, 0.0, 0)


def test_bars_cut_alike_are_listed_once():
    plan = cut_bars([Piece("p", 1900.0, 9)], 6000.0)
    assert [times for _, times in plan.grouped] == [3]
    assert plan.counts == ((6000.0, 3),)


@pytest.mark.parametrize("bad", [(-1.0, 1, 0), (5.0, -1, 0), (5.0, 1, 3)])
def test_impossible_pieces_are_refused_at_birth(bad):
    with pytest.raises(ValueError, match="a piece has"):
        Piece("p", *bad)


def test_bars_without_a_length_are_refused():
    with pytest.raises(ValueError, match="bars have a length"):
        cut_bars([Piece("p", 5.0, 1)], [])


@given(PIECES, st.sets(st.sampled_from((3000.0, 3600.0, 4200.0)), min_size=1), KERFS)
@settings(deadline=None)
def test_bars_by_rule_are_counted_as_their_plan_has_them(pieces, lengths, kerf):
    bars, saw = [Bar(length) for length in sorted(lengths)], Saw(kerf)
    assert count_by_rule(pieces, bars, saw) == cut_by_rule(pieces, bars, saw).counts
