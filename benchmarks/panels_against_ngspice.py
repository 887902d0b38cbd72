"""One panel's greatest power and its curve, beside ngspice's sweep of the same circuit.

ngspice is started once with 5 sweeps and once with 25; the difference holds no start-up, no reading of the
circuit and no ending. A sweep of 201 points is what ngspice needs to find the greatest power at all, true
to about one part in ten thousand; ours is exact.
"""

from __future__ import annotations

import tempfile
from dataclasses import replace
from functools import partial
from pathlib import Path

from campaigns import spice
from clock import best_each_s, best_s
from row import Row

from panewright.cell.diode import Diode
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, Substring
from panewright.circuit.trace import trace
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("a Schottky diode", 5e-6, 0.02698, 0.01, 15.0, 45.0)
POINTS = 201
_FEW, _MANY = 5, 25
NEEDS = "ngspice"


def panel(shaded: int = 0, strings: int = 1) -> Network:
    """Sixty cells under three bypass diodes, the first few cells of the first string in half light."""
    cells = [replace(CELL, light_a=CELL.light_a / 2)] * shaded + [CELL] * (60 - shaded)
    hurt = tuple(_substring(cells[k : k + 20]) for k in (0, 20, 40))
    sound = tuple(_substring([CELL] * 20) for _ in range(3))
    return Network((hurt, *[sound] * (strings - 1)), 0.01)


def _substring(cells: list[Diode]) -> Substring:
    return Substring(tuple(cells), (0.0012,) * len(cells), SCHOTTKY)


def rows() -> list[Row]:
    """Evenly lit, partly shaded, and two unlike strings side by side."""
    panels = (
        ("60 cells", panel()),
        ("60 cells, 3 in half light", panel(3)),
        ("2 strings of 60 cells, 3 in half light", panel(3, 2)),
    )
    return [row for name, network in panels for row in _rows(name, network)]


def _rows(name: str, network: Network) -> list[Row]:
    peer, peer_s = f"ngspice, {POINTS} points, no start-up", sweep_s(network)
    ours = best_each_s(partial(key_points, network)), best_each_s(partial(trace, network, POINTS))
    return [
        Row(f"greatest power, {name}", ours[0], peer, peer_s),
        Row(f"curve of {POINTS} points, {name}", ours[1], peer, peer_s),
    ]


def sweep_s(network: Network) -> float:
    """Time of one sweep without start-up. [s]"""
    voc = key_points(network).voc_v

    def swept(times: int) -> float:
        with tempfile.TemporaryDirectory() as folder:
            sweeps = [(0.0, voc, POINTS)] * times
            return best_s(lambda: spice.currents(network, sweeps, Path(folder)), 3)

    return (swept(_MANY) - swept(_FEW)) / (_MANY - _FEW)
