"""Networks of any make and any damage against ngspice, a general circuit simulator.

ngspice is asked for the curve from a little beyond open circuit down to short circuit, for a few points
around open circuit and around our greatest power. Its own answers are judged first, by how much current is
left over at its nodes; where it gave up, or left more over than it may, the network is counted and not
compared.

Currents are compared where the curve is flat and voltages where it is steep, whichever is nearer.
"""

from __future__ import annotations

import math
import tempfile
from dataclasses import dataclass
from pathlib import Path
from random import Random

import numpy as np

from campaigns import spice
from campaigns.damaged import any_network
from campaigns.found import Found, Worst
from campaigns.law import left_over_a
from panewright.circuit.inside import cell_states
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.solve import current_a, voltage_v
from panewright.circuit.trials import Trials, currents_a

POINTS = 81
LEFT_OVER_A = 1e-7  #: ngspice may leave this much at a node
TORN_V = 1e-7  #: where more lies over a meter, which has no resistance, its cells' voltages are not compared
LEAST_W = 1e-9  #: a power is compared with no less: of dark panels ngspice tells no more than its own dust
MOST_REFUSED = 0.1  #: of the networks may end without an answer from ngspice
_UNDETERMINED_V = 1e-6
WHOLE, TORN, GIVEN_UP = "compared", "compared but for the cells, torn by ngspice", "given up by ngspice"
ALLOWED = {
    "curve": 1e-6,
    "curve, compiled": 1e-6,
    "short-circuit current": 1e-6,
    "open-circuit voltage": 1e-6,
    "greatest power": 1e-6,
    "power missed by ours": 1e-6,
    "watts taken by a cell": 1e-5,
    "share not answered by ngspice": MOST_REFUSED,
}


@dataclass(frozen=True, slots=True)
class Answer:
    """ngspice's sweeps of one network."""

    along: spice.Swept
    at_open: spice.Swept | None
    at_best: spice.Swept | None


def campaign(count: int, seed: int) -> Found:
    """Random networks: curve, key points, and what every cell takes at short circuit and at the top."""
    worst, failures = Worst(ALLOWED), []
    counts = dict.fromkeys((WHOLE, TORN, GIVEN_UP), 0)
    for number in range(count):
        where = f"network {number} of seed {seed}"
        network = any_network(Random(f"{seed} {number}"))
        try:
            counts[compare(network, worst, where)] += 1
        except Exception as fault:  # whatever stops the solver is a finding, not the end of the campaign
            failures.append(f"{where}: {type(fault).__name__}: {fault}")
    worst.see("share not answered by ngspice", counts[GIVEN_UP] / count, "all of them")
    return Found(
        "networks, shaded and damaged", "ngspice", count, counts, worst.deviations(), tuple(failures)
    )


def compare(network: Network, worst: Worst, where: str) -> str:
    """Put all differences into `worst`; what there was to compare."""
    answer = ask(network)
    if answer is None:
        return GIVEN_UP
    _curve(network, answer, worst, where)
    _points(network, answer, worst, where)
    whole = _cells(network, answer.along, -1, worst, where)
    if answer.at_best is not None:
        whole = _cells(network, answer.at_best, 2, worst, where) and whole
    return WHOLE if whole else TORN


def ask(network: Network) -> Answer | None:
    """ngspice's answer, if it has a good one."""
    best = key_points(network)
    high = best.voc_v * 1.01 if best.voc_v > 0 else 0.5
    sweeps = [spice.Sweep(high, 0.0, POINTS)]
    if best.power_w > 0:
        sweeps += [_near(best.voc_v, 1e-4), _near(best.vmp_v, 1e-3)]
    try:
        with tempfile.TemporaryDirectory() as folder:
            swept = spice.solve(network, sweeps, Path(folder))
    except spice.NoAnswer:
        return None
    whole = all(each.voltage_v.size == sweep.points for each, sweep in zip(swept, sweeps, strict=True))
    if not whole or any(left_over_a(network, each).max() > LEFT_OVER_A for each in swept):
        return None
    return Answer(swept[0], *(swept[1:] if best.power_w > 0 else (None, None)))


def _near(volt: float, share: float) -> spice.Sweep:
    return spice.Sweep(volt * (1 + share), volt * (1 - share), 5)


def _curve(network: Network, answer: Answer, worst: Worst, where: str) -> None:
    """Current at every voltage, or voltage at every current where that is nearer."""
    volt, current = answer.along.voltage_v, answer.along.current_a
    flat = np.abs(np.asarray(current_a(network, volt)) - current) / (1 + np.abs(current))
    steep = np.abs(np.asarray(voltage_v(network, current)) - volt) / (1 + np.abs(volt))
    worst.see("curve", float(np.max(np.fmin(flat, steep))), where)
    compiled = np.abs(currents_a(Trials.once(network), volt)[0] - current) / (1 + np.abs(current))
    worst.see("curve, compiled", float(np.max(np.fmin(compiled, steep))), where)


def _points(network: Network, answer: Answer, worst: Worst, where: str) -> None:
    best, isc = key_points(network), float(answer.along.current_a[-1])
    if answer.at_open is None or answer.at_best is None:
        return
    worst.see("short-circuit current", (best.isc_a - isc) / (1e-3 + isc), where)
    ends = answer.at_open
    bend = np.polyfit(ends.current_a, ends.voltage_v / best.voc_v - 1, 2)
    theirs = best.voc_v * (1 + float(bend[-1]))
    still = abs(float(current_a(network, theirs))) / (1e-3 + isc)  # where nearly nothing flows all the same
    worst.see("open-circuit voltage", min(abs(float(bend[-1])), still), where)
    near = answer.at_best.voltage_v * answer.at_best.current_a
    whole_w = max(best.power_w, LEAST_W)
    worst.see("greatest power", (near[2] - best.power_w) / whole_w, where)
    most = max(near.max(), (answer.along.voltage_v * answer.along.current_a).max())
    worst.see("power missed by ours", max(0.0, most - best.power_w) / whole_w, where)


def _cells(network: Network, swept: spice.Swept, point: int, worst: Worst, where: str) -> bool:
    """Watts taken by every cell whose voltage the circuit determines; else its voltage lies in between.

    False where ngspice's own voltages do not fit together.
    """
    if spice.torn_v(network, swept)[point] > TORN_V:
        return False
    theirs = spice.cells(network, swept)
    for k, state in enumerate(cell_states(network, float(swept.voltage_v[point]))):
        volt = float(theirs.voltage_v[point, k])
        watts = -volt * float(theirs.current_a[point, k])
        apart = abs(state.absorbed_w - watts) / (0.1 + abs(watts))
        low, high = state.low_v, state.high_v
        if high - low > _UNDETERMINED_V or not math.isfinite(low + high):
            apart = max(0.0, low - volt, volt - high)
        worst.see("watts taken by a cell", apart, f"cell {k} of {where}")
    return True
