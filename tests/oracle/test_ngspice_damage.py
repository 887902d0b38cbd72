"""Random networks with random damage beside ngspice, and the netlists themselves held against the cell's law.

A handful here; `make proof` runs hundreds.
"""

import math
from random import Random

import numpy as np
import pytest
from campaigns import circuits, spice
from campaigns.damaged import Extent, any_network
from campaigns.found import Worst
from campaigns.law import left_over_a

from panewright.cell.diode import Diode
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.enclosure.bypass import Bypass

SEEDS = range(8)
SMALL = Extent(most_strings=2, most_substrings=3, most_cells=10)
CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
BARE = Diode(8.55, 2.3e-9, 0.02826, 0.0, math.inf, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)
PN = Bypass("PN", 1e-9, 0.045, 0.0, 15.0, 600.0)


def differences(network):
    """What differs from ngspice by more than is allowed; an answer there must be."""
    worst = Worst(circuits.ALLOWED)
    assert circuits.compare(network, worst, "here") != circuits.GIVEN_UP, "ngspice gave no answer"
    return [f"{d.figure}: {d.worst:.2g} of {d.allowed:g}" for d in worst.deviations() if not d.holds]


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("seed", SEEDS)
def test_a_damaged_network_equals_ngspice_run_now(seed):
    assert differences(any_network(Random(seed), SMALL)) == []


def string(*rows, **more):
    return String(tuple(rows), **more)


def row(cells, beside=None, turned=()):
    return Substring(tuple(cells), (0.0012,) * len(cells), beside, turned)


DECKS = {
    "turned cell": Network((string(row([CELL] * 6, None, (2,))),)),
    "turned last cell without a resistor": Network(
        (string(Substring((BARE,) * 3, (0.0,) * 3, SCHOTTKY, (2,))),)
    ),
    "turned bypass": Network((string(row([CELL] * 4, Turned(SCHOTTKY)), row([CELL] * 4, SCHOTTKY)),)),
    "bridge": Network((string(row([CELL] * 4, Bridge(0.01)), row([CELL] * 4, SCHOTTKY)),), 0.02),
    "blocking": Network(
        (string(row([CELL] * 8), blocking=PN), string(row([BARE] * 6), blocking=SCHOTTKY)), 0.01
    ),
    "broken": Network((string(row([CELL] * 8)), string(row([CELL] * 8), tail_ohm=math.inf))),
    "poor tail": Network((string(row([CELL] * 8), tail_ohm=30.0, blocking=PN), string(row([BARE] * 8)))),
}


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("name", DECKS)
def test_a_netlist_means_what_the_network_says(name, tmp_path):
    """Currents at its nodes add up by the law in plain numpy: nothing left out or the wrong way round."""
    (swept,) = spice.solve(DECKS[name], [spice.Sweep(5.0, 0.0, 26)], tmp_path)
    assert swept.voltage_v.size == 26
    assert left_over_a(DECKS[name], swept).max() < circuits.LEFT_OVER_A


@pytest.mark.peer("ngspice")
def test_current_left_over_is_noticed(tmp_path):
    """The judge of ngspice's answers sees a part in a million of one cell's light."""
    network = Network((string(row([CELL] * 3)),))
    (swept,) = spice.solve(network, [spice.Sweep(1.5, 0.0, 5)], tmp_path)
    brighter = Diode(8.55 * (1 + 1e-6), 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
    other = Network((string(row([brighter, CELL, CELL])),))
    assert left_over_a(other, swept) == pytest.approx(np.full(5, 8.55e-6), rel=0.01)


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("name", DECKS)
def test_each_kind_of_damage_equals_ngspice_run_now(name):
    assert differences(DECKS[name]) == []
