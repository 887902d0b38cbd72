"""Laws of torsion that hold for any outline, and how the bounds close in."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.frame.shape.outline import moments
from panewright.frame.shape.torsion import torsion

HOOK = (
    (0.0, 0.0),
    (30.0, 0.0),
    (30.0, 3.0),
    (4.0, 3.0),
    (4.0, 20.0),
    (12.0, 22.0),
    (12.0, 25.0),
    (0.0, 24.0),
)
ROUGH = 2e-3
stars = st.lists(st.floats(4, 20), min_size=4, max_size=9)


def star(radii):
    """A closed line round the origin that cannot cross itself."""
    turn = [2 * math.pi * number / len(radii) for number in range(len(radii))]
    return tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(radii, turn, strict=True))


def moved(outline, *, by=(0.0, 0.0), turn_deg=0.0, scale=1.0):
    c, s = scale * math.cos(math.radians(turn_deg)), scale * math.sin(math.radians(turn_deg))
    return tuple((by[0] + c * x - s * y, by[1] + s * x + c * y) for x, y in outline)


def box(x0, y0, x1, y1):
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def test_the_bounds_close_in_on_the_same_answer():
    found = [torsion((HOOK,), apart) for apart in (1e-2, 1e-3, 1e-4, 1e-5)]
    for rough, fine in pairwise(found):
        assert rough.j_low_mm4 <= fine.j_mm4 <= rough.j_high_mm4
        assert fine.j_high_mm4 - fine.j_low_mm4 < rough.j_high_mm4 - rough.j_low_mm4
    assert found[2].j_mm4 == pytest.approx(found[3].j_mm4, rel=5e-5)
    assert (found[2].x_mm, found[2].y_mm) == pytest.approx((found[3].x_mm, found[3].y_mm), abs=3e-3)


def test_bounds_are_true_ones_for_a_square():
    for apart in (0.1, 1e-2, 1e-3):
        found = torsion((box(0.0, 0.0, 1.0, 1.0),), apart)
        assert found.j_low_mm4 < 0.14057701 < found.j_high_mm4


@settings(deadline=None, max_examples=15)
@given(stars, st.floats(-50, 50), st.floats(-180, 180), st.floats(0.3, 4))
def test_moving_turning_and_scaling_change_nothing_else(radii, by, turn_deg, scale):
    outline = star(radii)
    one = torsion((outline,), ROUGH)
    other = torsion((moved(outline, by=(by, -by), turn_deg=turn_deg, scale=scale),), ROUGH)
    assert other.j_mm4 == pytest.approx(scale**4 * one.j_mm4, rel=ROUGH)
    centre = moved(((one.x_mm, one.y_mm),), by=(by, -by), turn_deg=turn_deg, scale=scale)[0]
    assert (other.x_mm, other.y_mm) == pytest.approx(centre, abs=0.05 * scale)


@settings(deadline=None, max_examples=15)
@given(stars)
def test_no_shape_is_stiffer_than_its_polar_moment(radii):
    outline = star(radii)
    shape, found = moments((outline,)), torsion((outline,), ROUGH)
    assert 0 < found.j_low_mm4 <= found.j_high_mm4 <= (shape.ix_mm4 + shape.iy_mm4) * (1 + 1e-9)
    assert found.j_high_mm4 <= shape.area_mm2**2 / (2 * math.pi) * (1 + 1e-9)  # a disc is the stiffest


@settings(deadline=None, max_examples=15)
@given(stars, st.floats(0.5, 3.5), st.floats(0, 2.5))
def test_a_hole_never_stiffens(radii, half, aside):
    outline, hole = star([r + 4 for r in radii]), box(aside - half / 4, -half / 4, aside + half / 4, half / 4)
    whole, drilled = torsion((outline,), ROUGH), torsion((outline, hole[::-1]), ROUGH)
    assert drilled.j_low_mm4 <= whole.j_high_mm4


@settings(deadline=None, max_examples=15)
@given(stars, st.integers(0, 8), st.floats(0.5, 10))
def test_more_metal_never_softens(radii, where, more):
    thicker = list(radii)
    thicker[where % len(radii)] += more
    thin, thick = star(radii), star(thicker)
    assert torsion((thick,), ROUGH).j_high_mm4 >= torsion((thin,), ROUGH).j_low_mm4


def test_two_holes_twist_as_two_cells():
    """Thin walls, two equal cells: the shear flows round both, the wall between adds no more than a strip."""
    outer, left, right = box(0, 0, 41, 21), box(1, 1, 20, 20), box(21, 1, 40, 20)
    one, two = torsion((outer, box(1, 1, 40, 20)[::-1])), torsion((outer, left[::-1], right[::-1]))
    assert one.j_mm4 < two.j_mm4 < one.j_mm4 + 20 * 20**2
    assert two.j_mm4 == pytest.approx(4 * 800**2 / 120 + 20 / 3, rel=0.03)
    assert (two.x_mm, two.y_mm) == pytest.approx((20.5, 10.5), abs=1e-3)


def test_a_fillet_in_the_inner_corner_stiffens():
    sharp = ((0.0, 0.0), (30.0, 0.0), (30.0, 3.0), (3.0, 3.0), (3.0, 30.0), (0.0, 30.0))
    arc = [math.radians(180 + 90 * number / 6) for number in range(6, -1, -1)]
    round_ = tuple((6 + 3 * math.cos(t), 6 + 3 * math.sin(t)) for t in arc)
    filled = (*sharp[:3], *round_, *sharp[4:])
    assert torsion((filled,)).j_mm4 > 1.03 * torsion((sharp,)).j_mm4
