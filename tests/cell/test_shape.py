"""Geometry of whole, clipped and cut cells."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.shape import Shape, area_mm2, end_widths_mm, outline, strips


@st.composite
def wafers(draw):
    width, length = draw(st.floats(50, 220)), draw(st.floats(50, 220))
    circle = draw(st.one_of(st.none(), st.floats(1.001, 1.6).map(lambda k: k * max(width, length))))
    return Shape(width, length, circle)


def shoelace_mm2(points):
    x, y = np.array(points).T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def test_a_full_square_is_its_sides():
    assert area_mm2(Shape(156, 156)) == 156 * 156
    assert len(outline(Shape(156, 156))) == 4


def test_a_pseudo_square_is_the_square_less_four_corners():
    a, r = 78.0, 100.0  # corner piece by calculus: between the circle and the square's corner
    reach = math.sqrt(r * r - a * a)
    under = 0.5 * (a * reach + r * r * math.asin(a / r)) - 0.5 * (reach * a + r * r * math.asin(reach / r))
    corner = a * (a - reach) - under
    assert area_mm2(Shape(156, 156, circle_mm=200)) == pytest.approx(156 * 156 - 4 * corner, rel=1e-14)


@given(wafers(), st.integers(1, 6))
def test_strips_make_up_the_wafer(wafer, parts):
    pieces = strips(wafer, parts)
    assert sum(area_mm2(piece) for piece in pieces) == pytest.approx(area_mm2(wafer), rel=1e-12)
    middles = [piece.off_centre_mm for piece in pieces]
    assert middles == sorted(middles)
    assert [area_mm2(piece) for piece in pieces] == pytest.approx([area_mm2(p) for p in reversed(pieces)])


@given(wafers(), st.integers(1, 4), st.data())
def test_the_outline_encloses_the_area(wafer, parts, data):
    piece = data.draw(st.sampled_from(strips(wafer, parts)))
    points = outline(piece)
    missing = area_mm2(piece) - shoelace_mm2(points)
    edge = 2 * (piece.width_mm + piece.length_mm)
    assert -1e-9 * area_mm2(piece) <= missing <= 0.005 * edge  # counter-clockwise, chords inside the arc
    x, y = np.array(points).T
    assert max(abs(x)) <= piece.width_mm / 2 + 1e-9
    assert (min(y), max(y)) == pytest.approx((-piece.length_mm / 2, piece.length_mm / 2))


@given(wafers())
def test_no_chord_leaves_the_arc_by_more_than_five_thousandths(wafer):
    if wafer.circle_mm is None:
        return
    points = np.array(outline(wafer))
    middles = (points + np.roll(points, -1, axis=0)) / 2
    on_arc = np.isclose(np.hypot(*points.T), wafer.circle_mm / 2)
    straight = np.any(np.isclose(points, np.roll(points, -1, axis=0)), axis=1)  # along a side
    chords = on_arc & np.roll(on_arc, -1) & ~straight
    assert np.all(wafer.circle_mm / 2 - np.hypot(*middles[chords].T) <= 0.005001)


def test_the_middle_third_of_a_pseudo_square_is_larger_than_the_ends():
    end, middle, other = (area_mm2(piece) for piece in strips(Shape(156, 156, circle_mm=200), 3))
    assert end == pytest.approx(other)
    assert middle == 156 * 52
    assert end < middle


def test_a_cut_edge_is_as_long_as_the_wafer_is_wide_there():
    low, high = strips(Shape(125, 125, circle_mm=150), 2)
    assert end_widths_mm(low)[1] == end_widths_mm(high)[0] == 125
    assert end_widths_mm(low)[0] == pytest.approx(2 * math.sqrt(75**2 - 62.5**2))


def test_a_wafer_cannot_be_cut_into_no_parts():
    with pytest.raises(ValueError, match="1 part or more"):
        strips(Shape(156, 156), 0)
