"""Many cells as columns: the same names as `Diode`, an array under each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from operator import attrgetter

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.root import Array


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
        table = np.array([_FIGURES(cell) for cell in cells], dtype=float).reshape(-1, len(_NAMES))
        return cls(*np.ascontiguousarray(table.T))

    def only(self, columns: slice) -> Diodes:
        """Some neighbouring cells."""
        return Diodes(*(getattr(self, field.name)[columns] for field in fields(self)))


_NAMES = tuple(field.name for field in fields(Diodes))
_FIGURES = attrgetter(*_NAMES)
