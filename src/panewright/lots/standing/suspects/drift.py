"""A lot that changes along its rows: a lamp that tires, a meter that warms, a day that ends."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.standing.figures import LIGHT, VOLTAGE
from panewright.lots.standing.likeliest import Likeliest, Lot
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.table import Index, Table

_LEAST_CELLS = 40
_SURE = 5.0  # deviations of Spearman's rank correlation
_LEAST = {LIGHT: 0.005, VOLTAGE: 0.002}  # from the first fifth to the last
_WORDS = {
    LIGHT: ("light current", "a lamp that tires, or a meter that warms up"),
    VOLTAGE: ("voltage", "cells that warm up while they are read"),
}


def drift(table: Table, lot: Lot, found: Likeliest, row_numbers: NDArray[np.int64]) -> Iterator[Suspect]:
    """Figures that rise or fall along the rows, told of the lot as a whole: its mark is empty."""
    first = _first_rows(table)
    spread = np.diag(lot.covariance)
    order = np.argsort(first, kind="stable")
    for figure, (name, why) in _WORDS.items():
        told = np.maximum(spread[figure] - found.covariance[:, figure, figure], 0) > 0.1 * spread[figure]
        along = found.theta[order, figure][told[order]]
        if along.size < _LEAST_CELLS:
            continue
        fifth = along.size // 5
        moved = float(np.median(along[-fifth:]) - np.median(along[:fifth]))
        if abs(_spearman(along)) * np.sqrt(along.size - 1) > _SURE and abs(moved) > _LEAST[figure]:
            rows = (int(row_numbers.min()), int(row_numbers.max()))
            reason = (
                f"From the first fifth of the rows to the last the {name} "
                f"{'rises' if moved > 0 else 'falls'} by {abs(moved):.1%}: {why}, or a lot laid out by grade."
            )
            yield Suspect("", "drift", reason, rows)


def _first_rows(table: Table) -> Index:
    """The first row of every cell."""
    first = np.full(len(table.marks), np.iinfo(np.intp).max)
    np.minimum.at(first, table.cell, table.row)
    return first


def _spearman(along: Array) -> float:
    """Rank correlation with the order."""
    rank = np.argsort(np.argsort(along, kind="stable"), kind="stable")
    return float(np.corrcoef(rank, np.arange(along.size))[0, 1])
