"""Circuits of panels as columns of numbers that light and heat are put into.

Two networks of one panel in full sun, one cool and one warm, tell how each cell changes with heat. Under the
rules of `cell.model` both ends fix the whole way exactly: light grows straight with heat, nVth goes with the
absolute temperature, and

    ln I0 = a + 3 ln T - b / T

has two unknowns. Rs and the breakdown stay, the shunt's conductance goes with the light, copper's resistance
is a straight line. The diodes in the box are taken as they are at 25 degC.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.circuit.solver.sheet import BRIDGE, BROKEN_OHM, BYPASS, NONE
from panewright.units import KELVIN

Whole = NDArray[np.int64]

COOL_C, WARM_C = 25.0, 65.0  #: cells of the two networks


class Law(NamedTuple):
    """Columns of the cells at 1000 W/m2 and 25 degC, of the substrings, and of the strings."""

    light_a: Array
    light_per_k: Array  #: [A/K]
    saturation_log: Array  #: a of ln I0
    saturation_k: Array  #: b of ln I0 [K]
    ideality_v_k: Array  #: nVth a kelvin [V/K]
    series_ohm: Array
    shunt_s: Array  #: conductance in full sun [S]
    breakdown_s: Array
    breakdown_v: Array
    exponent: Array
    first_cell: Whole  #: of each substring, and the end of the last
    beside: Whole  #: NONE, BYPASS or BRIDGE of `solver.sheet`
    beside_a: Array
    beside_v: Array
    beside_ohm: Array
    joints_ohm: Array
    joints_ohm_k: Array  #: [ohm/K]
    first_part: Whole  #: of each string, and the end of the last
    tail_ohm: Array
    blocking_a: Array  #: saturation current of the blocking diode, 0 where there is none
    blocking_v: Array
    blocking_ohm: Array
    first_string: Whole  #: of each panel, and the end of the last
    lead_ohm: Array  #: of each panel
    lead_ohm_k: Array  #: [ohm/K]


def law_of(cool: Network, warm: Network) -> Law:
    """The law of a panel whose circuit at 1000 W/m2 is `cool` at 25 and `warm` at 65 degC.

    A `ValueError` where the two are not one panel, or where a cell or a diode is the wrong way round: such a
    panel is mended before it is wired to others.
    """
    both = [_parts(network) for network in (cool, warm)]
    if [len(part.cells) for part in both[0]] != [len(part.cells) for part in both[1]]:
        raise ValueError("the cool and the warm network are not of one panel: their substrings differ")
    _refuse_turned(both[0])
    per_k = 1 / (WARM_C - COOL_C)
    joints = np.array([[_ohm(sum(part.joints_ohm)) for part in parts] for parts in both])
    strings = cool.strings
    columns = (
        *_cells(*([cell for part in parts for cell in part.cells] for parts in both)),
        _ends([len(part.cells) for part in both[0]]),
        *_beside(both[0]),
        joints[0],
        (joints[1] - joints[0]) * per_k,
        _ends([len(string.substrings) for string in strings]),
        np.array([_ohm(string.tail_ohm) for string in strings]),
        *_blocking(strings),
        _ends([len(strings)]),
        np.array([cool.lead_ohm]),
        np.array([(warm.lead_ohm - cool.lead_ohm) * per_k]),
    )
    return Law._make(columns)


def side_by_side(laws: Sequence[Law]) -> Law:
    """The laws of some panels as one, panel after panel."""
    columns = []
    for name in Law._fields:
        own = [getattr(law, name) for law in laws]
        columns.append(
            _ends(np.concatenate([np.diff(each) for each in own]).tolist())
            if name in _ENDS
            else np.concatenate(own)
        )
    return Law._make(columns)


_ENDS = ("first_cell", "first_part", "first_string")


def _parts(network: Network) -> list[Substring]:
    return [part for string in network.strings for part in string.substrings]


def _refuse_turned(parts: Sequence[Substring]) -> None:
    for number, part in enumerate(parts, 1):
        if part.turned or isinstance(part.bypass, Turned):
            raise ValueError(f"in substring {number} a cell or a diode is the wrong way round; mend it first")


def _ohm(ohm: float) -> float:
    return min(float(ohm), BROKEN_OHM)


def _ends(counts: Sequence[int]) -> Whole:
    return np.array([0, *accumulate(counts)], dtype=np.int64)


def _cells(cool: Sequence[Diode], warm: Sequence[Diode]) -> tuple[Array, ...]:
    """Ten columns, from the same cells in two heats."""
    k = np.array([COOL_C, WARM_C]) + KELVIN
    light, saturation, ideality = (
        np.array([[getattr(cell, name) for cell in cells] for cells in (cool, warm)])
        for name in ("light_a", "saturation_a", "ideality_v")
    )
    own = np.log(saturation) - 3 * np.log(k)[:, None]
    fall_k = (own[1] - own[0]) / (1 / k[0] - 1 / k[1])
    columns = (
        [cell.series_ohm for cell in cool],
        [1 / cell.shunt_ohm for cell in cool],
        [cell.breakdown_siemens for cell in cool],
        [cell.breakdown_v for cell in cool],
        [cell.breakdown_exponent for cell in cool],
    )
    return (
        light[0],
        (light[1] - light[0]) / (WARM_C - COOL_C),
        own[0] + fall_k / k[0],
        fall_k,
        ideality[0] / k[0],
        *(np.array(column, dtype=float) for column in columns),
    )


def _beside(parts: Sequence[Substring]) -> tuple[Whole, Array, Array, Array]:
    """What lies beside each substring."""
    kinds, figures = [], []
    for part in parts:
        each = part.bypass
        if each is None or isinstance(each, Turned):
            kinds.append(NONE)
            figures.append((0.0, 1.0, 0.0))
        elif isinstance(each, Bridge):
            kinds.append(BRIDGE)
            figures.append((0.0, 1.0, each.ohm))
        else:
            kinds.append(BYPASS)
            figures.append((each.saturation_a, each.ideality_v, each.series_ohm))
    return np.array(kinds, dtype=np.int64), *np.array(figures, dtype=float).T.copy()


def _blocking(strings: Sequence[String]) -> tuple[Array, Array, Array]:
    diodes = [string.blocking for string in strings]
    figures = [(d.saturation_a, d.ideality_v, d.series_ohm) if d else (0.0, 1.0, 0.0) for d in diodes]
    leak, volt, ohm = np.array(figures, dtype=float).T.copy()
    return leak, volt, ohm
