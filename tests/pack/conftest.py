"""Two invented orders that between them take both unit systems, both code families and both papers."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from panewright.order.parse import parse_bytes
from panewright.pack.leaf import Pack
from panewright.pack.pack import make_pack
from panewright.panel.choose import design_panel
from panewright.panel.design import Design
from panewright.price.offers.quote import Quote, quote
from panewright.shelf.load import load_shelf
from short_order import AGM, short_order

METRIC = short_order(
    """number = "17"
customer = "Invented Harbour"
maker = "Invented Bench"
panels = 3
serial = "IB-0042"
""",
    AGM,
    name="Boathouse",
    cell="156 mm mono",
    more='[money]\nlabour = "40 EUR/h"\n',
)

INCHES = """
[order]
name = "Windmill shed"
number = "18"
panels = 1
units = "us"
paper = "Letter"
[load]
battery = "lfp"
battery_voltage = "24 V"
controller = "mppt"
controller_most = "100 V"
[cell]
name = "156 mm poly"
cut = "half"
[site]
code = "ASCE"
wind = "105 mph"
wind_code = "ASCE 7-16"
wind_kind = "3 s gust"
wind_risk = "I"
ground = "C"
snow = "20 psf"
record_cold = "-20 degF"
record_heat = "104 degF"
tilt = "30 deg"
[money]
labour = "45 EUR/h"
"""


@dataclass(frozen=True)
class Made:
    """An order all the way to its pack."""

    design: Design
    quote: Quote
    pack: Pack


@pytest.fixture(scope="session", params=[METRIC, INCHES], ids=["metric", "inches"])
def made(request):
    shelf = load_shelf()
    design = design_panel(parse_bytes(request.param.encode(), "order.toml", shelf), shelf)
    priced = quote(design, shelf)
    return Made(design, priced, make_pack(design, priced))
