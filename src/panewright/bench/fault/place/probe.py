"""Needles on an open lay-up: the voltage across some cells, over that of the whole panel.

The ratio leaves light and heat out, nearly. With the panel shorted there is no whole to hold it against, and
the voltage stands by itself: a weak cell driven into reverse then shows by its volts.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.bench.fault.place.belief import State
from panewright.bench.fault.place.expected import Expected
from panewright.bench.fault.place.setting import Meters, Setting
from panewright.bench.fault.place.strip import Alikes
from panewright.bench.fault.stacked import At, Stacked
from panewright.cell.root import Array
from panewright.circuit.place import CellAt, all_cells, within

_ALONE = 0.011  # of a voltage that stands by itself: light and heat
_MODEL = 0.003  # how far the circuit itself may be off, as a share
Inside = tuple[
    Array, float
]  #: voltage of every cell of a string with its joint; what the faulty one has more


@dataclass(frozen=True, slots=True)
class Within:
    """Every spot at every strength, with the panel held at a voltage, or open where it reaches none such."""

    volts: Array  #: of all cells, as if the fault were nowhere: (spots, strengths, cells)
    more: Array  #: what the faulty cell has more: (spots, strengths)
    whole: Array  #: across the panel: (spots, strengths)
    number: NDArray[np.int_]  #: of the faulty cell among all, from 0, or -1 for none: (spots,)


def cells_v(stacked: Stacked, wrong: tuple[At, ...], string: int, terminal_v: float) -> Inside:
    """Voltages along a string as if its fault were nowhere, and what the faulty cell has more. [V]"""
    rows, amps = stacked.network.strings[string].substrings, stacked.string_a(wrong, string, terminal_v)
    faulty = {
        within(stacked.network, at)[0] for _, _, at in wrong if isinstance(at, CellAt) and at.string == string
    }
    found, more = [], 0.0
    for k, row in enumerate(rows):
        row_v, own_a = stacked.row_at(wrong, string, k, amps)
        each = stacked.cells_at(row, own_a)
        if k in faulty:
            more = row_v - float(each.sum())
        else:
            each = each + (row_v - each.sum()) / len(row.cells)
        found.append(each)
    return np.concatenate(found), more


def within_panel(state: State, at_v: float) -> Within:
    """Of everything that is believed. [V]"""
    foretold = state.foretold
    stacked, stand_in = Stacked(foretold.network, foretold.grid, foretold.scale), Alikes(foretold.network)
    kept: dict[tuple[At, ...], tuple[Array, float, float]] = {}
    rows = []
    for spot in state.spots:
        wrongs = [stand_in.wrong(spot, strength) for strength in spot.strengths]
        for wrong in set(wrongs) - set(kept):
            kept[wrong] = _all_strings(stacked, wrong, at_v)
        rows.append([kept[wrong] for wrong in wrongs])
    every = numbers(state)
    at = [every[spot.place] if isinstance(spot.place, CellAt) else -1 for spot in state.spots]
    volts, more, whole = (np.array([[each[k] for each in row] for row in rows]) for k in range(3))
    return Within(volts, more, whole, np.array(at))


def _all_strings(stacked: Stacked, wrong: tuple[At, ...], at_v: float) -> tuple[Array, float, float]:
    held = min(at_v, stacked.open_v(wrong))
    each = [cells_v(stacked, wrong, s, held) for s in range(len(stacked.network.strings))]
    return np.concatenate([volts for volts, _ in each]), sum(extra for _, extra in each), held


def numbers(state: State) -> dict[CellAt, int]:
    """Every cell's place among all, string after string, from 0."""
    return {cell: k for k, cell in enumerate(all_cells(state.foretold.network))}


def across(inside: Within, setting: Setting, state: State, meters: Meters) -> Expected:
    """Voltage across a part, over the whole's unless that is shorted."""
    every = numbers(state)
    first, last = every[setting.cells[0]], every[setting.cells[-1]]
    inner = (inside.number >= first) & (inside.number <= last)
    volts = inside.volts[..., first : last + 1].sum(axis=-1) + inside.more * inner[:, None]
    if setting.shorted:
        own = np.hypot(meters.voltage * volts, 2 * meters.least_v)
        return Expected(setting, volts, own, np.hypot(_ALONE, state.common.voc) * np.abs(volts))
    whole = np.maximum(inside.whole, meters.least_v)
    ratio = volts / whole
    own = np.hypot(meters.voltage * np.sqrt(2) * ratio, meters.least_v / whole)
    return Expected(setting, ratio, own, _MODEL * np.abs(ratio), inside.whole)
