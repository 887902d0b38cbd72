"""Readings that say nothing as they stand: of the wrong sign, without end, or past where the law ends."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.nameplate import MOST_VOC_V
from panewright.intake.cells import FIGURES, CellRows
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.suspects.slips import Found
from panewright.lots.standing.table import AT, COLUMNS, REVERSE, Table

_FEW = 3  # figures below zero that are told one by one, even where they are most of a column
_PAST = 0.95  # of the breakdown voltage: from here on Bishop's law says nothing that could be weighed


def turned(rows: CellRows) -> Iterator[Suspect]:
    """Figures at or below zero, or without end; the table has left them out."""
    for name in (*COLUMNS, "irradiance_w_m2"):
        figure = np.asarray(rows.figures.get(name, np.zeros(0)), dtype=float)
        below, read = int((figure < 0).sum()), int(np.isfinite(figure).sum())
        if below > _FEW and 2 * below > read:
            yield _column(FIGURES[name], below, read)
            figure = np.where(figure < 0, np.nan, figure)
        for row in np.flatnonzero((figure <= 0) | np.isinf(figure)):
            reason = f"The {FIGURES[name]} reads {figure[row]:g}: turn the leads round, or read it again."
            yield Suspect(rows.marks[row], "impossible", f"{reason} It is left aside.", _number(rows, row))


def beyond(table: Table, stc: Diode, row_numbers: NDArray[np.int64]) -> Found:
    """Currents at a voltage that no cell has; and what is read backwards past the kind's breakdown.

    The latter is no fault: the six figures of a cell hold its breakdown to be the kind's; `backward` finds
    the cell's own.
    """
    aside = np.zeros(table.value.shape, dtype=bool)
    aside[:, AT] = table.used[:, AT] & (table.at_v > MOST_VOC_V)
    if stc.breakdown_siemens > 0:
        aside[:, REVERSE] = table.used[:, REVERSE] & (table.reverse_v >= -_PAST * stc.breakdown_v)
    return Found(tuple(_above(table, row_numbers, np.flatnonzero(aside[:, AT]))), aside)


def _above(table: Table, numbers: NDArray[np.int64], which: NDArray[np.intp]) -> Iterator[Suspect]:
    for row in which:
        reason = (
            f"A current is read at {table.at_v[row]:.3g} V, more than one silicon cell has. It is left aside."
        )
        yield Suspect(table.marks[table.cell[row]], "impossible", reason, (int(numbers[table.row[row]]),))


def _column(said: str, below: int, read: int) -> Suspect:
    """A whole column of the wrong sign, told once."""
    reason = (
        f"The {said} is below zero in {below} of {read} rows: it was read as a load counts it, or with the "
        "leads turned round. These figures are left aside. Say in the mapping that their column is turned."
    )
    return Suspect("", "unit", reason)


def _number(rows: CellRows, row: np.intp) -> tuple[int, ...]:
    return (int(rows.row_numbers[row]),)
