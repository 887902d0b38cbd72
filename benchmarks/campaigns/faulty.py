"""Panels with something wrong, drawn by chance: circuits by ngspice, read with errors.

Every group has the same share. Strengths go from hardly visible to severe, each tenfold step as likely as
the next. A panel is read as a curve of sixty points, or with a meter alone: Voc, Isc, and two loads.
Voltages and currents scatter by half a per cent each, light is read to 2 %, cells' heat to 2 K.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import exp, log
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from campaigns import spice
from panewright.bench.fault.kinds import Group
from panewright.bench.fault.readings import Common, Points
from panewright.cell.damage import Cracked, Shaded, Shunted, Soiled
from panewright.cell.diode import Diode
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.damage import (
    CellTurned,
    DiodeShorted,
    DiodeTurned,
    Fault,
    JointCold,
    JointOpen,
    damaged,
)
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt, within
from panewright.enclosure.bypass import Bypass

GROUPS: tuple[Group, ...] = (
    "healthy", "lost voltage", "weak cell", "added resistance", "shunted cell", "dimmed", "two faults"
)  # fmt: skip
NOISE, LIGHT, HEAT_K = 0.005, 0.02, 2.0
READINGS = 61
_EACH = 4  # points of ngspice's sweep for one of a curve
SCHOTTKY = Bypass("Schottky", 5e-6, 0.02698, 0.01, 15.0, 45.0)
RANGES: dict[str, tuple[float, float]] = {
    "weak cell": (0.01, 0.95),  # share of the light, or of the area
    "added resistance": (0.005, 0.8),  # of the panel's Voc / Isc
    "shunted cell": (0.3, 100.0),  # of one cell's Voc / Isc
    "dimmed": (0.02, 0.7),  # share of the light
}

OWN_ISC = 0.01  #: how well a panel's own Isc is foretold; with the light's 2 % it is that of `AS_BUILT`

Panel = Callable[[float, float], Network]
Wiring = tuple[int, int, Bypass | None, float]  #: rows, cells of each, their diode, the cell's amperes
Curve = tuple[spice.Array, spice.Array]


@dataclass(frozen=True, slots=True)
class Case:
    """One panel, what is wrong with it, and how it was read."""

    group: Group
    words: str
    panel: Panel  #: as it is foretold
    network: Network  #: as it is, in the light and heat that there was
    lost: float  #: share of Pmp
    irradiance_w_m2: float  #: as read
    cell_c: float  #: as read
    at: Panel  #: with what is wrong, at W/m2 and degC
    true_w_m2: float
    true_c: float
    places: tuple[int, ...]  #: numbers of the cells at which things are wrong
    model: CellModel  #: of the cells as they are foretold
    wiring: Wiring
    true: Panel  #: as it is, but for what is wrong

    @property
    def sound(self) -> Network:
        """As it is foretold, in the light and heat that there was."""
        return self.panel(self.true_w_m2, self.true_c)


@dataclass(frozen=True, slots=True)
class Readings:
    """A panel read one way, and the same without any error."""

    seen: Points
    plain: Points
    loads_ohm: tuple[float, ...] = ()  #: a meter's, which it is known to have


@dataclass(frozen=True, slots=True)
class _Thing:
    """One fault: its group, words, and how it changes a network."""

    group: Group
    words: str
    dim: float = 0.0
    fault: Callable[[Network, int], Network] | None = None  #: at a cell's number


def draw(chance: np.random.Generator, group: Group, off: Common | None = None) -> Case:
    """A panel of that group; `off` is how well a panel is foretold by what went in, exactly unless told."""
    model, wiring = _panel(chance)
    panel, cells = wired(model, wiring), wiring[0] * wiring[1]
    true = wired(model_off(chance, model, off), wiring) if off else panel
    light, heat = chance.uniform(500, 1050), chance.uniform(25, 65)
    things = _things(chance, group, true(light, heat))
    places = chance.permutation(cells)[: len(things)] + 1

    def at(irradiance_w_m2: float, cell_c: float) -> Network:
        return _with(things, places, true, (irradiance_w_m2, cell_c))

    network = at(light, heat)
    sound = key_points(true(light, heat)).power_w
    lost = 1 - key_points(network).power_w / sound
    words = " and ".join(f"{thing.words} at {place}" for thing, place in zip(things, places, strict=True))
    read = light * (1 + LIGHT * chance.normal()), heat + HEAT_K * chance.normal()
    return Case(
        group,
        words,
        panel,
        network,
        lost,
        *read,
        at,
        light,
        heat,
        tuple(places.tolist()),
        model,
        wiring,
        true,
    )


def _with(things: list[_Thing], places: NDArray[np.int_], panel: Panel, at: tuple[float, float]) -> Network:
    """The panel with these things wrong, in a light and heat."""
    dim = 1.0
    for thing in things:
        dim *= 1 - thing.dim
    network = panel(at[0] * dim, at[1])
    for thing, place in zip(things, places, strict=True):
        if thing.fault:
            network = thing.fault(network, int(place))
    return network


def _panel(chance: np.random.Generator) -> tuple[CellModel, Wiring]:
    """A cell, and rows of it under a diode each, or none."""
    rows, each, bypass = (
        (2, 18, SCHOTTKY), (3, 20, SCHOTTKY), (2, 20, SCHOTTKY), (1, 20, None), (2, 12, SCHOTTKY)
    )[int(chance.integers(5))]  # fmt: skip
    amps, shunt = chance.uniform(3, 10), chance.uniform(100, 400)
    cell = Diode(amps, amps * 2.7e-10, 0.02826, 0.026 / amps, shunt / amps, 0.1 / shunt * amps, -18.0, 3.4)
    return CellModel(cell, 1.05, 0.0005, 24336.0), (rows, each, bypass, amps)


def wired(model: CellModel, wiring: Wiring) -> Panel:
    """A panel of such cells."""
    rows, each, bypass, amps = wiring

    def at(irradiance_w_m2: float, cell_c: float) -> Network:
        one = diode_at(model, irradiance_w_m2, cell_c)
        row = Substring((one,) * each, (0.01 / amps,) * each, bypass)
        return Network((String((row,) * rows),), 0.1 / amps)

    return at


def model_off(chance: np.random.Generator, model: CellModel, off: Common) -> CellModel:
    """The cell as it truly is: Isc, Voc, resistance and shunt by chance about what is foretold."""
    cell = model.stc
    voc = cell.ideality_v * log(cell.light_a / cell.saturation_a)
    isc = (1 + OWN_ISC * chance.normal()) * cell.light_a
    series = cell.series_ohm + off.series * chance.normal() * voc / cell.light_a
    return replace(
        model,
        stc=replace(
            cell,
            light_a=isc,
            saturation_a=cell.saturation_a * exp(-off.voc * chance.normal() * voc / cell.ideality_v),
            series_ohm=max(series, 0.1 * cell.series_ohm),
            shunt_ohm=cell.shunt_ohm * exp(off.shunt * chance.normal()),
        ),
    )


def _things(chance: np.random.Generator, group: Group, network: Network) -> list[_Thing]:
    if group == "healthy":
        return []
    if group != "two faults":
        return [_thing(chance, group, network)]
    one, other = chance.choice(np.arange(1, 6), 2, replace=False)
    return [_thing(chance, GROUPS[one], network), _thing(chance, GROUPS[other], network)]


def _strength(chance: np.random.Generator, group: str) -> float:
    low, high = RANGES[group]
    return exp(chance.uniform(log(low), log(high)))


def _thing(chance: np.random.Generator, group: Group, network: Network) -> _Thing:
    points = key_points(network)
    cells = sum(len(row.cells) for row in network.strings[0].substrings)
    panel_ohm = points.voc_v / points.isc_a
    if group == "lost voltage":
        return _lost(chance, network)
    x = _strength(chance, group)
    if group == "dimmed":
        return _Thing(group, f"light less by {x:.3f}", dim=x)
    if group == "added resistance":
        return _Thing(group, f"{x * panel_ohm:.4f} ohm", fault=_at_cell(JointCold(x * panel_ohm)))
    if group == "shunted cell":
        ohm = x * panel_ohm / cells
        return _Thing(group, f"shunt of {ohm:.4f} ohm", fault=_at_cell(Shunted(ohm)))
    kind = (Cracked, Shaded, Soiled)[int(chance.integers(3))]
    return _Thing(group, f"{kind.__name__} {x:.3f}", fault=_at_cell(kind(x)))


def _lost(chance: np.random.Generator, network: Network) -> _Thing:
    guarded = network.strings[0].substrings[0].bypass is not None
    which = int(chance.integers(5 if guarded else 2))
    if which == 0:
        return _Thing("lost voltage", "cell left out", fault=_left_out)
    if which == 1:
        return _Thing("lost voltage", "cell turned", fault=_at_cell(CellTurned()))
    if which == 4:
        return _Thing("lost voltage", "joint off", fault=_at_cell(JointOpen()))
    damage = DiodeShorted() if which == 2 else DiodeTurned()
    return _Thing("lost voltage", type(damage).__name__, fault=_at_diode(damage))


def _at_cell(
    damage: Cracked | Shaded | Soiled | Shunted | JointCold | JointOpen | CellTurned,
) -> Callable[[Network, int], Network]:
    return lambda network, number: damaged(network, Fault(damage, CellAt(0, number)))


def _at_diode(damage: DiodeShorted | DiodeTurned) -> Callable[[Network, int], Network]:
    def fault(network: Network, number: int) -> Network:
        row, _ = within(network, CellAt(0, number))
        return damaged(network, Fault(damage, DiodeAt(0, row)))

    return fault


def _left_out(network: Network, number: int) -> Network:
    row, k = within(network, CellAt(0, number))
    rows = list(network.strings[0].substrings)
    there = rows[row]
    rows[row] = replace(
        there,
        cells=there.cells[:k] + there.cells[k + 1 :],
        joints_ohm=there.joints_ohm[:k] + there.joints_ohm[k + 1 :],
        turned=tuple(j - (j > k) for j in there.turned if j != k),
    )
    return Network((replace(network.strings[0], substrings=tuple(rows)),), network.lead_ohm)


def read(case: Case, chance: np.random.Generator, folder: Path) -> tuple[Readings, Readings]:
    """The panel's curve by ngspice, read as a sweep and with a meter alone."""
    true, plain = _curve(case.network, folder), _curve(case.at(case.irradiance_w_m2, case.cell_c), folder)
    sound = key_points(case.panel(case.irradiance_w_m2, case.cell_c))
    loads = [factor * sound.vmp_v / sound.imp_a for factor in (0.8, 1.8)]
    swept = _read(case, chance, *((v[::_EACH], i[::_EACH]) for v, i in (true, plain)))
    meter = _read(case, chance, *(_met(curve, loads) for curve in (true, plain)))
    return swept, replace(meter, loads_ohm=tuple(loads))


