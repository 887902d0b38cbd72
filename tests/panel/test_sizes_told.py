"""Cures of an order in inches tell inches, and parts keep their names."""

from __future__ import annotations

from pathlib import Path

import pytest

from panewright.climate.wind.asce_open import height_check
from panewright.order.parse import parse_order
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf
from panewright.units.sizes_told import sizes_told

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


def test_how_high_a_panel_is_to_stand_is_told_in_the_orders_units():
    """Half of 1 m of rise over 1.2 m in plan at most; 1700 mm are 66.93 in."""
    cure = height_check(2500.0, 1000.0, 1200.0).cure
    assert "to 1700 mm above" in sizes_told(cure, "metric")
    assert "to 66 15/16 in (1700 mm) above" in sizes_told(cure, "us").replace("\u2009", " ")


def test_a_washer_is_told_in_the_orders_units_and_a_sheet_keeps_its_name():
    words = "shear round a washer of 16 mm, screws 150 mm apart; 4 mm low-iron glass"
    said = sizes_told(words, "us").replace("\u2009", " ")
    assert "a washer of 5/8 in (16.0 mm), screws 5 29/32 in (150 mm) apart; 4 mm low-iron glass" in said
