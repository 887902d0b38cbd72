"""Where bolts find room, and what they bear there."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.bolt import M6
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.mount import WASHER_MM, face_mm, judge_mount, mount_place, pull_limit_n

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
    checks = judge_mount(RAIL, None, 100.0, "ASCE")
    assert not checks[0].covered


def test_seat_at_a_bracket_bends_as_a_cantilever_over_its_spread():
    low = replace(RAIL, upright_mm=20.0, seat_mm=40.0)
    place = mount_place(low, BEAD, PANE)
    pull, bend = judge_mount(low, place, 500.0, "ASCE")
    lever = 5.0 + 8.0 + 7.0
    assert bend.demand == pytest.approx(500 * lever / ((2 * lever + 12) * 3.175**2 / 6))
    assert pull.limit == pytest.approx(0.75 * 700 * 20.1 / 2.34, rel=2e-3)


@given(st.floats(1, 20000), st.floats(1, 3), st.sampled_from(["ASCE", "EN"]))
def test_more_reaction_is_never_safer(reaction_n, factor, family):
    place = mount_place(RAIL, BEAD, PANE)
    less, more = (judge_mount(RAIL, place, one, family)[0] for one in (reaction_n, reaction_n * factor))
    assert more.utilisation >= less.utilisation
    assert pull_limit_n(M6, family) > 0


def test_bolts_and_glass_stay_under_the_bulb_of_a_drawn_rail():
    def bulb(foot):
        line = ((0, 0), (40, 0), (40, 3), (3, 3), (3, foot), (12, foot), (12, 45), (0, 45))
        return Rail("drawn", "drawn", 40, 45, 3, "6063-T6", 6000, line)

    high, low = mount_place(bulb(35), BEAD, PANE), mount_place(bulb(25), BEAD, PANE)
    assert high.leg == "upright"
    assert high.across_mm + 9 <= 35
    assert low.leg == "seat"
