"""The curve of one panel, beside ngspice's sweep of the same circuit at its fair best.

Thirty-six cells that all differ; ours begins with the cells' records and builds the network anew each time,
and is compiled, as for any batch.
ngspice sweeps from a little above open circuit down to short circuit, which with cells in reverse is many
times quicker than upward; it keeps only the panel's current and has no tighter tolerances than a curve good
to one part in a million needs. It is started once with 4 sweeps and once with 24; the difference of
processor time holds no start-up, no reading of the circuit and no ending.
"""

from __future__ import annotations

import resource
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from campaigns import spice
from clock import best_each_s
from numpy.typing import NDArray
from row import Row

import lots
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network
from panewright.circuit.trials import Trials, currents_a

POINTS, CELLS = 101, 36
LEAST_RATIO = 25.0
FAIR = "reltol=1e-6 abstol=1e-9 vntol=1e-7 gmin=1e-12 itl1=500 itl2=500"
_FEW, _MANY, _RUNS = 4, 24, 3
NEEDS = "ngspice"
Build = Callable[[], Network]


def panels() -> dict[str, Build]:
    """What is traced: each as a function that builds the network from the cells' records."""
    even = lots.lot((1, CELLS), 1)
    soft = lots.lot((1, CELLS), 1, soft=True)
    sound, spots, weak = (
        lots.diodes(cells, 0) for cells in (even, lots.shaded(even, 2), lots.shaded(soft, 3, 4))
    )
    return {
        "even light": partial(lots.network, sound, 2),
        "even light, no bypass diode": partial(lots.network, sound, 1, None),
        "shaded, two bypass diodes": partial(lots.network, spots, 2),
        "shaded, no bypass diode, cells in reverse": partial(lots.network, spots, 1, None),
        "soft cells breaking down, no bypass diode": partial(lots.network, weak, 1, None),
        "two unlike strings, shaded": partial(lots.network, spots, 1, None, 2),
    }


def rows() -> list[Row]:
    """Easy and hard alike."""
    return [_row(name, build) for name, build in panels().items()]


def _row(name: str, build: Build) -> Row:
    volts = np.linspace(0.0, key_points(build()).voc_v, POINTS)

    def ours() -> NDArray[np.float64]:
        return currents_a(Trials.once(build()), volts)

    ours()  # the compiled functions are there

    peer = f"ngspice, {POINTS} points downward, no start-up"
    what = f"curve of {POINTS} points, {CELLS} cells, {name}"
    return Row(what, best_each_s(ours), peer, sweep_s(build()), least_ratio=LEAST_RATIO)


def sweep_s(network: Network) -> float:
    """Processor time of one sweep without start-up. [s]"""
    sweep = spice.Sweep(key_points(network).voc_v * 1.001, 0.0, POINTS)
    few, many = (min(_swept_s(network, [sweep] * times) for _ in range(_RUNS)) for times in (_FEW, _MANY))
    return (many - few) / (_MANY - _FEW)


def _swept_s(network: Network, sweeps: list[spice.Sweep]) -> float:
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, "panel.cir").write_text(spice.deck(network, sweeps, FAIR, metered=False), "utf-8")
        before = _children_s()
        spice.run(Path(folder))
        if len(list(Path(folder).glob("*.raw"))) < len(sweeps):
            raise spice.NoAnswer("ngspice did not finish its sweeps")
        return _children_s() - before


def _children_s() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime
