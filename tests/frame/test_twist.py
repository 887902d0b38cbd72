"""Closed forms of straight walls held against the general solver, and the limit up to which they are used."""

import pytest

from panewright.frame.rail import Rail
from panewright.frame.shape.outline import moments
from panewright.frame.shape.profile import outlines
from panewright.frame.shape.section import section
from panewright.frame.shape.torsion import torsion
from panewright.frame.shape.twist import CORNER_J, OUTER_PEAK, slender, twist

SIZES = [
    ("angle", 40, 40, 3),
    ("angle", 30, 50, 3),
    ("angle", 9, 9, 3),
    ("channel", 30, 40, 3),
    ("channel", 9, 12, 3),
    ("tube", 25.4, 38.1, 3.175),
    ("tube", 12, 12, 3),
]


def rail(profile, seat, upright, wall):
    return Rail("any", profile, seat, upright, wall, "6063-T6", 6000)


@pytest.mark.parametrize("size", SIZES)
def test_closed_form_and_triangles_agree(size):
    one = rail(*size)
    closed, solved = twist(one, moments(outlines(one))), torsion(outlines(one))
    assert slender(one)
    assert closed.j_mm4 == pytest.approx(solved.j_mm4, rel=3e-4)
    assert closed.x_mm == pytest.approx(solved.x_mm, abs=2e-4 * size[1])
    assert closed.y_mm == pytest.approx(solved.y_mm, abs=2e-4 * size[2])
    assert closed.warping_mm6 == pytest.approx(solved.warping_mm6, rel=3e-3)
    assert closed.modulus_mm3 == pytest.approx(solved.modulus_mm3, rel=2e-2)


def test_the_figures_of_a_corner_are_those_of_finer_triangles():
    solved = torsion(outlines(rail("angle", 6.5, 5.5, 1)), 3e-6)
    ends = 2 * 0.105041
    assert solved.j_mm4 - 11 / 3 + ends == pytest.approx(CORNER_J, abs=2e-5)
    assert solved.j_mm4 / solved.modulus_mm3 == pytest.approx(OUTER_PEAK, rel=1e-3)


@pytest.mark.parametrize("size", [("angle", 8, 20, 3), ("channel", 8, 20, 3), ("tube", 10, 20, 3)])
def test_a_stout_rail_is_solved_in_full(size):
    one = rail(*size)
    assert not slender(one)
    assert section(one).j_mm4 == torsion(outlines(one)).j_mm4
