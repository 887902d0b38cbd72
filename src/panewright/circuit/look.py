"""One panel as a picture of it needs it: its curve, its points, and what every cell does meanwhile.

The curve has half of its points at even steps of voltage, half at even steps of current, as `trace` has. It
begins at short circuit. Where something is wrong with the panel it begins below, at the voltage to which
sound panels in series would drive it by their own short-circuit current: its reverse branch.

A cell at work has one role.

    warms      it takes power in
    bypassed   it lies under a bypass diode that carries current of its string
    limits     it gives the least of its string, and clearly less than the best
    gives      none of these
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf
from typing import Literal

import numpy as np

from panewright.cell.key_points import KeyPoints
from panewright.circuit.inside import CellState, states_of
from panewright.circuit.line import Line, LineOf, as_written
from panewright.circuit.network import Network
from panewright.circuit.place import DiodeAt
from panewright.circuit.solver.panel import Panel
from panewright.circuit.solver.sheet import BRIDGE, NONE
from panewright.circuit.trace import Curve

Role = Literal["gives", "limits", "bypassed", "warms"]
POINTS = 61  #: of a curve on a screen
_CONDUCTS = 1e-3  # of the string's current, past a diode that conducts
_CLEARLY = 0.98  # of the best cell's power: a cell that gives more does not hold its string back
_ALIKE = 1e-6  # of the best cell's power: two that give the same
_BACK = 1e-3  # of the open voltage: a reverse branch shorter than this is not shown


@dataclass(frozen=True, slots=True)
class AtWork:
    """Every cell of a panel held at one voltage."""

    terminal_v: float
    cells: tuple[CellState, ...]
    roles: tuple[Role, ...]  #: of the cells, in their order
    conducting: tuple[DiodeAt, ...]  #: bypass diodes that carry current of their string


@dataclass(frozen=True, slots=True)
class Look:
    """One panel, looked at."""

    points: KeyPoints
    curve: Curve
    at_peak: AtWork  #: at its greatest power
    shorted: AtWork  #: in short circuit, where shaded cells are hottest


def look(network: Network, driven_a: float = 0.0, points: int = POINTS, line_of: LineOf = as_written) -> Look:
    """All of it; `driven_a` is the current by which sound panels in series would drive this one. [A]"""
    line = line_of(network)
    known = _points(line)
    curve = _curve(line, known, max(line.volts([driven_a])[0], -known.voc_v), points)
    return Look(known, curve, at_work(network, line, known.vmp_v), at_work(network, line, 0.0))


def _points(line: Line) -> KeyPoints:
    """What the panel is known by; one whose poles are the wrong way round gives nothing."""
    isc, voc = line.amps([0.0])[0], line.volts([0.0])[0]
    imp, vmp = line.peak() if isc > 0 and voc > 0 else (0.0, 0.0)
    lit = imp > 0 and vmp > 0
    return KeyPoints(max(isc, 0.0), max(voc, 0.0), imp if lit else 0.0, vmp if lit else 0.0)


def _curve(line: Line, known: KeyPoints, driven_v: float, points: int) -> Curve:
    """From short circuit, or from clearly below it where the panel is driven there, to no current."""
    first_v = driven_v if driven_v < -_BACK * known.voc_v else 0.0
    by_volt = np.linspace(first_v, known.voc_v, points - points // 2 + 1)[:-1].tolist()
    of_volt = line.amps(by_volt)
    by_current = np.linspace(of_volt[0], 0.0, points // 2 + 1)[1:].tolist()
    found = [*zip(by_volt, of_volt, strict=True), *zip(line.volts(by_current), by_current, strict=True)]
    found.sort(key=lambda point: (point[0], -point[1]))
    return Curve(tuple(volt for volt, _ in found), tuple(current for _, current in found))


def at_work(network: Network, line: Line, terminal_v: float) -> AtWork:
    """What every cell and bypass diode does while the panel is held at a voltage; `line` is its own."""
    panel, bus = line.held(terminal_v)
    conducting = tuple(_conducting(panel))
    cells = tuple(states_of(network, panel, bus))
    return AtWork(terminal_v, cells, tuple(_roles(network, cells, conducting)), conducting)


def _conducting(panel: Panel) -> Iterator[DiodeAt]:
    """Diodes that were made to guard, and do."""
    sheet, work = panel.laid.sheet, panel.hand.work
    for place, s in enumerate(panel.laid.string):
        whole = abs(panel.hand.near_a[s])
        for n, k in enumerate(range(sheet.first_part[s], sheet.first_part[s + 1])):
            if sheet.kind[k] not in (NONE, BRIDGE) and work.branch_a[k] > _CONDUCTS * whole > 0:
                yield DiodeAt(place, n)


def _roles(network: Network, cells: Sequence[CellState], conducting: Sequence[DiodeAt]) -> Iterator[Role]:
    """The role of every cell, string by string."""
    under = [
        DiodeAt(s, k) in conducting
        for s, string in enumerate(network.strings)
        for k, part in enumerate(string.substrings)
        for _ in part.cells
    ]
    for s in range(len(network.strings)):
        pairs = zip(cells, under, strict=True)
        mine = [(-cell.absorbed_w, bypassed) for cell, bypassed in pairs if cell.string == s]
        best = max(given for given, _ in mine)
        least = min((given for given, bypassed in mine if not bypassed), default=best)
        most = least + _ALIKE * best if least < _CLEARLY * best else -inf
        yield from (_role(given, bypassed, given <= most) for given, bypassed in mine)


def _role(given_w: float, bypassed: bool, least: bool) -> Role:
    if given_w < 0:
        return "warms"
    if bypassed:
        return "bypassed"
    return "limits" if least else "gives"
