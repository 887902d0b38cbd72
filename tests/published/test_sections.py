"""Sections of sharp-cornered angles by exact composition of rectangles (derived), and a rolled-shape table
of a machine-design text, appendix 16 (seen), which agrees to three digits."""

import pytest

from panewright.frame.rail import Rail
from panewright.frame.shape.section import section

INCH = 25.4
ANGLES = {  # leg, wall [in]: A, y, Ix, Ixy, Imax, Imin, S toe, rx, rz [mm]
    (1.5, 0.125): (231.854, 10.6984, 32368.2, -19245.8, 51614.0, 13122.5, 1181.25, 11.815, 7.523),
    (1.0, 0.125): (151.209, 7.5142, 9042.4, -5311.3, 14353.7, 3731.1, 505.56, 7.733, 4.967),
    (2.0, 0.125): (312.499, 13.8778, 79066.4, -47203.7, 126270.0, 31862.7, 2141.43, 15.906, 10.098),
    (2.0, 0.25): (604.837, 15.0283, 144678.0, -84980.6, 229659.0, 59697.8, 4044.5, 15.466, 9.935),
}
DIGITS = (5e-4, 5e-5, 0.5, 0.05, 0.5, 0.05, 0.05, 5e-4, 5e-4)


def angle(leg_in, wall_in):
    return section(Rail("angle", "angle", leg_in * INCH, leg_in * INCH, wall_in * INCH, "6063-T6", 6000))


@pytest.mark.parametrize(("size", "printed"), ANGLES.items())
def test_equal_angle_meets_every_printed_digit(size, printed):
    found = angle(*size)
    values = (
        found.area_mm2,
        found.y_mm,
        found.ix_mm4,
        found.ixy_mm4,
        found.imax_mm4,
        found.imin_mm4,
        found.sx_mm3,
        (found.ix_mm4 / found.area_mm2) ** 0.5,
        found.radius_min_mm,
    )
    for value, expected, digit in zip(values, printed, DIGITS, strict=True):
        assert value == pytest.approx(expected, abs=max(digit, 6e-6 * abs(expected)))
    assert found.principal_deg == pytest.approx(45.0)


@pytest.mark.parametrize(
    ("size", "strips"),
    [((1.5, 0.125), 779.1), ((1.0, 0.125), 508.1), ((2.0, 0.125), 1050.1), ((2.0, 0.25), 8129.5)],
)
def test_the_sum_of_strips_is_the_limit_of_thin_walls(size, strips):
    """b t^3 / 3 of both legs (derived) leaves out that ends twist more easily, and the corner less."""
    lost = 2 * 0.10504 - 0.07249
    assert angle(*size).j_mm4 == pytest.approx(strips - lost * (size[1] * INCH) ** 4, abs=0.1)


@pytest.mark.parametrize(
    ("size", "a", "i", "s", "y", "rz"),
    [((2, 0.25), 0.938, 0.348, 0.247, 0.592, 0.391), ((2, 0.125), 0.484, 0.190, 0.131, 0.546, 0.398)],
)
def test_sharp_corners_equal_the_rolled_table_to_three_digits(size, a, i, s, y, rz):
    found = angle(*size)
    assert found.area_mm2 / INCH**2 == pytest.approx(a, abs=6e-4)
    assert found.ix_mm4 / INCH**4 == pytest.approx(i, abs=6e-4)
    assert found.sx_mm3 / INCH**3 == pytest.approx(s, abs=6e-4)
    assert found.y_mm / INCH == pytest.approx(y, abs=6e-4)
    assert found.radius_min_mm / INCH == pytest.approx(rz, abs=6e-4)


@pytest.mark.parametrize(
    ("size", "held", "free", "sideways"),
    [
        ((1.5, 0.125), 29.26, 45.262, 26.912),
        ((1.5, 0.1875), 20.689, 31.587, 18.554),
        ((2.0, 0.125), 11.979, 18.612, 11.112),
    ],
)
def test_an_angle_free_to_move_sideways_sags_by_its_principal_axes(size, held, free, sideways):
    """Simply supported over 1500 mm, 1 N/mm parallel to one leg, E 69.6 GPa: 5 w L^4 / (384 E I)."""
    found = angle(*size)
    sag = 5 * 1500**4 / (384 * 69.6e3)
    assert sag / found.ix_mm4 == pytest.approx(held, abs=6e-4)
    assert sag / found.free_ix_mm4 == pytest.approx(free, abs=6e-4)
    drift = sag / found.free_ix_mm4 * -found.ixy_mm4 / found.iy_mm4
    assert drift == pytest.approx(sideways, abs=6e-4)
