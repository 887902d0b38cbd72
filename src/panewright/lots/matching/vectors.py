"""Panels as sums of vectors: every piece's voltage at a row of currents. Quick, and near enough to propose.

What is proposed here is always settled by the exact circuit. A string's curve is the sum of its pieces'
vectors; strings side by side are met at common voltages. A bypass diode that takes over is not seen here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.curve import voltage_v
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.enclosure.bypass import forward_v
from panewright.lots.matching.pieces import Pieces, Whole
from panewright.lots.matching.proof.ceilings import least_joint_ohm

_FINE, _FEW = 481, 600  # currents for so small a lot
_POINTS, _MANY = 161, 4000  # currents; half as many for so large a lot
_VOLTS = 241
_DARK = 0.1  # of the strongest piece's current


@dataclass(frozen=True, slots=True)
class Vectors:
    """Voltages of pieces at a row of currents, and what the wiring takes off a string."""

    current_a: Array  #: (points,), evenly apart
    piece_v: Array  #: (pieces + 1, points); the last is none, which fills up short strings
    taken_v: Array  #: (points,): tail and blocking diode of a string
    strings: int
    lead_ohm: float

    @classmethod
    def of(cls, pieces: Pieces, network: Network, imp_a: Array) -> Vectors:
        """Vectors about the currents at which the lot's pieces work."""
        low, high = 0.85 * float(np.quantile(lit(imp_a), 0.01)), 1.12 * float(imp_a.max())
        at = np.linspace(low, high, _points(pieces.count))
        cells = replace(pieces.cells, series_ohm=pieces.cells.series_ohm + least_joint_ohm(network))
        volt = voltage_v(cells, np.repeat(at[:, None], cells.light_a.size, axis=1))
        volt = np.maximum(volt, -20.0)
        summed = np.vstack([pieces.summed(volt).T, np.zeros(at.size)])
        tail = float(np.mean([string.tail_ohm for string in network.strings]))
        drop = [
            forward_v(s.blocking, i) if s.blocking else 0.0 for s in network.strings[:1] for i in at.tolist()
        ]
        taken = tail * at + np.array(drop)
        return cls(at, np.ascontiguousarray(summed), taken, len(network.strings), network.lead_ohm)

    def at(self, current: Array) -> Array:
        """Voltage of every piece at some currents: (currents, pieces). [V]"""
        step = self.current_a[1] - self.current_a[0]
        place = np.clip((current - self.current_a[0]) / step, 0, self.current_a.size - 1.000001)
        low = place.astype(np.int64)
        share = (place - low)[:, None]
        table = self.piece_v.T
        return np.asarray(table[low] * (1 - share) + table[low + 1] * share)


def lit(imp_a: Array) -> Array:
    """Of currents at most power those of pieces that are not all but dark beside the strongest."""
    return np.asarray(imp_a[imp_a >= _DARK * imp_a.max()])


def _points(count: int) -> int:
    if count <= _FEW:
        return _FINE
    return _POINTS if count <= _MANY else _POINTS // 2


def in_place(vectors: Vectors, sizes: Array, length: int, usual_a: float) -> tuple[Array, Array]:
    """Current and voltage of pieces in a panel of their like, leads and tail shared. [A, V]"""
    at = vectors.current_a
    lead = vectors.lead_ohm * (at if vectors.strings == 1 else 2 * vectors.strings * usual_a)
    watts = at * (vectors.piece_v[:-1] - (sizes / length)[:, None] * (vectors.taken_v + lead))
    top, rows = np.clip(watts.argmax(axis=1), 1, at.size - 2), np.arange(len(watts))
    shift, power = _peak(watts[rows, top - 1], watts[rows, top], watts[rows, top + 1])
    current = at[top] + shift * (at[1] - at[0])
    return current, np.asarray(power / current / sizes)


@dataclass(frozen=True, slots=True)
class Stands:
    """How panels work at their best: watts, each string's current, and what a volt more in it is worth."""

    power_w: Array  #: (panels,)
    string_a: Array  #: (panels, strings)
    worth_a: Array  #: (panels, strings): watts for a volt more


def stand(vectors: Vectors, strings_v: Array) -> Stands:
    """Panels at their best, from the summed vectors of their strings (panels, strings, points)."""
    strings_v = strings_v - vectors.taken_v
    if vectors.strings == 1:
        return _alone(vectors, strings_v[:, 0])
    return _abreast(vectors, strings_v)


def _alone(vectors: Vectors, volt: Array) -> Stands:
    at = vectors.current_a
    watts = at * (volt - vectors.lead_ohm * at)
    top = np.clip(watts.argmax(axis=1), 1, at.size - 2)
    rows = np.arange(len(watts))
    shift, power = _peak(watts[rows, top - 1], watts[rows, top], watts[rows, top + 1])
    current = (at[top] + shift * (at[1] - at[0]))[:, None]
    return Stands(power, current, current)


def _peak(before: Array, most: Array, after: Array) -> tuple[Array, Array]:
    """Top of the parabola through three even points: by how many steps off the middle, and how high."""
    bend = before - 2 * most + after
    shift = np.clip(np.where(bend < 0, 0.5 * (before - after) / np.minimum(bend, -1e-300), 0.0), -1, 1)
    return shift, np.asarray(most - 0.25 * (before - after) * shift)


def _abreast(vectors: Vectors, strings_v: Array) -> Stands:
    """Strings met at common voltages."""
    at, panels, strings = vectors.current_a, *strings_v.shape[:2]
    own = at * strings_v
    best = np.take_along_axis(strings_v, own.argmax(axis=2)[..., None], axis=2)[..., 0].mean(axis=1)
    volt = best[:, None] * np.linspace(0.94, 1.06, _VOLTS)
    amps = np.empty((panels, strings, _VOLTS))
    for p in range(panels):
        for s in range(strings):
            amps[p, s] = np.interp(volt[p], strings_v[p, s, ::-1], at[::-1])
    total = amps.sum(axis=1)
    watts = total * (volt - vectors.lead_ohm * total)
    top, rows = np.clip(watts.argmax(axis=1), 1, _VOLTS - 2), np.arange(panels)
    _, power = _peak(watts[rows, top - 1], watts[rows, top], watts[rows, top + 1])
    current = amps[rows, :, top]
    steep = (amps[rows, :, top - 1] - amps[rows, :, top + 1]) / (volt[rows, top + 1] - volt[rows, top - 1])[
        :, None
    ]
    return Stands(power, current, volt[rows, top][:, None] * steep)


def summed(vectors: Vectors, strings: Whole) -> Array:
    """Vectors of strings, from the pieces in them (..., pieces of a string). [V]"""
    total: Array = vectors.piece_v[strings].sum(axis=-2)
    return total
