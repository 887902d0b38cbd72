"""Goods on order come in by parts and never twice; promises and quotes are kept version by version."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import date
from decimal import Decimal

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.orders.promises import (
    QuoteSent,
    keep_quote,
    promise,
    promise_of,
    promises,
    quotes_sent,
)
from panewright.ledger.stores.purchases import Goods, end_line, last_came, on_order, order_goods, receive
from panewright.ledger.stores.stock import Stock, stock
from panewright.ledger.stores.taken_back import take_back

DAY = date(2026, 5, 4)
RIBBON = Goods("ribbon 1.6", "metre", Decimal(50), Decimal("0.14"), "EUR", date(2026, 5, 11))
FLUX = Goods("flux", "pen", Decimal(2))


def ordered(ledger, number="P-1", *goods):
    return order_goods(ledger, number, "Harrow", goods or (RIBBON, FLUX), day=DAY, by="Ann", at=NOON)


def came(ledger, amount, line=1, tap=""):
    return receive(ledger, "P-1", line, Decimal(amount), by="Ann", at=later(1), tap=tap)


def test_goods_come_in_by_parts_and_the_stock_knows_it(ledger):
    lines = ordered(ledger)
    assert [(each.line, each.goods, each.to_come) for each in lines] == [(1, RIBBON, 50), (2, FLUX, 2)]
    assert came(ledger, "12.5").to_come == Decimal("37.5")
    assert came(ledger, "37.5").to_come == 0
    assert stock(ledger) == (Stock("ribbon 1.6", "metre", "", Decimal(50)),)
    assert [each.line for each in on_order(ledger, only_open=True)] == [2]


def test_a_receipt_taken_back_is_on_order_again_and_may_come_once_more(ledger):
    ordered(ledger)
    came(ledger, "20")
    came(ledger, "30")
    assert on_order(ledger, only_open=True)[0].line == 2
    take_back(ledger, last_came(ledger, "P-1", 1), by="Ann", at=later(2))
    assert on_order(ledger)[0].to_come == 30
    assert stock(ledger, item="ribbon 1.6")[0].amount == 20
    take_back(ledger, last_came(ledger, "P-1", 1), by="Ann", at=later(3))
    assert on_order(ledger)[0].to_come == 50
    with pytest.raises(RecordError, match="nothing that came in"):
        last_came(ledger, "P-1", 1)
    assert came(ledger, "50").to_come == 0
    with pytest.raises(RecordError):
        last_came(ledger, "P-9", 1)


@pytest.mark.parametrize("amount", ["0", "-1", "50.1", "NaN"])
def test_what_cannot_come_is_refused_and_nothing_is_written(ledger, amount):
    ordered(ledger)
    with pytest.raises(RecordError):
        came(ledger, amount)
    assert stock(ledger) == ()
    assert on_order(ledger)[0].to_come == 50


def test_pieces_come_whole(ledger):
    ordered(ledger, "P-1", Goods("125 mm mono", "each", Decimal(10)), RIBBON)
    with pytest.raises(RecordError, match="no whole number"):
        came(ledger, "1.5")
    assert stock(ledger) == ()
    assert came(ledger, "2.0").to_come == 8
    assert came(ledger, "1.5", line=2).to_come == Decimal("48.5")


@pytest.mark.parametrize("reason", ["", "  \t"])
def test_a_line_ends_for_a_reason(ledger, reason):
    ordered(ledger)
    with pytest.raises(RecordError, match="Say why"):
        end_line(ledger, "P-1", 1, reason, by="Ann", at=later(2))
    assert on_order(ledger)[0].to_come == 50


def test_a_tap_sent_twice_brings_goods_in_once(ledger):
    ordered(ledger)
    came(ledger, "10", tap="t1")
    came(ledger, "10", tap="t1")
    assert on_order(ledger)[0].received == 10


def test_four_hands_never_receive_more_than_was_ordered(ledger):
    ordered(ledger)

    def take(_number: int) -> bool:
        try:
            came(ledger, "15")
        except RecordError:
            return False
        return True

    with ThreadPoolExecutor(4) as hands:
        assert sum(hands.map(take, range(8))) == 3
    assert stock(ledger, item="ribbon 1.6")[0].amount == 45


def test_what_will_not_come_is_no_longer_on_order(ledger):
    ordered(ledger)
    came(ledger, "20")
    end_line(ledger, "P-1", 1, "sold out", by="Ann", at=later(2))
    assert [each.line for each in on_order(ledger, only_open=True)] == [2]
    for late in (lambda: came(ledger, "1"), lambda: end_line(ledger, "P-1", 1, "", by="Ann", at=later(3))):
        with pytest.raises(RecordError):
            late()


def test_a_number_is_given_once_and_an_unknown_one_is_told(ledger):
    ordered(ledger)
    for wrong in (
        lambda: ordered(ledger),
        lambda: order_goods(ledger, "P-2", "Harrow", (), day=DAY, by="Ann", at=NOON),
        lambda: on_order(ledger, purchase="P-9"),
        lambda: receive(ledger, "P-1", 3, Decimal(1), by="Ann", at=NOON),
        lambda: ordered(ledger, "P-3", Goods("flux", "pen", Decimal(0))),
    ):
        with pytest.raises(RecordError):
            wrong()
    assert len(on_order(ledger)) == 2


def test_where_an_order_stands_is_said_version_by_version(ledger):
    begun(ledger)
    assert promise_of(ledger, "JL-9") is None
    promise(ledger, "JL-9", "accepted", date(2026, 6, 1), seen=0, by="Ann", at=NOON)
    with pytest.raises(StaleError):
        promise(ledger, "JL-9", "delivered", seen=0, by="Ben", at=NOON)
    assert [each.order for each in promises(ledger)] == ["JL-9"]
    promise(ledger, "JL-9", "delivered", seen=1, by="Ben", at=later(1))
    assert promises(ledger) == ()
    assert promise_of(ledger, "JL-9").version == 2
    with pytest.raises(RecordError):
        promise(ledger, "JL-9", "lost", seen=2, by="Ben", at=later(1))


def test_accepted_orders_come_by_their_day_and_then_their_number(ledger):
    for number, day in (
        ("B", None),
        ("C", date(2026, 6, 2)),
        ("A", date(2026, 6, 2)),
        ("D", date(2026, 5, 9)),
    ):
        begun(ledger, number, 1, number)
        promise(ledger, number, "accepted", day, seen=0, by="Ann", at=NOON)
    assert [each.order for each in promises(ledger)] == ["D", "A", "C", "B"]


def test_quotes_that_went_out_are_kept(ledger):
    begun(ledger)
    sent = QuoteSent("JL-9", 1, "ABCDEFGH", DAY, date(2026, 6, 3), Decimal("980.5"), "EUR", "by post")
    keep_quote(ledger, sent, by="Ann", at=NOON)
    assert quotes_sent(ledger, "JL-9") == (sent,)
    with pytest.raises(RecordError):
        keep_quote(ledger, QuoteSent("JL-9", 7, "A", DAY, DAY, Decimal(1), "EUR"), by="Ann", at=NOON)
