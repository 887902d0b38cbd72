"""Moments of outlines do not depend on where and how they lie, and a line that crosses itself is found."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.frame.shape.mesh import Mesh
from panewright.frame.shape.outline import (
    area_mm2,
    edges,
    first_crossing,
    inside,
    moments,
    side,
    straightened,
    turned,
)

stars = st.lists(st.floats(2, 30), min_size=3, max_size=12)


def star(radii):
    turn = [2 * math.pi * number / len(radii) for number in range(len(radii))]
    return tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(radii, turn, strict=True))


def principal(shape):
    middle = (shape.ix_mm4 + shape.iy_mm4) / 2
    radius = math.hypot((shape.ix_mm4 - shape.iy_mm4) / 2, shape.ixy_mm4)
    return middle + radius, middle - radius


@given(stars, st.floats(-200, 200), st.floats(-200, 200), st.floats(0, 360))
def test_principal_moments_stay_when_the_outline_is_moved_and_turned(radii, dx, dy, turn_deg):
    outline, c, s = star(radii), math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    one = moments((outline,))
    other = moments((tuple((dx + c * x - s * y, dy + s * x + c * y) for x, y in outline),))
    assert other.area_mm2 == pytest.approx(one.area_mm2, rel=1e-9)
    assert principal(other) == pytest.approx(principal(one), rel=1e-7)
    assert other.x_mm == pytest.approx(dx + c * one.x_mm - s * one.y_mm, abs=1e-8)


@given(stars, st.floats(0.1, 1.5))
def test_a_hole_takes_off_what_it_would_have_alone(radii, half):
    outline = star([r + 2 for r in radii])
    hole = ((-half / 2, -half / 2), (-half / 2, half / 2), (half / 2, half / 2), (half / 2, -half / 2))
    whole, drilled, alone = moments((outline,)), moments((outline, hole)), moments((hole[::-1],))
    about = [m.ix_mm4 + m.area_mm2 * m.y_mm**2 for m in (whole, drilled, alone)]
    assert drilled.area_mm2 == pytest.approx(whole.area_mm2 - half**2)
    assert about[1] == pytest.approx(about[0] - about[2])


@given(stars, st.integers(0, 11), st.floats(0.1, 20))
def test_more_metal_has_more_moment_about_a_fixed_axis(radii, where, more):
    thicker = list(radii)
    thicker[where % len(radii)] += more
    thin, thick = moments((star(radii),)), moments((star(thicker),))
    assert thick.ix_mm4 + thick.area_mm2 * thick.y_mm**2 >= thin.ix_mm4 + thin.area_mm2 * thin.y_mm**2 - 1e-9
    assert thick.iy_mm4 + thick.area_mm2 * thick.x_mm**2 >= thin.iy_mm4 + thin.area_mm2 * thin.x_mm**2 - 1e-9


def test_a_right_triangle_by_hand():
    """b h^3 / 36 about its centroid, product - b^2 h^2 / 72 with the right angle at the origin."""
    found = moments((((0.0, 0.0), (6.0, 0.0), (0.0, 12.0)),))
    assert (found.x_mm, found.y_mm) == pytest.approx((2.0, 4.0))
    assert (found.ix_mm4, found.iy_mm4) == pytest.approx((6 * 12**3 / 36, 12 * 6**3 / 36))
    assert found.ixy_mm4 == pytest.approx(-(6**2) * 12**2 / 72)


@given(stars)
def test_a_line_is_turned_so_that_its_metal_lies_to_the_left(radii):
    outline = star(radii)
    assert area_mm2(turned(outline[::-1])) == pytest.approx(area_mm2(outline))
    assert area_mm2(turned(outline, hole=True)) == pytest.approx(-area_mm2(outline))


def test_corners_on_a_straight_are_left_out_and_nothing_else():
    square = ((0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0), (0.0, 1.0))
    assert straightened(square) == ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))


@pytest.mark.parametrize(
    ("outline", "crossing"),
    [
        (((0, 0), (4, 0), (4, 4), (0, 4)), None),
        (((0, 0), (4, 4), (4, 0), (0, 4)), (0, 2)),
        (((0, 0), (4, 0), (2, 0), (2, 4)), (0, 1)),  # runs back on itself
        (((0, 0), (4, 0), (4, 4), (2, 0), (0, 4)), (0, 2)),  # touches
        (((0, 0), (4, 0), (4, 4), (4, 4), (0, 4)), (1, 2)),  # a corner twice
    ],
)
def test_a_line_that_meets_itself_is_found(outline, crossing):
    assert first_crossing(outline) == crossing


@settings(deadline=None)
@given(stars, st.integers(0, 40))
def test_triangles_fill_the_outline_and_stay_whole_when_halved(radii, halvings):
    outline = star(radii)
    mesh = Mesh((outline,))
    for number in range(halvings):
        mesh.halve([list(mesh.triangles)[number % len(mesh.triangles)]])
    areas = [side(*(mesh.points[corner] for corner in each)) / 2 for each in mesh.triangles.values()]
    assert min(areas) > 0
    assert sum(areas) == pytest.approx(area_mm2(outline))
    rim = sum(math.dist(mesh.points[a], mesh.points[b]) for a, b in mesh.rim())
    assert rim == pytest.approx(sum(math.dist(a, b) for a, b in edges(outline)))


def test_triangles_keep_out_of_holes():
    outer = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0))
    holes = [((x, y), (x, y + 4), (x + 4, y + 4), (x + 4, y)) for x in (3.0, 13.0, 23.0) for y in (3.0, 17.0)]
    mesh = Mesh((outer, *holes))
    areas = [side(*(mesh.points[corner] for corner in each)) / 2 for each in mesh.triangles.values()]
    assert sum(areas) == pytest.approx(40 * 30 - 6 * 16)
    for each in mesh.triangles.values():
        x, y = (sum(mesh.points[corner][axis] for corner in each) / 3 for axis in (0, 1))
        assert not any(inside((x, y), hole) for hole in holes)
