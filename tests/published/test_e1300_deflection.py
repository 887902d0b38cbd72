"""ASTM E1300 appendix, deflection by Dalgliesh's polynomial (coefficients recalled): a cross-check, not our
model.

w = t exp(r0 + r1 x + r2 x^2), x = ln(ln(q (a b)^2/(E t^4))). The calculation sheet for 3050 x 1900 x 10
mm at 0.96 kPa, 13.59 mm, was seen.
"""

from __future__ import annotations

import math

import pytest

from panewright.glass.plate.bending import Elastic, Plate, bend

GLASS = Elastic(71.7e9, 0.22)
COEFFICIENTS = (
    (0.553, -3.83, 1.11, -0.0969),
    (-2.29, 5.83, -2.17, 0.2067),
    (1.485, -1.908, 0.815, -0.0822),
)
RATIOS = (1.0, 1.25, 1.5, 2.0, 3.0)
LOADS = (5, 10, 25, 50, 100, 200, 400)
OFF_PERCENT = (  # by how much the polynomial is off the plate (derived)
    (2.85, 7.54, 2.17, -0.25, -0.37, -0.24, -1.16),
    (-4.28, 0.31, -0.68, 0.03, 1.39, 1.78, 0.7),
    (-3.15, -0.43, -1.29, -0.33, 1.01, 1.42, 0.62),
    (2.47, 0.53, -3.56, -3.57, -1.88, 0.0, 1.39),
    (3.97, -1.29, -8.13, -7.69, -2.06, 6.97, 18.05),
)


def polynomial_mm(long, short, thick, pressure):
    r = long / short
    r0, r1, r2 = (sum(c * r**k for k, c in enumerate(row)) for row in COEFFICIENTS)
    x = math.log(math.log(pressure * (long * short) ** 2 / (GLASS.young_pa * thick**4)))
    return thick * math.exp(r0 + r1 * x + r2 * x * x)


def test_the_polynomial_here_is_the_one_seen():
    assert polynomial_mm(3050, 1900, 10, 960) == pytest.approx(13.59, abs=5e-3)


@pytest.mark.parametrize(
    ("long", "short", "thick", "pressure", "w"),
    [(3050, 1900, 10, 960, 13.771), (1500, 1200, 5.6, 1800, 12.0291)],
)
def test_the_plate_is_near_the_polynomial(long, short, thick, pressure, w):
    plate = bend(Plate(long, short, thick, GLASS), pressure).deflection_mm
    assert plate == pytest.approx(w, abs=6e-4)
    assert plate == pytest.approx(polynomial_mm(long, short, thick, pressure), rel=0.02)


@pytest.mark.parametrize("row", range(len(RATIOS)))
@pytest.mark.parametrize("column", range(len(LOADS)))
def test_how_far_the_polynomial_is_off(row, column):
    short, thick = 1000.0, 4.0
    pressure = LOADS[column] * GLASS.young_pa * (thick / short) ** 4
    long = RATIOS[row] * short
    plate = bend(Plate(long, short, thick, GLASS), pressure).deflection_mm
    off = 100 * (polynomial_mm(long, short, thick, pressure) / plate - 1)
    assert off == pytest.approx(OFF_PERCENT[row][column], abs=0.02)
