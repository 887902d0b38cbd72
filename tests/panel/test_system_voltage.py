"""A label that lets panels lie in series: what such a panel is proven for.

IEC 60664-1 table F.4 at pollution degree 2, material group III, doubled (as printed in a terminal-block
catalogue): 2 x 1.3 mm at 80 V, 2 x 1.4 mm at 100 V, 2 x 6.3 mm at 630 V, 2 x 10 mm at 1000 V; straight
lines between.
"""

from functools import cache

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_order
from panewright.panel.choose import design_briefly
from panewright.shelf.load import load_shelf
from short_order import short_order

SHELF = load_shelf()
AT_THE_SIDES = "creepage from cells to metal at the sides"
OWN = "open-circuit voltage under the label's system voltage"


@cache
def designed(system: str = "", margin: str = ""):
    load = "cells = 36\n" + (f'system_voltage = "{system}"\n' if system else "")
    more = f'[layout]\nmargin = "{margin}"\n' if margin else ""
    return design_briefly(parse_order(short_order(load=load, more=more), "trial.toml", SHELF), SHELF)


def check(design, rule):
    (found,) = [each for each in design.checks if each.rule == rule]
    return found


def failed(design):
    return {each.rule for each in design.checks if not each.passed}


def test_a_panel_that_lies_alone_is_labelled_by_its_own_voltage_and_says_so():
    alone = designed()
    assert alone.label.system_v == 35.0
    (assumed,) = [each for each in alone.order.assumptions if each.key == "load.system_voltage"]
    assert "series" in assumed.reason


@pytest.mark.parametrize(
    ("system", "needed_mm"),
    [("80 V", 2.6), ("100 V", 2.8), ("120 V", 2.96), ("600 V", 12.0), ("630 V", 12.6), ("1000 V", 20.0)],
)
def test_the_way_to_metal_grows_with_the_voltage_that_is_asked_for(system, needed_mm):
    design = designed(system)
    assert check(design, AT_THE_SIDES).demand == pytest.approx(needed_mm)
    assert failed(design) == set()


def test_label_box_and_back_are_those_of_the_voltage_asked_for():
    design = designed("600 V")
    back = check(design, "back sheet holds the system voltage")
    assert (design.label.system_v, design.closing.box.volts, back.demand) == (600.0, 600.0, 600.0)


@pytest.mark.parametrize(("margin", "holds"), [("44 mm", ("",)), ("46 mm", ("", "120 V"))])
def test_cells_near_the_rim_hold_one_voltage_and_fail_the_next(margin, holds):
    near = {system: designed(system, margin) for system in ("", "120 V", "600 V")}
    assert {check(design, AT_THE_SIDES).limit for design in near.values()} == {
        check(near[""], AT_THE_SIDES).limit
    }
    assert tuple(system for system, design in near.items() if AT_THE_SIDES not in failed(design)) == holds
    assert "clearance from live metal to the frame" in failed(near["600 V"])


def test_less_than_the_panel_alone_gives_in_the_cold_fails():
    low = designed("20 V")
    assert failed(low) == {OWN}
    assert "system_voltage" in check(low, OWN).cure


def test_past_a_thousand_volts_a_back_that_holds_it_is_taken_and_the_air_is_not_covered():
    high = designed("1500 V")
    assert check(high, "back sheet holds the system voltage").passed
    assert str(check(high, "clearance from live metal to the frame")).count("NOT COVERED") == 1


@pytest.mark.parametrize("wrong", ["1600 V", "1 V", "600", "600 W", "-60 V"])
def test_what_is_no_such_voltage_is_told_at_its_key(wrong):
    with pytest.raises(OrderError) as told:
        designed(wrong)
    assert [problem.key for problem in told.value.problems] == ["load.system_voltage"]
