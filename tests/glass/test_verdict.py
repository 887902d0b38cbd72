"""Panes judged: each rule book whole, what it does not cover said, plastics never passed as glass."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.bending import Plate, bend
from panewright.glass.strength import e1300, en16612
from panewright.glass.verdict.sheet import judge_pane

GUST = PaneLoad("wind gust", 2400, 3, "wind", factored=False)
SNOW = PaneLoad("snow", 1500, 30 * 86400.0, "snow", factored=False)
EN_GUST = PaneLoad("wind gust, factored", 3600, 5, "wind", factored=True)
EN_SNOW = PaneLoad("snow, factored", 2250, 21 * 86400.0, "snow", factored=True)


def pane(material="glass", treatment="tempered", surface="plain", thickness=2.92, long=1600.0, name="3 mm"):
    expansion = 9e-6 if material == "glass" else 7e-5
    sheet = Sheet(name, material, treatment, surface, thickness + 0.3, thickness, 2500, expansion, 0.9)
    return Pane(long, 1000.0, sheet)


def by_rule(proof, start):
    return next(check for check in proof.checks if check.rule.startswith(start))


def test_asce_holds_each_load_against_the_resistance_for_its_length():
    proof = judge_pane(pane(), "ASCE", (GUST, SNOW))
    gust, snow = (by_rule(proof, f"glass strength in {n}") for n in ("wind gust", "snow"))
    assert proof.non_factored_load_pa == pytest.approx(1251.9, rel=1e-4)
    assert gust.limit == pytest.approx(4 * proof.non_factored_load_pa)
    assert snow.limit == pytest.approx(3 * proof.non_factored_load_pa)
    assert (gust.demand, snow.demand) == (2400, 1500)
    assert all(check.passed and check.room == "glass" and check.cure for check in proof.checks)
    assert proof.governing == "wind gust"


def test_asce_figures_are_those_of_the_worst_load():
    proof = judge_pane(pane(), "ASCE", (SNOW, GUST))
    bent = bend(Plate(1600, 1000, 2.92, e1300.GLASS), 2400)
    assert proof.deflection_mm == bent.deflection_mm
    assert proof.peak_mpa == bent.worst_mpa
    assert proof.w_over_t == pytest.approx(bent.deflection_mm / 2.92)


def test_annealed_glass_fails_where_tempered_holds():
    assert not by_rule(judge_pane(pane(treatment="annealed"), "ASCE", (GUST,)), "glass strength").passed


def test_e1300_does_not_cover_patterned_glass_but_en_does():
    asce = by_rule(judge_pane(pane(surface="patterned"), "ASCE", (GUST,)), "glass strength")
    en = by_rule(judge_pane(pane(surface="patterned"), "EN", (EN_GUST, GUST)), "glass strength")
    assert asce.verdict == "NOT COVERED"
    assert en.covered


def test_e1300_covers_neither_thinner_glass_nor_more_load():
    thin = by_rule(judge_pane(pane(thickness=1.8), "ASCE", (GUST,)), "glass thick enough")
    heavy = PaneLoad("drift", 16e3, 3, "snow", factored=False)
    much = by_rule(judge_pane(pane(thickness=9), "ASCE", (heavy,)), "load within")
    assert not thin.passed
    assert not much.passed


def test_en_holds_the_peak_against_the_strength_for_each_length():
    proof = judge_pane(pane(), "EN", (EN_GUST, EN_SNOW, GUST, SNOW))
    bent = bend(Plate(1600, 1000, 2.92, en16612.GLASS), 3600)
    gust, snow = (by_rule(proof, f"glass strength in {n}") for n in ("wind gust", "snow"))
    assert gust.demand == proof.peak_mpa == bent.worst_mpa
    assert gust.limit == pytest.approx(90.625)
    assert snow.limit == pytest.approx(75.139, abs=1e-3)
    assert proof.non_factored_load_pa is None


def test_en_holds_deflection_under_loads_without_factors():
    proof = judge_pane(pane(), "EN", (EN_GUST, EN_SNOW, GUST, SNOW))
    deflection = by_rule(proof, "glass deflection")
    assert deflection.demand == bend(Plate(1600, 1000, 2.92, en16612.GLASS), 2400).deflection_mm
    assert deflection.limit == pytest.approx(1000 / 65)


def test_en_without_factored_loads_is_not_a_proof():
    assert not all(check.covered for check in judge_pane(pane(), "EN", (GUST,)).checks)


def test_plastics_are_covered_by_no_rule_book_yet_their_figures_are_real():
    acrylic = pane("acrylic", "none", thickness=4.5, name="cast acrylic 5 mm", long=1200)
    for family in ("ASCE", "EN"):
        proof = judge_pane(acrylic, family, (GUST, SNOW))
        assert by_rule(proof, "acrylic strength").verdict == "NOT COVERED"
        assert proof.deflection_mm > 25
        crazing = by_rule(proof, "acrylic stress against crazing in snow")
        assert crazing.limit == pytest.approx(10.34)
        assert crazing.demand > 0
        assert not any("factored" in check.rule for check in proof.checks if "crazing" in check.rule)


def test_a_lasting_load_bows_plastic_further_than_a_gust():
    short = PaneLoad("gust", 600, 3, "wind", factored=False)
    long = PaneLoad("snow", 600, 30 * 86400.0, "snow", factored=False)
    sheet = pane("polycarbonate", "none", thickness=6.0)
    once, lasting = (judge_pane(sheet, "ASCE", (load,)) for load in (short, long))
    assert lasting.deflection_mm > 1.02 * once.deflection_mm


def test_a_pane_past_the_plates_range_fails_a_check_and_never_raises():
    slender = Pane(5000, 600, pane().sheet)
    slack = PaneLoad("drift", 14e3, 3, "snow", factored=False)
    for family in ("ASCE", "EN"):
        assert not by_rule(judge_pane(slender, family, (GUST,)), "sides of the pane").passed
        gust = GUST if family == "ASCE" else EN_GUST
        assert not by_rule(judge_pane(slender, family, (gust,)), "glass strength").covered
    big = Pane(4000, 2000, pane().sheet)
    assert not by_rule(judge_pane(big, "ASCE", (slack,)), "plate theory").passed


def test_requests_that_make_no_sense_are_our_own_mistakes():
    with pytest.raises(ValueError, match="at least one load"):
        judge_pane(pane(), "ASCE", ())
    with pytest.raises(ValueError, match="allowable level"):
        judge_pane(pane(), "ASCE", (EN_GUST,))
    with pytest.raises(ValueError, match="ASCE and EN"):
        judge_pane(pane(), "DIN", (GUST,))
    with pytest.raises(ValueError, match="lasts some time"):
        PaneLoad("x", 1.0, 0.0, "wind", factored=False)


def test_loads_of_unlike_length_use_up_the_pane_together():
    share = e1300.combined_use((GUST, SNOW), 1251.9, "tempered")
    assert share == pytest.approx(2400 / (4 * 1251.9) + 1500 / (3 * 1251.9), rel=1e-12)
    assert e1300.combined_use((GUST,), 1251.9, "none") is None


@pytest.mark.parametrize("family", ["ASCE", "EN"])
@pytest.mark.parametrize("material", ["glass", "acrylic"])
def test_past_the_plates_range_no_figure_of_it_is_told(family, material):
    """What would be told is that of the range's end, smaller than the true one."""
    treatment = "tempered" if material == "glass" else "none"
    slack = pane(material, treatment, thickness=1.5, name="cast", long=2000)
    loads = (replace(GUST, pressure_pa=9000.0), replace(GUST, pressure_pa=14000.0, factored=family == "EN"))
    proof = judge_pane(slack, family, loads)
    assert not proof.known
    figures = [check for check in proof.checks if check.unit in ("mm", "MPa") and "thick" not in check.rule]
    assert all(math.isnan(check.demand) and not check.covered for check in figures)
    assert figures or family == "ASCE"
    assert all("past what is known" in str(check) for check in figures)


def test_the_practice_gives_patterned_glass_no_non_factored_load():
    plain = pane("glass", "tempered", thickness=3.8, name="x", long=1200)
    patterned = replace(plain, sheet=replace(plain.sheet, surface="patterned"))
    assert judge_pane(plain, "ASCE", (GUST,)).non_factored_load_pa
    assert judge_pane(patterned, "ASCE", (GUST,)).non_factored_load_pa is None
