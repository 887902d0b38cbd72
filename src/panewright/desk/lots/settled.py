"""What a maker settled of single rows and cells, done to the rows before the lot is weighed anew.

A row is left out, or its figures are written right; a cell is left out with all its rows, or kept as it is
whatever speaks against it. Nothing of the file itself is changed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from panewright.intake.cells import CellRows
from panewright.lots.standing.standing import Suspect

What = Literal["keep", "leave out", "correct"]
WHOLE_CELL = 0


@dataclass(frozen=True, slots=True)
class Settled:
    """What is to be done with a row of a cell, or with all of the cell's."""

    mark: str  #: as the file has it
    what: What
    row: int = WHOLE_CELL  #: as the file counts; 0: all rows of the cell
    figures: Mapping[str, float] = field(default_factory=dict)  #: in SI, written right
    mark_anew: str = ""  #: the mark it should have borne; '' where that is right


def applied(rows: CellRows, settled: Sequence[Settled]) -> CellRows:
    """The rows as they count: without what is left out, with what was put right."""
    told = np.array(rows.marks, dtype=object)
    marks = told.copy()
    stays = np.ones(len(rows), dtype=bool)
    figures = {name: each.copy() for name, each in rows.figures.items()}
    for each in settled:
        found = _found(each, told, rows.row_numbers)
        if each.what == "leave out":
            stays[found] = False
        elif each.what == "correct" and found.size:
            stays[found[1:]] = False
            _put_right(each, int(found[0]), figures, len(rows))
            marks[found[0]] = each.mark_anew or each.mark
    return _only(replace(rows, marks=tuple(marks.tolist()), figures=figures), stays)


def open_suspects(suspects: Sequence[Suspect], settled: Sequence[Settled]) -> tuple[Suspect, ...]:
    """Those of which nobody said that they are right as they are; what was put right may be wrong again."""
    kept = {(each.mark, each.row) for each in settled if each.what == "keep"}
    return tuple(
        each
        for each in suspects
        if (each.mark, WHOLE_CELL) not in kept and not any((each.mark, row) in kept for row in each.rows)
    )


def _found(each: Settled, marks: NDArray[np.object_], numbers: NDArray[np.int64]) -> NDArray[np.intp]:
    """The rows that are meant."""
    its = marks == each.mark
    return np.flatnonzero(its & (numbers == each.row) if each.row else its)


def _put_right(each: Settled, row: int, figures: dict[str, NDArray[np.float64]], rows: int) -> None:
    """One reading stands where the row's readings stood; what is not told of it was not read."""
    for name, figure in figures.items():
        figure[row] = each.figures.get(name, np.nan)
    for name in set(each.figures) - set(figures):
        figures[name] = np.full(rows, np.nan)
        figures[name][row] = each.figures[name]


def _only(rows: CellRows, stays: NDArray[np.bool_]) -> CellRows:
    def kept(words: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(each for each, here in zip(words, stays, strict=True) if here) if words else ()

    if stays.all():
        return rows
    return replace(
        rows,
        marks=kept(rows.marks),
        row_numbers=rows.row_numbers[stays],
        figures={name: each[stays] for name, each in rows.figures.items()},
        remarks=kept(rows.remarks),
        grades=kept(rows.grades),
        times=kept(rows.times),
    )
