"""The short invented order that tests of several rooms begin from: all that must be said, and no more."""

from __future__ import annotations

SITE = """[site]
code = "EN"
wind = "24 m/s"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.8 kPa"
record_cold = "-14 degC"
record_heat = "37 degC"
tilt = "35 deg"
"""
AGM = """battery = "agm"
battery_voltage = "12 V"
controller = "direct"
controller_most = "50 V"
"""


def short_order(
    order: str = "",
    load: str = "cells = 36\n",
    *,
    name: str = "Trial",
    cell: str = "156 mm poly",
    more: str = "",
) -> str:
    """The order's text; `order` and `load` are lines of these sections, `more` whole sections after them."""
    return f'[order]\nname = "{name}"\n{order}[load]\n{load}[cell]\nname = "{cell}"\n{SITE}{more}'
