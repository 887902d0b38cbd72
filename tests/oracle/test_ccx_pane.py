"""Panes against CalculiX: geometrically nonlinear shells, an independent way to the same physics."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

from panewright.glass.plate.bending import Elastic, Plate, bend

MODEL = runpy.run_path(str(Path(__file__).with_name("calculix_pane.py")))
GLASS = Elastic(71.7e9, 0.22)


PANES = (  # long, short, thickness, pressure; a/b 1, 1.5, 2, 3, 4 and sizes that no table of the tests has
    (870, 870, 3.0, 5200),
    (1185, 790, 4.1, 6400),
    (1340, 670, 3.6, 8000),
    (1680, 560, 3.2, 4300),
    (1960, 490, 4.6, 8000),
)


@pytest.mark.peer("ccx")
@pytest.mark.parametrize(("long_mm", "short_mm", "thickness_mm", "pressure_pa"), PANES)
def test_a_pane_bends_as_nonlinear_shells_do(tmp_path, long_mm, short_mm, thickness_mm, pressure_pa):
    case = MODEL["Case"](long_mm / 1e3, short_mm / 1e3, thickness_mm / 1e3, pressure_pa)
    shells = MODEL["solve"](case, tmp_path)
    bent = bend(Plate(long_mm, short_mm, thickness_mm, GLASS), pressure_pa)
    assert bent.deflection_mm == pytest.approx(shells.deflection_mm, rel=0.005)
    assert bent.centre_mpa == pytest.approx(shells.centre_mpa, rel=0.02)
