"""Cures of an order in inches tell inches, and parts keep their names."""

from __future__ import annotations

from pathlib import Path

import pytest

from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
TEXT = Path("examples/henhouse.toml").read_text("utf-8")


@pytest.mark.parametrize("units", ["metric", "us"])
def test_a_gap_to_be_made_wider_is_told_in_the_orders_units(units):
    text = TEXT.replace("[order]", f'[order]\nunits = "{units}"')
    design = design_panel(parse_order(f'{text}\n[layout]\ncell_gap = "0.6 mm"\n', "h.toml", SHELF), SHELF)
    (check,) = (each for each in design.checks if each.rule.startswith("room for the ribbon"))
    assert not check.passed
    assert ("in (" in check.cure) == (units == "us")
    (gap,) = (each for each in design.checks if each.rule == "gap for heat, cold and cutting")
    assert ("in (" in gap.source) == (units == "us")
