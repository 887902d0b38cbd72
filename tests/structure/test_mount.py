"""Where bolts find room, and what they bear there."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.joining.bolt import M6
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.drilling.mount import (
    WASHER_MM,
    Hold,
    face_mm,
    judge_mount,
    judge_slope,
    mount_place,
    pull_limit_n,
)

GLASS = Sheet("tempered 4", "glass", "tempered", "plain", 4.0, 3.78, 2500, 9e-6, 0.9)
PANE = Pane(1600, 1000, GLASS)
BEAD = Bead(Sealant("glazing silicone", 138e3, 7e3, 0.25, 300, structural=True), 8.0, 6.0, 5.0)
RAIL = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)


@given(st.floats(12, 80), st.floats(12, 80), st.floats(1.5, 5), st.sampled_from(["angle", "channel"]))
def test_a_washer_never_meets_the_pane_the_bead_or_an_edge(seat, upright, wall, profile):
    rail = Rail("any", profile, seat, upright, min(wall, 0.45 * min(seat, upright)), "6063-T6", 6000)
    place = mount_place(rail, BEAD, PANE)
    if place is None:
        return
    if place.leg == "upright":
        assert place.across_mm - WASHER_MM / 2 > face_mm(rail, BEAD, PANE)
        assert place.across_mm + place.edge_mm == pytest.approx(upright)
    else:
        assert place.across_mm - WASHER_MM / 2 > rail.wall_mm + BEAD.gap_mm + BEAD.bite_mm
        assert place.across_mm + place.edge_mm == pytest.approx(seat)
    assert place.edge_mm >= 9.0


def test_a_low_upright_sends_the_bolt_through_the_seat():
    assert mount_place(RAIL, BEAD, PANE).leg == "upright"
    assert mount_place(replace(RAIL, upright_mm=20.0, seat_mm=40.0), BEAD, PANE).leg == "seat"
    assert mount_place(replace(RAIL, upright_mm=20.0, seat_mm=20.0), BEAD, PANE) is None


def test_no_room_at_all_is_never_covered():
    checks = judge_mount(RAIL, None, Hold(100.0, 20.0), "ASCE")
    assert not checks[0].covered


def rules(rail, hold, family="ASCE"):
    place = mount_place(rail, BEAD, PANE)
    return {check.rule: check for check in judge_mount(rail, place, hold, family)}


def test_a_bolt_in_the_upright_is_pushed_by_the_pane_and_pulled_by_the_rail():
    """Lever from the inside of the seat; spread at 45 degrees each way from a washer of 12 mm."""
    found = rules(RAIL, Hold(500.0, 300.0))
    lever = mount_place(RAIL, BEAD, PANE).across_mm - 3.175
    assert found["bracket bolt M6 A2-70 pushed in the upright"].demand == 500.0
    assert found["bracket bolt M6 A2-70 pulled in the upright"].demand == 300.0
    bent = found["upright bending at a bracket"].demand
    assert bent == pytest.approx(300 * lever / ((2 * lever + 12) * 3.175**2 / 6))
    pull, push = 300 / (0.75 * 700 * 20.1 / 2.34), 500 / (0.6 * 700 * 20.1 / 2.34)
    assert found["bracket bolt M6 A2-70 pulled and pushed"].demand == pytest.approx(
        (pull**2 + push**2) ** 0.5, rel=2e-3
    )


def test_a_nut_goes_through_a_wall_by_the_shear_of_its_ring():
    """0.6 pi 9.6 mm 3.175 mm of 6063-T6, Ftu 207 MPa over 1.95, or fu 195 MPa over 1.25 (3 < t <= 25 mm)."""
    ring = 0.6 * math.pi * 9.6 * 3.175
    rule = "bracket bolt through the rail's wall"
    assert rules(RAIL, Hold(1.0, 1.0))[rule].limit == pytest.approx(ring * 207 / 1.95, rel=5e-3)
    assert rules(RAIL, Hold(1.0, 1.0), "EN")[rule].limit == pytest.approx(ring * 195 / 1.25, rel=5e-3)


def test_the_side_of_a_tube_bends_between_its_corners():
    tube = replace(RAIL, profile="tube", wall_mm=2.0)
    lever = 38.1 / 2 - 2.0
    bent = rules(tube, Hold(0.0, 300.0))["upright bending at a bracket"].demand
    assert bent == pytest.approx(300 * lever / 2 / ((2 * lever + 12) * 4 / 6))


def test_seat_at_a_bracket_bends_as_a_cantilever_over_its_spread():
    low = replace(RAIL, upright_mm=20.0, seat_mm=40.0)
    place = mount_place(low, BEAD, PANE)
    found = {check.rule: check for check in judge_mount(low, place, Hold(500.0, 90.0), "ASCE")}
    bend, pull = found["seat bending at a bracket"], found["bracket bolt M6 A2-70 pulled in the seat"]
    assert found["bracket bolt M6 A2-70 pushed in the seat"].demand == 90.0
    lever = 5.0 + 8.0 + 7.0
    assert bend.demand == pytest.approx(500 * lever / ((2 * lever + 12) * 3.175**2 / 6))
    assert pull.limit == pytest.approx(0.75 * 700 * 20.1 / 2.34, rel=2e-3)


LOW = replace(RAIL, upright_mm=20.0, seat_mm=40.0)


@pytest.mark.parametrize(
    ("rail", "runs_up", "pull", "push"),
    [
        (RAIL, True, 300.0, math.hypot(500, 1200)),  # along the rail, square to what goes across
        (LOW, True, 500.0, math.hypot(300, 1200)),
        (LOW, False, 500.0, 1500.0),  # the way the rail would move
    ],
)
def test_what_goes_down_the_slope_pushes_the_rails_bolts(rail, runs_up, pull, push):
    place = mount_place(rail, BEAD, PANE)
    side, both = judge_slope(rail, place, Hold(500.0, 300.0), 1200.0, runs_up=runs_up, family="EN")
    assert side.demand == pytest.approx(push)
    bears = 700 * 20.1 / 1.25
    wall = 2.5 * min(1.0, place.edge_mm / (3 * 6.6)) * 195 * 6.0 * 3.175 / 1.25
    assert side.limit == pytest.approx(min(0.5 * bears, wall), rel=2e-3)
    assert both.demand == pytest.approx(push / (0.5 * bears) + pull / (0.9 * bears) / 1.4, rel=2e-3)


def test_a_level_rails_upright_is_pressed_on_its_bracket_and_pulls_no_bolt():
    place, hold = mount_place(RAIL, BEAD, PANE), Hold(500.0, 300.0)
    assert judge_slope(RAIL, place, hold, 1200.0, runs_up=False, family="EN") == ()
    assert judge_slope(RAIL, place, hold, 0.0, runs_up=True, family="EN") == ()
    assert judge_slope(RAIL, None, hold, 1200.0, runs_up=True, family="EN") == ()


@given(st.floats(1, 5000), st.floats(1, 3), st.booleans(), st.sampled_from(["ASCE", "EN"]))
def test_more_down_the_slope_is_never_safer(slope_n, factor, runs_up, family):
    place, hold = mount_place(LOW, BEAD, PANE), Hold(500.0, 300.0)
    less, more = (
        judge_slope(LOW, place, hold, slope, runs_up=runs_up, family=family)
        for slope in (slope_n, factor * slope_n)
    )
    assert all(m.utilisation >= s.utilisation for s, m in zip(less, more, strict=True))


@given(st.floats(1, 20000), st.floats(1, 3), st.sampled_from(["ASCE", "EN"]))
def test_more_reaction_is_never_safer(reaction_n, factor, family):
    place = mount_place(RAIL, BEAD, PANE)
    for hold, more in (
        (Hold(reaction_n, 0.0), Hold(reaction_n * factor, 0.0)),
        (Hold(0.0, reaction_n), Hold(0.0, reaction_n * factor)),
    ):
        both = zip(
            judge_mount(RAIL, place, hold, family), judge_mount(RAIL, place, more, family), strict=True
        )
        assert all(after.utilisation >= before.utilisation for before, after in both)
    assert pull_limit_n(M6, family) > 0


def test_bolts_and_glass_stay_under_the_bulb_of_a_drawn_rail():
    def bulb(foot):
        line = ((0, 0), (40, 0), (40, 3), (3, 3), (3, foot), (12, foot), (12, 45), (0, 45))
        return Rail("drawn", "drawn", 40, 45, 3, "6063-T6", 6000, line)

    high, low = mount_place(bulb(35), BEAD, PANE), mount_place(bulb(25), BEAD, PANE)
    assert high.leg == "upright"
    assert high.across_mm + 9 <= 35
    assert low.leg == "seat"
