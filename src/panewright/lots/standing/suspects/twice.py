"""The same cell under two marks, or two cells under one."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.table import Table

_BY_CHANCE = 0.5  # pairs of cells that would agree in every digit by chance: from here on it says nothing
_FEW = 0.1  # of the marks: where more come again the lot was read in rounds


def twice(table: Table, row_numbers: NDArray[np.int64]) -> Iterator[Suspect]:
    """Marks that come again, and figures that come again under another mark."""
    yield from _marks_again(table, row_numbers)
    yield from _figures_again(table, row_numbers)


def _marks_again(table: Table, numbers: NDArray[np.int64]) -> Iterator[Suspect]:
    """Marks in several rows of a lot whose cells stand in one each; else those whose rows lie apart."""
    same = table.cell[1:] == table.cell[:-1]
    again = np.flatnonzero(same & (np.diff(numbers[table.row]) != 0))  # a row's several readings are one
    apart = again[np.diff(table.row)[again] > 1]
    few = max(3.0, _FEW * len(table.marks))
    told = next((each for each in (again, apart) if np.unique(table.cell[each]).size <= few), again[:0])
    for row in told:
        rows = tuple(int(numbers[table.row[k]]) for k in (row, row + 1))
        reason = (
            f"The mark comes in row {rows[0]} and again in row {rows[1]}: one cell read twice, or two cells?"
        )
        yield Suspect(table.marks[table.cell[row]], "duplicate", reason, rows)


def _figures_again(table: Table, numbers: NDArray[np.int64]) -> Iterator[Suspect]:
    """Rows of other marks that agree in every digit, where chance would not do that."""
    read = np.nan_to_num(table.value, nan=-1.0)
    enough = table.used.sum(axis=1) >= 2
    if _chance(table.value[enough]) > _BY_CHANCE:
        return
    _, sort, count = np.unique(read, axis=0, return_inverse=True, return_counts=True)
    sort = sort.ravel()
    first: dict[int, int] = {}
    for row in np.flatnonzero(enough & (count[sort] > 1)):
        before = first.setdefault(int(sort[row]), int(row))
        if table.cell[before] != table.cell[row]:
            rows = tuple(int(numbers[table.row[k]]) for k in (before, row))
            other = table.marks[table.cell[before]]
            reason = (
                f"Every figure is that of cell {other}, digit by digit: copied, or one cell under two marks?"
            )
            yield Suspect(table.marks[table.cell[row]], "again", reason, rows)


def _chance(value: Array) -> float:
    """How many pairs of rows would agree in all columns by chance, were the columns independent."""
    pairs, share = value.shape[0] * (value.shape[0] - 1) / 2, 1.0
    for column in value.T:
        figures = column[np.isfinite(column)]
        if figures.size > 1:
            _, count = np.unique(figures, return_counts=True)
            # one pair of its own is no habit of the column: it is what is looked for
            agree = float((count * (count - 1)).sum()) / (figures.size * (figures.size - 1))
            share *= max(agree, 1 / figures.size)
    return float(pairs * share)
