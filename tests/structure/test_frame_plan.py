"""Laws of the frame as sawn and drilled, and of its mass."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.joining.fastener import FASTENERS
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.drilling.fixing import FIXINGS, joint
from panewright.structure.drilling.frame_plan import plan_frame
from panewright.structure.handling import hole_checks
from panewright.structure.mass import ONE_PERSON_KG, judge_mass, panel_mass
from panewright.structure.rails.rails import Brackets

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
SILICONE = Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True)
BEAD = Bead(SILICONE, 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
PANE = Pane(1600, 1000, GLASS)

plans = st.builds(
    lambda long_mm, aspect, leg, count, upright, corner: plan_frame(
        Pane(long_mm, long_mm * aspect, GLASS),
        BEAD,
        Rail("any", "angle", leg, leg, 3.0, "6063-T6", 6000),
        Brackets(count, 0.2 * long_mm),
        upright=upright,
        corner=corner,
    ),
    st.floats(700, 2200),
    st.floats(0.5, 1.0),
    st.floats(25, 60),
    st.integers(2, 4),
    st.booleans(),
    st.sampled_from(["mitred", "lapped"]),
)


def test_outer_frame_is_pane_gaps_and_walls():
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0))
    assert (plan.pane_width_mm, plan.pane_height_mm) == (1000, 1600)
    assert plan.outer_width_mm == pytest.approx(1000 + 2 * (5 + 3.175))
    assert plan.outer_height_mm == pytest.approx(1600 + 2 * (5 + 3.175))
    assert plan.rail_length_mm == pytest.approx(2 * (plan.outer_width_mm + plan.outer_height_mm))


@given(plans)
def test_every_hole_lies_in_its_leg_clear_of_its_edges(plan):
    for piece in plan.pieces:
        for hole in piece.holes:
            leg = plan.rail.upright_mm if hole.leg == "upright" else plan.rail.seat_mm
            radius = hole.diameter_mm / 2
            assert radius < hole.along_mm < piece.length_mm - radius
            assert plan.rail.wall_mm + radius <= hole.across_mm <= leg - radius
            if hole.leg == "seat":  # a mitre takes as much off the seat as it runs inward
                assert hole.across_mm + radius < hole.along_mm < piece.length_mm - hole.across_mm - radius


@given(plans)
def test_no_two_holes_of_a_leg_run_into_each_other(plan):
    for piece in plan.pieces:
        for number, one in enumerate(piece.holes):
            for other in piece.holes[number + 1 :]:
                apart = ((one.along_mm - other.along_mm) ** 2 + (one.across_mm - other.across_mm) ** 2) ** 0.5
                assert one.leg != other.leg or apart > one.diameter_mm


@given(plans)
def test_brackets_sit_on_the_long_rails_only_and_mirror_each_other(plan):
    long = max(piece.length_mm for piece in plan.pieces)
    for piece in plan.pieces:
        places = [hole.along_mm for hole in piece.holes if hole.purpose == "bracket"]
        mirrored = sorted(piece.length_mm - place for place in places)
        assert places == pytest.approx(mirrored)
        if piece.length_mm < long - 2 * plan.rail.wall_mm - 1:
            assert places == []
    assert len({len(p.holes) for p in (plan.pieces[1], plan.pieces[3])}) == 1


@given(plans)
def test_the_low_rail_drains_and_carries_one_earth(plan):
    purposes = [hole.purpose for hole in plan.pieces[0].holes]
    assert purposes.count("earth") == 1
    assert purposes.count("drain") == 2
    assert all(hole.purpose not in ("earth", "drain") for piece in plan.pieces[1:] for hole in piece.holes)


@given(plans)
def test_each_end_of_each_rail_has_two_corner_holes_that_mirror_the_other_end(plan):
    for piece in plan.pieces:
        corner = [hole for hole in piece.holes if hole.purpose == "corner"]
        places = [hole.along_mm for hole in corner]
        first = 15.0 + (plan.rail.seat_mm if corner[0].leg == "seat" else 0.0)
        wanted = first, first + 25, piece.length_mm - first - 25, piece.length_mm - first
        assert places == pytest.approx(wanted)


def test_drains_lie_just_above_the_face_of_the_pane_where_the_upright_dams_water():
    drain = next(
        h for h in plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0)).pieces[0].holes if h.purpose == "drain"
    )
    assert drain.leg == "upright"
    assert drain.across_mm - drain.diameter_mm / 2 == pytest.approx(3.175 + 6.0 + 4.0)


def test_lapped_rails_stand_between_the_uprights_of_the_side_rails():
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0), corner="lapped")
    bottom, right, _, _ = plan.pieces
    assert bottom.length_mm == pytest.approx(plan.outer_width_mm - 2 * 3.175)
    assert bottom.cope_mm == pytest.approx(38.1 - 3.175)
    assert (right.length_mm, right.cut_deg) == (plan.outer_height_mm, 90.0)


def test_brackets_of_a_lapped_long_rail_keep_their_place_in_the_frame():
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0), upright=False, corner="lapped")
    places = [hole.along_mm for hole in plan.pieces[0].holes if hole.purpose == "bracket"]
    assert places[0] == pytest.approx(300.0 - 3.175)


def test_mass_is_the_sum_of_its_parts_by_hand():
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0))
    mass = panel_mass(PANE, plan, BEAD, (("cells", 0.7), ("box", 0.3)))
    parts = dict(mass.parts)
    assert parts["pane"] == pytest.approx(1.6 * 1.0 * 0.004 * 2500)
    assert parts["rails"] == pytest.approx(plan.rail_length_mm * 1e-3 * 231.854e-6 * 2690, rel=1e-5)
    assert mass.total_kg == pytest.approx(sum(parts.values()))
    assert judge_mass(mass).passed is (mass.total_kg <= ONE_PERSON_KG)
    assert not judge_mass(mass, 10.0).passed


def test_every_hole_is_of_the_size_of_what_goes_through_it():
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0))
    sizes = {fixing.purpose: fixing.hole_mm for fixing in FIXINGS}
    holes = [hole for piece in plan.pieces for hole in piece.holes]
    assert {hole.purpose for hole in holes} >= {"bracket", "corner", "earth"}
    assert all(hole.diameter_mm == sizes[hole.purpose] for hole in holes)
    assert plan.holes() == len(holes) == sum(plan.holes(purpose) for purpose in sizes)


def test_welded_rails_are_mitred_and_have_no_holes_at_their_corners():
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0), corner="welded")
    assert all(piece.cut_deg == 45.0 and piece.cope_mm == 0.0 for piece in plan.pieces)
    assert (plan.holes("corner"), plan.joint) == (0, None)
    assert plan.holes("bracket") == 4


@pytest.mark.parametrize("name", sorted(FASTENERS))
def test_corner_holes_are_for_the_fastener_that_goes_through_them(name):
    fastened = joint(name)
    plan = plan_frame(PANE, BEAD, RAIL, Brackets(2, 300.0), joint=fastened)
    found = {hole.diameter_mm for piece in plan.pieces for hole in piece.holes if hole.purpose == "corner"}
    assert found == {fastened.fastener.hole_mm}
    assert fastened.fastener.diameter_mm < fastened.fastener.hole_mm
    assert plan.holes("corner") == 16
    assert all(check.passed for check in hole_checks(plan))
    assert (fastened.clip_use == "cleat") is (fastened.clip.metal == "aluminium")


def test_lapped_tubes_butt_on_the_whole_width_of_the_side_rails():
    tube = Rail("tube", "tube", 30.0, 30.0, 2.0, "6063-T6", 6000)
    plan = plan_frame(PANE, BEAD, tube, Brackets(2, 300.0), corner="lapped")
    bottom, right, _, _ = plan.pieces
    assert (bottom.length_mm, bottom.cope_mm) == (pytest.approx(plan.outer_width_mm - 60.0), 0.0)
    assert right.length_mm == plan.outer_height_mm
