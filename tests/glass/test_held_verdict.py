"""Panes on two sides and on clips before both rule books."""

from __future__ import annotations

from dataclasses import replace

import pytest

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Plies, Sheet
from panewright.glass.plate.holding import Clips
from panewright.glass.strength import e1300, en16612
from panewright.glass.verdict.held import judge_supported

SHEET = Sheet("toughened 6", "glass", "tempered", "plain", 6.0, 5.8, 2500.0, 9e-6, 0.9)
PANE = Pane(1500.0, 900.0, SHEET)
WIND = PaneLoad("wind", 1500.0, 3.0, "wind", False)
EN = (replace(WIND, duration_s=5.0), replace(WIND, name="wind, factored", pressure_pa=2250.0, factored=True))
CLIPS = Clips(2, 0, 300)


def by_rule(checks):
    return {check.rule: check for check in checks}


def pane(**changes) -> Pane:
    return Pane(1500.0, 900.0, replace(SHEET, **changes))


def test_asce_proves_two_sides_by_the_model_and_its_edges_apart():
    checks = by_rule(judge_supported(PANE, "ASCE", (WIND,), "two long sides"))
    assert checks["glass strength in wind"].passed
    edge = checks["free edge of the glass in wind"]
    assert edge.limit == 73.0
    strip = 0.75 * 1500 * (900 / 5.8) ** 2 / 1e6  # a strip's stress, 3/4 q (a/t)^2
    assert strip < edge.demand < 1.1 * strip
    assert all(check.passed for check in checks.values())


def test_asce_does_not_cover_clips():
    checks = by_rule(judge_supported(PANE, "ASCE", (WIND,), "clips", CLIPS))
    assert checks["glass strength in wind"].limit is None
    assert "free edge of the glass in wind" not in checks


@pytest.mark.parametrize(("sides", "clips"), [("two long sides", None), ("clips", CLIPS)])
def test_en_takes_the_largest_stress_of_any_holding(sides, clips):
    checks = by_rule(judge_supported(PANE, "EN", EN, sides, clips))
    strength = checks["glass strength in wind, factored"]
    assert strength.limit == en16612.strength_mpa("tempered", 3.0)
    assert checks["free edge of the glass in wind, factored"].limit == en16612.edge_strength_mpa(
        "tempered", 3.0
    )
    assert strength.demand >= checks["free edge of the glass in wind, factored"].demand
    assert checks["glass deflection"].limit == pytest.approx(900 / 65)


def test_the_span_of_two_short_sides_is_the_long_way():
    narrow = Pane(1500.0, 600.0, replace(SHEET, nominal_mm=10, thickness_mm=9.7))
    light = tuple(replace(load, pressure_pa=load.pressure_pa / 4) for load in EN)
    checks = by_rule(judge_supported(narrow, "EN", light, "two short sides"))
    assert checks["glass deflection"].limit == pytest.approx(1500 / 65)


def test_a_load_without_factors_proves_no_strength_in_en():
    checks = by_rule(judge_supported(PANE, "EN", EN[:1], "two long sides"))
    assert checks["glass strength"].limit is None


@pytest.mark.parametrize("family", ["ASCE", "EN"])
@pytest.mark.parametrize("changes", [{"material": "acrylic", "treatment": "none"}, {"treatment": "none"}])
def test_what_a_book_does_not_list_never_passes(family, changes):
    loads = (WIND,) if family == "ASCE" else EN
    checks = judge_supported(pane(**changes), family, loads, "two long sides")
    strength = [check for check in checks if "strength" in check.rule or "edge" in check.rule]
    assert strength
    assert not any(check.passed for check in strength)


def test_a_plastic_bends_as_a_plastic():
    soft = by_rule(judge_supported(pane(material="acrylic", treatment="none"), "EN", EN, "two long sides"))
    hard = by_rule(judge_supported(PANE, "EN", EN, "two long sides"))
    rule = "deflection within plate theory"
    assert soft[rule].demand > 5 * hard[rule].demand


def test_patterned_glass_is_en_only():
    asce = by_rule(judge_supported(pane(surface="patterned"), "ASCE", (WIND,), "two long sides"))
    assert asce["glass strength in wind"].limit is None
    en = by_rule(judge_supported(pane(surface="patterned"), "EN", EN, "two long sides"))
    assert en["glass strength in wind, factored"].limit < en16612.strength_mpa("tempered", 3.0)


def test_past_the_theory_nothing_passes():
    slack = Pane(1600.0, 1000.0, replace(SHEET, nominal_mm=3, thickness_mm=2.8))
    checks = by_rule(judge_supported(slack, "EN", EN, "two short sides"))
    assert not checks["deflection within plate theory"].passed
    assert checks["glass strength in wind, factored"].limit is None


@pytest.mark.parametrize(
    ("treatment", "limit"), [("annealed", 16.6), ("heat-strengthened", 36.5), ("tempered", 73.0)]
)
def test_edges_bear_what_the_practice_allows(treatment, limit):
    assert e1300.edge_stress_mpa(treatment, 3.0) == limit
    assert e1300.edge_stress_mpa(treatment, 86400.0) < limit
    assert e1300.edge_stress_mpa("none", 3.0) is None


def test_four_sides_and_no_load_are_refused():
    with pytest.raises(ValueError, match="four sides"):
        judge_supported(PANE, "EN", EN, "four sides")
    with pytest.raises(ValueError, match="at least one load"):
        judge_supported(PANE, "EN", (), "two long sides")


def test_of_laminated_glass_the_thinner_ply_is_held_against_the_thinnest_designation():
    plies = Plies(2.92, 1.8, 0.76, "pvb")
    sheet = Sheet("l", "glass", "tempered", "plain", 5.5, 4.72, 2500.0, 9e-6, 0.9, plies=plies)
    load = PaneLoad("wind", 400.0, 3.0, "wind", False)
    checks = judge_supported(Pane(900.0, 400.0, sheet), "ASCE", (load,), "two long sides")
    (check,) = (each for each in checks if "thick enough" in each.rule)
    assert check.limit == 1.8
    assert not check.passed
