"""A table of cells with its header found: titles above it, units under it, and what is no cell told apart.

Lot 12, invented                     a title
No;Isc;Voc;Remark                    the header: the row with most names of readings
;[A];[mV];                           units
1;9,12;611;chip                      a cell
;;;                                  empty: passed over, and told
Mean;9,08;608;                       a total: passed over, and told
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.intake.bounds import MOST_ROWS
from panewright.intake.cells import BadRow, PassedRow
from panewright.intake.delimited import read_delimited
from panewright.intake.grid import Grid, refuse
from panewright.intake.header import Header, find_header
from panewright.intake.workbook import read_workbook

TOTAL = re.compile(  # a first field that begins a sum or a mean, no reading
    r"(?:(?:grand )?total(?:s|e|en|es)?|sum|summe|gesamt|somme|suma|somma|totaal|razem)"
    r"\b[\s:.=]*.{0,20}"
    r"|(?:mean|average|avg|median|min|max|minimum|maximum|std|stdev|std\.? ?dev\.?|sigma|count"
    r"|mittel(?:wert)?|durchschnitt|anzahl|moyenne|ecart[- ]type|nombre|media|promedio|conteggio"
    r"|gemiddelde|aantal|srednia|średnia)"
    r"[\s:.=]*",
    re.IGNORECASE,
)
_NOTE_WORDS = 3
_MOST_JOINED = 50  #: rows that joined cells reach over: readings of one cell, not a column by itself


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table: its header and its columns of text, each row with its number in the file."""

    name: str  #: the file's, and its sheet's
    header: tuple[str, ...]  #: as written; '' where a column has none
    units: tuple[str, ...]  #: of the line under the header; '' where none
    columns: tuple[tuple[str, ...], ...]
    row_numbers: NDArray[np.int64]
    titles: tuple[str, ...] = ()  #: the lines above the header
    bad: tuple[BadRow, ...] = ()
    passed: tuple[PassedRow, ...] = ()
    notes: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.row_numbers)

    def called(self, column: int) -> str:
        """What a person calls a column: its header, or its place."""
        return self.header[column] or f"column {column + 1}"


def read_sheet(data: bytes, name: str, title: str = "") -> Sheet:
    """The table in a file; of a workbook the sheet of that title, else the one with most names of readings.

    >>> sheet = read_sheet(b"Lot 12\\nNo;Isc [A]\\n1;9,12\\n;\\n", "lot.csv")
    >>> sheet.header, sheet.columns, sheet.titles, sheet.passed
    (('No', 'Isc [A]'), (('1',), ('9,12',)), ('Lot 12',), (PassedRow(row=4, reason='empty'),))
    """
    if not data.startswith(b"PK\x03\x04"):
        return _sheet(read_delimited(data, name), name)
    grids = read_workbook(data, name)
    chosen = _chosen(grids, title, name)
    others = [grid.name for grid in grids if grid is not chosen]
    left = (f"Sheet {chosen.name} was read; left aside: {', '.join(others[:10])}.",) if others else ()
    return _sheet(chosen, f"{name}, sheet {chosen.name}", left)


def _chosen(grids: Sequence[Grid], title: str, name: str) -> Grid:
    if title:
        for grid in grids:
            if grid.name == title:
                return grid
        cure = f"Write one of: {', '.join(grid.name for grid in grids[:20])}."
        raise refuse(name, "There is no such sheet in the workbook.", cure, key="sheet", value=title)
    return max(grids, key=lambda grid: (find_header(grid).named, len(grid.rows)))


def _sheet(grid: Grid, name: str, left: tuple[str, ...] = ()) -> Sheet:
    header, down = find_header(grid), _joined_down(grid)
    width = len(header.cells)
    rows, numbers, bad, passed, short = [], [], [], [], 0
    for row, number in zip(grid.rows[header.after :], grid.numbers[header.after :], strict=True):
        if len(row) == width and not down and _plainly_cell(row[0], header):
            rows.append(row)
            numbers.append(number)
            continue
        row = _with_joined(row, down.get(number, ()))
        if why := _no_cell(row, header):
            passed.append(PassedRow(number, why))
        elif len(row) > width and any(map(str.strip, row[width:])):
            bad.append(_long(row, number, width))
        else:
            short += len(row) < width and not grid.merged
            rows.append(row[:width] + [""] * (width - len(row)))
            numbers.append(number)
    _refuse_none(rows, bad, name, grid.numbers[header.after - 1] if header.after else 1)
    told = [
        f"{short} rows are shorter than the header; what they lack at the end counts as not read."
    ] * bool(short)
    columns = tuple(zip(*rows, strict=True)) if rows else ((),) * width
    return Sheet(
        name, header.cells, header.units, columns, np.array(numbers, np.int64), header.titles,
        tuple(bad), tuple(passed), (*grid.notes, *left, *header.notes, *told),
    )  # fmt: skip


def _joined_down(grid: Grid) -> dict[int, list[tuple[int, str]]]:
    """What cells that are joined downwards say in each further row: the second reading of a cell."""
    down: dict[int, list[tuple[int, str]]] = {}
    for each in grid.merged[:MOST_ROWS]:
        first = bisect_left(grid.numbers, each.first_row)
        if each.first_row == each.last_row or grid.numbers[first : first + 1] != (each.first_row,):
            continue
        row = grid.rows[first]
        text = row[each.first_column] if each.first_column < len(row) else ""
        for place in range(first + 1, min(first + _MOST_JOINED, len(grid.rows))):
            if text and grid.numbers[place] <= each.last_row:
                down.setdefault(grid.numbers[place], []).append((each.first_column, text))
    return down


def _with_joined(row: list[str], joined: Sequence[tuple[int, str]]) -> list[str]:
    for column, text in joined:
        row = [*row, *[""] * (column + 1 - len(row))]
        row[column] = text
    return row


def _plainly_cell(first: str, header: Header) -> bool:
    """Whether a first field alone tells that a row is a cell: most do, and need no closer look."""
    if "0" <= first[:1] <= "9":
        return True
    return first[:1] > " " and " " not in first and first != header.cells[0] and not TOTAL.fullmatch(first)


def _no_cell(row: list[str], header: Header) -> str:
    """Why a row is no cell; '' if it may be one."""
    first = next((field for field in row if field and not field.isspace()), "").strip()
    if not first:
        return "empty"
    if first[0].isalpha():
        if TOTAL.fullmatch(first):
            return "a total"
        if tuple(map(str.strip, row[: len(header.cells)])) == header.cells:
            return "the header again"
        if len(first.split()) >= _NOTE_WORDS and sum(map(bool, map(str.strip, row))) == 1 < len(header.cells):
            return "a note"
    return ""


def _long(row: list[str], number: int, width: int) -> BadRow:
    beyond = ", ".join(field for field in row[width:] if field.strip())
    reason = f"The row has {len(row)} fields, the header {width}."
    return BadRow(
        number, "", beyond[:80], reason, "Put a mark of decimals or a remark within quotation marks."
    )


def _refuse_none(rows: list[list[str]], bad: list[BadRow], name: str, line: int) -> None:
    """A file of which no row can be read, or most have too many fields, is wrong as a whole."""
    if bad and len(bad) > len(rows):
        reason = f"{len(bad)} of {len(bad) + len(rows)} rows have more fields than the header."
        cure = (
            "Where commas part the columns, write decimals with a point, or part the columns by semicolons."
        )
        raise refuse(name, reason, cure, line=bad[0].row, value=bad[0].value)
    if not rows and not bad:
        raise refuse(name, "There is a header and no cell under it.", "Write one cell a row.", line=line)
