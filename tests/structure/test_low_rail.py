"""Laws of the rail at the low edge, and of the setting blocks on it."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.bead.bead import BLOCK_EVERY_MM, Movement, Need, block_long_mm
from panewright.structure.loads import Case, Loads
from panewright.structure.rails.low_rail import (
    LowRail,
    bead_share,
    block_places,
    corner_holds,
    judge_low,
    outer_places_mm,
    sag_mm_n,
    stress_mpa_n,
)
from panewright.structure.rails.rails import Brackets, judge_short_rail

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
SILICONE = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
PANE = Pane(1600, 1000, GLASS)
BEAD = Bead(SILICONE, 8.0, 6.0, 6.0)
SOFT = Rail("L30", "angle", 30, 30, 3, "6063-T6", 6000)
STOUT = Rail("L60", "angle", 60, 60, 5, "6063-T6", 6000)
NEED = Need(6.0, 2.0, 3.0, Movement(1e-4, 0.5, 0.5), 1.0)


def low(rail=STOUT, bead=BEAD, blocks=2):
    return LowRail(rail, PANE, bead, "short", corner_holds(rail, PANE, bead), blocks)


def loads(weight_pa, snow_pa, family="EN"):
    factored = family == "EN"
    own, other = (1.35, 1.5) if factored else (1.0, 1.0)
    case = Case("snow", 0.0, 1.0, factored, ("snow",), (), own * weight_pa, other * snow_pa)
    still = replace(Loads(family, (case,), (), 0, 0, 0, 0, 0), along_pa=weight_pa + snow_pa)
    return replace(still, weight_along_pa=weight_pa)


def judged(rail, weight_pa, snow_pa, family="EN", bead=BEAD):
    per_pa = judge_short_rail(rail, PANE, bead, loads(0, 0, family), Brackets(2, 250.0)).per_pa
    return judge_low(low(rail, bead), loads(weight_pa, snow_pa, family), NEED, per_pa)


def by_rule(proof):
    return {check.rule: check for check in proof.checks}


def test_two_blocks_bend_a_hinged_rail_as_the_closed_formula_says():
    one, at = low(), 200.0
    shape, length = section(STOUT), low().length_mm
    a = at + (length - 1000) / 2
    free = shape.iy_mm4 - shape.ixy_mm4**2 / shape.ix_mm4
    by_hand = 0.5 * a * (3 * length**2 - 4 * a**2) / (24 * 70e3 * free)
    assert sag_mm_n(one, (at, 1000 - at)) == pytest.approx(by_hand, rel=1e-3)
    moment = stress_mpa_n(one, (at, 1000 - at))[0] / stress_mpa_n(one, (at, 1000 - at))[1]
    assert moment == pytest.approx(0.5 * a / (length / 8), rel=1e-3)  # blocks against snow along the lip


def test_an_equal_angle_bends_in_plane_about_its_weak_axis():
    """Free, an angle loaded along one leg sags by half of 1/Imax + 1/Imin."""
    shape = section(STOUT)
    free = shape.iy_mm4 - shape.ixy_mm4**2 / shape.ix_mm4
    assert 1 / free == pytest.approx(0.5 * (1 / shape.imax_mm4 + 1 / shape.imin_mm4))


def test_a_long_rail_is_held_by_its_brackets_too():
    held = LowRail(STOUT, PANE, BEAD, "long", (300.0, 800.0, 1300.0), 2)
    outer = LowRail(STOUT, PANE, BEAD, "long", (0.0, 1600.0), 2)
    assert sag_mm_n(held, (400.0, 1200.0)) < 0.1 * sag_mm_n(outer, (400.0, 1200.0))


def test_the_pane_s_weight_sags_the_rail_by_hand_and_fails_a_soft_one():
    """4 mm of glass upright hang 157 N on a short rail 1 m long."""
    check = by_rule(judged(SOFT, 98.0665, 0.0))["low rail sag under the pane's weight"]
    assert check.limit == pytest.approx(min(3.0, low(SOFT).length_mm / 500))
    assert check.demand == pytest.approx(156.9064 * sag_mm_n(low(SOFT), (150.0, 850.0)))
    assert not check.passed
    assert judged(STOUT, 98.0665, 0.0).passed


def test_an_american_gap_gives_a_quarter_of_itself():
    check = by_rule(judged(STOUT, 98.0665, 0.0, "ASCE"))["low rail sag under the pane's weight"]
    assert check.limit == pytest.approx(1.5)


def test_blocks_stand_at_the_quarter_points_and_move_to_the_corners_of_a_soft_rail():
    assert judged(STOUT, 50.0, 0.0).places_mm == (250.0, 750.0)
    assert judged(SOFT, 60.0, 0.0).places_mm[0] < 250.0


def test_bead_and_rail_share_by_stiffness_and_the_bead_takes_no_more_than_all():
    places = (250.0, 750.0)
    spring = 0.33 * 8 / 6 * 5200
    sag = sag_mm_n(low(), places)
    assert bead_share(low(), sag) == pytest.approx(spring / (spring + 1 / sag), rel=1e-6)
    proof = by_rule(judged(STOUT, 98.0665, 300.0))
    stress = proof["bead shear as weight and snow come on"].demand
    assert 0 < stress < (98.0665 + 300) * 1.6 / (5200 * 8)
    assert proof["bead shear as weight and snow come on"].limit == pytest.approx(0.75 * 0.138)


def test_what_the_bead_may_not_hold_for_ever_sags_the_rail():
    forever_n = 7e3 * 5200 * 8 * 1e-6
    just = forever_n / 1.6
    assert by_rule(judged(STOUT, 50.0, just - 50.0))["low rail sag under weight and snow"].demand == 0.0
    assert by_rule(judged(STOUT, 50.0, just))["low rail sag under weight and snow"].demand > 0.0


def test_a_sealant_with_no_dead_load_is_not_covered():
    plain = replace(BEAD, sealant=replace(SILICONE, dead_load_pa=0.0, structural=False))
    shear = [check for check in judged(STOUT, 50.0, 50.0, bead=plain).checks if check.rule.startswith("bead")]
    assert len(shear) == 2
    assert all(check.limit is None and not check.passed for check in shear)


def test_snow_leans_on_the_lip_by_hand():
    check = by_rule(judged(STOUT, 50.0, 200.0))["lip of the low rail under snow"]
    assert check.demand == pytest.approx(6 * (1.5 * 200.0 * 1600 * 1e-6) * 55 / 25)


def test_no_blocks_where_the_gap_has_no_room():
    per_pa = judge_short_rail(STOUT, PANE, BEAD, loads(0, 0), Brackets(2, 250.0)).per_pa
    proof = judge_low(low(blocks=0), loads(50.0, 50.0), NEED, per_pa)
    assert proof.places_mm == ()


@given(st.floats(0, 150), st.floats(0, 800), st.floats(1.01, 3))
def test_more_pull_is_never_easier(weight_pa, snow_pa, factor):
    per_pa = judge_short_rail(STOUT, PANE, BEAD, loads(0, 0), Brackets(2, 250.0)).per_pa
    less = judge_low(low(), loads(weight_pa, snow_pa), NEED, per_pa)
    more = judge_low(low(), loads(factor * weight_pa, factor * snow_pa), NEED, per_pa)
    assert less.passed or not more.passed
    assert less.places_mm[0] >= more.places_mm[0] or not more.passed


@given(st.floats(100, 3000), st.integers(2, 8))
def test_blocks_stand_in_order_on_the_pane_alike_from_both_corners(edge_mm, count):
    count = min(count, max(2, int(edge_mm // 150)))
    for outer in outer_places_mm(edge_mm, count):
        places = block_places(edge_mm, count, outer)
        assert len(places) == count
        assert list(places) == sorted(places)
        assert all(a + b == pytest.approx(edge_mm) for a, b in zip(places, reversed(places), strict=True))


@given(st.floats(60.0, 1500.0), st.integers(2, 6))
def test_blocks_never_lie_on_one_another_or_past_the_pane(edge_mm, count):
    half = block_long_mm(edge_mm) / 2
    count = min(count, max(2, int(edge_mm // BLOCK_EVERY_MM)))  # as many as find room
    for outer in outer_places_mm(edge_mm, count):
        middles = block_places(edge_mm, count, outer)
        assert middles[0] - half >= 0
        assert middles[-1] + half <= edge_mm
        assert all(after - before >= 2 * half for before, after in pairwise(middles))
