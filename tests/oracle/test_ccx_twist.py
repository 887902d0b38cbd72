"""A pane twisted by its corners against CalculiX: straight theory at small loads, its bound at large ones."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

from panewright.structure.corners.twist import STRETCHED

TWIST = runpy.run_path(str(Path(__file__).with_name("calculix_twist.py")))
CASE = TWIST["PANE"]["Case"]


@pytest.mark.peer("ccx")
@pytest.mark.parametrize(("long_m", "short_m", "thickness_m"), [(1.0, 1.0, 0.004), (1.6, 0.8, 0.005)])
def test_a_small_couple_stresses_the_whole_pane_alike(tmp_path, long_m, short_m, thickness_m):
    weight_n = 0.5
    found = TWIST["middle_mpa"](CASE(long_m, short_m, thickness_m, 0.0), weight_n / 4, tmp_path)
    assert found == pytest.approx(0.75 * weight_n / thickness_m**2 / 1e6, rel=0.01)


@pytest.mark.peer("ccx")
@pytest.mark.parametrize(
    ("long_m", "short_m", "thickness_m", "weight_n"),
    [(1.6, 1.0, 0.0038, 200.0), (1.6, 0.6, 0.0038, 500.0), (1.6, 1.0, 0.0038, 1500.0)],
)
def test_a_pane_that_stretches_stays_under_the_bound(tmp_path, long_m, short_m, thickness_m, weight_n):
    found = TWIST["largest_mpa"](CASE(long_m, short_m, thickness_m, 0.0), weight_n / 4, tmp_path)
    straight = 0.75 * weight_n / thickness_m**2 / 1e6
    assert 1.2 < found / straight < STRETCHED
