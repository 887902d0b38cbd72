"""The curve of one string of like cells with a fault or two, by laws written here anew.

For the observer of `observer`, who must share no error of ours: nothing of the bench, of sums on a grid or of
the solver is used, only the figures of a cell. A cell is told by its junction's voltage, from which current
and terminal voltage follow in closed form (a diode, its shunt, and breakdown after J. W. Bishop, Solar Cells
25, 1988, p. 73, recalled). Cells of a row share a current, rows and what lies beside them a voltage. Every
curve is held against ngspice's of the same panel by the campaign that uses it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import floor, log1p

import numpy as np
from numpy.typing import NDArray

from campaigns.strung_loops import Law, between, finer, in_series, passing, rising, swallowing
from panewright.cell.model import CellModel, diode_at
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]
Branch = tuple[Array, Array]  #: rising currents, and the falling voltage at each
SHORTED_OHM = 0.005  #: of a diode that has failed short, as it is drawn
_NEAR_V, _STEP_V = 0.4, 0.002
_STRAIGHT, _LONG_V = 1e-6, 0.02  # share of the light under which a diode's part may be seen by longer steps
_FAR = np.geomspace(1e-3, 1.0, 300)  # of 1 - V/Vbr
_PASSED = np.concatenate([[0.0], np.geomspace(1e-7, 30.0, 220)])


@dataclass(frozen=True, slots=True)
class Strung:
    """Rows of like cells, a diode beside each or none."""

    model: CellModel
    rows: int
    each: int
    bypass: Bypass | None
    joint_ohm: float
    lead_ohm: float


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing, at a cell of a row or at the diode beside it."""

    kind: str
    size: float = 0.0  #: share of the light or area, or ohm
    row: int = 0


@lru_cache(maxsize=4096)
def cell(of: Law) -> Branch:
    """One cell's branch."""
    light = max(of.light_a, 1.0)
    top, bend = (of.ideality_v * log1p(share * light / of.saturation_a) for share in (2.6, _STRAIGHT))
    knee = max(_LONG_V * floor(bend / _LONG_V), -_NEAR_V)  # by whole steps, or slopes would feel it move
    far, leaks = _breaking(of.breakdown_v, of.exponent, knee)
    return swallowing(far, leaks, (knee, top, _STEP_V), of)


@lru_cache(maxsize=64)
def _breaking(breakdown_v: float, exponent: float, knee_v: float) -> tuple[Array, Array]:
    """Junction voltages below the knee, and Bishop's factor at each."""
    far = breakdown_v * (1 - _FAR)
    junction = np.concatenate([far[far < -_NEAR_V], np.arange(-_NEAR_V, knee_v - _LONG_V / 2, _LONG_V)])
    return junction, (1 - junction / breakdown_v) ** -exponent


def curve(panel: Strung, wrongs: Sequence[Wrong], irradiance_w_m2: float, cell_c: float) -> Branch:
    """Of the whole panel, from a little past open to past short circuit."""
    dim = np.prod([1 - each.size for each in wrongs if each.kind == "dimmed"])
    sound = _sound(panel.model, irradiance_w_m2 * float(dim), cell_c)
    at = [
        tuple(each for each in wrongs if each.row == k and each.kind != "dimmed") for k in range(panel.rows)
    ]
    branches = {there: _row(panel, sound, there) for there in set(at)}
    amps, volts = between(
        _in_series([(at.count(there), branch) for there, branch in branches.items()]),
        -0.05 * sound.light_a,
        1.3 * sound.light_a + 0.1,
    )
    return amps, volts - amps * panel.lead_ohm


@lru_cache(maxsize=512)
def _sound(model: CellModel, irradiance_w_m2: float, cell_c: float) -> Law:
    of = diode_at(model, irradiance_w_m2, cell_c)
    return Law(
        of.light_a, of.saturation_a, of.ideality_v, of.series_ohm, 1 / of.shunt_ohm, of.breakdown_siemens,
        of.breakdown_v, of.breakdown_exponent,
    )  # fmt: skip


def _in_series(parts: Sequence[tuple[int, Branch]]) -> Branch:
    """So many of each branch that carry one current."""
    count, whole = parts[0]
    if len(parts) == 1:
        return whole[0], count * whole[1]
    for more, branch in parts[1:]:
        whole, count = in_series(whole, float(count), branch, float(more)), 1
    return whole


@lru_cache(maxsize=512)
def _row(panel: Strung, sound: Law, wrongs: tuple[Wrong, ...]) -> Branch:
    """Of one row with what lies beside it."""
    kinds = {each.kind for each in wrongs}
    if "joint open" in kinds:
        return _beside(panel, kinds, (np.zeros(2), np.zeros(2)))
    cells, turned, ohm = [], 0, panel.joint_ohm * panel.each
    for each in wrongs:
        if each.kind == "gone":
            ohm -= panel.joint_ohm
        elif each.kind == "resistance":
            ohm += each.size
        elif each.kind == "turned":
            turned += 1
        elif each.kind in ("cracked", "shaded", "shunt"):
            cells.append(_hurt(sound, each))
    left = panel.each - len(cells) - turned - ("gone" in kinds)
    branches = [(left, cell(sound)), *((1, cell(each)) for each in cells)]
    if turned:
        amps, volts = cell(sound)
        branches.append((turned, (-amps[::-1], -volts[::-1])))
    amps, volts = _in_series(branches)
    return _beside(panel, kinds, (amps, volts - amps * ohm))


def _hurt(sound: Law, wrong: Wrong) -> Law:
    left = 1 - wrong.size
    if wrong.kind == "shaded":
        return sound._replace(light_a=sound.light_a * left)
    if wrong.kind == "shunt":
        return sound._replace(shunt_siemens=sound.shunt_siemens + 1 / wrong.size)
    return sound._replace(  # cracked: what is left is a smaller cell
        light_a=sound.light_a * left,
        saturation_a=sound.saturation_a * left,
        series_ohm=sound.series_ohm / left,
        shunt_siemens=sound.shunt_siemens * left,
        breakdown_siemens=sound.breakdown_siemens * left,
    )


@lru_cache(maxsize=16)
def _drop(diode: Bypass) -> Array:
    return np.asarray(diode.ideality_v * np.log1p(_PASSED / diode.saturation_a) + diode.series_ohm * _PASSED)


def _beside(panel: Strung, kinds: set[str], cells: Branch) -> Branch:
    """With the diode: its current at the cells' own voltage is added to theirs."""
    amps, volts = cells
    if panel.bypass is None:
        return cells
    diode = panel.bypass
    drop = _drop(diode)
    if "joint open" in kinds:  # the diode alone; backward nothing flows
        if "shorted" in kinds:
            return np.array([-1e3, 1e3]), np.array([1e3, -1e3]) * SHORTED_OHM
        return np.concatenate([[-1e-6], _PASSED]), np.concatenate([[1e3], -drop])
    if "shorted" in kinds:
        return rising(amps - volts / SHORTED_OHM, volts)
    if "diode turned" in kinds:
        amps, volts = finer(cells, drop[::-1])
        return rising(amps - np.interp(volts, drop, _PASSED), volts)
    return passing(cells, (_PASSED, drop), (diode.saturation_a, diode.ideality_v))
