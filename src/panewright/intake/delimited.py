"""A table in plain letters: which mark parts its columns, and its rows.

The right mark is the one under which most words of a line are names of columns that a lot has; where no line
says so, the one that parts most lines into equally many fields.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Iterator

from panewright.intake.bounds import LONGEST_LINE, MOST_CELLS, MOST_COLUMNS, MOST_ROWS
from panewright.intake.encoding import as_text
from panewright.intake.grid import Grid, refuse
from panewright.intake.naming import known

_MARKS = {";": "semicolons", "\t": "tabs", ",": "commas", "|": "bars"}
_SAID = re.compile(r"sep=(.)\s*", re.IGNORECASE)  # a spreadsheet's own first line


def read_delimited(data: bytes, name: str) -> Grid:
    """The rows of a CSV file of any habit.

    >>> read_delimited(b"No;Isc [A]\\n1;9,12\\n", "lot.csv").rows
    (['No', 'Isc [A]'], ['1', '9,12'])
    """
    text, notes = as_text(data, name)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    _refuse_long(lines, name)
    said = _SAID.fullmatch(lines[0])
    if said:
        lines[0] = ""
    mark = said.group(1) if said else _mark(lines[:300])
    rows, numbers = _rows(lines, mark, name)
    return Grid(name, rows, numbers, notes=(*notes, f"Columns are parted by {_MARKS.get(mark, repr(mark))}."))


def _refuse_long(lines: list[str], name: str) -> None:
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            reason = f"A row of {len(line)} letters is no row of a lot; at most {LONGEST_LINE} are read."
            raise refuse(name, reason, "Save the table with one cell a row.", line=number)


def _mark(lines: list[str]) -> str:
    return max(_MARKS, key=lambda mark: _worth(lines, mark))


def _worth(lines: list[str], mark: str) -> tuple[int, float]:
    """Names of columns in the best line, then the share of lines with equally many fields."""
    rows = [row for row in csv.reader(lines, delimiter=mark) if len(row) > 1]
    if not rows:
        return 0, 0.0
    named = max(sum(map(known, row[:MOST_COLUMNS])) for row in rows[:60])
    alike = Counter(map(len, rows)).most_common(1)[0][1]
    return named if named > 1 else 0, alike / len(lines)


def _rows(lines: list[str], mark: str, name: str) -> tuple[tuple[list[str], ...], tuple[int, ...]]:
    rows, numbers, before, fields = [], [], 0, 0
    reader = csv.reader((f"{line}\n" for line in lines), delimiter=mark, strict=True)
    for row in _told(reader, name):
        if len(row) > MOST_COLUMNS and any(field.strip() for field in row[MOST_COLUMNS:]):
            reason = f"{len(row)} columns are no table of cells; at most {MOST_COLUMNS} are read."
            raise refuse(name, reason, "Keep one cell a row and its readings in columns.", line=before + 1)
        rows.append(row[:MOST_COLUMNS])
        numbers.append(before + 1)
        before = reader.line_num
        fields += len(rows[-1])
        if len(rows) > MOST_ROWS + 1 or fields > MOST_CELLS:
            reason = f"There are more than {MOST_ROWS} rows, or {MOST_CELLS} fields."
            raise refuse(name, reason, "Split the lot into files of fewer rows.", line=before)
    if rows and not any(rows[-1]):  # what follows the last line's end
        rows.pop(), numbers.pop()
    return tuple(rows), tuple(numbers)


def _told(reader: Iterator[list[str]], name: str) -> Iterator[list[str]]:
    """The reader's rows; what it stumbles over is told with the row where that field began."""
    begun = 1
    while True:
        try:
            row = next(reader, None)
        except csv.Error as broken:
            cure = 'Close every quotation mark, and write one within a field twice: "".'
            reason = f"A quotation mark opens here and is not closed as it should be ({broken})."
            raise refuse(name, reason, cure, line=begun) from broken
        if row is None:
            return
        yield row
        begun = reader.line_num + 1  # type: ignore[attr-defined]
