"""One order for the whole room: three panels, with breaks, tax, deposit, carriage and a market price."""

from __future__ import annotations

import pytest

from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf
from short_order import short_order

MONEY = """[money]
labour = "40 EUR/h"
breaks = "1, 2, 6"
tax = "20 %"
tax_name = "VAT"
deposit = "40 %"
carriage = "60 EUR"
market_price = "0.25 EUR"
market_source = "three offers"
market_date = "2026-11-02"
"""
ORDER = short_order("panels = 3\n", name="Boat lockers", cell="125 mm mono", more=MONEY)


@pytest.fixture(scope="session")
def shelf():
    return load_shelf()


@pytest.fixture(scope="session")
def design(shelf):
    return design_panel(parse_order(ORDER, "lockers.toml", shelf), shelf)
