"""Tempered glass is ordered to size: never cut or drilled afterwards."""

from __future__ import annotations

import pytest

from panewright.glass.pane import Pane, Sheet
from panewright.structure.panes.cut_glass import GlassWork, work_checks

STOCK = ((2000.0, 1000.0), (1200.0, 600.0))


def pane(treatment="tempered", material="glass", long_mm=1500.0, short_mm=680.0):
    sheet = Sheet("x", material, treatment, "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
    return Pane(long_mm, short_mm, sheet)


def verdicts(one, work):
    return {check.rule: check.verdict for check in work_checks(one, work, "EN")}


@pytest.mark.parametrize("treatment", ["tempered", "heat-strengthened"])
def test_heated_glass_ordered_to_size_holds_and_cut_down_does_not(treatment):
    rule = f"cuts and holes in {treatment} glass"
    assert verdicts(pane(treatment), GlassWork()) == {rule: "holds"}
    assert verdicts(pane(treatment), GlassWork(from_stock=True, stock_mm=STOCK)) == {rule: "TOO MUCH"}
    assert verdicts(pane(treatment), GlassWork(holes=2))[rule] == "TOO MUCH"


def test_no_rule_book_covers_a_drilled_pane():
    for one in (pane(), pane("annealed"), pane("none", "acrylic")):
        assert verdicts(one, GlassWork(holes=1))["holes through the pane"] == "NOT COVERED"
        assert "holes through the pane" not in verdicts(one, GlassWork())


def test_annealed_glass_is_cut_out_of_a_sheet_that_is_large_enough():
    rule, work = "pane out of a stock sheet", GlassWork(from_stock=True, stock_mm=STOCK)
    assert verdicts(pane("annealed"), work) == {rule: "holds"}
    assert verdicts(pane("annealed", long_mm=2100.0), work) == {rule: "TOO MUCH"}
    assert verdicts(pane("annealed", short_mm=1001.0), work) == {rule: "TOO MUCH"}
    assert verdicts(pane("annealed"), GlassWork()) == {}
    assert verdicts(pane("annealed"), GlassWork(from_stock=True)) == {rule: "TOO MUCH"}


@pytest.mark.parametrize(("family", "other"), [("ASCE", "EN"), ("EN", "ASTM")])
def test_a_family_cites_its_own_books(family, other):
    checks = work_checks(pane("tempered"), GlassWork(holes=1), family)
    assert len(checks) == 2
    assert not any(other in check.source for check in checks)