def _curve(network: Network, folder: Path) -> Curve:
    """Voltage, rising, and current."""
    top = key_points(network).voc_v
    (swept,) = spice.solve(network, [spice.Sweep(top, 0.0, _EACH * (READINGS - 1) + 1)], folder)
    return swept.voltage_v[::-1], swept.current_a[::-1]


def _met(curve: Curve, loads: list[float]) -> Curve:
    """What a meter reads: open, shorted, and at loads in ohm."""
    v, i = curve
    volts = np.array([v[-1], 0.0, *(float(np.interp(0.0, v - ohm * i, v)) for ohm in loads)])
    amps = np.interp(volts, v, i)
    amps[0] = 0.0
    return volts, amps


def _read(case: Case, chance: np.random.Generator, true: Curve, plain: Curve) -> Readings:
    v, i = true
    seen_v = v * (1 + NOISE * chance.normal(size=v.size))
    seen_i = i * (1 + NOISE * chance.normal(size=i.size))
    return Readings(_points(case, seen_v, seen_i), _points(case, *plain))


def _points(case: Case, v: spice.Array, i: spice.Array) -> Points:
    common = Common(light=LIGHT, heat_k=HEAT_K)
    return Points(v, i, NOISE * np.abs(v), NOISE * np.abs(i), case.irradiance_w_m2, case.cell_c, common)
