"""Amounts of the shelf as an order in US customary units reads them."""

from decimal import Decimal

import pytest

from panewright.pack.customary import measure


@pytest.mark.parametrize(
    ("sold_by", "name", "shelf", "written"),
    [
        ("metre", "ft", "10", "32.8"),
        ("square metre", "ft²", "1", "10.8"),
        ("kilogram", "lb", "2", "4.41"),
        ("litre", "fl oz", "1", "33.81"),
        ("cartridge", "cartridge", "4", "4"),
        ("each", "", "40", "40"),
    ],
)
def test_amounts_are_turned_with_their_unit(sold_by, name, shelf, written):
    by = measure(sold_by, "us")
    assert by.name == name
    assert f"{by.amount(Decimal(shelf)):f}" == written


@pytest.mark.parametrize("sold_by", ["metre", "square metre", "kilogram", "litre", "bar"])
def test_amount_times_price_stays_what_it_costs(sold_by):
    by, shelf, price = measure(sold_by, "us"), Decimal(500), Decimal("1.25")
    assert float(by.amount(shelf) * by.price(price)) == pytest.approx(625.0, rel=2e-4)


def test_metric_orders_read_what_the_shelf_sells():
    assert f"{measure('metre', 'metric').amount(Decimal('20.126')):f}" == "20.13"
    assert measure("metre", "metric").price(Decimal("0.14")) == Decimal("0.14")
