"""Damaged and shaded panels against ngspice, a general circuit simulator.

Currents differ by shares of the brightest cell's light current: a little below zero volts ngspice's diode
follows a cubic in place of the exponential, which is some hundredths of a microampere in a bypass diode.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from random import Random

import numpy as np

from campaigns import spice
from campaigns.found import Found, Worst
from panewright.cell.diode import Diode
from panewright.circuit.maxima import power_maxima
from panewright.circuit.network import Network, Substring
from panewright.circuit.solve import current_a
from panewright.enclosure.bypass import Bypass

POINTS = 61
SCHOTTKY = Bypass("a Schottky diode", 5e-6, 0.02698, 0.01, 15.0, 45.0)
_ALLOWED = {"current along the curve": 1e-6, "greatest power": 1e-6, "power missed by ours": 1e-6}


def campaign(count: int, seed: int) -> Found:
    """Random panels: current at 61 voltages, the power at our greatest, and none greater elsewhere."""
    chance, worst = Random(seed), Worst(_ALLOWED)
    humps: dict[str, int] = {}
    for number in range(count):
        network = any_panel(chance)
        maxima = _compared(network, worst, f"panel {number} of seed {seed}")
        key = f"with {maxima} maxima" if maxima > 1 else "with one maximum"
        humps[key] = humps.get(key, 0) + 1
    return Found("panels, shaded and damaged", "ngspice", count, humps, worst.deviations())


def any_panel(chance: Random) -> Network:
    """One to three strings of one to three substrings of cells that differ, some of them badly."""
    sound = Diode(
        light_a=chance.uniform(0.3, 10.0),
        saturation_a=10 ** chance.uniform(-11, -8),
        ideality_v=chance.uniform(0.026, 0.036),
        series_ohm=chance.uniform(0.0, 0.01),
        shunt_ohm=10 ** chance.uniform(0.7, 3),
        breakdown_siemens=chance.choice((0.0, 10 ** chance.uniform(-4, -2))),
        breakdown_v=-chance.uniform(10, 30),
    )
    bypass = chance.choice((None, SCHOTTKY, SCHOTTKY))
    parts, cells = chance.randint(1, 3), chance.randint(2, 16)
    strings = tuple(
        tuple(_substring(sound, cells, bypass, chance) for _ in range(parts))
        for _ in range(chance.randint(1, 3))
    )
    return Network(strings, chance.choice((0.0, chance.uniform(0.0, 0.1))))


def _substring(sound: Diode, count: int, bypass: Bypass | None, chance: Random) -> Substring:
    share = chance.choice((0.0, 0.0, 0.1, 0.5))
    cells = tuple(_hurt(sound, chance) if chance.random() < share else sound for _ in range(count))
    joints = tuple(0.05 if chance.random() < 0.05 else 0.0012 for _ in range(count))
    return Substring(cells, joints, bypass)


def _hurt(cell: Diode, chance: Random) -> Diode:
    """Shaded, cracked or leaking."""
    return Diode(
        light_a=cell.light_a * chance.choice((0.0, 0.1, chance.random(), 1.0)),
        saturation_a=cell.saturation_a * chance.choice((1.0, 10.0)),
        ideality_v=cell.ideality_v,
        series_ohm=cell.series_ohm * chance.choice((1.0, 5.0)),
        shunt_ohm=cell.shunt_ohm * chance.choice((1.0, 0.1)),
        breakdown_siemens=cell.breakdown_siemens,
        breakdown_v=cell.breakdown_v,
    )


def _compared(network: Network, worst: Worst, where: str) -> int:
    """How many maxima there are; the differences go to `worst`."""
    maxima = power_maxima(network)
    best = maxima[0]
    if best.power_w <= 0:
        return 1
    around = best.vmp_v * 0.999, best.vmp_v * 1.001, 3
    with tempfile.TemporaryDirectory() as folder:
        along, near = spice.currents(network, [(0.0, best.voc_v, POINTS), around], Path(folder))
    ours = current_a(network, along[0])
    bright = max(cell.light_a for string in network.strings for part in string for cell in part.cells)
    worst.see("current along the curve", float(np.abs(ours - along[1]).max() / bright), where)
    worst.see("greatest power", near[0][1] * near[1][1] / best.power_w - 1, where)
    above = np.max(np.concatenate((along[0] * along[1], near[0] * near[1]))) / best.power_w - 1
    worst.see("power missed by ours", max(0.0, float(above)), where)
    return len(maxima)
