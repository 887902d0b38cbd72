"""A pane that only the long rails hold."""

from __future__ import annotations

from pathlib import Path

import pytest

from panewright.errors import OrderError
from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

WORKSHOP = (Path(__file__).parents[2] / "examples" / "workshop.toml").read_text("utf-8")


def design(held: str | None):
    text = WORKSHOP if held is None else WORKSHOP.replace("[parts]\n", f'[parts]\nheld = "{held}"\n')
    shelf = load_shelf()
    return design_panel(parse_bytes(text.encode(), "workshop.toml", shelf), shelf)


def test_four_sides_are_what_is_taken_where_the_order_says_nothing():
    silent, said = design(None), design("four sides")
    assert silent.checks == said.checks
    assert "parts.held" in {each.key for each in silent.order.assumptions}


def test_on_two_long_sides_the_pane_is_a_strip_with_free_edges():
    four, two = design("four sides"), design("two long sides")
    rules = {check.rule for check in two.checks}
    assert any(rule.startswith("free edge of the glass") for rule in rules)
    assert "bead tension where the pane pulls hardest" not in rules
    assert "bead tension where the pane pulls hardest" in {check.rule for check in four.checks}
    assert two.structural.pane.sheet.nominal_mm > four.structural.pane.sheet.nominal_mm


def test_other_holdings_are_told_what_may_be_written():
    with pytest.raises(OrderError, match="two long sides"):
        design("one side")
