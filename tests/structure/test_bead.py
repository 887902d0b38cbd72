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
from panewright.structure.bead import bead_need, choose_bead, judge_bead, movement
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
