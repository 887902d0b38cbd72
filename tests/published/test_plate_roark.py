"""Roark's Formulas for Stress and Strain, table 11.4 case 1a, nu = 0.3 (seen)."""

from __future__ import annotations

import pytest

from panewright.glass.plate.linear import edge_reaction, linear_plate

ROWS = (  # a/b, beta, alpha, gamma
    (1.0, 0.2874, 0.0444, 0.42),
    (1.2, 0.3762, 0.0616, 0.455),
    (1.4, 0.453, 0.077, 0.478),
    (1.6, 0.5172, 0.0906, 0.491),
    (1.8, 0.5688, 0.1017, 0.499),
    (2.0, 0.6102, 0.111, 0.503),
    (3.0, 0.7134, 0.1335, 0.505),
    (4.0, 0.741, 0.14, 0.502),
    (5.0, 0.7476, 0.1417, 0.501),
)


@pytest.mark.parametrize(("ratio", "beta", "alpha", "gamma"), ROWS)
def test_stress_deflection_and_edge_push(ratio, beta, alpha, gamma):
    plate = linear_plate(ratio, 0.3)
    assert plate.stress == pytest.approx(beta, abs=4e-4)
    assert plate.deflection(0.3) == pytest.approx(alpha, rel=5.5e-3)  # the print is up to 0.5 % off at 1.4
    assert float(edge_reaction(ratio, "long", 0.0, 0.3)) == pytest.approx(gamma, abs=1.1e-3)
