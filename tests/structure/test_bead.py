"""Laws of the bead between pane and rail."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.climate.heat import Temperatures
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.bead.bead import (
    BLOCK_LIMIT_PA,
    bead_need,
    blocks,
    choose_bead,
    gap_range_mm,
    judge_bead,
    movement,
    pull_n,
)
from panewright.structure.loads import Loads

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
ACRYLIC = Sheet("acrylic 6", "acrylic", "none", "plain", 6.0, 5.4, 1190, 7.2e-5, 0.92)
SILICONE = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
RAIL = Rail("L50", "angle", 50, 50, 3, "6063-T6", 6000)
HEAT = Temperatures(80.0, 56.0, 80.0, 80.0, 40.0, -25.0, 20.0, ())


def loads(suction_pa, family="ASCE"):
    return Loads(family, (), (), suction_pa, suction_pa, suction_pa, suction_pa, suction_pa)


def test_glass_moves_most_where_pane_and_frame_are_both_hot():
    moves = movement(Pane(1600, 1000, GLASS), 23.4e-6, HEAT)
    assert moves.strain == pytest.approx((23.4e-6 - 9e-6) * 60)
    assert moves.edge_mm == pytest.approx(moves.strain * 1600)
    assert moves.slip_mm == pytest.approx(moves.strain * math.hypot(1600, 500))


def test_acrylic_moves_most_where_it_is_hot_and_swollen_in_a_cool_frame():
    moves = movement(Pane(1600, 1000, ACRYLIC), 23.4e-6, HEAT)
    assert moves.strain == pytest.approx(7.2e-5 * 60 + 0.001 - 23.4e-6 * 20)


def test_acrylic_asks_for_far_more_room_than_glass():
    glass = bead_need(Pane(1000, 600, GLASS), SILICONE, RAIL, loads(1000.0), HEAT)
    acrylic = bead_need(Pane(1000, 600, ACRYLIC), SILICONE, RAIL, loads(1000.0), HEAT)
    assert acrylic.gap_mm > 3 * glass.gap_mm


panes = st.builds(
    lambda long_mm, aspect, sheet: Pane(long_mm, long_mm * aspect, sheet),
    st.floats(300, 2000),
    st.floats(0.3, 1.0),
    st.sampled_from([GLASS, ACRYLIC]),
)


@given(panes, st.floats(0, 30), st.floats(0, 30))
def test_a_wider_range_of_temperature_never_needs_a_smaller_gap(pane, hotter_k, colder_k):
    wider = replace(
        HEAT,
        hot_glass_c=HEAT.hot_glass_c + hotter_k,
        hot_frame_c=HEAT.hot_frame_c + hotter_k,
        cold_c=HEAT.cold_c - colder_k,
    )
    before = bead_need(pane, SILICONE, RAIL, loads(1000.0), HEAT)
    after = bead_need(pane, SILICONE, RAIL, loads(1000.0), wider)
    assert after.gap_mm >= before.gap_mm
    assert after.glue_line_mm >= before.glue_line_mm


@given(panes, st.floats(0, 5), st.floats(0, 5))
def test_a_pane_that_may_be_farther_off_never_needs_a_smaller_gap(pane, tolerance_mm, more_mm):
    gaps = [
        bead_need(pane, SILICONE, RAIL, loads(1000.0), HEAT, tolerance_mm=each).gap_mm
        for each in (tolerance_mm, tolerance_mm + more_mm)
    ]
    assert gaps[1] - gaps[0] == pytest.approx(more_mm, abs=1e-9)


@given(panes, st.sampled_from(["ASCE", "EN"]))
def test_a_chosen_gap_stays_open_on_the_hottest_and_the_coldest_day(pane, family):
    some = loads(1000.0, family)
    bead = choose_bead(pane, SILICONE, RAIL, some, HEAT)
    narrowest, widest = gap_range_mm(bead, bead_need(pane, SILICONE, RAIL, some, HEAT))
    assert 0 < narrowest < bead.gap_mm < widest


def test_glass_closes_its_gap_in_the_cold_and_acrylic_in_the_heat():
    """1.6 m of glass: 60 K of heat opens by 0.0014 of it, 45 K of cold closes by 0.00065."""
    glass = movement(Pane(1600, 1000, GLASS), 23.4e-6, HEAT)
    assert glass.closes_mm == pytest.approx((23.4e-6 - 9e-6) * 45 * 1600)
    assert glass.opens_mm == pytest.approx((23.4e-6 - 9e-6) * 60 * 1600)
    acrylic = movement(Pane(1600, 1000, ACRYLIC), 23.4e-6, HEAT)
    assert acrylic.closes_mm == pytest.approx((7.2e-5 * 60 + 0.001 - 23.4e-6 * 20) * 1600)


@given(panes, st.floats(1, 5000), st.sampled_from(["ASCE", "EN"]))
def test_the_chosen_bead_holds_and_is_of_whole_millimetres(pane, suction_pa, family):
    some = loads(suction_pa, family)
    bead = choose_bead(pane, SILICONE, RAIL, some, HEAT)
    proof = judge_bead(pane, bead, RAIL, some, HEAT)
    assert [str(check) for check in proof.checks if not check.passed] == []
    assert all(size == int(size) for size in (bead.bite_mm, bead.glue_line_mm, bead.gap_mm))


@given(panes, st.floats(1, 5000), st.floats(1, 2))
def test_more_suction_never_needs_less_bite(pane, suction_pa, factor):
    less = choose_bead(pane, SILICONE, RAIL, loads(suction_pa), HEAT)
    more = choose_bead(pane, SILICONE, RAIL, loads(suction_pa * factor), HEAT)
    assert more.bite_mm >= less.bite_mm


def test_a_bead_pinned_too_small_fails_its_rules_and_says_how_to_mend_it():
    pane = Pane(1600, 1000, GLASS)
    bead = choose_bead(pane, SILICONE, RAIL, loads(3000.0), HEAT, bite_mm=7.0, gap_mm=2.0)
    failed = {
        check.rule: check.cure
        for check in judge_bead(pane, bead, RAIL, loads(3000.0), HEAT).checks
        if not check.passed
    }
    assert set(failed) == {
        "bead tension in wind suction",
        "bite against suction",
        "gap for heat, cold and cutting",
    }
    assert all(failed.values())


def test_a_sealant_not_sold_to_hold_panes_is_not_covered():
    common = replace(SILICONE, structural=False)
    proof = judge_bead(Pane(1000, 600, GLASS), Bead(common, 10, 6, 6), RAIL, loads(1000.0), HEAT)
    assert not proof.checks[0].covered
    assert not proof.passed


def test_a_sealant_that_may_not_move_has_no_bead():
    stiff = replace(SILICONE, movement=0.0)
    proof = judge_bead(Pane(1000, 600, GLASS), Bead(stiff, 10, 6, 6), RAIL, loads(1000.0), HEAT)
    assert not proof.passed


PULL = "setting blocks under weight and snow"


def sloping(along_pa, family="EN"):
    return replace(loads(500.0, family), along_pa=along_pa)


def by_rule(proof):
    return {check.rule: check for check in proof.checks}


def test_a_pinned_glue_line_is_taken_and_judged():
    pane = Pane(1600, 1000, GLASS)
    thick = choose_bead(pane, SILICONE, RAIL, loads(500.0), HEAT, glue_line_mm=9.5)
    assert (thick.glue_line_mm, thick.bite_mm) == (9.5, 10.0)
    thin = choose_bead(pane, SILICONE, RAIL, loads(500.0), HEAT, glue_line_mm=3.0)
    assert thin.glue_line_mm == 3.0
    assert not by_rule(judge_bead(pane, thin, RAIL, loads(500.0), HEAT))["least glue line"].passed


def test_two_blocks_bear_a_standing_pane_by_hand():
    """4 mm of glass 1.6 x 1 m hang 157 N on two blocks of 100 mm."""
    pane, standing = Pane(1600, 1000, GLASS), sloping(0.004 * 2500 * 9.80665)
    bead = choose_bead(pane, SILICONE, RAIL, standing, HEAT)
    check = by_rule(judge_bead(pane, bead, RAIL, standing, HEAT))[PULL]
    assert check.demand == pytest.approx(156.9064 / (2 * 100 * 4))
    assert check.passed
    assert blocks(pane, bead, standing) == 2


def test_the_block_limit_is_the_trade_s_length_rule_whatever_the_thickness():
    for thickness_mm in (3.0, 6.0, 10.0):
        weight_n = 2500 * 9.80665 * thickness_mm / 1000
        assert weight_n / (0.027 * thickness_mm / 1000) == pytest.approx(BLOCK_LIMIT_PA)


@given(panes, st.floats(0, 3000), st.floats(1, 3))
def test_more_pull_never_takes_fewer_blocks(pane, along_pa, factor):
    bead = choose_bead(pane, SILICONE, RAIL, sloping(along_pa), HEAT)
    less, more = (blocks(pane, bead, sloping(pull)) for pull in (along_pa, along_pa * factor))
    assert 2 <= less <= more <= max(2, pane.short_mm / 150)


def test_blocks_that_find_no_room_fail_and_say_so():
    pane, heavy = Pane(1700, 500, GLASS), sloping(3000.0)
    bead = choose_bead(pane, SILICONE, RAIL, heavy, HEAT)
    check = by_rule(judge_bead(pane, bead, RAIL, heavy, HEAT))[PULL]
    assert not check.passed
    assert check.cure


def test_a_gap_too_narrow_for_blocks_hangs_the_pane_in_the_bead():
    pane, hung = Pane(1600, 1000, GLASS), sloping(16 * 9.80665 / 1.6)
    bead = Bead(SILICONE, 8.0, 6.0, 2.0)
    rules = by_rule(judge_bead(pane, bead, RAIL, hung, HEAT))
    assert PULL not in rules
    assert pull_n(pane, hung) == pytest.approx(16 * 9.80665)
    assert rules["bite against weight and snow"].demand == pytest.approx(4.311, abs=0.0005)


def test_a_sealant_without_a_lasting_strength_cannot_hang_a_pane():
    weak = replace(SILICONE, dead_load_pa=0.0)
    proof = judge_bead(Pane(800, 500, GLASS), Bead(weak, 8.0, 6.0, 2.0), RAIL, sloping(100.0), HEAT)
    assert not by_rule(proof)["bite against weight and snow"].passed
