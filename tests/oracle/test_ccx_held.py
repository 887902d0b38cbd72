"""Panes on two sides, on clips and under a hand against CalculiX: geometrically nonlinear shells."""

from __future__ import annotations

import runpy
from pathlib import Path

import numpy as np
import pytest

from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Clips, Patch, Pressing, Supported

MODEL = runpy.run_path(str(Path(__file__).with_name("calculix_held.py")))
HELD = MODEL["Held"]
GLASS = Elastic(71.7e9, 0.22)
CLIP = (0.33, 0.37, 0.335, 0.35)
CASES = {  # shells, ours, size of elements, places in m
    "two long sides": (
        HELD(1.2, 0.7, 0.004, held_long=True, pressure_pa=2000.0),
        Supported(Plate(1200, 700, 4.0, GLASS), "two long sides"),
        Pressing(2000.0),
        0.05,
        [(0, 0), (0.6, 0), (0.3, 0)],
    ),
    "two short sides": (
        HELD(0.8, 0.5, 0.004, held_short=True, pressure_pa=1500.0),
        Supported(Plate(800, 500, 4.0, GLASS), "two short sides"),
        Pressing(1500.0),
        0.04,
        [(0, 0), (0, 0.25), (0.2, 0)],
    ),
    "a knee in the middle": (
        HELD(1.4, 0.9, 0.004, held_long=True, held_short=True, force_n=1000.0, patch=(0, 0.05, 0, 0.05)),
        Supported(Plate(1400, 900, 4.0, GLASS)),
        Pressing(0.0, (Patch(1000.0),)),
        0.03,
        [(0, 0), (0.2, 0.2), (0.35, 0)],
    ),
    "a knee near the short side": (
        HELD(
            1.2,
            0.8,
            0.004,
            held_long=True,
            held_short=True,
            force_n=800.0,
            patch=(0.35, 0.45, 0, 0.05),
            half=True,
        ),
        Supported(Plate(1200, 800, 4.0, GLASS)),
        Pressing(0.0, (Patch(800.0, 400.0),)),
        0.035,
        [(0.4, 0), (0, 0), (0.2, 0.2)],
    ),
    "a hand at a free end": (
        HELD(1.0, 0.6, 0.004, held_long=True, force_n=300.0, patch=(0.35, 0.45, 0, 0.05), half=True),
        Supported(Plate(1000, 600, 4.0, GLASS), "two long sides"),
        Pressing(0.0, (Patch(300.0, 400.0),)),
        0.03,
        [(0.4, 0), (0.5, 0), (0, 0)],
    ),
    "clips": (
        HELD(1.2, 0.7, 0.004, pressure_pa=1000.0, clips=(CLIP,)),
        Supported(Plate(1200, 700, 4.0, GLASS), "clips", Clips(2, 0, 250)),
        Pressing(1000.0),
        0.035,
        [(0, 0), (0.6, 0), (0, 0.35), (0.35, 0.2), (0.35, 0.35)],
    ),
}


@pytest.mark.peer("ccx")
@pytest.mark.parametrize("name", CASES)
def test_a_pane_in_its_holding_bends_as_nonlinear_shells_do(tmp_path, name):
    case, supported, pressing, size, places = CASES[name]
    field = bend_supported(supported, pressing).field
    shells = MODEL["solve"](case, tmp_path, size, places)
    most = max(each.deflection_mm for each in shells)
    tension = max(max(each.away_mpa, each.pressed_mpa) for each in shells)
    for each in shells:
        x, y = (
            np.array([2 * at / side])
            for at, side in zip(each.place_m, (case.long_m, case.short_m), strict=True)
        )
        ours = field.at(x, y)
        assert float(ours.deflection_mm[0, 0]) == pytest.approx(each.deflection_mm, abs=0.005 * most)
        assert float(ours.principal(1.0)[0][0, 0]) == pytest.approx(each.away_mpa, abs=0.02 * tension)
        assert float(ours.principal(-1.0)[0][0, 0]) == pytest.approx(each.pressed_mpa, abs=0.02 * tension)
