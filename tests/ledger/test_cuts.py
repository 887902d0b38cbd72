"""What was cut moves stock and rack in one breath, is remembered, and goes back by rows of its own."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.stores.cuts import (
    Cut,
    PieceCut,
    cut,
    find_plan,
    keep_plan,
    pieces_cut,
    plans,
    rows_done,
    take_back,
)
from panewright.ledger.stores.stock import (
    Movement,
    Remnant,
    Stock,
    keep_remnant,
    move,
    movements,
    remnants,
    stock,
    use_remnant,
)
from panewright.ledger.stores.taken_back import recent
from panewright.ledger.stores.taken_back import take_back as by_hand

LONG = PieceCut("JL-9", "angle", "long rail", 1480.25, None, 2)
BAR = Cut(
    (LONG, PieceCut("JL-9", "angle", "short rail", 620.0, None, 1)),
    (Movement("angle", Decimal(1), "bar", "used"),),
    kept=(Remnant("K1-1", "angle", 2380.0),),
)
PIECE = Cut((LONG,), used="P7")


@pytest.fixture
def plan(ledger):
    begun(ledger)
    move(ledger, Movement("angle", Decimal(3), "bar", "received"), by="Ann", at=NOON)
    keep_remnant(ledger, Remnant("P7", "angle", 3100.0), by="Ann", at=NOON)
    return keep_plan(ledger, '{"bars": 2}', by="Ann", at=NOON, tap="a" * 24)


def there(ledger):
    return stock(ledger), tuple(each.mark for each in remnants(ledger))


def test_a_plan_is_kept_once_for_each_tap(ledger, plan):
    assert keep_plan(ledger, '{"bars": 2}', by="Ann", at=NOON, tap="a" * 24) == plan
    assert find_plan(ledger, plan).text == '{"bars": 2}'
    assert [each.number for each in plans(ledger)] == [plan]
    with pytest.raises(RecordError, match="do not know it"):
        find_plan(ledger, plan + 1)
    with pytest.raises(RecordError, match="do not know it"):
        cut(ledger, plan + 1, 1, BAR, by="Ann", at=NOON)


def test_a_bar_cut_leaves_the_stock_and_its_rest_comes_into_the_rack(ledger, plan):
    cut(ledger, plan, 1, BAR, by="Ben", at=later(1))
    assert there(ledger) == ((Stock("angle", "bar", "", Decimal(2)),), ("K1-1", "P7"))
    assert pieces_cut(ledger) == BAR.pieces
    cut(ledger, plan, 2, PIECE, by="Ben", at=later(2))
    assert there(ledger)[1] == ("K1-1",)
    assert pieces_cut(ledger)[0].count == 4
    assert [(each.row, each.done, each.kept) for each in rows_done(ledger, plan)] == [
        (1, True, ("K1-1",)),
        (2, True, ()),
    ]


def test_taken_back_everything_lies_as_before_and_both_rows_stay(ledger, plan):
    before = there(ledger)
    for n in (1, 2):
        cut(ledger, plan, n, (BAR, PIECE)[n - 1], by="Ben", at=later(1))
        take_back(ledger, plan, n, by="Ann", at=later(2))
    assert there(ledger) == before
    assert pieces_cut(ledger) == ()
    assert [each.done for each in rows_done(ledger, plan)] == [False, False]
    assert [each.movement.amount for each in movements(ledger, item="angle")] == [1, -1, 3]
    with pytest.raises(RecordError, match="not ticked as cut"):
        take_back(ledger, plan, 1, by="Ann", at=later(3))


def test_cut_taken_back_and_cut_again_with_another_mark_counts_once(ledger, plan):
    cut(ledger, plan, 1, BAR, by="Ben", at=later(1))
    take_back(ledger, plan, 1, by="Ben", at=later(2))
    with pytest.raises(RecordError, match="A piece of angle bears this mark"):
        cut(ledger, plan, 1, BAR, by="Ben", at=later(3))
    again = Cut(BAR.pieces, BAR.moved, kept=(Remnant("K1-1b", "angle", 2380.0),))
    cut(ledger, plan, 1, again, by="Ben", at=later(4))
    assert there(ledger) == ((Stock("angle", "bar", "", Decimal(2)),), ("K1-1b", "P7"))
    assert pieces_cut(ledger) == BAR.pieces
    cut(ledger, plan, 2, PIECE, by="Ben", at=later(5))
    take_back(ledger, plan, 2, by="Ben", at=later(6))
    cut(ledger, plan, 2, PIECE, by="Ben", at=later(7))
    assert there(ledger)[1] == ("K1-1b",)


def test_a_rest_that_was_used_since_holds_its_bar_back(ledger, plan):
    cut(ledger, plan, 1, BAR, by="Ben", at=later(1))
    use_remnant(ledger, "K1-1", by="Cid", at=later(2))
    before = there(ledger)
    with pytest.raises(StaleError, match="Cid has it down as used"):
        take_back(ledger, plan, 1, by="Ben", at=later(3))
    assert there(ledger) == before
    assert pieces_cut(ledger) == BAR.pieces


def test_a_movement_taken_back_by_hand_is_not_taken_back_twice(ledger, plan):
    before = there(ledger)
    cut(ledger, plan, 1, BAR, by="Ben", at=later(1))
    by_hand(ledger, recent(ledger)[0].number, by="Ben", at=later(2))
    take_back(ledger, plan, 1, by="Ben", at=later(3))
    assert there(ledger) == before


def test_of_four_hands_that_tick_one_bar_one_cuts_it(ledger, plan):
    def tick(hand):
        try:
            cut(ledger, plan, 1, BAR, by=hand, at=later(1))
        except StaleError:
            return 0
        return 1

    with ThreadPoolExecutor(4) as hands:
        assert sum(hands.map(tick, "ABCD")) == 1
    assert pieces_cut(ledger) == BAR.pieces
    assert there(ledger)[0] == (Stock("angle", "bar", "", Decimal(2)),)


def test_a_tap_sent_twice_cuts_once(ledger, plan):
    for _ in range(2):
        cut(ledger, plan, 1, BAR, by="Ben", at=later(1), tap="b" * 24)
        take_back(ledger, plan, 1, by="Ben", at=later(2), tap="c" * 24)
    assert len(movements(ledger, item="angle")) == 3


def test_what_is_not_there_cannot_be_cut(ledger, plan):
    before = there(ledger)
    for what in (
        Cut((LONG,), (Movement("angle", Decimal(4), "bar", "used"),)),
        Cut((LONG,), (Movement("tube", Decimal(1), "bar", "used"),), used="P7"),
    ):
        with pytest.raises(RecordError, match="is written down as there"):
            cut(ledger, plan, 1, what, by="Ben", at=later(1))
    assert there(ledger) == before
    assert pieces_cut(ledger) == ()
