"""Money: rounded half up to cents, never a float."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.price.money import amount, cents, exact, up_to


@pytest.mark.parametrize(
    ("raw", "rounded"), [("0.005", "0.01"), ("0.0049", "0.00"), ("2.675", "2.68"), ("-0.005", "-0.01")]
)
def test_half_a_cent_goes_up(raw, rounded):
    assert cents(Decimal(raw)) == Decimal(rounded)


@given(st.decimals(0, 10**6, places=6), st.sampled_from([Decimal(1), Decimal("0.1"), Decimal("0.01")]))
def test_a_shop_sells_no_less_than_asked_and_less_than_a_step_more(quantity, step):
    sold = up_to(quantity, step)
    assert quantity <= sold < quantity + step


@given(st.floats(0, 1e6))
def test_a_quantity_keeps_six_decimals(quantity):
    assert abs(exact(quantity) - Decimal(quantity)) <= Decimal("0.0000005000001")


def test_an_amount_shows_two_decimals_and_its_currency():
    assert amount(Decimal("1234567.5"), "USD") == "1\u2009234\u2009567.50\u2009USD"
