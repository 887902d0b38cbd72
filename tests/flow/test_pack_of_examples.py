"""Every example order goes through the whole job: designed, proved, packed, the same bytes each time."""

import json

import pytest

from examples import NAMES, anew, made, packed
from panewright import desk
from panewright.pack.pack import make_pack
from panewright.paper.leaf import render

HOLDS = {"jetty", "henhouse", "workshop", "frost-sensor", "fence", "kiosk"}
FAILS = {"bathhouse"}
FILES = {
    "book.pdf",
    "quote.pdf",
    "template.pdf",
    "glass.pdf",
    "crate.pdf",
    "jig.pdf",
    "spacer.pdf",
    "layout.dxf",
    "frame.dxf",
    "glass.dxf",
    "clip.dxf",
    "spacer.dxf",
    "parts.xlsx",
    "parts.csv",
    "cuts.csv",
    "design.json",
    "label.svg",
}


def test_every_example_is_tried_here():
    assert set(NAMES) == HOLDS | FAILS


@pytest.mark.parametrize("name", sorted(HOLDS))
def test_an_example_that_should_hold_keeps_every_rule(name):
    failing = [str(check) for check in made(name).design.checks if not check.passed]
    assert failing == []


def test_the_acrylic_front_fails_and_says_that_no_rule_book_covers_it():
    design = made("bathhouse").design
    failing = [check for check in design.checks if not check.passed]
    assert any(not check.covered and "acrylic" in check.rule for check in failing)
    assert all(check.cure for check in failing)


@pytest.mark.parametrize("name", sorted(HOLDS | FAILS))
def test_the_pack_of_an_example_is_whole_and_the_same_twice(name):
    again = anew(name)
    first, second = (
        {leaf.name: render(leaf) for leaf in pack.leaves}
        for pack in (packed(name), make_pack(again.design, again.quote))
    )
    assert set(first) == FILES
    assert [file for file in FILES if first[file] != second[file]] == []


@pytest.mark.parametrize("name", ["jetty", "bathhouse"])
def test_the_record_for_programs_says_what_the_design_says(name):
    order = made(name)
    record = json.loads(desk.as_json(order))
    assert record["proven"] == order.design.proven == (name in HOLDS)
    assert len(record["checks"]) == len(order.design.checks)
    assert record["design"]["label"]["pmp_w"] == order.design.label.pmp_w


@pytest.mark.parametrize("name", ["jetty", "henhouse", "fence"])
def test_the_string_is_held_against_the_voltage_that_its_own_hot_curve_shows(name):
    design = made(name).design
    check = next(each for each in design.checks if each.rule.startswith("string charges the battery"))
    hot = next(curve for curve in design.electrical.curves if curve.name == "hot")
    assert check.limit == pytest.approx(hot.points.vmp_v, rel=2e-3)
