"""A cell's voltage out of a table beside the solver's."""

import math
from dataclasses import replace

import numpy as np
import pytest

from panewright.cell.curve import voltage_v
from panewright.cell.diode import Diode
from panewright.cell.tabled import tabled_v

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
TIGHT = Diode(8.2, 1.1e-9, 0.0275, 0.004, math.inf, 0.0, -15.0, 3.4)
CELLS = {
    "sound": CELL,
    "without breakdown": replace(CELL, breakdown_siemens=0.0),
    "tight": TIGHT,
    "dark": replace(CELL, light_a=0.0),
    "shunted": replace(CELL, shunt_ohm=0.05),
}
AMPS = np.linspace(-9.0, 9.0, 901)


@pytest.mark.parametrize("name", CELLS)
def test_forward_it_is_the_solver_s_within_ten_microvolts(name):
    exact, found = voltage_v(CELLS[name], AMPS), tabled_v(CELLS[name], AMPS, 9.0)
    lit = exact > -0.3
    assert np.abs(found - exact)[lit].max() < 1e-5


@pytest.mark.parametrize("name", CELLS)
def test_in_reverse_it_is_the_solver_s_within_five_millivolts(name):
    exact, found = voltage_v(CELLS[name], AMPS), tabled_v(CELLS[name], AMPS, 9.0)
    driven = (exact > -20.0) & (exact <= -0.3)
    assert np.abs(found - exact)[driven].max(initial=0.0) < 5e-3


def test_a_current_that_no_voltage_drives_has_a_voltage_far_below():
    assert tabled_v(TIGHT, np.array([8.5]), 9.0)[0] < -900.0
