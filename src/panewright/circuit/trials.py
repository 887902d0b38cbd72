"""The same wiring many times over with other cells: lots drawn by chance, hours of a year, shades that move.

All panels are solved one after the other by compiled functions, thousands in the time that a few take
otherwise. Nothing is carried from one panel to the next. The first call on a machine compiles, about 70 s;
what was compiled is kept.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.circuit.solve import finite, refuse_far
from panewright.circuit.solver import many
from panewright.circuit.solver.compiled import compiled
from panewright.circuit.solver.hand import Hand, hand
from panewright.circuit.solver.sheet import Sheet, Tables, arrays, cells_apart, lay_out_apart
from panewright.circuit.solver.walk import Pool, room

_LEVEL = 1e-7  # of the current: how near to the very top; the power is found to its square

_TINY = 1e-300  # nothing smaller has a reciprocal

_SOUND: dict[str, Callable[[Array], NDArray[np.bool_]]] = {
    "light_a": lambda x: (x >= 0) & (x < np.inf),
    "saturation_a": lambda x: (x > _TINY) & (x < np.inf),
    "ideality_v": lambda x: (x > _TINY) & (x < np.inf),
    "series_ohm": lambda x: (x >= 0) & (x < np.inf),
    "shunt_ohm": lambda x: x > _TINY,
    "breakdown_siemens": lambda x: (x >= 0) & (x < np.inf),
    "breakdown_v": lambda x: (x < -_TINY) & (x > -np.inf),
    "breakdown_exponent": lambda x: (x > 0) & (x < np.inf),
}


@dataclass(frozen=True, slots=True)
class Trials:
    """A wiring, and the cells of every trial in place of its own.

    `cells` holds arrays (trials, cells), or (1, cells) for what does not change; cells stand in the order
    strings, substrings, cells from the minus end.
    """

    network: Network
    cells: Diodes

    def __post_init__(self) -> None:
        wanted = sum(len(part.cells) for string in self.network.strings for part in string.substrings)
        shape = self._shape()
        if len(shape) != 2 or shape[1] != wanted:
            raise ValueError(f"the network has {wanted} cells, so trials are (trials, {wanted}), got {shape}")
        for name, sound in _SOUND.items():
            figures = np.asarray(getattr(self.cells, name), dtype=float)
            if not sound(figures).all():
                worst = figures[~sound(figures)].ravel()[0]
                raise ValueError(
                    f"trials hold a {name} of {worst:g}; a cell has none such (see cell.diode.Diode)"
                )

    @classmethod
    def once(cls, network: Network) -> Trials:
        """One trial: the network with its own cells."""
        cells = [cell for string in network.strings for part in string.substrings for cell in part.cells]
        flat, trial = Diodes.of(cells), object.__new__(cls)  # records are sound, and as many as there are
        object.__setattr__(trial, "network", network)
        object.__setattr__(trial, "cells", Diodes(*(getattr(flat, name)[None] for name in Diodes.__slots__)))
        return trial

    @property
    def count(self) -> int:
        """How many trials there are."""
        return int(self._shape()[0])

    def _shape(self) -> tuple[int, ...]:
        return np.broadcast_shapes(*(np.shape(getattr(self.cells, name)) for name in Diodes.__slots__))


@dataclass(frozen=True, slots=True)
class Peaks:
    """The point of greatest power of every trial: arrays (trials,)."""

    power_w: Array
    current_a: Array
    voltage_v: Array


def most_power(trials: Trials) -> Peaks:
    """The greatest power of every trial; no hump that is higher by 5e-7 is missed."""
    laid = _Laid.of(trials)
    amps, volts = np.zeros(trials.count), np.zeros(trials.count)
    compiled(many.peaks)(laid.sheet, laid.cells, _LEVEL, laid.hand, laid.pool(), amps, volts)
    lit = (amps > 0) & (volts > 0)
    amps, volts = np.where(lit, amps, 0.0), np.where(lit, volts, 0.0)
    return Peaks(amps * volts, amps, volts)


def currents_a(trials: Trials, voltage: Array) -> Array:
    """Current of every trial at terminal voltages (points,) or (trials, points): (trials, points). [A]"""
    laid, asked = _Laid.of(trials), _asked(trials, voltage, "voltages", "V")
    found = np.zeros_like(asked)
    compiled(many.currents)(laid.sheet, laid.cells, asked, laid.hand, found)
    refuse_far(asked, found)
    return found


def standing(trials: Trials, voltage: float) -> tuple[tuple[float, tuple[float, ...]], ...]:
    """Of the first trial at a voltage: each string's current, and what flows beside its substrings. [A]"""
    laid = _Laid.of(trials)
    asked, found = np.full((1, 1), voltage), np.zeros((1, 1))
    compiled(many.currents)(laid.sheet, laid.cells, asked, laid.hand, found)
    beside = [max(each, 0.0) for each in laid.hand.work.branch_a]
    ends = pairwise(laid.sheet.first_part)
    return tuple(
        (float(current), tuple(beside[first:last]))
        for current, (first, last) in zip(laid.hand.near_a, ends, strict=True)
    )


def voltages_v(trials: Trials, current: Array) -> Array:
    """Terminal voltage of every trial at currents (points,) or (trials, points): (trials, points). [V]"""
    laid, asked = _Laid.of(trials), _asked(trials, current, "currents", "A")
    found = np.zeros_like(asked)
    compiled(many.voltages)(laid.sheet, laid.cells, asked, laid.hand, found)
    return found


def _asked(trials: Trials, asked: Array, name: str, unit: str) -> Array:
    wide = finite(asked, name, unit)
    if wide.ndim > 2 or (wide.ndim == 2 and wide.shape[0] not in (1, trials.count)):
        raise ValueError(
            f"{name} are asked for as (points,) or ({trials.count}, points), got shape {wide.shape}"
        )
    table = np.empty((trials.count, wide.shape[-1] if wide.ndim else 1))
    table[:] = wide
    return table


@dataclass(frozen=True, slots=True)
class _Laid:
    """Trials as compiled functions take them."""

    sheet: Sheet
    cells: Tables
    hand: Hand

    @classmethod
    def of(cls, trials: Trials) -> _Laid:
        sheet, signs = lay_out_apart(trials.network)
        cells = cells_apart(trials.cells, signs, trials.count)
        return cls(arrays(sheet), cells, hand(sheet))

    def pool(self) -> Pool:
        return room(self.cells.light.shape[1], len(self.sheet.kind), len(self.sheet.alike))
