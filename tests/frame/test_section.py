"""Laws of sections, and the same integrals by another road: corner by corner round the outline."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.frame.section import section

sizes = st.tuples(st.floats(12, 120), st.floats(12, 120), st.floats(0.05, 0.45))


def rail(profile, size, alloy="6063-T6"):
    seat, upright, share = size
    return Rail("any", profile, seat, upright, share * min(seat, upright), alloy, 6000)


def outline(one):
    b, h, t = one.seat_mm, one.upright_mm, one.wall_mm
    if one.profile == "angle":
        return [(0, 0), (b, 0), (b, t), (t, t), (t, h), (0, h)]
    return [(0, 0), (b, 0), (b, t), (t, t), (t, h - t), (b, h - t), (b, h), (0, h)]


def green(points):
    """Area, first and second moments of a polygon about the origin, by Green's theorem."""
    area = sx = sy = ixx = iyy = ixy = 0.0
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        c = x0 * y1 - x1 * y0
        area += c / 2
        sx += (y0 + y1) * c / 6
        sy += (x0 + x1) * c / 6
        ixx += (y0 * y0 + y0 * y1 + y1 * y1) * c / 12
        iyy += (x0 * x0 + x0 * x1 + x1 * x1) * c / 12
        ixy += (x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0) * c / 24
    x, y = sy / area, sx / area
    return area, x, y, ixx - area * y * y, iyy - area * x * x, ixy - area * x * y


@given(st.sampled_from(["angle", "channel"]), sizes)
def test_rectangles_and_outline_agree(profile, size):
    one = rail(profile, size)
    found = section(one)
    whole = green(outline(one))
    values = (found.area_mm2, found.x_mm, found.y_mm, found.ix_mm4, found.iy_mm4, found.ixy_mm4)
    assert values == pytest.approx(whole, rel=1e-9, abs=1e-6 * found.ix_mm4 if profile == "channel" else 1e-9)


@given(st.sampled_from(["angle", "channel", "tube"]), sizes)
def test_principal_moments_bound_all_others(profile, size):
    found = section(rail(profile, size))
    assert found.imax_mm4 + found.imin_mm4 == pytest.approx(found.ix_mm4 + found.iy_mm4)
    assert found.imin_mm4 * (1 - 1e-9) <= found.free_ix_mm4 <= found.ix_mm4 <= found.imax_mm4 * (1 + 1e-9)


@given(st.sampled_from(["angle", "channel", "tube"]), sizes)
def test_a_rail_free_to_move_is_never_stiffer_than_one_held(profile, size):
    found = section(rail(profile, size))
    assert found.free_ix_mm4 <= found.ix_mm4 * (1 + 1e-12)


@given(sizes)
def test_unsymmetric_stress_equals_that_about_the_principal_axes(size):
    found = section(rail("angle", size))
    turn = math.radians(found.principal_deg)
    # A moment of 1 about x, split between the principal axes; v across the first, u along it.
    first, second = math.cos(turn), -math.sin(turn)
    worst = 0.0
    for x, y in found.corners_mm:
        u, v = x * math.cos(turn) + y * math.sin(turn), y * math.cos(turn) - x * math.sin(turn)
        worst = max(worst, abs(first * v / found.imax_mm4 - second * u / found.imin_mm4))
    assert 1 / found.free_sx_mm3 == pytest.approx(worst, rel=1e-6)


@given(sizes)
def test_a_closed_tube_twists_less_than_the_channel_it_was_cut_from(size):
    assert section(rail("tube", size)).j_mm4 > section(rail("channel", size)).j_mm4


def test_a_square_tube_by_hand():
    found = section(Rail("tube", "tube", 40, 40, 2, "6063-T6", 6000))
    assert found.area_mm2 == 40**2 - 36**2
    assert found.ix_mm4 == pytest.approx((40**4 - 36**4) / 12)
    assert found.j_mm4 == pytest.approx(38**3 * 2)
    assert found.mass_kg_m == pytest.approx(304e-6 * 2690)
