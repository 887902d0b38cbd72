"""Corners that an order leaves open are joined so that they hold; the usual way first. Common practice, no
source: a thicker screw, then rails that lap."""

from functools import cache

import pytest

from panewright.frame.joining.fastener import FASTENERS
from panewright.order.parse import parse_order
from panewright.panel.built import build
from panewright.panel.choose import design_briefly, design_panel
from panewright.panel.corner_ways import broken_at_corners
from panewright.panel.design import Design
from panewright.panel.happened import Happened
from panewright.shelf.load import load_shelf

# invented: a tall panel of whole cells on an open windy shore
ORDER = """
[order]
name = "Net store"
[load]
cells = 40
[cell]
name = "156 mm mono"
[site]
code = "EN"
wind = "{wind}"
wind_code = "EN 1991-1-4"
wind_kind = "10 min mean"
wind_return = "50 yr"
snow = "0.7 kPa"
record_cold = "-15 degC"
record_heat = "36 degC"
tilt = "40 deg"
[layout]
columns = 4
rows = 10
[parts]
glass = "6 mm low-iron tempered"
{parts}
"""


@cache
def designed(wind: str, parts: str = "", glass: str = "6 mm") -> Design:
    shelf, text = load_shelf(), ORDER.format(wind=wind, parts=parts).replace("6 mm low", f"{glass} low")
    return design_panel(parse_order(text, "", shelf), shelf)


def ways(design: Design) -> tuple[str, str | None]:
    return design.order.parts.corner, design.order.parts.corner_fastener


PINNED = 'corner = "mitred"\ncorner_fastener = "screw M5"'


def test_the_usual_corner_stays_where_it_holds():
    assert ways(designed("20 m/s")) == ("mitred", "screw M5")


@pytest.mark.parametrize(
    ("wind", "taken"), [("28 m/s", ("mitred", "screw M6")), ("33 m/s", ("lapped", "screw M6"))]
)
def test_a_larger_screw_or_lapped_rails_are_taken_where_the_usual_corner_fails(wind, taken):
    open_, usual = designed(wind), designed(wind, PINNED)
    assert broken_at_corners(usual.checks)
    assert not broken_at_corners(open_.checks)
    assert ways(open_) == taken
    assert open_.structural.frame.joint.fastener.name.startswith(taken[1])


def test_what_was_taken_in_its_place_is_told_with_the_rule_that_failed():
    open_ = designed("33 m/s")
    (told,) = (each for each in open_.weighed if each.question == "How do rails meet?")
    worst = broken_at_corners(designed("33 m/s", PINNED).checks)[0]
    assert told.taken == "lapped, screw M6"
    assert f"{worst.rule}, {worst.utilisation:.3g} times its limit" in told.why
    assert {each.key: each.value for each in open_.order.assumptions}["parts.corner"] == "lapped"


def test_what_the_order_pins_stays_as_ordered():
    assert ways(designed("33 m/s", PINNED)) == ("mitred", "screw M5")


def test_where_no_way_holds_the_nearest_is_taken_and_told():
    """M6 does not hold there, and rails must not lap: it still comes nearer than M5."""
    half, usual = designed("33 m/s", 'corner = "mitred"'), designed("33 m/s", PINNED)
    worst, usual_worst = (broken_at_corners(each.checks)[0].utilisation for each in (half, usual))
    assert ways(half) == ("mitred", "screw M6")
    assert 1 < worst < usual_worst
    failing, before = ({c.rule for c in each.checks if not c.passed} for each in (half, usual))
    assert {rule for rule in failing if not rule.startswith("corner ")} <= before
    (told,) = (each for each in half.weighed if each.question == "How do rails meet?")
    assert "no other way holds, and this one comes nearest" in told.why
    best = min(row[1] for row in told.rows_si if row[1] is not None)
    (own,) = (row[1] for row in told.rows_si if row[0] == "screw M6")
    assert own == best


def test_the_same_is_taken_in_a_catalogue():
    order = parse_order(ORDER.format(wind="33 m/s", parts=""), "", load_shelf())
    brief = design_briefly(order, load_shelf())
    assert ways(brief) == ways(designed("33 m/s"))
    assert brief.label == designed("33 m/s").label


def test_a_panel_that_is_built_keeps_the_corners_of_its_design():
    design = designed("33 m/s")
    built = build(design, load_shelf(), Happened(design.label.serials[0]))
    assert [check.rule for check in built.checks] == [check.rule for check in design.checks]
    assert not broken_at_corners(built.checks)


def test_a_pane_that_fails_by_itself_is_mended_before_corners_are_looked_at():
    thin = designed("33 m/s", glass="4 mm")
    assert any(check.rule == "glass deflection" and not check.passed for check in thin.checks)
    assert ways(thin) == ("mitred", "screw M5")


@pytest.mark.parametrize("wind", ["20 m/s", "28 m/s", "33 m/s"])
def test_what_is_weighed_of_the_fastener_taken_is_what_the_checks_say(wind):
    design = designed(wind)
    (told,) = (each for each in design.weighed if each.question == "How do rails meet?")
    (row,) = (row for row in told.rows_si if row[0] == design.order.parts.corner_fastener)
    share, rule = row[1], row[2]
    (check,) = (check for check in design.checks if check.rule == rule)
    assert share == check.utilisation
    assert all(row[3] in ("yes", "no") for row in told.rows_si)
    assert len(told.rows_si) == len(FASTENERS)
