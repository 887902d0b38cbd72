"""Small ranges of sizes, cheap to reckon."""

from __future__ import annotations

import pytest

from panewright.catalogue.reading import parse_family
from panewright.catalogue.row import Asked
from panewright.catalogue.work import rows_of
from panewright.shelf.load import load_shelf

TEXT = """
[order]
name = "Small ones"
number = "S-1"
maker = "=SUM(1) <b>Tarn & Street</b>"

[load]
cable_length = "3 m"
cable_area = "10 mm2"

[range]
cells = ["156 mm poly", "125 mm mono"]
columns = [2]
rows = [3, 6]
glass = ["4 mm low-iron tempered", "6 mm low-iron tempered"]
quantities = [1, 10]

[site]
code = "EN"
wind = "25 m/s"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
ground = "II"
snow = "0.7 kPa"
record_cold = "-15 degC"
record_heat = "36 degC"
tilt = "40 deg"
height = "3 m"
"""


@pytest.fixture(scope="session")
def text():
    return TEXT


@pytest.fixture(scope="session")
def shelf():
    return load_shelf()


@pytest.fixture(scope="session")
def small(shelf):
    return parse_family(TEXT.encode(), "small.toml", shelf)


@pytest.fixture(scope="session")
def asked(small, shelf):
    return Asked(shelf, small.quantities)


@pytest.fixture(scope="session")
def rows(small, asked):
    """Eight sizes, reckoned here."""
    return rows_of(small, asked)
