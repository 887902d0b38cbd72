"""A whole order that stands on a flat roof: its wind is that of the roof, on its own size."""

import pytest

from panewright.climate.site import Size
from panewright.climate.wind.load import wind_pressures
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
ORDER = """
order = { name = "Trial" }
load = { cells = 18 }
cell = { name = "125 mm mono" }
[site]
wind_code = "ASCE 7-16"
wind = "42 m/s"
wind_kind = "3 s gust"
wind_risk = "II"
snow = "0.4 kPa"
record_cold = "-18 degC"
record_heat = "35 degC"
tilt = "15 deg"
height = "4 m"
[mounting]
on = "roof ballast"
bearing = "20 kPa"
"""


@pytest.fixture(scope="module")
def design():
    return design_panel(parse_order(ORDER, "trial.toml", SHELF), SHELF)


def test_blocks_on_a_roof_mean_a_flat_roof_and_say_so(design):
    site = design.order.site
    assert (site.mounting, site.zone, site.lower_edge_mm) == ("flat roof", "corner", 300.0)
    told = {one.key: one.value for one in design.order.assumptions}
    assert told["site.mounting"] == "flat roof"
    assert told["site.zone"] == "corner"


def test_its_wind_is_that_of_the_panel_s_own_size_or_of_a_worse_one(design):
    pane, wind = design.structural.pane, design.structural.wind
    own = Size(pane.long_mm * pane.short_mm * 1e-6, pane.long_mm + 100.0)
    assert wind.up_pa >= wind_pressures(design.order.site, own).up_pa * (1 - 1e-12)
    assert wind.up_pa < wind_pressures(design.order.site).up_pa
    assert any("standing on a flat roof's zone 3" in step.words for step in wind.reckoning)


def test_the_scope_of_the_roof_s_rule_stands_among_the_design_s_checks(design):
    rules = [check.rule for check in design.checks]
    for rule in (
        "high edge over the flat roof within the wind rule",
        "length of a panel on a flat roof within the wind rule",
        "panel clear of the flat roof's edges",
    ):
        assert rule in rules


def test_the_mounting_sees_the_same_wind(design):
    forces = design.structural.wind.forces
    assert max(-force.service_pa for force in forces) == pytest.approx(design.structural.wind.up_pa)
