"""A panel as a circuit for ngspice, and its current at chosen voltages.

Every cell stands there by itself: a current source, a diode, a resistor for the shunt, a behavioural source
for the breakdown, and its own resistance together with its joint. ngspice's diode knows the ideality only
as a multiple of its own kT/q, so the two are brought together here.
"""

from __future__ import annotations

import math
import subprocess
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.circuit.network import Network, Substring

Array = NDArray[np.float64]
THERMAL_V = 1.38064852e-23 * 298.15 / 1.6021766208e-19  #: kT/q at 25 degC with ngspice's own constants
_OPTIONS = ".options reltol=1e-9 abstol=1e-14 vntol=1e-11 gmin=1e-17 itl1=1000 itl2=1000 temp=25 tnom=25"
_LEAST_LEFT = 1e-3  # of 1 - V/Vbr: the law's end, which a Newton step may overshoot


def circuit(network: Network) -> list[str]:
    """The panel between node 0 (minus) and node plus."""
    lines, bus = ["panel", _OPTIONS], "bus" if network.lead_ohm else "plus"
    for s, string in enumerate(network.strings):
        low = "0"
        for k, substring in enumerate(string):
            high = bus if k == len(string) - 1 else f"n{s}_{k}"
            lines += _substring(f"{s}_{k}", substring, low, high)
            low = high
    lead = [f"Rlead bus plus {network.lead_ohm:.17g}"] if network.lead_ohm else []
    return [*lines, *lead, "Vout plus 0 0"]


def _substring(name: str, substring: Substring, low: str, high: str) -> Iterator[str]:
    below = low
    for c, (cell, joint) in enumerate(zip(substring.cells, substring.joints_ohm, strict=True)):
        above = high if c == len(substring.cells) - 1 else f"m{name}_{c}"
        yield from _cell(f"{name}_{c}", cell, joint, below, above)
        below = above
    if diode := substring.bypass:
        n = diode.ideality_v / THERMAL_V
        yield f"Dby{name} {low} {high} by{name}"
        yield f".model by{name} D(IS={diode.saturation_a:.17g} N={n:.17g} RS={diode.series_ohm:.17g})"


def _cell(name: str, cell: Diode, joint: float, low: str, high: str) -> Iterator[str]:
    inner = f"j{name}"
    yield f"I{name} {low} {inner} {cell.light_a:.17g}"
    yield f"D{name} {inner} {low} d{name}"
    yield f".model d{name} D(IS={cell.saturation_a:.17g} N={cell.ideality_v / THERMAL_V:.17g})"
    if math.isfinite(cell.shunt_ohm):
        yield f"Rsh{name} {inner} {low} {cell.shunt_ohm:.17g}"
    if cell.breakdown_siemens:
        v = f"v({inner},{low})"
        left = f"max(1-{v}/({cell.breakdown_v:.17g}),{_LEAST_LEFT:g})"
        power = f"pwr({left},{-cell.breakdown_exponent:.17g})"
        yield f"B{name} {inner} {low} i={cell.breakdown_siemens:.17g}*{v}*{power}"
    yield f"Rs{name} {inner} {high} {cell.series_ohm + joint:.17g}"  # never 0: it would hide other figures


def currents(
    network: Network, sweeps: list[tuple[float, float, int]], folder: Path
) -> list[tuple[Array, Array]]:
    """Voltage and current along each sweep (from, to, points)."""
    control = [".control", "set numdgt=16", "set wr_singlescale"]
    for k, (start, end, points) in enumerate(sweeps):
        step = (end - start) / (points - 1)
        control += [f"dc Vout {start:.17g} {end + step / 4:.17g} {step:.17g}", f"wrdata sweep{k}.txt i(Vout)"]
    text = "\n".join([*circuit(network), *control, "quit", ".endc", ".end", ""])
    (folder / "panel.cir").write_text(text)
    run = subprocess.run(
        ["ngspice", "-b", "panel.cir"], cwd=folder, capture_output=True, text=True, check=False
    )
    files = [folder / f"sweep{k}.txt" for k in range(len(sweeps))]
    if not all(file.exists() for file in files):
        raise RuntimeError(f"ngspice failed:\n{run.stdout[-1500:]}{run.stderr[-1500:]}")
    return [tuple(np.loadtxt(file).T) for file in files]  # type: ignore[misc]
