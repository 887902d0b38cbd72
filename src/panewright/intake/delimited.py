"""A table in plain letters: which mark parts its columns, and its rows.

The right mark is the one under which most words of a line are names of columns that such a table has; where
no line says so, the one that parts most lines into equally many fields; where no mark parts any, mere gaps.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Callable

from panewright.intake.bounds import LONGEST_LINE, MOST_CELLS, MOST_COLUMNS, MOST_ROWS
from panewright.intake.encoding import as_text
from panewright.intake.grid import Grid, refuse
from panewright.intake.naming import known

_MARKS = {";": "semicolons", "\t": "tabs", ",": "commas", "|": "bars"}
_NUMBER = re.compile(r"[-+]?(?:\d+(?:[.,]\d+)?\.?|[.,]\d+)(?:[eE][-+]?\d+)?")
_SAID = re.compile(r"sep=([;,|\t:~^])[\s;,|]*", re.IGNORECASE)  # a spreadsheet's own first line


Names = Callable[[str], bool]  #: whether a heading names something that such a table has


def read_delimited(data: bytes, name: str, names: Names = known, most_rows: int = MOST_ROWS) -> Grid:
    """The rows of a CSV file of any habit.

    >>> read_delimited(b"No;Isc [A]\\n1;9,12\\n", "lot.csv").rows
    (['No', 'Isc [A]'], ['1', '9,12'])
    """
    text, notes = as_text(data, name)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not lines[-1]:  # what follows the last line's end is no row
        lines.pop()
    _refuse_long(lines, name)
    said = _SAID.fullmatch(lines[0])
    if said:
        lines[0] = ""
    mark = said.group(1) if said else _mark(lines[:300], names)
    gaps = not said and _by_gaps(lines[:300], mark, names)
    if gaps:
        lines, mark = ["\t".join(line.split()) for line in lines], "\t"
    _refuse_many(lines, mark, name, most_rows)
    rows, numbers = _quoted(lines, mark, name) if '"' in text else _plain(lines, mark)
    told = (*notes, f"Columns are parted by {'gaps' if gaps else _MARKS.get(mark, repr(mark))}.")
    return Grid(name, _narrow(rows, numbers, name), numbers, notes=told)


def _refuse_long(lines: list[str], name: str) -> None:
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            reason = f"A row of {len(line)} letters is no row of a table; at most {LONGEST_LINE} are read."
            raise refuse(
                name, reason, "Save the table with one cell, or one point of a curve, a row.", line=number
            )


def _mark(lines: list[str], names: Names) -> str:
    return max(_MARKS, key=lambda mark: _worth(lines, mark, names))


def _by_gaps(lines: list[str], mark: str, names: Names) -> bool:
    """Whether mere gaps part the columns: no mark parts a header, and gaps do, with as many fields below."""
    named_by_mark, alike = _worth(lines, mark, names)
    if named_by_mark:
        return False
    rows = [line.split() for line in lines if line.strip()]
    named = [(sum(map(names, row)), place) for place, row in enumerate(rows[:60])]
    most, place = max(named, key=lambda each: (each[0], -each[1]), default=(0, 0))
    if most > 1 and any(len(row) == len(rows[place]) for row in rows[place + 1 : place + 4]):
        return True
    return (alike < 0.5 or mark == ",") and _figures_by_gaps(rows)


def _figures_by_gaps(rows: list[list[str]]) -> bool:
    """Whether most lines are as many numbers, two at least, parted by nothing but gaps."""
    numbers = [len(row) for row in rows if len(row) > 1 and all(map(_NUMBER.fullmatch, row))]
    return 2 * Counter(numbers).most_common(1)[0][1] > len(rows) if numbers else False


def _worth(lines: list[str], mark: str, names: Names) -> tuple[int, float]:
    """Names of columns in the best line, then the share of lines with equally many fields."""
    try:
        rows = [row for row in csv.reader(lines, delimiter=mark) if len(row) > 1]
    except csv.Error:
        return 0, 0.0
    if not rows:
        return 0, 0.0
    named = max(sum(map(names, row[:MOST_COLUMNS])) for row in rows[:60])
    alike = Counter(map(len, rows)).most_common(1)[0][1]
    return named if named > 1 else 0, alike / len(lines)


def _refuse_many(lines: list[str], mark: str, name: str, most_rows: int) -> None:
    fields = sum(line.count(mark) for line in lines) + len(lines)
    if len(lines) > most_rows or fields > MOST_CELLS:
        reason = (
            f"There are {len(lines)} rows and {fields} fields; at most {most_rows} and {MOST_CELLS} are read."
        )
        raise refuse(name, reason, "Split the table into files of fewer rows.")


def _plain(lines: list[str], mark: str) -> tuple[list[list[str]], tuple[int, ...]]:
    return [line.split(mark) for line in lines], tuple(range(1, len(lines) + 1))


def _quoted(lines: list[str], mark: str, name: str) -> tuple[list[list[str]], tuple[int, ...]]:
    """Rows of which some field may hold the mark, a quote or a line's end."""
    rows, numbers, begun = [], [], 1
    reader = csv.reader((f"{line}\n" for line in lines), delimiter=mark, strict=True)
    try:
        for row in reader:
            rows.append(row)
            numbers.append(begun)
            begun = reader.line_num + 1
    except csv.Error as broken:
        cure = 'Close every quotation mark, and write one within a field twice: "".'
        reason = f"A quotation mark opens here and is not closed as it should be ({broken})."
        raise refuse(name, reason, cure, line=begun) from broken
    return rows, tuple(numbers)


def _narrow(rows: list[list[str]], numbers: tuple[int, ...], name: str) -> tuple[list[str], ...]:
    """The rows, none wider than is read; what is cut off is empty."""
    for place, row in enumerate(rows):
        if len(row) > MOST_COLUMNS:
            if any(field.strip() for field in row[MOST_COLUMNS:]):
                reason = f"{len(row)} columns are no table of readings; at most {MOST_COLUMNS} are read."
                cure = "Keep one cell, or one point of a curve, a row and its readings in columns."
                raise refuse(name, reason, cure, line=numbers[place])
            rows[place] = row[:MOST_COLUMNS]
    return tuple(rows)
