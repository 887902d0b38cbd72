"""Laminated glass lies between two panes on each other and one pane as thick as both."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass import laminated
from panewright.glass.interlayer import omega, shear_modulus_pa
from panewright.glass.laminated import effective, shear_share
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Plies, Sheet
from panewright.glass.strength import e1300
from panewright.glass.strength.survival import survive
from panewright.glass.verdict.sheet import judge_pane

GUST = PaneLoad("wind gust", 2400.0, 3.0, "wind", factored=False)
SNOW = PaneLoad("snow", 1500.0, 30 * 86400.0, "snow", factored=False)
WEIGHT = PaneLoad("own weight", 200.0, 30 * 86400.0, "own weight", factored=False)
BOTH = PaneLoad("own weight and wind gust", 2600.0, 3.0, "combined", False, (WEIGHT, GUST))
EN_GUST = PaneLoad("wind gust, factored", 3600.0, 5.0, "wind", factored=True)
PLY = st.floats(2.0, 12.0)
INTERLAYER = st.sampled_from(["pvb", "ionoplast", "eva"])


TWO_OF_3 = Plies(2.92, 2.92, 0.76, "pvb")


def pane(plies=TWO_OF_3, treatment="tempered", surface="plain", long_mm=1600.0):
    both = plies.outer_mm + plies.inner_mm
    whole = both + plies.between_mm + 0.4
    return Pane(
        long_mm, 1000.0, Sheet("two", "glass", treatment, surface, whole, both, 2400.0, 9e-6, 0.88, plies)
    )


def single(thickness_mm, treatment="tempered"):
    sheet = Sheet("one", "glass", treatment, "plain", thickness_mm + 0.3, thickness_mm, 2500.0, 9e-6, 0.9)
    return Pane(1600.0, 1000.0, sheet)


def rule(proof, start):
    return next(check for check in proof.checks if check.rule.startswith(start))


@given(PLY, PLY, st.floats(0.3, 3.0), st.floats(0.0, 1.0), st.booleans())
def test_between_layered_and_monolithic(outer, inner, between, share, counted):
    plies, gap = Plies(outer, inner, between, "pvb"), between if counted else 0.0
    apart, some, one = (effective(plies, s, gap) for s in (0.0, share, 1.0))
    slack = 1 + 1e-12
    assert apart.deflection_mm <= some.deflection_mm * slack
    assert some.deflection_mm <= one.deflection_mm * slack
    assert one.deflection_mm <= (outer + inner + gap) * slack
    assert apart.stress_mm <= some.stress_mm * slack
    assert some.outer_mm <= max(one.outer_mm, apart.outer_mm) * slack


@given(PLY, PLY, st.floats(0.3, 3.0), st.floats(300, 2000), st.floats(1e4, 3e8), st.floats(1.0, 10.0))
def test_a_stiffer_interlayer_or_a_wider_pane_passes_on_more_shear(outer, inner, gap, span, modulus, times):
    plies = Plies(outer, inner, gap, "pvb")
    share = shear_share(plies, span, modulus)
    assert 0 < share < 1
    assert shear_share(plies, span, modulus * times) >= share
    assert shear_share(plies, span * times, modulus) >= share


@given(INTERLAYER, st.floats(-30, 100), st.floats(0.1, 4e9), st.floats(0, 30), st.floats(1, 1e4))
def test_no_interlayer_is_stiffer_warmer_or_later(interlayer, at_c, seconds, warmer, times):
    before = shear_modulus_pa(interlayer, at_c, seconds)
    assert shear_modulus_pa(interlayer, at_c + warmer, seconds) <= before * (1 + 1e-9)
    assert shear_modulus_pa(interlayer, at_c, seconds * times) <= before * (1 + 1e-9)


def test_what_no_table_knows_binds_nothing():
    assert shear_modulus_pa("eva", 20.0, 3.0) == 0
    assert shear_modulus_pa("pvb", 60.0, 3.0) == 0
    assert shear_modulus_pa("ionoplast", 20.0, 1e10) == 0
    assert omega("eva", "wind") == omega("pvb", "combined") == 0
    assert shear_share(Plies(3, 3, 0.76, "eva"), 1000, 0.0) == 0


@settings(deadline=None, max_examples=12)
@given(st.sampled_from(["pvb", "ionoplast", "eva"]), st.floats(2.3, 6.0), st.floats(1.05, 1.5))
def test_thicker_plies_bear_more_and_two_bear_less_than_one_of_both(interlayer, ply, times):
    thin, thick = (pane(Plies(t, t, 0.76, interlayer)) for t in (ply, ply * times))
    one = single(2 * ply + 0.76)
    for family, load in (("ASCE", GUST), ("EN", EN_GUST)):
        proofs = [judge_pane(each, family, (load,)) for each in (thin, thick, one)]
        use = [rule(proof, "glass strength").utilisation for proof in proofs]
        assert use[1] < use[0]
        assert use[2] < use[0]
        assert proofs[1].deflection_mm < proofs[0].deflection_mm


def test_plies_apart_are_two_panes_that_share_the_load():
    eva = pane(Plies(2.92, 2.92, 0.76, "eva"))
    use = rule(judge_pane(eva, "ASCE", (GUST,)), "glass strength").utilisation
    half = PaneLoad("half", 1200.0, 3.0, "wind", factored=False)
    alone = rule(judge_pane(single(2.92), "ASCE", (half,)), "glass strength").utilisation
    assert use == pytest.approx(alone, rel=0.35)  # equal in a plate that bends little; this one bends far
    small = [PaneLoad("small", q, 3.0, "wind", factored=False) for q in (20.0, 10.0)]
    together = judge_pane(eva, "EN", (small[0],))
    each = judge_pane(single(2.92), "EN", (small[1],))
    assert together.deflection_mm == pytest.approx(each.deflection_mm, rel=2e-3)
    assert together.peak_mpa == pytest.approx(each.peak_mpa, rel=2e-2)


def test_asce_gives_each_part_of_a_load_its_own_interlayer():
    ionoplast = pane(Plies(2.92, 2.92, 1.52, "ionoplast"))
    plies = ionoplast.sheet.plies
    limit = rule(judge_pane(ionoplast, "ASCE", (BOTH,)), "glass strength").limit
    uses = []
    for part, at_c in ((GUST, 50.0), (WEIGHT, 80.0)):
        share = shear_share(plies, 1000.0, shear_modulus_pa("ionoplast", at_c, part.duration_s))
        thick = effective(plies, share, 1.52).stress_mm
        factor = e1300.type_factor("tempered", part.duration_s)
        uses.append(part.pressure_pa / (factor * e1300.non_factored_load_pa(1600.0, 1000.0, thick)))
    assert limit == pytest.approx(2600.0 / sum(uses), rel=1e-12)


def test_parts_of_a_load_add_up_as_on_a_pane_that_bends_little():
    plies = Plies(4.0, 4.0, 1.52, "ionoplast")
    whole, gust, weight = (laminated.en(plies, load) for load in (BOTH, GUST, WEIGHT))
    sum_of = 2400 / gust.deflection_mm**3 + 200 / weight.deflection_mm**3
    assert 2600 / whole.deflection_mm**3 == pytest.approx(sum_of, rel=1e-12)


def test_a_warm_pvb_bears_less_than_an_ionoplast_and_snow_finds_it_stiffer():
    kinds = [pane(Plies(2.92, 2.92, 0.76, kind)) for kind in ("eva", "pvb", "ionoplast")]
    for family, load in (("ASCE", GUST), ("EN", EN_GUST)):
        uses = [rule(judge_pane(each, family, (load,)), "glass strength").utilisation for each in kinds]
        assert uses == sorted(uses, reverse=True)


def test_what_the_rule_books_do_not_cover_is_said():
    patterned = judge_pane(pane(surface="patterned"), "ASCE", (GUST,))
    assert rule(patterned, "glass strength").verdict == "NOT COVERED"
    thin = judge_pane(pane(Plies(1.0, 3.0, 0.76, "pvb")), "ASCE", (GUST,))
    assert not rule(thin, "glass thick enough").passed
    assert not all(check.covered for check in judge_pane(pane(), "EN", (GUST,)).checks)
    heavy = PaneLoad("drift", 16e3, 3.0, "snow", factored=False)
    assert not rule(judge_pane(pane(), "ASCE", (heavy,)), "load within").passed
    slender = pane(long_mm=7000.0)
    assert rule(judge_pane(slender, "ASCE", (GUST,)), "glass strength").verdict == "NOT COVERED"


def test_the_type_test_takes_the_plies_apart_where_no_figure_is_known():
    two = Plies(2.92, 2.92, 0.76, "pvb")
    for family in ("ASCE", "EN"):
        tests = survive(pane(two), family)
        assert all(check.covered for check in tests)
    asce = survive(pane(two), "ASCE")[0].limit
    assert asce > survive(pane(Plies(2.92, 2.92, 0.76, "eva")), "ASCE")[0].limit


def test_a_ply_without_thickness_and_laminated_plastic_are_our_own_mistakes():
    with pytest.raises(ValueError, match="thickness each"):
        Plies(0.0, 3.0, 0.76, "pvb")
    with pytest.raises(ValueError, match="only glass"):
        Sheet("x", "acrylic", "none", "plain", 7.0, 6.0, 1190, 7e-5, 0.9, Plies(3, 3, 0.76, "pvb"))
    with pytest.raises(ValueError, match="from 0 to 1"):
        effective(Plies(3, 3, 0.76, "pvb"), 1.5, 0.0)
