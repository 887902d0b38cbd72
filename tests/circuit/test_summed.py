"""The quick way to many curves beside the panel's own solver: laws, for any panel."""

import math

import numpy as np
import pytest

from panewright.cell.damage import Shaded, Shunted
from panewright.cell.diode import Diode
from panewright.circuit.damage import (
    CellTurned,
    DiodeMissing,
    DiodeShorted,
    DiodeTurned,
    Fault,
    JointCold,
    JointOpen,
    StringOpen,
    damaged,
)
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt, StringAt
from panewright.circuit.solve import voltage_v
from panewright.circuit.summed import Summed
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
TIGHT = Diode(8.2, 1.1e-9, 0.0275, 0.004, math.inf, 0.0, -15.0, 3.4)
SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)
ROW = Substring((CELL,) * 17 + (TIGHT,), (0.0012,) * 18, SCHOTTKY)
PANEL = Network((String((ROW, ROW), tail_ohm=0.004),), 0.01)
BESIDE = Network((String((ROW, ROW)), String((ROW, ROW), blocking=SCHOTTKY)), 0.01)
AT = CellAt(0, 5)
FAULTS = {
    "none": (),
    "shaded": (Fault(Shaded(0.3), AT),),
    "shaded without a diode": (Fault(Shaded(0.5), AT), Fault(DiodeMissing(), DiodeAt(0, 0))),
    "turned cell": (Fault(CellTurned(), AT),),
    "shunted": (Fault(Shunted(0.05), AT),),
    "cold joint": (Fault(JointCold(0.2), AT),),
    "open joint": (Fault(JointOpen(), AT),),
    "shorted diode": (Fault(DiodeShorted(), DiodeAt(0, 1)),),
    "turned diode": (Fault(DiodeTurned(), DiodeAt(0, 0)),),
}


def off_the_curve(network: Network, grid: np.ndarray) -> float:
    """The farthest that a sum lies off the exact curve: the lesser of its voltage's and its current's share.

    Held at every fifteenth point that the panel gives power at.
    """
    amps = grid * len(network.strings)
    volts = Summed(grid).panel_v(network)
    lit = np.flatnonzero((volts > 0) & (amps >= 0))[::15]
    exact = voltage_v(network, amps[lit])
    slope = np.abs(np.gradient(volts, amps)[lit])
    by_volt = np.abs(volts[lit] - exact) / 22.0
    by_amp = np.abs(volts[lit] - exact) / np.maximum(slope, 1e-9) / (8.5 * len(network.strings))
    return float(np.minimum(by_volt, by_amp).max())


@pytest.mark.parametrize("name", FAULTS)
def test_one_string_lies_within_half_a_thousandth_of_the_exact_curve(name):
    assert off_the_curve(damaged(PANEL, *FAULTS[name]), np.linspace(-0.25, 9.0, 1100)) < 5e-4


@pytest.mark.parametrize("name", FAULTS)
def test_strings_side_by_side_lie_within_two_thousandths_of_the_exact_curve(name):
    grid = np.concatenate([np.linspace(-17.0, -0.3, 300), np.linspace(-0.25, 9.0, 1100)])
    assert off_the_curve(damaged(BESIDE, *FAULTS[name]), grid) < 2e-3


def test_a_broken_string_leaves_the_other_alone():
    grid = np.concatenate([np.linspace(-17.0, -0.3, 300), np.linspace(-0.25, 9.0, 1100)])
    assert off_the_curve(damaged(BESIDE, Fault(StringOpen(), StringAt(0))), grid) < 2e-3


def test_a_row_is_told_from_another_that_differs_in_its_middle():
    summed = Summed(np.linspace(0.0, 9.0, 500))
    before = summed.panel_v(PANEL).copy()
    summed.panel_v(damaged(PANEL, Fault(Shaded(0.4), CellAt(0, 9))))
    other = summed.panel_v(damaged(PANEL, Fault(Shaded(0.4), CellAt(0, 10))))
    assert np.array_equal(before, summed.panel_v(PANEL))
    assert not np.array_equal(before, other)


@pytest.mark.parametrize("currents", [[0.0, 1.0], [0.0, 2.0, 1.0], [[0.0, 1.0, 2.0]]])
def test_a_grid_that_does_not_rise_is_refused(currents):
    with pytest.raises(ValueError, match="rise from point to point"):
        Summed(np.array(currents))
