"""What an order says of its pane reaches the checks: laminated glass, hail, cuts, holes, warping plastic."""

from __future__ import annotations

from pathlib import Path

import pytest

from panewright.order.parse import parse_bytes
from panewright.panel.choose import design_panel
from panewright.shelf.load import load_shelf

SHELF = load_shelf()
TEXT = (Path(__file__).parents[2] / "examples" / "jetty.toml").read_text("utf-8")


def designed(parts="", site=""):
    text = TEXT.replace("[site]", f"[site]\n{site}", 1)
    text = (
        text.replace("[parts]", f"[parts]\n{parts}", 1) if "[parts]" in text else f"{text}\n[parts]\n{parts}"
    )
    return design_panel(parse_bytes(text.encode(), "order.toml", SHELF), SHELF)


def verdicts(design):
    return {check.rule: check.verdict for check in design.checks}


def test_a_laminated_sheet_is_proved_by_its_plies():
    design = designed(parts='glass = "3 + 3 mm low-iron tempered, laminated"')
    strength = [check for check in design.checks if check.rule.startswith("glass strength in own weight")]
    assert strength
    assert all(check.passed for check in strength)
    assert all("effective thickness" in check.source for check in strength if " in " in check.rule)
    assert design.structural.pane.sheet.plies.between_mm == 0.76


def test_no_laminated_sheet_is_weighed_where_none_is_named():
    assert all(sheet.plies is None for sheet in designed().structural.sheets)


@pytest.mark.parametrize(("ball", "verdict"), [("0 mm", "holds"), ("25 mm", "holds"), ("60 mm", "TOO MUCH")])
def test_the_order_s_ball_of_ice_is_held_against_the_pane(ball, verdict):
    assert verdicts(designed(site=f'hail = "{ball}"'))["hail on the pane"] == verdict


def test_tempered_glass_cut_from_stock_or_drilled_is_not_proven():
    rule = "cuts and holes in tempered glass"
    assert verdicts(designed())[rule] == "holds"
    assert verdicts(designed(parts='glass_from = "cut from stock"'))[rule] == "TOO MUCH"
    drilled = verdicts(designed(parts="glass_holes = 2"))
    assert (drilled[rule], drilled["holes through the pane"]) == ("TOO MUCH", "NOT COVERED")


def test_a_plastic_pane_is_held_against_what_damp_and_heat_do_to_it():
    found = verdicts(designed(parts='glass = "6 mm cast acrylic"'))
    assert {"cells on acrylic that grows and bows", "bead at the turned edge of acrylic"} <= set(found)
    assert not any("grows and bows" in rule for rule in verdicts(designed()))
