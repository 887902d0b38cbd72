"""International Building Code 2018, 1807.3 and table 1806.2: posts in the ground, friction.

Table read in public texts. Flagpole sheet, held at the ground: 30 000 lbf, 3 ft up, 4.5 ft across, 350
psf/ft doubled, depth 1.509 m: read on a public document site. Free at the ground: arithmetic with equation
18-1 (derived).
"""

import math

import pytest

from panewright.structure.mounting.ground.embedment import asce_held_depth_m, free_depth_m
from panewright.structure.mounting.ground.soil import FOOT_M, Soil, friction, soil
from panewright.units import PSF_PA

POUND_N = 4.4482216152605


def test_the_flagpole_held_at_the_ground():
    """The sheet doubles the lateral bearing for a lone pole."""
    ground = Soil("clay", 0.0, 2 * 350 * PSF_PA / FOOT_M, 0.0, 0.0, 0.0, 0.0)
    moment = 30000 * POUND_N * 3 * FOOT_M
    assert asce_held_depth_m(moment, 4.5 * FOOT_M, ground) == pytest.approx(1.509, abs=5e-4)


def test_free_at_the_ground_in_feet_and_pounds():
    """P 1000 lb, h 8 ft, b 2 ft, S1 300 psf: A = 3.9 ft, d = 1.95 (1 + sqrt(1 + 34.88 / A))."""
    depth = free_depth_m(1000 * POUND_N, 8 * FOOT_M, 2 * FOOT_M, 300 * PSF_PA)
    assert depth / FOOT_M == pytest.approx(1.95 * (1 + math.sqrt(1 + 4.36 * 8 / 3.9)), rel=1e-9)
    assert depth / FOOT_M == pytest.approx(8.10, abs=0.005)


@pytest.mark.parametrize(
    ("name", "psf", "lateral"), [("gravel", 3000, 200), ("sand", 2000, 150), ("clay", 1500, 100)]
)
def test_presumptive_bearing(name, psf, lateral):
    ground = soil(name)
    assert ground.asce_bearing_pa / PSF_PA == pytest.approx(psf)
    assert ground.asce_lateral_pa_m * FOOT_M / PSF_PA == pytest.approx(lateral)
    assert ground.asce_lateral_pa_m == pytest.approx(lateral * 157.087, rel=1e-4)


def test_friction_of_foundations():
    assert friction("gravel", "ASCE") == (0.35, "IBC table 1806.2 (read)")
    assert friction("sand", "ASCE")[0] == 0.25
