"""Wires thick enough for the hottest string; a cure that says what would serve where none is."""

from __future__ import annotations

from functools import cache

import pytest

from panewright.array.plan.legs import lost_v, taken
from panewright.array.plan.panel import of_label
from panewright.array.plan.placing import placed
from panewright.array.plan.tried import basis_of, tried
from panewright.array.plan.weather import weathered
from panewright.order.site.parse import parse_site
from panewright.order.site.site import Typed
from panewright.wire.rules import DROP_SHARE

#: invented: one panel on a bank of 12 V
TEXT = """
[array]
name = "One"
[place]
latitude = "47 deg"
longitude = "9 deg"
[rules]
coldest = "-15 degC"
hottest_air = "33 degC"
[sky]
clearness = "60 %"
air = "0 1 5 9 14 17 19 18 14 10 5 1 degC"
[[stand]]
name = "roof"
tilt = "30 deg"
azimuth = "180 deg"
[[panel]]
name = "one"
voc = "22.4 V"
vmp = "{vmp} V"
isc = "8.5 A"
imp = "8.0 A"
cells = 36
width = "670 mm"
height = "1480 mm"
[controller]
kind = "direct"
most = "50 V"
current = "20 A"
[battery]
kind = "agm"
volts = "12 V"
capacity = "100 Ah"
[cable]
strings = "{metres} m"
down = "{metres} m"
"""


@cache
def outcome(vmp, metres):
    site = parse_site(TEXT.format(vmp=vmp, metres=metres), "one.toml")
    panels = placed(site, [of_label(each.known.label) for each in site.panels])
    return tried(basis_of(site, panels, weathered(site, None).usual), [Typed((0,), 0)])


def heat(found):
    return next(check for check in found.checks if check.rule == "hottest string finishes the charge")


def before(found):
    return [leg for leg, _ in found.wires if leg.name != "controller to battery"]


@pytest.mark.parametrize(("vmp", "metres"), [(18.2, 3), (18.2, 8), (18.6, 20)])
def test_wires_are_thick_enough_where_the_cheapest_take_too_much(vmp, metres):
    """With 0.7 V more of the panel the same runs get thinner wires: cost alone takes them."""
    found, free = outcome(vmp, metres), outcome(vmp + 1.0, metres)
    assert heat(found).passed
    assert heat(found).demand - lost_v(before(found)) + lost_v(before(free)) > heat(found).limit
    areas = [[taken(leg.chosen).size.area_mm2 for leg in before(each)] for each in (found, free)]
    assert all(thick >= thin for thick, thin in zip(*areas, strict=True))
    assert areas[0] != areas[1]


def kept(leg, option):
    """Whether a size keeps every rule, with the usual share of the voltage lost."""
    others = all(check.passed for check in option.checks if check.rule != "voltage lost in the run")
    return others and option.drop_v <= DROP_SHARE * leg.run.working_v


def test_of_all_pairs_that_serve_none_costs_less():
    found = outcome(18.2, 8)
    spare = heat(found).limit - (heat(found).demand - lost_v(before(found)))
    own = sum(taken(leg.chosen).cost for leg in before(found))
    up, down = before(found)
    serving = [
        one.cost + other.cost
        for one in up.chosen.looked_at
        for other in down.chosen.looked_at
        if kept(up, one) and kept(down, other) and one.drop_v + other.drop_v <= spare
    ]
    assert len(serving) > 1
    assert own == pytest.approx(min(serving), rel=1e-9)


def test_what_a_run_may_lose_is_told_with_its_reason():
    told = [check for check in outcome(18.2, 8).checks if check.rule.endswith("voltage lost in the run")]
    assert any("hottest string" in check.source and check.passed for check in told)


def test_where_no_wire_serves_the_cure_says_what_would():
    """Shortened as the cure says the thickest wires serve; with 0.14 V too little nothing but cells does."""
    long = outcome(18.2, 20)
    assert not heat(long).passed
    assert "take 0.82\u2009V: shorten them to 65\u2009% of their length" in heat(long).cure
    assert heat(outcome(18.2, 0.64 * 20)).passed
    assert not heat(outcome(18.2, 0.67 * 20)).passed
    assert "No wire serves" in heat(outcome(17.5, 3)).cure
    assert not heat(outcome(17.5, 0)).passed


def test_wires_that_take_little_stay_as_cost_takes_them():
    told = [check for check in outcome(19.4, 3).checks if check.rule.endswith("voltage lost in the run")]
    assert told
    assert all("common practice" in check.source for check in told)
