"""Rules that fail say by how much and what to change."""

from __future__ import annotations

from dataclasses import replace

from panewright.layup.candidates import Pins, candidates
from panewright.layup.judge import judge_layup
from panewright.layup.place import lay


def failed(whole, pins, creepage=8.0, rim=0.0):
    layup = lay(candidates(whole, 36, pins=replace(pins, columns=4, substrings=2))[0], whole)
    return {check.rule: check for check in judge_layup(layup, creepage, rim) if not check.passed}


def test_a_default_lay_up_holds_every_rule(whole):
    assert failed(whole, Pins()) == {}


def test_too_small_a_gap_is_told_in_both_directions(whole):
    found = failed(whole, Pins(cell_gap_mm=1.5, string_gap_mm=1.0))
    assert set(found) == {
        "room for the ribbon's bend between largest cells",
        "gap between largest cells of two columns",
    }
    assert found["room for the ribbon's bend between largest cells"].cure == "Make the cell gap 1.0 mm wider."


def test_too_small_a_margin_fails_at_sides_and_ends(whole):
    found = failed(whole, Pins(side_margin_mm=20.0), rim=15.0)
    sides, ends = (
        found["creepage from cells to metal at the sides"],
        found["creepage from bus ribbons to metal at the ends"],
    )
    assert sides.limit == 20 - 0.25 - 15
    assert ends.limit == 20 - (4 + 5 + 3 + 5) - 15
    assert "longer" in ends.cure


def test_metal_under_the_pane_needs_wider_margins(whole):
    assert failed(whole, Pins(), rim=15.0)


def test_a_bus_too_wide_for_its_margin_is_told(whole):
    layup = lay(candidates(whole, 36, pins=Pins(columns=4, end_margin_mm=18.0))[0], whole)
    rules = [check.rule for check in judge_layup(layup, 8.0) if not check.passed]
    assert rules == ["creepage from bus ribbons to metal at the ends"]


def test_cells_larger_than_planned_for_may_reach_the_bus(whole):
    """The bus stays where the plan put it; a lot twice as uneven as nominal is another matter."""
    layup = lay(candidates(whole, 12, pins=Pins(columns=2))[0], whole)
    uneven = tuple(replace(c, shape=replace(c.shape, tolerance_mm=2.0)) for c in layup.cells)
    rules = {check.rule for check in judge_layup(replace(layup, cells=uneven), 8.0) if not check.passed}
    assert "longest column of cells stays clear of the bus" in rules


def test_the_bus_of_a_long_column_lies_further_out(whole):
    layup = lay(candidates(whole, 37)[0], whole)
    found = {check.rule: check for check in judge_layup(layup, 8.0)}
    stack = found["longest column of cells stays clear of the bus"]
    assert (stack.demand, round(stack.limit, 9)) == (9.25, 10.25)


def test_every_check_names_its_room(whole):
    layup = lay(candidates(whole, 36)[0], whole)
    assert {check.room for check in judge_layup(layup, 8.0)} == {"layup"}
