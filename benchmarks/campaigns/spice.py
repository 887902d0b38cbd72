"""Any network as a circuit for ngspice: its curve, and what every cell goes through.

Every cell stands there by itself: a current source, a diode, a resistor for the shunt where there is one, a
behavioural source for the breakdown where there is one, and its own resistance together with its joint. A
turned cell lies with its plus side down. A meter, a source of no voltage, lies below the cells of every
substring and of every string.

ngspice's diode knows the ideality only as a multiple of its own kT/q, so the two are brought together here.
From three nVth below zero it follows a cubic in place of the exponential; where the saturation current is
large enough to show, as in a bypass diode, a behavioural source makes up the difference.
No resistor may be zero: it would hide other figures, so there is none; where a joint is off there is none.

Answers are read from ngspice's binary file, every digit of them.
"""

from __future__ import annotations

import math
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from campaigns.nodes import MINUS, PLUS, Nodes
from panewright.cell.diode import Diode
from panewright.circuit.network import Bridge, Network, Turned
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]
THERMAL_V = 1.38064852e-23 * 298.15 / 1.6021766208e-19  #: kT/q at 25 degC with ngspice's own constants
CLOSE = "reltol=1e-11 abstol=1e-11 vntol=1e-10 gmin=1e-13 itl1=500 itl2=500"
_LEAST_LEFT, _MOST_A = 1e-3, 1e4  # of 1 - V/Vbr: the law's end, which a Newton step may overshoot
_LEAKY_A = 1e-7  # of saturation: from here on the cubic shows


@dataclass(frozen=True, slots=True)
class Sweep:
    """Terminal voltages at even steps, in the order they are solved; downward is the quicker way."""

    start_v: float
    end_v: float
    points: int

    def command(self) -> str:
        """ngspice's own words for it; a quarter step more, so that the last point is not lost."""
        step = (self.end_v - self.start_v) / (self.points - 1)
        return f"dc Vout {self.start_v:.17g} {self.end_v + step / 4:.17g} {step:.17g}"


@dataclass(frozen=True, slots=True)
class Swept:
    """What ngspice found along one sweep; shorter than asked where it gave up."""

    voltage_v: Array
    current_a: Array
    named: dict[str, Array]  #: every node and branch by ngspice's name


@dataclass(frozen=True, slots=True)
class Cells:
    """Every cell along a sweep: one row for each point, cells in the order of the network."""

    junction_v: Array
    current_a: Array  #: out of the cell's own plus side
    voltage_v: Array  #: from the cell's own minus side to its plus side


class NoAnswer(RuntimeError):
    """ngspice did not solve the circuit at all."""


def circuit(network: Network, options: str = CLOSE, metered: bool = True) -> list[str]:
    """The panel between its terminals."""
    nodes = Nodes(network, metered)
    lines = ["panel", f".options {options} temp=25 tnom=25"]
    for s in range(len(network.strings)):
        lines += _string(s, nodes)
    return [*lines, *_resistor("lead", network.lead_ohm, nodes.bus, PLUS), f"Vout {PLUS} {MINUS} 0"]


def deck(network: Network, sweeps: list[Sweep], options: str = CLOSE, metered: bool = True) -> str:
    """The whole text: circuit and sweeps, each written to a file of its own."""
    control = [".control", *([] if metered else ["save i(Vout)"])]
    for k, sweep in enumerate(sweeps):
        control += [sweep.command(), f"write sweep{k}.raw"]
    return "\n".join([*circuit(network, options, metered), *control, "quit", ".endc", ".end", ""])


def solve(network: Network, sweeps: list[Sweep], folder: Path) -> list[Swept]:
    """Every sweep, solved by ngspice."""
    (folder / "panel.cir").write_text(deck(network, sweeps), "utf-8")
    said = run(folder)
    files = [folder / f"sweep{k}.raw" for k in range(len(sweeps))]
    if not all(file.exists() for file in files):
        raise NoAnswer(f"ngspice failed:\n{said[-1500:]}")
    return [_read(file) for file in files]


def run(folder: Path) -> str:
    """Let ngspice work on the deck in a folder; what it says."""
    command = ["ngspice", "-b", "panel.cir"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, timeout=300)
    return done.stdout + done.stderr


def cells(network: Network, swept: Swept) -> Cells:
    """Voltage and current of every cell along a sweep."""
    nodes = Nodes(network)
    columns: list[tuple[Array, Array, Array]] = []
    for s, string in enumerate(network.strings):
        for k, part in enumerate(string.substrings):
            for c, cell in enumerate(part.cells):
                minus, inner, _ = nodes.cell(s, k, c)
                current = swept.named[f"i(vm{s}_{k})"] * (-1.0 if c in part.turned else 1.0)
                volt = node_v(swept, inner) - node_v(swept, minus)
                columns.append((volt, current, volt - current * cell.series_ohm))
    return Cells(*(np.stack(each, axis=1) for each in zip(*columns, strict=True)))


def torn_v(network: Network, swept: Swept) -> Array:
    """Greatest voltage over a meter, which has to be nothing, at every point of a sweep. [V]"""
    nodes, worst = Nodes(network), np.zeros_like(swept.voltage_v)
    for s, string in enumerate(network.strings):
        for k in range(len(string.substrings)):
            low, meter = nodes.ends(s, k)[0], nodes.cell(s, k, 0)[0]
            worst = np.maximum(worst, np.abs(node_v(swept, low) - node_v(swept, meter)))
    return worst


