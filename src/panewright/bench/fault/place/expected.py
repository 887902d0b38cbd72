"""What a measurement is expected to read, of everything that is still believed, and how sure that is.

What errs anew each time, such as a meter, is told apart from what errs alike when the same is read again:
how well the panel itself is foretold, the heat, the dull light. A reading tells something of the latter, too,
and a second one of the same is held against what the first left of it (a Kalman filter in one unknown,
R. E. Kalman, J. Basic Eng. 82, 1960, p. 35, recalled). So reading the same again and again makes nothing
surer than the panel is known.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.place.setting import Measurement, Setting
from panewright.cell.root import Array
from panewright.circuit.place import CellAt

What = tuple[Measurement, tuple[CellAt, ...], tuple[CellAt, ...]]  #: what is read the same: on which cells


@dataclass(frozen=True, slots=True)
class Expected:
    """One measurement's reading: arrays (spots, strengths)."""

    setting: Setting
    mean: Array  #: in V, or as a ratio of two readings
    own: Array  #: standard deviation of what errs anew
    alike: Array  #: of what errs alike when it is read again
    beside: Array | None = None  #: of two readings what the second is expected to be [A, V]

    @property
    def sigma(self) -> Array:
        """Standard deviation of all of it."""
        return np.asarray(np.hypot(self.own, self.alike))


@dataclass(frozen=True, slots=True)
class Learnt:
    """What readings told of the error that they share: in its own deviations, and the share of it left."""

    off: Array
    left: Array


Learning = Mapping[What, Learnt]


def what(setting: Setting) -> What:
    """What two settings have in common that err alike."""
    return setting.measurement, setting.cells, setting.then


def corrected(expected: Expected, learning: Learning) -> Expected:
    """With what earlier readings of the same told."""
    known = learning.get(what(expected.setting))
    if known is None:
        return expected
    mean = expected.mean + expected.alike * known.off
    left = expected.alike * np.sqrt(known.left)
    return Expected(expected.setting, mean, expected.own, left, expected.beside)


def learnt(expected: Expected, read: float, learning: Learning) -> Learning:
    """The same after one more reading; `expected` as it stood before any."""
    key = what(expected.setting)
    before = learning.get(key, Learnt(np.zeros_like(expected.mean), np.ones_like(expected.mean)))
    variance = expected.own**2 + expected.alike**2 * before.left
    gain = expected.alike * before.left / variance
    off = before.off + gain * (read - expected.mean - expected.alike * before.off)
    return {**learning, key: Learnt(off, before.left * (1 - expected.alike * gain))}
