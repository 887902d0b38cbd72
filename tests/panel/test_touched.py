"""A hand and a knee on a design's pane: all told, those that the order counts in the verdict."""

from __future__ import annotations

from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.glass.pane import Pane, Sheet
from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.panel.holding.touched import asked_touches, touched
from panewright.shelf.load import load_shelf

EXAMPLES = {path.stem: path for path in (Path(__file__).parents[2] / "examples").glob("*.toml")}


SHELF = load_shelf()


def design(path, touched=None):
    text = path.read_text("utf-8")
    if touched:
        head = "" if "[parts]" in text else "[parts]\n"  # where there is one, it is the last section
        text = f'{text}\n{head}touched = "{touched}"\n'
    return design_panel(parse_bytes(text.encode(), path.name, SHELF), SHELF)


def counted(design):
    return [check.rule for check in design.checks if " under one " in check.rule and check.room == "glass"]


@pytest.mark.parametrize("name", ["fence", "henhouse"])
def test_every_touch_is_told_and_a_hand_counts(name):
    made = design(EXAMPLES[name])
    told = " ".join(
        check.rule for check in touched(made.structural.pane, made.order.site.family, made.order.parts.held)
    )
    assert "one hand" in told
    assert "one knee" in told
    assert len(counted(made)) == 1
    assert "one hand" in counted(made)[0]
    assert made.proven


@pytest.mark.parametrize("name", ["fence", "henhouse"])
def test_the_order_says_which_touch_counts_and_glass_is_chosen_for_it(name):
    none, hand, knee = (design(EXAMPLES[name], each) for each in ("none", "hand", "knee"))
    assert counted(none) == []
    assert len(counted(knee)) == 2
    thick = [each.structural.pane.sheet.thickness_mm for each in (none, hand, knee)]
    assert thick == sorted(thick)
    assert thick[0] < thick[2]


def test_asce_has_no_rule_for_it_and_the_check_says_whose_it_is():
    (check,) = (each for each in design(EXAMPLES["fence"]).checks if "broken under" in each.rule)
    assert check.limit == 8
    assert check.source.startswith("no rule of ASCE, shop's own reckoning")


def test_patterned_glass_with_asce_and_plastics_stay_without_a_limit():
    patterned = Sheet("p", "glass", "tempered", "patterned", 4.0, 3.5, 2500.0, 9e-6, 0.9)
    acrylic = Sheet("a", "acrylic", "none", "plain", 4.0, 3.5, 1190.0, 7e-5, 0.9)
    parts = design(EXAMPLES["fence"]).order.parts
    for sheet, family, many in ((patterned, "ASCE", 1), (acrylic, "ASCE", 1), (acrylic, "EN", 1)):
        checks = asked_touches(Pane(900.0, 500.0, sheet), family, parts)
        assert len(checks) == many
        assert not checks[0].covered


def test_another_word_is_told_what_may_be_written():
    with pytest.raises(OrderError, match="knee"):
        design(EXAMPLES["fence"], "foot")
