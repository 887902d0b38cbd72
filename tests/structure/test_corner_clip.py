"""Laws of the corner clip itself, and how it is chosen."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.check import Check
from panewright.frame.joining.fastener import FASTENERS
from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.frame.support.clip import USUAL, Clip, cut_clip
from panewright.structure.corners.clip import (
    Clipped,
    choose_clip,
    clip_stress_mpa,
    judge_clip,
    kept_turn_nmm,
    least_apart_mm,
    ways,
)
from panewright.structure.corners.force import CornerForce
from panewright.structure.corners.handled import fastener_checks

RAIL = Rail("L40", "angle", 40.0, 40.0, 4.0, "6063-T6", 6000)
CLIP = cut_clip("clip", "stainless", 20.0, 4.0)
#: room 26 wide: hole in the middle of the clip, 16 mm from the end, 16 - 4 - 2 to the other leg's middle
UPRIGHT = Clipped(CLIP, RAIL, FASTENERS["screw M5"], "upright", 16.0, 10.0, 10.0, 25.0, 26.0, 2600.0)
SEAT = replace(UPRIGHT, leg="seat", from_end_mm=40.0)
NET = 20.0 - 5.5
PARTS = ("shear_n", "pull_n", "apart_n", "twist_nmm", "tilt_nmm", "turn_nmm")
forces = st.builds(CornerForce, st.just("at will"), *[st.floats(0, 5000)] * 3, *[st.floats(0, 50_000)] * 3)
families = st.sampled_from(["ASCE", "EN"])
corners = st.sampled_from([UPRIGHT, SEAT])


def stress(force, corner=UPRIGHT):
    return clip_stress_mpa(corner, force, "EN")


@given(forces, st.sampled_from(PARTS), st.floats(1, 3), families, corners)
def test_more_of_any_force_or_moment_is_never_safer(force, part, factor, family, corner):
    grown = replace(force, **{part: factor * getattr(force, part)})
    assert clip_stress_mpa(corner, grown, family) >= clip_stress_mpa(corner, force, family) * (1 - 1e-12)


@given(forces, corners, st.floats(10, 20))
def test_a_hole_nearer_to_the_clips_edge_is_never_better(force, corner, edge_mm):
    near = stress(force, replace(corner, edge_mm=edge_mm / 2))
    assert near >= stress(force, replace(corner, edge_mm=edge_mm)) * (1 - 1e-12)


def test_a_pull_along_the_leg_is_borne_by_the_net_section():
    """1160 N over (20 - 5.5) x 4 mm."""
    assert stress(CornerForce("by hand", 0.0, 1160.0)) == pytest.approx(20.0)


def test_what_pulls_the_rails_apart_unbends_the_leg_between_its_screw_and_its_heel():
    """400 N, half of 10 mm: 2 N m in a plastic 14.5 x 16 / 4; sheared by 1.5 of 400 N over 58 mm2."""
    bent, sheared = 2000 / (NET * 16 / 4), 1.5 * 400 / (NET * 4)
    assert stress(CornerForce("by hand", 0.0, apart_n=400.0)) == pytest.approx(
        math.sqrt(bent**2 + 3 * sheared**2)
    )


def test_a_tilt_bends_the_leg_as_it_lies():
    """10 N m in an elastic 4 x (20^3 - 5.5^3) / (6 x 20)."""
    flat = 6 * 20 * 10_000 / (4 * (20**3 - 5.5**3))
    assert stress(CornerForce("by hand", 0.0, tilt_nmm=10_000.0)) == pytest.approx(flat)


def test_a_twist_shears_the_leg():
    twisted = 2 * 1000 / (NET * 16)
    assert stress(CornerForce("by hand", 0.0, twist_nmm=1000.0)) == pytest.approx(math.sqrt(3) * twisted)


def test_a_flat_clip_in_the_seat_is_unbent_by_the_tilt_and_bent_as_it_lies_by_the_turn():
    tilted = stress(CornerForce("by hand", 0.0, tilt_nmm=1000.0), SEAT)
    assert tilted == pytest.approx(4 * 1000 / (NET * 16))
    turned = stress(CornerForce("by hand", 0.0, turn_nmm=10_000.0), SEAT)
    assert turned == pytest.approx(6 * 20 * 10_000 / (4 * (20**3 - 5.5**3)))


def test_of_a_turn_a_clip_gets_what_a_spring_between_two_rails_would():
    """Ends of two rails turn by M L / 2 E I each, the spring by M / k: together what a hinge turns by."""
    turn = CornerForce("by hand", 0.0, turn_nmm=50_000.0)
    kept = kept_turn_nmm(UPRIGHT, turn, "EN")
    stiff = 193e3 * 20 * 4**3 / 12 / (2 * (10 - 5))
    # an equal angle, free to move: the product of both principal moments over one about its legs
    shape = section(RAIL)
    gives = 2600 / (2 * 70e3 * shape.imax_mm4 * shape.imin_mm4 / shape.ix_mm4)
    assert kept / stiff + kept * gives == pytest.approx(50_000 * gives)


def test_fasteners_get_the_clips_share_of_a_turn_or_the_tie_of_the_mitre():
    """50 N m tied over half of 36 mm is 2778 N, of two screws, 300 N of pull beside it."""
    turn = CornerForce("by hand", 0.0, pull_n=300.0, turn_nmm=50_000.0)
    kept = kept_turn_nmm(UPRIGHT, turn, "EN")
    stiff, loose = ways(UPRIGHT, turn, "EN")
    assert (stiff.turn_nmm, stiff.pull_n) == pytest.approx((kept, 300 + (50_000 - kept) / 18))
    assert (loose.turn_nmm, loose.pull_n) == pytest.approx((0.0, 300 + 50_000 / 18))
    shear, pull, both, _ = fastener_checks(UPRIGHT, (turn,), "EN")
    assert shear.demand == pytest.approx((300 + 50_000 / 18) / 2)
    assert pull.demand == pytest.approx(kept * 35 / (35**2 + 10**2))
    limits = shear.limit, pull.limit
    assert both.demand == pytest.approx(stiff.pull_n / 2 / limits[0] + pull.demand / limits[1])
    assert ways(SEAT, turn, "EN") == (turn, turn)


@given(forces, families)
def test_a_clip_between_stiff_and_loose_is_never_worse_off_than_both(force, family):
    stiff, loose = ways(UPRIGHT, force, family)
    half = replace(
        force,
        turn_nmm=(stiff.turn_nmm + loose.turn_nmm) / 2,
        pull_n=(stiff.pull_n + loose.pull_n) / 2,
    )
    between = clip_stress_mpa(UPRIGHT, force, family)
    assert _plain_stress(half) <= between * (1 + 1e-9)


def _plain_stress(got):
    """At the hole, written out once more from the words above the code."""
    flat = 6 * 20 * (got.tilt_nmm + got.shear_n * 16) / (4 * (20**3 - 5.5**3))
    bent = 4 * (got.turn_nmm + got.apart_n * 5) / (NET * 16)
    shear = 1.5 * math.hypot(got.shear_n, got.apart_n) / (NET * 4) + 2 * got.twist_nmm / (NET * 16)
    return math.hypot(got.pull_n / (NET * 4) + flat + bent, math.sqrt(3) * shear)


@given(st.floats(1, 12), st.floats(1, 1.5), st.floats(400, 6000))
def test_a_thicker_clip_gets_more_of_the_turn_and_never_more_than_a_stiff_corner(wall_mm, factor, sides_mm):
    turn = CornerForce("by hand", 0.0, turn_nmm=1000.0)
    thin, thick = (
        kept_turn_nmm(
            replace(
                UPRIGHT, clip=cut_clip("c", "aluminium", 20.0, wall), from_end_mm=30.0, sides_mm=sides_mm
            ),
            turn,
            "EN",
        )
        for wall in (wall_mm, factor * wall_mm)
    )
    assert 0 < thin <= thick * (1 + 1e-12) < 1000.0 * (1 + 1e-12)


def test_a_hole_that_eats_the_clip_never_holds():
    gone = replace(UPRIGHT, edge_mm=2.5)
    assert clip_stress_mpa(gone, CornerForce("by hand", 1.0), "EN") == math.inf
    assert not all(check.passed for check in judge_clip(gone, (CornerForce("by hand", 1.0),), "EN"))


def test_a_clip_wider_than_the_free_leg_is_told():
    room = next(c for c in judge_clip(replace(UPRIGHT, room_mm=19.0), (), "EN") if "room" in c.rule)
    assert (room.demand, room.limit, room.passed) == (20.0, 19.0, False)


@pytest.mark.parametrize(
    ("name", "family", "apart_mm"),
    [
        ("screw M6", "ASCE", 15.0),
        ("screw M6", "EN", 14.52),
        ("rivet 4.8 stainless", "EN", 14.4),
        ("rivet 4.8 stainless", "ASCE", 14.4),
    ],
)
def test_holes_keep_apart_by_the_familys_own_rule(name, family, apart_mm):
    assert least_apart_mm(FASTENERS[name], family) == pytest.approx(apart_mm)


def test_the_metal_has_the_limit_of_its_own_family():
    """Soft stainless 304: 207 / 1.67 and 210 / 1.10; 6061-T6: rupture 262 / 1.95, and 240 / 1.10."""
    force = (CornerForce("by hand", 1.0),)
    found = {
        (metal, family): judge_clip(replace(UPRIGHT, clip=USUAL[metal]), force, family)[0].limit
        for metal in ("stainless", "aluminium")
        for family in ("ASCE", "EN")
    }
    assert found == {
        ("stainless", "ASCE"): pytest.approx(123.95, abs=0.01),
        ("stainless", "EN"): pytest.approx(190.91, abs=0.01),
        ("aluminium", "ASCE"): pytest.approx(134.36, abs=0.01),
        ("aluminium", "EN"): pytest.approx(218.18, abs=0.01),
    }


def _judge(limits):
    def judge(clip):
        own = Check("clip", 1.0, limits[clip.name][0], "MPa", "test")
        return (own,), (Check("screw", 1.0, limits[clip.name][1], "N", "test"),)

    return judge


@pytest.mark.parametrize(
    ("limits", "chosen"),
    [
        ({"a": (2, 2), "b": (2, 2), "c": (2, 2)}, "a"),
        ({"a": (0.5, 2), "b": (2, 2), "c": (2, 2)}, "b"),
        ({"a": (0.5, 2), "b": (2, 0.5), "c": (2, 2)}, "c"),
        ({"a": (0.5, 0.5), "b": (2, 0.5), "c": (2, 0.5)}, "b"),
        ({"a": (0.5, 0.5), "b": (0.6, 0.5), "c": (0.7, 0.5)}, "c"),
    ],
)
def test_the_lightest_that_holds_is_taken(limits, chosen):
    clips = tuple(Clip(name, "aluminium", 16.0, 3.0, mass) for mass, name in ((3, "c"), (1, "a"), (2, "b")))
    assert choose_clip(clips, _judge(limits)).name == chosen
