"""Rows of readings off cells, in SI: what a table of measured cells comes to once its columns are settled.

One row here is one reading of one cell. A cell read twice has two rows with the same mark. Every row of the
file is either read, or bad with its reason, or passed over with its reason; none is dropped without a word.
"""

from __future__ import annotations

from collections.abc import Mapping, Sized
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

#: What can be read off a cell, and in which unit it is kept. A reverse reading is kept as two positive sizes.
FIGURES: Mapping[str, str] = MappingProxyType(
    {
        "isc_a": "short-circuit current",
        "voc_v": "open-circuit voltage",
        "at_v": "the fixed voltage at which `at_a` was read",
        "at_a": "current at a fixed voltage",
        "imp_a": "current at the power maximum",
        "vmp_v": "voltage at the power maximum",
        "pmp_w": "power at the maximum",
        "fill_factor": "fill factor, 0..1",
        "efficiency": "efficiency, 0..1",
        "shunt_ohm": "shunt resistance",
        "reverse_v": "voltage put on backwards",
        "reverse_a": "current at that voltage",
        "irradiance_w_m2": "light of the moment",
        "cell_c": "heat of the cell at the moment",
    }
)


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row, or one value in it, that cannot be read; its whole row is left out of the readings."""

    row: int  #: as the program that wrote the file counts, from 1
    column: str  #: the column's header, '' where the whole row is wrong
    value: str  #: as it stands in the file
    reason: str
    cure: str

    def __str__(self) -> str:
        place = f"row {self.row}, {self.column}" if self.column else f"row {self.row}"
        return f"{place}: {self.value!r}: {self.reason} {self.cure}"


@dataclass(frozen=True, slots=True)
class PassedRow:
    """A row that holds no cell: empty, a total, a line of units, a heading said again."""

    row: int
    reason: str


@dataclass(frozen=True, slots=True)
class CellRows:
    """Readings off cells, one a row. Arrays and tuples run alongside each other."""

    marks: tuple[str, ...]  #: the cell's number or name; several rows may bear the same
    row_numbers: NDArray[np.int64]  #: the row in the file, from 1; one row may give several readings
    figures: Mapping[str, NDArray[np.float64]]  #: by the names of FIGURES, in SI; nan where there is none
    remarks: tuple[str, ...]  #: '' where there is none
    bad: tuple[BadRow, ...] = ()
    passed: tuple[PassedRow, ...] = ()
    grades: tuple[str, ...] = ()  #: lot, grade or bin as written; empty when no column says it
    times: tuple[str, ...] = ()  #: when it was read, as written; empty when no column says it
    notes: tuple[str, ...] = ()  #: what was settled on the way, told to the person
    errors: Mapping[str, float] = field(default_factory=dict)  #: what is said of them, as `accuracy` keeps it

    def __post_init__(self) -> None:
        rows = len(self.marks)
        beside: list[Sized] = [self.row_numbers, self.remarks, *self.figures.values()]
        if any(len(each) != rows for each in beside):
            raise ValueError(f"{rows} marks, but columns of {sorted({len(each) for each in beside})} rows")
        if any(len(each) not in (0, rows) for each in (self.grades, self.times)):
            raise ValueError(f"{rows} marks, but {len(self.grades)} grades and {len(self.times)} times")
        if strange := set(self.figures) - set(FIGURES):
            raise ValueError(f"no such figure of a cell: {sorted(strange)}")

    def __len__(self) -> int:
        return len(self.marks)
