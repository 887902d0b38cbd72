"""Roark's Formulas for Stress and Strain, table 11.4 case 1a, nu = 0.3 (seen)."""

from __future__ import annotations

import pytest

from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.linear import edge_reaction, linear_plate
from panewright.glass.plate.reaction import edge_reaction as far_bent_reaction

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


@pytest.mark.parametrize(("ratio", "gamma"), [(row[0], row[3]) for row in ROWS])
def test_the_far_bent_panes_edge_push_at_a_small_load(ratio, gamma):
    push = far_bent_reaction(Plate(1000 * ratio, 1000, 10, Elastic(70e9, 0.3)), 1.0)  # 1 Pa x 1 m
    assert push.long_n_per_mm[0] * 1e3 == pytest.approx(gamma, abs=1.1e-3)
