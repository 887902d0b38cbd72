"""Either rule book in either measure: the shelf has parts for it, and a mild site is proven."""

import pytest

from panewright import desk
from panewright.frame.metals.aluminium import bending_limit_mpa

ORDER = """
order = {{ name = "Shed light", units = "{units}" }}
load = {{ battery = "agm", battery_voltage = "12 V", controller = "direct", controller_most = "50 V" }}
cell = {{ name = "125 mm mono" }}

[site]
{wind}
snow = "0.7 kPa"
record_cold = "-18 degC"
record_heat = "35 degC"
tilt = "45 deg"
"""
WIND = {
    # no higher than the free roof's figure reaches
    "ASCE": 'height = "1.3 m"\nwind_code = "ASCE 7-16"\n'
    'wind = "{speed} m/s"\nwind_kind = "3 s gust"\nwind_risk = "II"',
    "EN": 'wind_code = "EN 1991-1-4"\nwind = "{speed} m/s"\nwind_kind = "10 min mean"\nwind_return = "50 yr"',
}


def designed(family, units, speed):
    text = ORDER.format(units=units, wind=WIND[family].format(speed=speed))
    return desk.design(text.encode(), "order.toml").design


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize(("family", "speed"), [("ASCE", 40), ("ASCE", 50), ("EN", 22), ("EN", 28)])
def test_a_mild_site_is_proven_with_parts_of_the_order_s_measure(family, units, speed):
    design = designed(family, units, speed)
    assert [str(check) for check in design.checks if not check.passed] == []
    rail, sheet = design.structural.rail, design.structural.pane.sheet
    assert bending_limit_mpa(rail.alloy, family, rail.wall_mm) is not None
    assert (" in" in rail.name) is (units == "us")
    assert (" in" in sheet.name) is (units == "us")


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize(("family", "speed"), [("ASCE", 115), ("EN", 80)])
def test_in_a_storm_too_every_rule_has_its_limit(family, units, speed):
    checks = designed(family, units, speed).checks
    assert [str(check) for check in checks if not check.covered] == []
