"""Laws of sections, and the same integrals by another road: summed over rectangles."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.frame.rail import Rail
from panewright.frame.shape.section import section

sizes = st.tuples(st.floats(12, 120), st.floats(12, 120), st.floats(0.04, 0.24))


def rail(profile, size, alloy="6063-T6"):
    seat, upright, share = size
    return Rail("any", profile, seat, upright, share * min(seat, upright), alloy, 6000)


def boxes(one):
    """Rectangles x0, y0, x1, y1, and +1 for metal or -1 for a hole."""
    b, h, t = one.seat_mm, one.upright_mm, one.wall_mm
    if one.profile == "tube":
        return (0.0, 0.0, b, h, 1.0), (t, t, b - t, h - t, -1.0)
    angle = (t, 0.0, b, t, 1.0), (0.0, 0.0, t, h, 1.0)
    return angle if one.profile == "angle" else (*angle, (t, h - t, b, h, 1.0))


def summed(boxes):
    """Area, centroid and second moments of rectangles."""
    areas = [sign * (x1 - x0) * (y1 - y0) for x0, y0, x1, y1, sign in boxes]
    area = sum(areas)
    x = sum(a * (box[0] + box[2]) / 2 for a, box in zip(areas, boxes, strict=True)) / area
    y = sum(a * (box[1] + box[3]) / 2 for a, box in zip(areas, boxes, strict=True)) / area
    ix = sum(s * (x1 - x0) * ((y1 - y) ** 3 - (y0 - y) ** 3) / 3 for x0, y0, x1, y1, s in boxes)
    iy = sum(s * (y1 - y0) * ((x1 - x) ** 3 - (x0 - x) ** 3) / 3 for x0, y0, x1, y1, s in boxes)
    middles = [((box[0] + box[2]) / 2 - x, (box[1] + box[3]) / 2 - y) for box in boxes]
    ixy = sum(a * mx * my for a, (mx, my) in zip(areas, middles, strict=True))
    return area, x, y, ix, iy, ixy


@given(st.sampled_from(["angle", "channel", "tube"]), sizes)
def test_rectangles_and_outline_agree(profile, size):
    one = rail(profile, size)
    found = section(one)
    values = (found.area_mm2, found.x_mm, found.y_mm, found.ix_mm4, found.iy_mm4, found.ixy_mm4)
    assert values == pytest.approx(summed(boxes(one)), rel=1e-12, abs=1e-12 * found.ix_mm4)


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
    assert found.j_mm4 == pytest.approx(38**3 * 2, rel=0.03)
    assert found.mass_kg_m == pytest.approx(304e-6 * 2690)


@given(st.sampled_from(["angle", "channel", "tube"]), sizes)
def test_torsion_grows_with_the_fourth_power_of_size(profile, size):
    one, twice = rail(profile, size), rail(profile, (2 * size[0], 2 * size[1], size[2]))
    small, large = section(one), section(twice)
    assert large.j_mm4 == pytest.approx(16 * small.j_mm4)
    assert large.torsion_mm3 == pytest.approx(8 * small.torsion_mm3)
    assert large.warping_mm6 == pytest.approx(64 * small.warping_mm6)
    assert (large.shear_x_mm, large.shear_y_mm) == pytest.approx((2 * small.shear_x_mm, 2 * small.shear_y_mm))


@given(sizes)
def test_an_angle_on_its_other_leg_has_its_shear_centre_mirrored(size):
    one, other = section(rail("angle", size)), section(rail("angle", (size[1], size[0], size[2])))
    assert (one.shear_x_mm, one.shear_y_mm) == pytest.approx((other.shear_y_mm, other.shear_x_mm))
    assert one.j_mm4 == pytest.approx(other.j_mm4)
    assert one.warping_mm6 == pytest.approx(other.warping_mm6)


@given(sizes)
def test_a_channel_has_its_shear_centre_behind_its_web_at_mid_depth(size):
    found = section(rail("channel", size))
    assert found.shear_y_mm == pytest.approx(size[1] / 2)
    assert found.shear_x_mm < found.x_mm


@given(st.sampled_from(["angle", "channel", "tube"]), sizes)
def test_no_section_is_stiffer_in_torsion_than_its_polar_moment(profile, size):
    found = section(rail(profile, size))
    assert 0 < found.j_mm4 < found.ix_mm4 + found.iy_mm4
    assert found.warping_mm6 > 0 or profile == "tube"
