"""Laws of plans from a stock of bars and remnants: nothing twice, nothing cheaper left, rests told."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.bars.bars import cut_from
from panewright.cutting.bars.stock import Bar, StockShort
from panewright.cutting.piece import Piece, PieceTooLong, Saw

SAW = Saw(3.0, 5.0)
PIECES = st.lists(
    st.builds(
        Piece,
        st.sampled_from("abc"),
        st.integers(100, 2500).map(float),
        st.integers(1, 4),
        st.sampled_from((0, 2)),
        st.sampled_from(("first order", "second order")),
    ),
    min_size=1,
    max_size=4,
)
REMNANTS = st.lists(
    st.builds(
        Bar,
        st.integers(300, 2900).map(float),
        st.just(Decimal(0)),
        st.just(1),
        st.just("rack"),
        st.just(True),
    ),
    max_size=3,
)
SHOP = (Bar(3000.0, Decimal("14.50")), Bar(6000.0, Decimal("27.00")))


@given(PIECES, REMNANTS, st.sampled_from((0.0, 60.0)))
@settings(deadline=None, max_examples=20)
def test_every_piece_is_cut_once_from_bars_that_are_there(pieces, remnants, clamp):
    saw = Saw(3.0, 5.0, clamp_mm=clamp)
    plan = cut_from(pieces, (*SHOP, *remnants), saw, keep_mm=400.0)
    wanted = Counter()
    for piece in pieces:
        wanted[piece.name, piece.length_mm, piece.mitred_ends, piece.order] += piece.quantity
    cut = [p for bar in plan.bars for p in bar.pieces]
    assert Counter((p.name, p.length_mm, p.mitred_ends, p.order) for p in cut) == wanted
    taken = Counter(bar.bar_mm for bar in plan.bars if bar.from_remnant)
    there = Counter(bar.length_mm for bar in remnants)
    assert all(taken[length] <= there[length] for length in taken)
    for bar in plan.bars:
        near = 0.0 if bar.from_remnant else saw.trim_mm
        far = max(saw.trim_mm, clamp + saw.kerf_mm if clamp else 0.0)
        cuts = (len(bar.pieces) - 1) * saw.kerf_mm
        assert near + sum(p.length_mm for p in bar.pieces) + cuts + far <= bar.bar_mm + 1e-5


@given(PIECES, REMNANTS)
@settings(deadline=None, max_examples=14)
def test_more_stock_never_costs_more_and_the_bound_is_never_above_the_plan(pieces, remnants):
    bare = cut_from(pieces, SHOP, SAW)
    more = cut_from(pieces, (*SHOP, *remnants), SAW)
    assert bare.proven
    assert more.cost <= bare.cost
    assert more.bound_cost <= more.cost + Decimal("0.000001")
    assert bare.cost == sum(bar.price for bar in bare.bars)


@given(PIECES, REMNANTS)
@settings(deadline=None, max_examples=14)
def test_the_order_of_pieces_and_of_bars_changes_nothing(pieces, remnants):
    stock = (*SHOP, *remnants)
    assert cut_from(pieces, stock, SAW, 400.0) == cut_from(pieces[::-1], stock[::-1], SAW, 400.0)


def test_of_two_remnants_that_cost_nothing_the_one_that_just_does_is_taken():
    rack = [Bar(length, Decimal(0), 1, remnant=True) for length in (2800.0, 1300.0)]
    plan = cut_from([Piece("rail", 1200.0, 1)], (*SHOP, *rack), SAW, keep_mm=500.0)
    assert [bar.bar_mm for bar in plan.bars] == [1300.0]


def test_the_cheaper_bar_is_bought_though_it_is_no_shorter_for_its_price():
    plan = cut_from([Piece("rail", 2900.0, 1)], SHOP, SAW)
    assert (plan.cost, plan.bought_mm) == (Decimal("14.50"), 3000.0)


def test_a_rest_that_is_worth_something_can_turn_the_choice():
    """A 6 m bar leaves 3.1 m, worth 10.5 of its 27; the 3 m bar at 17 leaves nothing."""
    shop = (Bar(3000.0, Decimal(17)), Bar(6000.0, Decimal(27)))
    assert cut_from([Piece("rail", 2900.0, 1)], shop, SAW, 500.0).cost == 17
    worth = cut_from([Piece("rail", 2900.0, 1)], shop, SAW, 500.0, worth=0.9)
    assert (worth.cost, worth.bars[0].bar_mm) == (Decimal(27), 6000.0)
    assert [bar.length_mm for bar in worth.kept] == [6000.0 - 5.0 - 2903.0]


def test_rests_are_gathered_in_one_bar_where_that_makes_one_worth_keeping():
    """Seven pieces of 900 from two bars of 6 m: six and one leave 5.1 m in one, four and three two rests."""
    plan = cut_from([Piece("rail", 900.0, 7)], [Bar(6000.0)], SAW, keep_mm=2000.0)
    assert len(plan.bars) == 2
    assert [round(bar.length_mm) for bar in plan.kept] == [6000 - 5 - 903]


def test_a_remnant_is_trimmed_at_one_end_alone():
    rack = [Bar(1005.0, None, 1, remnant=True)]
    assert cut_from([Piece("rail", 1000.0, 1)], rack, SAW).bars[0].remnant_mm == 0.0
    with pytest.raises(PieceTooLong, match=r"leaves 1000\.0 mm"):
        cut_from([Piece("rail", 1000.1, 1)], rack, SAW)


def test_what_the_clamp_holds_comes_off_no_piece_but_stays_a_rest():
    saw = Saw(3.0, 0.0, clamp_mm=80.0)
    plan = cut_from([Piece("rail", 500.0, 1)], [Bar(1000.0, None, 1)], saw, keep_mm=100.0)
    assert plan.bars[0].remnant_mm == 1000.0 - 503.0 - 83.0
    assert [bar.length_mm for bar in plan.kept] == [497.0]
    with pytest.raises(PieceTooLong):
        cut_from([Piece("rail", 918.0, 1)], [Bar(1000.0)], saw)


def test_too_few_bars_are_an_error_that_says_how_many_pieces_are_left():
    with pytest.raises(StockShort, match=r"does not give all 3 pieces: 1 left\. Buy more"):
        cut_from([Piece("rail", 900.0, 3)], [Bar(1000.0, None, 2)], SAW)
    with pytest.raises(StockShort, match="there is no bar to cut rail from"):
        cut_from([Piece("rail", 900.0, 3)], [Bar(1000.0, None, 0)], SAW)


def test_prices_for_some_bars_alone_are_refused():
    with pytest.raises(ValueError, match="all bars have a price or none has"):
        cut_from([Piece("rail", 900.0, 1)], [Bar(1000.0), Bar(2000.0, Decimal(3))], SAW)
    rack = Bar(950.0, None, 1, remnant=True)  # lies there, and is paid
    assert cut_from([Piece("rail", 900.0, 1)], [rack, Bar(2000.0, Decimal(3))], SAW).cost == 0


def test_pieces_keep_the_name_of_their_order():
    pieces = [Piece("rail", 1000.0, 1, 0, "A-1"), Piece("rail", 1000.0, 1, 0, "A-2")]
    assert [p.order for p in cut_from(pieces, [Bar(6000.0)], SAW).bars[0].pieces] == ["A-1", "A-2"]


@pytest.mark.parametrize(
    "bad", [{"length_mm": 0.0}, {"length_mm": 5.0, "have": -1}, {"length_mm": float("nan")}]
)
def test_bars_that_cannot_be_are_refused(bad):
    with pytest.raises(ValueError, match="bars have a length"):
        Bar(**bad)
