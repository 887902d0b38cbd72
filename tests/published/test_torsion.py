"""Torsion with an exact answer.

S. Timoshenko, J. Goodier, Theory of Elasticity, 3rd ed., chapter 10 (recalled): the rectangle as a series,
its table of coefficients to three digits; the equilateral triangle and the ellipse in closed form.
W. Young, R. Budynas, Roark's Formulas for Stress and Strain (recalled), middle lines of thin walls: a
channel's shear centre 3 b^2 / (6 b + h) and warping h^2 b^3 t (3 b + 2 h) / (12 (6 b + h)); an angle's;
Bredt's tube.
"""

import math

import pytest

from panewright.frame.rail import Rail
from panewright.frame.shape.section import section
from panewright.frame.shape.torsion import torsion

TABLE = {  # long side over short: J / (b t^3), torque / (b t^2 stress)
    1.0: (0.141, 0.208),
    1.5: (0.196, 0.231),
    2.0: (0.229, 0.246),
    3.0: (0.263, 0.267),
    5.0: (0.291, 0.291),
    10.0: (0.312, 0.312),
}


def box(wide, high):
    return ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))


def series(ratio):
    """J / (b t^3) of a rectangle."""
    terms = (math.tanh(n * math.pi * ratio / 2) / n**5 for n in range(1, 99, 2))
    return (1 - 192 / (math.pi**5 * ratio) * sum(terms)) / 3


@pytest.mark.parametrize(("ratio", "printed"), TABLE.items())
def test_a_rectangle_meets_series_and_table(ratio, printed):
    found = torsion((box(4 * ratio, 4.0),))
    assert found.j_mm4 / (4 * ratio * 4**3) == pytest.approx(series(ratio), rel=1e-4)
    assert found.j_mm4 / (4 * ratio * 4**3) == pytest.approx(printed[0], abs=6e-4)
    assert found.modulus_mm3 / (4 * ratio * 4**2) == pytest.approx(printed[1], abs=1.6e-3)
    assert (found.x_mm, found.y_mm) == pytest.approx((2 * ratio, 2.0), abs=4e-4)


def test_an_equilateral_triangle_has_root_three_a4_over_80():
    found = torsion((((0.0, 0.0), (6.0, 0.0), (3.0, 3 * math.sqrt(3))),))
    assert found.j_mm4 == pytest.approx(math.sqrt(3) * 6**4 / 80, rel=1e-4)
    assert found.modulus_mm3 == pytest.approx(6**3 / 20, rel=5e-3)


def test_an_ellipse_drawn_with_many_corners():
    """The polygon of 360 corners has 0.01 % less J than the ellipse."""
    a, b, turn = 20.0, 9.0, [math.pi * number / 180 for number in range(360)]
    found = torsion((tuple((a * math.cos(t), b * math.sin(t)) for t in turn),))
    assert found.j_mm4 == pytest.approx(math.pi * a**3 * b**3 / (a**2 + b**2), rel=2e-4)
    assert found.modulus_mm3 == pytest.approx(math.pi * a * b**2 / 2, rel=5e-3)
    assert found.warping_mm6 == pytest.approx(
        math.pi * a**3 * b**3 / 24 * ((a**2 - b**2) / (a**2 + b**2)) ** 2, rel=5e-4
    )


def test_a_round_pipe_does_not_warp():
    turn = [math.pi * number / 60 for number in range(120)]
    outer, hole = (tuple((r * math.cos(t), r * math.sin(t)) for t in turn) for r in (20.0, 16.0))
    found = torsion((outer, hole[::-1]))
    assert found.j_mm4 == pytest.approx(math.pi / 2 * (20**4 - 16**4), rel=2e-3)
    assert found.warping_mm6 < 1e-6 * found.j_mm4 * 20**2


@pytest.mark.parametrize("wall", [0.2, 0.05])
def test_a_channel_of_thin_walls_meets_the_handbook(wall):
    b, h = 30 - wall / 2, 50 - wall
    found = section(Rail("C", "channel", 30, 50, wall, "6063-T6", 6000))
    assert wall / 2 - found.shear_x_mm == pytest.approx(3 * b**2 / (6 * b + h), rel=2e-3 * wall)
    handbook = h**2 * b**3 * wall * (3 * b + 2 * h) / (12 * (6 * b + h))
    assert found.warping_mm6 == pytest.approx(handbook, rel=2e-3 * wall)
    assert found.j_mm4 == pytest.approx((2 * b + h) * wall**3 / 3, rel=1e-2 * wall)


@pytest.mark.parametrize("wall", [0.2, 0.05])
def test_an_angle_of_thin_walls_has_its_shear_centre_where_the_legs_cross(wall):
    found = section(Rail("L", "angle", 30, 50, wall, "6063-T6", 6000))
    assert (found.shear_x_mm, found.shear_y_mm) == pytest.approx((wall / 2, wall / 2), abs=2e-2 * wall)
    assert found.j_mm4 == pytest.approx((80 - wall) * wall**3 / 3, rel=1e-2 * wall)
    legs = (30 - wall / 2) ** 3 + (50 - wall / 2) ** 3
    assert found.warping_mm6 == pytest.approx(legs * wall**3 / 36, rel=2e-2 * wall)


@pytest.mark.parametrize("wall", [0.2, 0.05])
def test_a_tube_of_thin_walls_meets_bredt(wall):
    b, h = 30 - wall, 50 - wall
    found = section(Rail("T", "tube", 30, 50, wall, "6063-T6", 6000))
    assert found.j_mm4 == pytest.approx(2 * wall * b**2 * h**2 / (b + h), rel=2e-2 * wall)
    assert found.torsion_mm3 == pytest.approx(2 * b * h * wall, rel=6e-2 * wall)
    assert found.warping_mm6 == pytest.approx(
        wall * b**2 * h**2 * (h - b) ** 2 / (24 * (b + h)), rel=6e-2 * wall
    )


def filleted(leg, wall, radius):
    """An angle of two equal legs, its inner corner rounded by twelve chords."""
    middle, steps = wall + radius, [math.pi * number / 24 for number in range(13)] if radius else [0.0]
    arc = ((middle - radius * math.sin(s), middle - radius * math.cos(s)) for s in steps)
    fillet = tuple(arc) if radius else ((wall, wall),)
    return ((0.0, 0.0), (leg, 0.0), (leg, wall), *fillet, (wall, leg), (0.0, leg))


@pytest.mark.parametrize("radius", [0.0, 1.5, 3.0, 4.5])
def test_an_angle_with_a_fillet_meets_both_handbooks_as_well_as_they_meet_each_other(radius):
    """Strips, less their ends, and a share of D^4, D being the circle that fits into the corner (recalled).

    Roark, table 10.7, after soap films: 0.07 + 0.076 r/t, ends 3 x 0.105 t^4. Tables of rolled steel
    sections, F. El Darwish, B. Johnston, J. Struct. Div. ASCE 91, 1965: 0.0768 + 0.0479 r/t, ends 0.21 t^4.
    """
    leg, t = 40.0, 3.0
    found = torsion((filleted(leg, t, radius),)).j_mm4
    strips = (2 * leg - t) * t**3 / 3
    circle = 2 * (2 * t + 3 * radius - math.sqrt(2) * (2 * radius + t))
    soap = strips - 0.315 * t**4 + (0.07 + 0.076 * radius / t) * circle**4
    steel = strips - 0.21 * t**4 + (0.0768 + 0.0479 * radius / t) * circle**4
    assert found == pytest.approx(soap, rel=3e-2)
    assert found == pytest.approx(steel, rel=1.3e-2)
