"""Cells that are not like their lot, leak, or whose own readings do not agree."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from panewright.cell.peak import Peak
from panewright.cell.root import Array
from panewright.lots.standing.figures import IDEALITY, LIGHT, SERIES, SHUNT, VOLTAGE
from panewright.lots.standing.likeliest import Likeliest, Lot
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.table import Table

_FAR = 4.5  # deviations: one good cell in 150 000
_SEEN = 0.1  # of the variance: a figure of which the readings told at least as much is looked at
_LEAK = 0.02  # of Pmp lost in the shunt
_SURE = 1.0  # deviations by which a leak must be more than that
_BLIND = 0.5  # of the variance: a shunt of which the readings told less than half
_LIKE = (IDEALITY, SERIES)  # what a leak may be taken for
_WORDS = {
    LIGHT: "the light current",
    VOLTAGE: "the voltage at equal light",
    IDEALITY: "the ideality",
    SERIES: "the series resistance",
}

Rows = dict[int, tuple[int, ...]]


def strangers(table: Table, known: tuple[Lot, Likeliest, Peak, Array], rows: Rows) -> Iterator[Suspect]:
    """Cells to look at again. `known`: lot, cells' figures, their maxima, their shunts [ohm]."""
    lot, found, top, shunt_ohm = known
    yield from _unlike(table, lot, found, rows)
    yield from _leaky(table, (lot, found, top, shunt_ohm), rows)
    yield from _at_odds(table, found, rows)


def _unlike(table: Table, lot: Lot, found: Likeliest, rows: Rows) -> Iterator[Suspect]:
    """Cells far from the middle of their lot, in a figure that their readings tell."""
    spread = np.diag(lot.covariance)
    told = np.maximum(spread - found.covariance[:, range(6), range(6)], 0.0)
    off = found.theta - lot.mean
    far = np.where(told > _SEEN * spread, off / np.sqrt(np.maximum(told, 1e-300)), 0.0)
    blind = found.covariance[:, SHUNT, SHUNT] > _BLIND * spread[SHUNT]
    for figure, words in _WORDS.items():
        for cell in np.flatnonzero(np.abs(far[:, figure]) > _FAR):
            share = off[cell, figure] if figure == VOLTAGE else np.expm1(off[cell, figure])
            reason = (
                f"{words[0].upper()}{words[1:]} is {abs(share):.1%} {'above' if share > 0 else 'below'} the "
                f"lot's middle, {abs(far[cell, figure]):.1f} deviations{_or_leak(figure, bool(blind[cell]))}."
            )
            yield Suspect(table.marks[cell], "outlier", reason, rows.get(int(cell), ()))


def _or_leak(figure: int, blind: bool) -> str:
    """What else it may be where the readings do not tell the shunt."""
    return "; or its shunt leaks, which these readings cannot tell apart" if blind and figure in _LIKE else ""


def _leaky(table: Table, known: tuple[Lot, Likeliest, Peak, Array], rows: Rows) -> Iterator[Suspect]:
    """Cells whose shunt takes too much of their power, as sure as their readings make it."""
    lot, found, top, shunt_ohm = known
    limit = top.vmp_v**2 / (_LEAK * np.maximum(top.power_w, 1e-12))
    under = np.log(limit / shunt_ohm) / np.sqrt(found.covariance[:, SHUNT, SHUNT])
    seen = found.covariance[:, SHUNT, SHUNT] < (1 - _SEEN) * lot.covariance[SHUNT, SHUNT]
    for cell in np.flatnonzero((under > _SURE) & seen):
        lost = top.vmp_v[cell] ** 2 / shunt_ohm[cell]
        reason = (
            f"The shunt is about {shunt_ohm[cell]:.2g} ohm and takes {lost:.2g} W, "
            f"{lost / top.power_w[cell]:.0%} of the cell's power; in shade it heats the cell."
        )
        yield Suspect(table.marks[cell], "shunt", reason, rows.get(int(cell), ()))


def _at_odds(table: Table, found: Likeliest, rows: Rows) -> Iterator[Suspect]:
    """Cells whose readings no one cell can have shown, by their stated errors."""
    count = table.summed(table.used.sum(axis=1).astype(float))
    square = 2 * found.misfit
    for cell in np.flatnonzero(square > count + 4.5 * np.sqrt(2 * count) + 12):
        reason = (
            f"Its {count[cell]:.0f} readings do not go together: {np.sqrt(square[cell] / count[cell]):.1f} "
            "times their stated errors. One is wrong, or they are of two cells."
        )
        yield Suspect(table.marks[cell], "outlier", reason, rows.get(int(cell), ()))


def rows_of(table: Table, row_numbers: NDArray[np.int64]) -> Rows:
    """The rows of each cell, as the maker's file counts them."""
    rows: Rows = {}
    for cell, row in zip(table.cell.tolist(), row_numbers[table.row].tolist(), strict=True):
        rows[cell] = (*rows.get(cell, ()), row)
    return rows
