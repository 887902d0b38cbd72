"""The cell's law once more, in plain numpy, to judge a solution by: how much current is left over.

Written apart from the package's own law, so that a slip in one does not hide in the other.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from campaigns.nodes import Nodes
from campaigns.spice import Swept, cells, node_v, strings_a
from panewright.cell.diode import Diode
from panewright.circuit.network import Bridge, Network, Turned
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]


def swallowed_a(cell: Diode, junction_v: Array) -> Array:
    """What a cell's junction takes of its light current. [A]"""
    diode = cell.saturation_a * np.expm1(junction_v / cell.ideality_v)
    held = np.minimum(junction_v, top_v(cell))
    left = 1 - held / cell.breakdown_v
    with np.errstate(all="ignore"):
        power = np.where(left > 0, left, np.nan) ** -cell.breakdown_exponent
    breakdown = cell.breakdown_siemens * held * power if cell.breakdown_siemens else 0.0
    return np.asarray(diode + junction_v / cell.shunt_ohm + breakdown)


def top_v(cell: Diode) -> float:
    """Forward voltage at which the breakdown term is greatest, and from which on it is held. [V]"""
    return -cell.breakdown_v / (cell.breakdown_exponent - 1) if cell.breakdown_exponent > 1 else math.inf


def left_over_a(network: Network, swept: Swept) -> Array:
    """Greatest current that does not add up at any node, for every point of a sweep. [A]

    A diode with a resistance of its own is judged by the voltage it should have at its current, turned
    back into a current by its slope there.
    """
    seen, every = cells(network, swept), [c for s in network.strings for p in s.substrings for c in p.cells]
    rest = [
        cell.light_a - swallowed_a(cell, seen.junction_v[:, k]) - seen.current_a[:, k]
        for k, cell in enumerate(every)
    ]
    rest += _beside(network, swept)
    rest.append(strings_a(network, swept).sum(axis=1) - swept.current_a)
    return np.asarray(np.max(np.abs(np.stack(rest)), axis=0))


def _beside(network: Network, swept: Swept) -> list[Array]:
    """What bypass diodes, bridges and blocking diodes carry too much."""
    nodes, all_a, rest = Nodes(network), strings_a(network, swept), []
    for s, string in enumerate(network.strings):
        for k, part in enumerate(string.substrings):
            low, high = (node_v(swept, node) for node in nodes.ends(s, k))
            apart = all_a[:, s] - swept.named[f"i(vm{s}_{k})"]
            rest.append(_too_much_a(part.bypass, high - low, apart))
        if string.blocking and not nodes.broken(s):
            volt = node_v(swept, nodes.bus) - node_v(swept, nodes.tail(s))
            rest.append(_too_much_a(string.blocking, volt, all_a[:, s]))
    return rest


def _too_much_a(beside: Bypass | Turned | Bridge | None, volt: Array, current: Array) -> Array:
    """Current beside a substring that its voltage (upper end above lower) does not explain. [A]"""
    if isinstance(beside, Bridge):
        return np.asarray(current + volt / beside.ohm)
    if isinstance(beside, Turned):
        return _too_much_a(beside.diode, -volt, -current)
    if beside is None:
        return current
    inner = -volt - current * beside.series_ohm
    diode = beside.saturation_a * np.expm1(inner / beside.ideality_v)
    slope = (diode + beside.saturation_a) / beside.ideality_v
    return np.asarray((diode - current) / (1 + slope * beside.series_ohm))