def strings_a(network: Network, swept: Swept) -> Array:
    """Current of every string along a sweep. [A]"""
    return np.stack([swept.named[f"i(vs{s})"] for s in range(len(network.strings))], axis=1)


def node_v(swept: Swept, node: str) -> Array:
    """Voltage of a node above the minus terminal, along a sweep. [V]"""
    return np.zeros_like(swept.voltage_v) if node == MINUS else swept.named[f"v({node})"]


def _string(s: int, nodes: Nodes) -> Iterator[str]:
    """One string; where its tail is infinite its upper end hangs in the air."""
    string = nodes.network.strings[s]
    if nodes.metered:
        yield f"Vs{s} {MINUS} {nodes.foot(s)} 0"
    for k in range(len(string.substrings)):
        yield from _substring(s, k, nodes)
    if not nodes.broken(s):
        yield from _resistor(f"tail{s}", string.tail_ohm, nodes.top(s), nodes.tail(s))
        if string.blocking:
            yield from _diode(f"block{s}", string.blocking, nodes.tail(s), nodes.bus)


def _substring(s: int, k: int, nodes: Nodes) -> Iterator[str]:
    part, (low, high) = nodes.network.strings[s].substrings[k], nodes.ends(s, k)
    if nodes.metered:
        yield f"Vm{s}_{k} {low} b{s}_{k}_0 0"
    for c, (cell, joint) in enumerate(zip(part.cells, part.joints_ohm, strict=True)):
        yield from _cell(f"{s}_{k}_{c}", cell, joint, nodes.cell(s, k, c))
    if isinstance(part.bypass, Bridge):
        yield from _resistor(f"bridge{s}_{k}", part.bypass.ohm, low, high)
    elif isinstance(part.bypass, Turned):
        yield from _diode(f"by{s}_{k}", part.bypass.diode, high, low)
    elif part.bypass:
        yield from _diode(f"by{s}_{k}", part.bypass, low, high)


def _cell(name: str, cell: Diode, joint: float, nodes: tuple[str, str, str]) -> Iterator[str]:
    minus, inner, plus = nodes
    yield f"I{name} {minus} {inner} {cell.light_a:.17g}"
    yield from _junction(f"c{name}", (cell.saturation_a, cell.ideality_v), inner, minus)
    if math.isfinite(cell.shunt_ohm):
        yield from _resistor(f"sh{name}", cell.shunt_ohm, inner, minus)
    if cell.breakdown_siemens:
        yield _breakdown(name, cell, inner, minus)
    yield from _resistor(f"s{name}", cell.series_ohm + joint, inner, plus)


def _breakdown(name: str, cell: Diode, inner: str, minus: str) -> str:
    """Bishop's term; the voltage held a hair before its end, where the current is beyond all measure."""
    m, volt = cell.breakdown_exponent, f"v({inner},{minus})"
    if math.isfinite(cell.breakdown_top_v):
        volt = f"min({volt},{cell.breakdown_top_v:.17g})"
    least = min(_LEAST_LEFT, (cell.breakdown_siemens * -cell.breakdown_v / _MOST_A) ** (1 / m))
    power = f"pwr(max(1-{volt}/({cell.breakdown_v:.17g}),{least:.17g}),{-m:.17g})"
    return f"B{name} {inner} {minus} i={cell.breakdown_siemens:.17g}*{volt}*{power}"


def _diode(name: str, diode: Bypass, anode: str, cathode: str) -> Iterator[str]:
    inner = f"i{name}" if diode.series_ohm else cathode
    yield from _junction(name, (diode.saturation_a, diode.ideality_v), anode, inner)
    yield from _resistor(name, diode.series_ohm, inner, cathode)


def _junction(name: str, figures: tuple[float, float], anode: str, cathode: str) -> Iterator[str]:
    """Saturation current and nVth; the cubic of ngspice's reverse law made the exponential again."""
    saturation, n = figures
    yield f"D{name} {anode} {cathode} d{name}"
    yield f".model d{name} D(IS={saturation:.17g} N={n / THERMAL_V:.17g})"
    if saturation >= _LEAKY_A:
        v, cubic = f"max(min(v({anode},{cathode}),{-n:.17g}),-999)", (3 * n / math.e) ** 3
        more = f"{saturation:.17g}*(exp({v}/{n:.17g})+{cubic:.17g}/({v}*{v}*{v}))"
        yield f"Bd{name} {anode} {cathode} i=v({anode},{cathode})<{-3 * n:.17g} ? {more} : 0"


def _resistor(name: str, ohm: float, one: str, other: str) -> list[str]:
    return [f"R{name} {one} {other} {ohm:.17g}"] if ohm and math.isfinite(ohm) else []


def _read(file: Path) -> Swept:
    """ngspice's binary file: a head of words, then rows of doubles."""
    head, _, body = file.read_bytes().partition(b"Binary:\n")
    words = head.decode("utf-8", "replace").splitlines()
    count = next(int(line.split(":")[1]) for line in words if line.startswith("No. Variables"))
    first = next(k for k, line in enumerate(words) if line.startswith("Variables:")) + 1
    names = [line.split()[1] for line in words[first : first + count]]
    rows = np.frombuffer(body, dtype=float).reshape(-1, count)
    named = {name: rows[:, k] for k, name in enumerate(names)}
    return Swept(rows[:, 0], named["i(vout)"], named)
