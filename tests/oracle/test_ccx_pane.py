"""Panes against CalculiX: geometrically nonlinear shells, an independent way to the same physics."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

from panewright.glass.plate.bending import Elastic, Plate, bend

MODEL = runpy.run_path(str(Path(__file__).with_name("calculix_pane.py")))
GLASS = Elastic(71.7e9, 0.22)


@pytest.mark.peer("ccx")
@pytest.mark.parametrize(
    ("long_mm", "short_mm", "thickness_mm", "pressure_pa"),
    [(1000, 1000, 3.78, 2400), (1500, 1000, 3.78, 2400), (1600, 800, 2.92, 1500)],
)
def test_a_pane_bends_as_nonlinear_shells_do(tmp_path, long_mm, short_mm, thickness_mm, pressure_pa):
    case = MODEL["Case"](long_mm / 1e3, short_mm / 1e3, thickness_mm / 1e3, pressure_pa)
    shells = MODEL["solve"](case, tmp_path)
    bent = bend(Plate(long_mm, short_mm, thickness_mm, GLASS), pressure_pa)
    assert bent.deflection_mm == pytest.approx(shells.deflection_mm, rel=0.005)
    assert bent.centre_mpa == pytest.approx(shells.centre_mpa, rel=0.02)
