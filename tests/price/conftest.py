"""One order for the whole room: three panels, with breaks, tax, deposit, carriage and a market price."""

from __future__ import annotations

import pytest

from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

ORDER = """
[order]
name = "Boat lockers"
panels = 3
[load]
cells = 36
[cell]
name = "125 mm mono"
[site]
code = "EN"
wind = "24 m/s"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.8 kPa"
record_cold = "-14 degC"
record_heat = "37 degC"
tilt = "35 deg"
[money]
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


@pytest.fixture(scope="session")
def shelf():
    return load_shelf()


@pytest.fixture(scope="session")
def design(shelf):
    return design_panel(parse_order(ORDER, "lockers.toml", shelf), shelf)
