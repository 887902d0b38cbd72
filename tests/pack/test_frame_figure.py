"""Rails drawn with every hole from one datum."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Arc, Dimension, Path, Text
from panewright.drawing.overlap import crossed, overlaps
from panewright.drawing.paper_size import Size
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane, Sheet
from panewright.pack.figures.frame import (
    brackets_figure,
    diagonal_mm,
    edge_words,
    frame_drawing,
    hole_centre,
    rail_figure,
    told,
)
from panewright.pack.figures.jig import jig_strip
from panewright.pack.figures.scale import figure
from panewright.pack.pages.frame import kinds
from panewright.paper.ink import INKS
from panewright.seal.sealant import Bead, Sealant
from panewright.structure.drilling.frame_plan import Hole, plan_frame
from panewright.structure.rails.rails import Brackets

GLASS = Sheet("4 mm", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
BEAD = Bead(Sealant("silicone", 138e3, 7e3, 0.25, 310.0, True), 9.0, 6.0, 4.0)
ROOM = Size(168.0, 100.0)
ANGLE = Rail("angle 40 x 40 x 4 mm", "angle", 40.0, 40.0, 4.0, "6060-T66", 6000.0)


def framed(long=1500.0, short=700.0, rail=ANGLE, brackets=2, upright=True, corner="mitred"):
    place = Brackets(brackets, 0.21 * long)
    return plan_frame(Pane(long, short, GLASS), BEAD, rail, place, upright=upright, corner=corner)


FRAMES = st.builds(
    framed,
    long=st.floats(900, 2400),
    short=st.floats(350, 890),
    brackets=st.integers(2, 4),
    upright=st.booleans(),
    corner=st.sampled_from(["mitred", "lapped"]),
)


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("short", [90.0, 126.0, 250.0])
def test_words_of_a_short_rail_drawn_at_the_scale_of_a_very_long_one_stand_apart(short, system):
    frame = framed(3915.0, short)
    for name, piece in kinds(frame):
        drawn = rail_figure(piece, frame, 2.8 * 30, system, name)
        assert overlaps(drawn, system) == ()
        assert crossed(drawn, system) == ()


@given(FRAMES, st.sampled_from(["metric", "us"]))
@settings(max_examples=12, deadline=None)
def test_no_words_lie_on_each_other_at_the_scale_of_the_page(frame, system):
    for name, piece in kinds(frame):
        drawn = figure(lambda text, n=name, p=piece: rail_figure(p, frame, text, system, n), ROOM, "", system)
        assert overlaps(drawn.drawing, system) == ()
        assert crossed(drawn.drawing, system) == ()
    drawn = figure(lambda text: brackets_figure(frame, text, system), ROOM, "", system)
    assert overlaps(drawn.drawing, system) == ()
    assert crossed(drawn.drawing, system) == ()


@given(FRAMES)
@settings(max_examples=12, deadline=None)
def test_every_hole_is_drawn_where_it_is_drilled_and_told_from_the_datum(frame):
    for piece in frame.pieces:
        drawing = rail_figure(piece, frame, 27.0)
        drawn = sorted((arc.centre, arc.radius_mm) for arc in drawing.items if isinstance(arc, Arc))
        wanted = sorted(
            (
                (hole.along_mm, hole.across_mm if hole.leg == "upright" else -hole.across_mm),
                hole.diameter_mm / 2,
            )
            for hole in piece.holes
        )
        assert drawn == wanted
        said = sorted(
            item.words[3:] for item in drawing.items if isinstance(item, Text) and item.angle_deg == 90
        )
        assert said == sorted(told(hole.along_mm, "metric") for hole in piece.holes)


@given(FRAMES)
def test_alike_rails_are_told_once_and_none_is_forgotten(frame):
    names = [name for names, _ in kinds(frame) for name in names.split(" and ")]
    assert sorted(names) == sorted(piece.name for piece in frame.pieces)


@given(FRAMES)
@settings(max_examples=12, deadline=None)
def test_the_length_of_a_rail_and_every_distance_across_it_are_dimensioned(frame):
    for piece in frame.pieces:
        told_mm = [d.length_mm for d in rail_figure(piece, frame, 27.0).items if isinstance(d, Dimension)]
        across = {(hole.leg, hole.across_mm) for hole in piece.holes}
        assert sorted(told_mm) == pytest.approx(sorted([piece.length_mm, *(mm for _, mm in across)]))


def test_a_hole_is_told_from_the_outside_of_the_other_leg():
    assert edge_words(Hole(100.0, 25.0, 5.5, "upright", "earth")) == (
        "upright, 25\u2009mm up from seat's outside"
    )
    assert edge_words(Hole(100.0, 18.0, 5.0, "seat", "drain")) == (
        "seat, 18\u2009mm in from upright's outside"
    )


def test_brackets_are_drawn_outside_the_frame_on_its_long_rails():
    frame = framed(brackets=3)
    drawing = brackets_figure(frame, 40.0)
    marks = [item for item in drawing.items if getattr(item, "layer", "") == "bracket"]
    margin = BEAD.gap_mm + ANGLE.wall_mm
    assert len(marks) == 6
    for mark in marks:
        xs = [x for x, _ in mark.points]
        assert max(xs) <= -margin + 1e-9 or min(xs) >= 700.0 + margin - 1e-9


def test_brackets_of_both_long_rails_face_each_other():
    drawing = brackets_figure(framed(brackets=4), 40.0)
    marks = [item for item in drawing.items if getattr(item, "layer", "") == "bracket"]
    heights = [tuple(round(y, 6) for _, y in mark.points) for mark in marks]
    assert sorted(set(heights)) == sorted(heights[:4])
    assert len(heights) == 8


def test_the_workshop_drawing_holds_all_rails_side_by_side():
    frame = framed()
    drawing = frame_drawing(frame)
    arcs = [item for item in drawing.items if isinstance(item, Arc)]
    assert len(arcs) == sum(len(piece.holes) for piece in frame.pieces)
    assert overlaps(drawing) == ()
    assert crossed(drawing) == ()
    assert bounds(drawing).width_mm >= max(piece.length_mm for piece in frame.pieces)


def test_both_diagonals_are_drawn_from_corner_to_corner():
    drawing = brackets_figure(framed(1484.0, 684.0), 40.0)
    lines = [item for item in drawing.items if getattr(item, "layer", "") == "centre"]
    lengths = [math.dist(*line.points) for line in lines]
    assert lengths == pytest.approx([diagonal_mm(framed(1484.0, 684.0))] * 2)


def test_the_diagonal_is_that_of_the_outer_sides():
    assert diagonal_mm(framed(1484.0, 684.0)) == pytest.approx((1500.0**2 + 700.0**2) ** 0.5)


@pytest.mark.parametrize("upright", [True, False])
def test_a_hole_is_punched_where_two_unbroken_lines_cross(upright):
    frame = framed(upright=upright)
    for piece in frame.pieces:
        drawn = jig_strip("rail", piece, frame, "metric", 3.2)
        lines = [item for item in drawn.items if isinstance(item, Path) and len(item.points) == 2]
        for hole in piece.holes:
            x, y = hole_centre(hole)
            across = [
                item
                for item in lines
                if min(p[0] for p in item.points) < x < max(p[0] for p in item.points)
                and {round(p[1], 6) for p in item.points} == {round(y, 6)}
            ]
            up = [
                item
                for item in lines
                if min(p[1] for p in item.points) < y < max(p[1] for p in item.points)
                and {round(p[0], 6) for p in item.points} == {round(x, 6)}
            ]
            assert [INKS[item.layer].dash_mm for item in (*across, *up)] == [(), ()]
