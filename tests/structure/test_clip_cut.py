"""The corner clip as it is cut and bent, against the rails' own holes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.frame.support.clip import USUAL, cut_clip
from panewright.glass.pane import Pane, Sheet
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.corners.clip_cut import bend_allowance_mm, clip_cut, short_mm
from panewright.structure.corners.corner import APART_MM, TOE_MM
from panewright.structure.drilling.fixing import joint
from panewright.structure.drilling.frame_plan import plan_frame
from panewright.structure.rails.rails import Brackets

GLASS = Sheet("4 mm", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 310.0, True), 9.0, 6.0, 4.0)
ANGLE = Rail("angle 40 x 40 x 4 mm", "angle", 40.0, 40.0, 4.0, "6060-T66", 6000.0)
WIDE_SEAT = Rail("angle 60 x 22 x 3 mm", "angle", 60.0, 22.0, 3.0, "6060-T66", 6000.0)
TUBE = Rail("tube 30 x 30 x 2 mm", "tube", 30.0, 30.0, 2.0, "6060-T66", 6000.0)


def framed(rail=ANGLE, corner="mitred", fastener="screw M5"):
    how = None if corner == "welded" else joint(fastener)
    pane = Pane(1500.0, 700.0, GLASS)
    return plan_frame(pane, BEAD, rail, Brackets(2, 300.0), corner=corner, joint=how)


def corner_places(frame, number):
    """Holes of a rail near its first end, from the frame's outer corner."""
    piece = frame.pieces[number]
    along = sorted(hole.along_mm for hole in piece.holes if hole.purpose == "corner")[:2]
    return [at + short_mm(piece, frame) for at in along]


@pytest.mark.parametrize("corner", ["mitred", "lapped"])
@pytest.mark.parametrize("rail", [ANGLE, WIDE_SEAT, TUBE], ids=lambda rail: rail.name)
def test_the_clips_holes_lie_over_the_rails_holes(rail, corner):
    frame = framed(rail, corner)
    clip = clip_cut(frame)
    for number, leg in enumerate(clip.legs):
        there = corner_places(frame, number)
        if clip.kind == "flat":  # laid with its heel at the lower left of both holes' lines
            heel = clip.level_mm - clip.clip.wide_mm / 2
        else:
            heel = -clip.clip.wall_mm if clip.outside else rail.wall_mm
        assert [heel + at for at in leg.holes_mm] == pytest.approx(there)
        assert leg.holes_mm[1] - leg.holes_mm[0] == pytest.approx(APART_MM)
        assert leg.long_mm == pytest.approx(leg.holes_mm[1] + TOE_MM)


def test_mitred_legs_are_alike_and_lapped_ones_differ_by_the_wall():
    assert clip_cut(framed()).alike
    bottom, side = clip_cut(framed(corner="lapped")).legs
    assert bottom.long_mm - side.long_mm == pytest.approx(ANGLE.wall_mm)


def test_a_welded_corner_has_no_clip():
    assert clip_cut(framed(corner="welded")) is None


def test_how_a_clip_is_made_follows_from_its_metal_and_its_leg():
    assert clip_cut(framed(fastener="rivet 4.8 aluminium")).kind == "sawn"
    assert clip_cut(framed(fastener="screw M5")).kind == "bent"
    assert clip_cut(framed(WIDE_SEAT)).kind == "flat"
    assert clip_cut(framed(TUBE)).outside


def test_a_bent_strip_is_as_long_as_its_neutral_line():
    clip = clip_cut(framed(fastener="screw M5"))
    t = r = clip.clip.wall_mm
    straight = sum(leg.long_mm - t - r for leg in clip.legs)
    neutral = r + 0.65 * t / 2  # DIN 6935, k = 0.65 where the radius is the thickness (recalled)
    assert clip.blank_mm == pytest.approx(straight + math.pi / 2 * neutral)
    assert clip.bend_line_mm == pytest.approx(clip.blank_mm / 2)


def test_holes_of_the_strip_are_where_the_legs_have_them():
    clip = clip_cut(framed(corner="lapped", fastener="screw M5"))
    first, second = clip.legs
    places = clip.blank_holes_mm
    assert [first.long_mm - at for at in places[:2]] == pytest.approx(sorted(first.holes_mm, reverse=True))
    assert [clip.blank_mm - at for at in places[2:]] == pytest.approx(
        [second.long_mm - at for at in second.holes_mm]
    )


@given(st.floats(0.5, 6.0), st.floats(0.5, 20.0))
def test_a_bend_takes_no_more_than_the_sharp_corner_and_never_adds(thick, radius):
    less = bend_allowance_mm(thick, radius)
    arc = math.pi / 2 * radius, math.pi / 2 * (radius + thick)
    assert arc[0] - 1e-9 <= less + 2 * (radius + thick) <= arc[1] or radius < 0.06 * thick
    assert less < 0


def test_a_bend_without_thickness_is_our_mistake():
    with pytest.raises(ValueError, match="thickness"):
        bend_allowance_mm(0.0, 2.0)


def test_usual_clips_have_the_mass_of_their_size():
    usual = USUAL["stainless"]
    assert usual.mass_kg == cut_clip("c", "stainless", usual.wide_mm, usual.wall_mm).mass_kg
