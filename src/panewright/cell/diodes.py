"""Many cells as columns: the same names as `Diode`, an array under each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from operator import attrgetter

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.root import Array

Which = NDArray[np.intp] | NDArray[np.int64] | NDArray[np.bool_]  #: of the cells


@dataclass(frozen=True, slots=True)
class Diodes:
    """Cells side by side; element k of every array belongs to cell k."""

    light_a: Array
    saturation_a: Array
    ideality_v: Array
    series_ohm: Array
    shunt_ohm: Array
    breakdown_siemens: Array
    breakdown_v: Array
    breakdown_exponent: Array

    @classmethod
    def of(cls, cells: Sequence[Diode]) -> Diodes:
        """Put single cells side by side."""
        return cls.of_table(np.array([_figures(cell) for cell in cells], dtype=float))

    @classmethod
    def of_table(cls, table: Array) -> Diodes:
        """Out of a table with a row for each cell and a column for each figure."""
        return cls(*np.ascontiguousarray(np.asarray(table, dtype=float).reshape(-1, len(_NAMES)).T))

    @property
    def table(self) -> Array:
        """A row for each cell, a column for each figure."""
        return np.stack([getattr(self, name) for name in _NAMES], axis=1)

    def at(self, which: slice | Which) -> Diodes:
        """Some of the cells, in an order and a shape of its own."""
        return Diodes(*(np.asarray(getattr(self, name))[which] for name in _NAMES))


_NAMES = tuple(field.name for field in fields(Diodes))
FIGURES = len(_NAMES)  #: of one cell
_figures = attrgetter(*_NAMES)
