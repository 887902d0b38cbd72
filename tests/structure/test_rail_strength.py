"""What a rail's metal bears, and what silicone does under loads that stay and on a seat that turns."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.metals.aluminium import bending_limit_mpa
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.bead.peel import TURN_DEG, bite_for_turn_mm, peel_share, turn_pull_pa
from panewright.structure.loads import Case, Loads
from panewright.structure.rails.edge_load import edges_of
from panewright.structure.rails.lasting import most_moved
from panewright.structure.rails.rails import Brackets, judge_rail, judge_short_rail, judge_sides
from panewright.structure.rails.strength import shares
from panewright.structure.space.space_frame import outer_mm, stand_on_each

PANE = Pane(1600, 1000, Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9))
GLAZING = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
BEAD = Bead(GLAZING, 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
BRACKETS = Brackets(2, 300.0)


def loads(pressure_pa, family="ASCE", cases=()):
    return Loads(family, cases, (), pressure_pa, 0.0, pressure_pa, 0.0, pressure_pa)


def the(checks, rule):
    return next(check for check in checks if check.rule == rule)


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_a_thin_rail_is_not_given_the_whole_strength_of_its_metal(family):
    thin = Rail("thin", "angle", 60, 60, 2, "6063-T6", 6000)
    stress = the(judge_rail(thin, PANE, BEAD, loads(1000.0, family), BRACKETS).checks, "long rail stress")
    assert stress.limit < 0.6 * bending_limit_mpa("6063-T6", family, 2)


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_bending_twist_and_shear_are_held_together(family):
    proof = judge_rail(RAIL, PANE, BEAD, loads(1000.0, family), BRACKETS)
    stress, shear = (the(proof.checks, f"long rail {word}") for word in ("stress", "shear in twist"))
    both = the(proof.checks, "long rail bent and sheared at once")
    assert both.demand > max(stress.utilisation, shear.utilisation)
    assert both.demand >= shares(stress.utilisation, shear.utilisation, family)


def test_shear_of_the_forces_is_three_halves_of_their_mean():
    """Beside a bracket at its end a long rail passes on half of its own trapezium, in the upright."""
    proof = judge_rail(RAIL, PANE, BEAD, loads(1000.0), Brackets(2, 1.0))
    wall = (38.1 - 3.175 / 2) * 3.175
    long_only = 1000e-6 * (1600 * 1000 / 2 - 1000**2 / 4) / 2  # half of its trapezium
    assert proof.design.free.shear_mpa >= 1.5 * long_only / wall * 0.95


def test_more_brackets_keep_a_rail_from_tipping():
    few, many = (
        the(judge_rail(RAIL, PANE, BEAD, loads(500.0), put).checks, "long rail tipping over sideways")
        for put in (BRACKETS, Brackets(4, 200.0))
    )
    assert few.limit < many.limit <= bending_limit_mpa("6063-T6", "ASCE", 3.175)


def test_what_stays_moves_the_rail_as_if_the_bead_held_nothing():
    def case(kind, pressure_pa):
        return Case(kind, pressure_pa, 1.0, False, (kind,), ((kind, pressure_pa),))

    figures = judge_rail(RAIL, PANE, BEAD, loads(1000.0), BRACKETS).per_pa
    gust = most_moved(figures, loads(1000.0, cases=(case("wind", 1000.0),)), BEAD)
    snow = most_moved(figures, loads(1000.0, cases=(case("snow", 1000.0),)), BEAD)
    assert gust.sag_mm == pytest.approx(1000 * figures.bead.sag_mm)
    assert snow.twist_deg == pytest.approx(1000 * figures.free.twist_deg)
    mixed = Case("both", 1000.0, 1.0, False, ("snow", "wind"), (("snow", 400.0), ("wind", 600.0)))
    both = most_moved(figures, loads(1000.0, cases=(mixed,)), BEAD)
    assert both.sag_mm == pytest.approx(400 * figures.free.sag_mm + 600 * figures.bead.sag_mm)


def test_a_sag_check_heeds_snow_that_stays():
    snow = Case("snow", 1000.0, 1.0, False, ("snow",), (("snow", 1000.0),))
    proof = judge_rail(RAIL, PANE, BEAD, loads(1000.0, cases=(snow,)), BRACKETS)
    assert the(proof.checks, "long rail twist").demand == pytest.approx(proof.service.free.twist_deg)


def test_a_bead_full_of_suction_peels_on_a_rail_that_turns():
    """1000 mm and 2208 Pa fill a bite of 8 mm; the books' own check passes."""
    proof = judge_rail(RAIL, PANE, BEAD, loads(2207.0), BRACKETS)
    peel = the(proof.checks, "bead peeled open along the long rail")
    assert GLAZING.design_pa > 2207.0 * 1.0 / 2 / 8e-3
    assert not peel.passed
    turn = proof.service.bead.twist_deg
    by_hand = 2207.0 / 2 / 8e-3 / 138e3 + turn_pull_pa(BEAD, turn) / 138e3
    assert peel.demand == pytest.approx(by_hand)


def test_a_bead_that_is_no_structural_silicone_has_no_peel_to_check():
    building = replace(BEAD, sealant=replace(GLAZING, structural=False))
    rules = [check.rule for check in judge_rail(RAIL, PANE, building, loads(500.0), BRACKETS).checks]
    assert not any("peeled" in rule for rule in rules)


@given(st.floats(0.0, 4000.0), st.floats(1.0, 2.0))
def test_more_suction_never_peels_less(suction_pa, factor):
    figures = judge_rail(RAIL, PANE, BEAD, loads(1000.0), BRACKETS).per_pa
    one, other = (
        peel_share(PANE, BEAD, loads(pressure), figures) for pressure in (suction_pa, suction_pa * factor)
    )
    assert other >= one


@given(st.floats(0.5, 9.0))
def test_the_bite_chosen_has_room_for_its_turn(need_mm):
    bite = bite_for_turn_mm(GLAZING, need_mm, 6.0)
    bead = Bead(GLAZING, bite, max(6.0, bite / 3), 5.0)
    assert bite >= need_mm
    assert need_mm / bite + turn_pull_pa(bead, TURN_DEG) / GLAZING.design_pa <= 1 + 1e-9


def test_the_seat_bends_under_the_pane_s_own_heaped_edge():
    places = BRACKETS.places_mm(outer_mm(1600.0, RAIL, BEAD))
    demands = []
    for edges in ((), edges_of(PANE, "ASCE", 1500.0, duration_s=3.0)):
        frame = stand_on_each(RAIL, PANE, BEAD, (places,), edges=edges)[0]
        short = judge_sides(RAIL, PANE, BEAD, loads(1500.0), brackets=BRACKETS, frame=frame, edges=edges)[1]
        demands.append(the(short.checks, "seat bending under the bead").demand)
    even = judge_short_rail(RAIL, PANE, BEAD, loads(1500.0), BRACKETS)
    assert demands[0] == the(even.checks, "seat bending under the bead").demand
    assert demands[1] > 1.03 * demands[0]
