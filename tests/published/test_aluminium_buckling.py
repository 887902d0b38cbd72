"""Aluminum Design Manual, allowable stress tables of extrusions 6061-T6 and 6063-T6 [ksi], as remembered.

Elements supported on one edge, 6061-T6: 21.2 up to 6.7, 27.3 - 0.910 b/t, then 2417/(b/t)^2 from 12 on; on
both edges 27.3 - 0.291 b/t from 21 on. 6063-T6: 15.2, 19.0 - 0.530 b/t from 7.3; 19.0 - 0.170 b/t from 22.8.

AISC 360 commentary, table of beta_w [in] of unequal angles, as remembered: a section's own figure, no steel
in it. And its equation for equal legs, Me = 0.46 E b^2 t^2 / L, the same in the Aluminum Design Manual.
"""

import pytest

from panewright.frame.buckling.flat_wall import FlatWall
from panewright.frame.buckling.tipping import tipping_moment_nmm, uneven_mm
from panewright.frame.buckling.wall import KSI_MPA, asce_wall_mpa
from panewright.frame.rail import Rail


@pytest.mark.parametrize(
    ("yield_ksi", "ratio", "held", "allowed_ksi"),
    [
        (35, 6.0, "one edge", 21.2),
        (35, 9.0, "one edge", 27.3 - 0.910 * 9),
        (35, 11.0, "one edge", 27.3 - 0.910 * 11),
        (35, 15.0, "one edge", 2417 / 15**2),
        (35, 25.0, "both edges", 27.3 - 0.291 * 25),
        (25, 7.0, "one edge", 15.2),
        (25, 10.0, "one edge", 19.0 - 0.530 * 10),
        (25, 14.0, "one edge", 19.0 - 0.530 * 14),
        (25, 30.0, "both edges", 19.0 - 0.170 * 30),
    ],
)
def test_allowable_stress_of_a_pressed_wall(yield_ksi, ratio, held, allowed_ksi):
    found = asce_wall_mpa(yield_ksi * KSI_MPA, FlatWall(ratio, held)) / KSI_MPA / 1.65
    assert found == pytest.approx(allowed_ksi, abs=0.06)


@pytest.mark.parametrize(
    ("long", "short", "beta_w"), [(8, 4, 5.48), (6, 4, 3.14), (5, 3, 2.99), (4, 3, 1.65), (3, 2, 1.56)]
)
def test_unevenness_of_an_angle_is_half_the_table(long, short, beta_w):
    rail = Rail("L", "angle", long * 25.4, short * 25.4, short / 10 * 25.4, "6061-T6", 6000)
    assert 2 * uneven_mm(rail) / 25.4 == pytest.approx(beta_w, rel=0.02)


@pytest.mark.parametrize("far_mm", [800.0, 2000.0])
def test_an_equal_angle_tips_at_the_textbook_moment(far_mm):
    """Its figures are of middle lines: legs less half a wall."""
    rail = Rail("L", "angle", 51.0, 51.0, 2.0, "6061-T6", 6000)
    book = 0.46 * 70e3 * 50.0**2 * 2.0**2 / far_mm
    assert tipping_moment_nmm(rail, far_mm, 70e3) == pytest.approx(book, rel=0.03)
