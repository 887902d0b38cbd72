"""The steps shown are the figures of the proof."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.strength.steps import strength_steps
from panewright.glass.verdict.sheet import judge_pane

SHEET = Sheet("solar", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
PANE = Pane(1500.0, 680.0, SHEET)
WIND = PaneLoad("wind", 900.0, 3.0, "wind", factored=False)
SNOW = PaneLoad("snow", 600.0, 30 * 86400.0, "snow", factored=False)
BOTH = PaneLoad("both", 1500.0, 1e4, "combined", factored=False, parts=(WIND, SNOW))


@pytest.mark.parametrize("load", [WIND, SNOW, BOTH])
def test_asce_ends_at_the_limit_of_the_check(load):
    proof = judge_pane(PANE, "ASCE", (load,))
    steps = strength_steps(SHEET, "ASCE", load, proof.non_factored_load_pa)
    assert steps[-2].value == pytest.approx(proof.checks[0].limit)
    assert steps[-1].value == proof.checks[0].demand
    assert [step.value for step in steps[:-2]] == pytest.approx(
        {"wind": [4], "snow": [3]}.get(load.name, [4, 3])
    )


@pytest.mark.parametrize("surface", ["plain", "patterned"])
def test_en_ends_at_the_limit_of_the_check(surface):
    sheet = replace(SHEET, surface=surface)
    load = replace(SNOW, factored=True)
    proof = judge_pane(replace(PANE, sheet=sheet), "EN", (load,))
    k_mod, own, added, whole = (step.value for step in strength_steps(sheet, "EN", load, None))
    assert whole == pytest.approx(proof.checks[0].limit) == own + added
    assert own == pytest.approx(k_mod * {"plain": 45, "patterned": 33}[surface] / 1.6)


def test_what_no_book_covers_has_no_steps():
    assert strength_steps(replace(SHEET, surface="patterned"), "ASCE", WIND, 1000.0) == ()
    assert strength_steps(replace(SHEET, material="acrylic", treatment="none"), "EN", WIND, None) == ()
    assert strength_steps(replace(SHEET, treatment="none"), "EN", WIND, None) == ()
