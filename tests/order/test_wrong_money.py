"""Money and numbers that cannot be: each is told once, with its place, its value and a cure."""

from __future__ import annotations

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.shelf.load import load_shelf
from short_order import short_order

SHELF = load_shelf()
NAMED = '\ntax_name = "VAT"'


def parsed(money="", order=""):
    return parse_order(short_order(order, more=f"[money]\n{money}\n"), "trial.toml", SHELF)


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ('margin = "-20 %"', "money.margin"),
        ('margin = "nan %"', "money.margin"),
        ('margin = "501 %"', "money.margin"),
        ('overhead = "-1 %"', "money.overhead"),
        (f'tax = "300 %"{NAMED}', "money.tax"),
        (f'tax = "-5 %"{NAMED}', "money.tax"),
        ('labour = "40 USD/h"', "money.labour"),
        ('labour = "-40 EUR/h"', "money.labour"),
        ('labour = "99999999999999 EUR/h"', "money.labour"),
        ('carriage = "60 USD"', "money.carriage"),
        ('carriage = "-60 EUR"', "money.carriage"),
        ('carriage = "1e400 EUR"', "money.carriage"),
        ('deposit = "101 %"', "money.deposit"),
        ('breaks = "0, 5"', "money.breaks"),
        ('breaks = "1, 10000"', "money.breaks"),
        ("valid_days = 0", "money.valid_days"),
        ("valid_days = 366", "money.valid_days"),
    ],
)
def test_a_wrong_figure_is_told_once_at_its_key(words, key):
    with pytest.raises(OrderError) as told:
        parsed(words)
    (problem,) = told.value.problems
    assert problem.key == key
    assert problem.value
    assert problem.cure
    assert "None" not in problem.cure


@pytest.mark.parametrize("panels", ["0", "-1", "1.5", "1001", "10000", '"3"', "true"])
def test_so_many_panels_are_no_order(panels):
    with pytest.raises(OrderError) as told:
        parsed(order=f"panels = {panels}\n")
    assert [problem.key for problem in told.value.problems] == ["order.panels"]


@pytest.mark.parametrize("rate", ["0 %", "60 %", "7.7 %"])
def test_a_tax_within_what_taxes_are_is_taken(rate):
    assert parsed(f'tax = "{rate}"{NAMED}').money.terms.tax.name == "VAT"
