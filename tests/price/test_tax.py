"""Tax, deposit and what is to pay add up in either way of telling prices."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from panewright.order.terms import Tax
from panewright.price.money import cents
from panewright.price.offers.tax import deposit, payable

MONEY = st.decimals(0, 100_000, places=2)
RATES = st.decimals(0, Decimal("0.6"), places=3)


@given(MONEY, st.integers(1, 1000), st.none() | MONEY, RATES, st.booleans())
def test_net_and_tax_are_what_is_to_pay(each, panels, carriage, rate, included):
    due = payable(each, panels, carriage, Tax("VAT", rate, included))
    assert due.net + due.tax == due.total
    assert all(cents(value) == value for value in (due.each, due.net, due.tax, due.total))
    told = due.goods + (due.carriage or 0)
    assert told == (due.total if included else due.net)


@given(MONEY, st.integers(1, 1000), RATES)
def test_both_ways_differ_by_no_more_than_the_rounding_of_each_panel(each, panels, rate):
    without = payable(each, panels, None, Tax("VAT", rate))
    within = payable(each, panels, None, Tax("VAT", rate, included=True))
    assert abs(without.total - within.total) <= Decimal("0.005") * (panels + 1)


@given(MONEY, st.integers(1, 50), RATES)
def test_more_tax_is_never_less_to_pay(each, panels, rate):
    more = payable(each, panels, None, Tax("VAT", rate + Decimal("0.01")))
    assert more.total >= payable(each, panels, None, Tax("VAT", rate)).total


def test_without_a_tax_the_price_is_what_is_to_pay():
    due = payable(Decimal("12.34"), 2, Decimal("5.00"), None)
    assert (due.tax, due.net, due.total) == (Decimal("0.00"), Decimal("29.68"), Decimal("29.68"))


@given(MONEY, st.decimals(0, 1, places=3))
def test_deposit_and_rest_are_the_whole(total, share):
    due = deposit(total, share)
    assert due is None if share == 0 else due.now + due.later == total
