"""What a pane bears for a moment, by each family's own glass rules."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane
from panewright.glass.strength.e1300 import non_factored_load_pa
from panewright.glass.verdict.sheet import judge_pane
from panewright.shelf.load import load_shelf
from panewright.structure.panes.shock import FACTOR, SHORTEST_S, shock_pressure_pa

SHEETS = {row.name: row.part for row in load_shelf().sheets}
CLEAR = SHEETS["4 mm low-iron tempered"]


def test_asce_is_four_times_the_non_factored_load_of_tempered_glass():
    pane = Pane(1200.0, 600.0, CLEAR)
    bears = shock_pressure_pa(pane, "ASCE")
    assert bears == pytest.approx(4 * non_factored_load_pa(1200.0, 600.0, CLEAR.thickness_mm), abs=2.0)


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_a_thicker_pane_bears_more_and_a_larger_one_less(family):
    small, thick = Pane(900.0, 500.0, CLEAR), replace(CLEAR, thickness_mm=5.8, nominal_mm=6.0)
    bears = shock_pressure_pa(small, family)
    assert shock_pressure_pa(Pane(900.0, 500.0, thick), family) > bears
    assert shock_pressure_pa(Pane(1400.0, 700.0, CLEAR), family) < bears


@pytest.mark.parametrize("family", ["ASCE", "EN"])
@pytest.mark.parametrize(("long_mm", "short_mm"), [(1887.0, 1056.0), (1200.0, 1200.0), (2300.0, 420.0)])
def test_it_is_the_last_pressure_whose_strength_holds(family, long_mm, short_mm):
    pane = Pane(long_mm, short_mm, CLEAR)
    most = FACTOR[family] * shock_pressure_pa(pane, family)

    def holds(pressure_pa):
        load = PaneLoad("a stopped fall", pressure_pa, SHORTEST_S, "combined", factored=family == "EN")
        checks = judge_pane(pane, family, (load,)).checks
        return all(check.passed for check in checks if "strength" in check.rule or "theory" in check.rule)

    assert holds(most)
    assert not holds(most + 1.0)


def test_held_on_two_sides_it_bears_less():
    pane = Pane(900.0, 500.0, CLEAR)
    assert shock_pressure_pa(pane, "EN", "two long sides") < shock_pressure_pa(pane, "EN")


def test_what_no_rule_book_covers_is_not_known():
    patterned = next(sheet for sheet in SHEETS.values() if sheet.surface == "patterned")
    acrylic = next(sheet for sheet in SHEETS.values() if sheet.material == "acrylic")
    assert shock_pressure_pa(Pane(900.0, 500.0, patterned), "ASCE") is None
    assert shock_pressure_pa(Pane(900.0, 500.0, patterned), "EN") is not None
    assert shock_pressure_pa(Pane(900.0, 500.0, acrylic), "EN") is None
