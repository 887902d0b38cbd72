"""Strings that are soldered already: out of a column of the table of cells, or a small text of their own.

[[string]]
cells = ["B001", "B002", "B003"]   # marks, from the minus end
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from panewright.errors import Problem, SheetError
from panewright.intake.cells import CellRows
from panewright.intake.sheet import Sheet
from panewright.shelf.key import nearest

Soldered = tuple[tuple[str, ...], ...]
_CURE = 'Write each as [[string]] with cells = ["...", "..."], from the minus end.'


def from_text(text: str, file: str) -> Soldered:
    """Strings out of their text; `SheetError` where it is none."""
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        raise SheetError([Problem(f"This is no TOML: {broken}.", _CURE, file=file)]) from broken
    if wrong := sorted(set(table) - {"string"}):
        raise _wrong(f"There is no {wrong[0][:40]} here.", file)
    strings = table.get("string", [])
    if not isinstance(strings, list) or not strings:
        raise _wrong("There is no string in it.", file)
    return tuple(_cells(each, number, file) for number, each in enumerate(strings, 1))


def _cells(each: Any, number: int, file: str) -> tuple[str, ...]:
    cells = each.get("cells") if isinstance(each, Mapping) and set(each) == {"cells"} else None
    plain = isinstance(cells, list) and cells and all(isinstance(mark, str | int) for mark in cells)
    if not plain or any(isinstance(mark, bool) for mark in cells or ()):
        raise _wrong("This is no list of marks.", file, f"string {number}")
    return tuple(str(mark).strip() for mark in cells or ())


def from_column(sheet: Sheet, rows: CellRows, header: str) -> Soldered:
    """Cells with the same word in a column are one string, in the order of their rows; blank is loose."""
    heads = [each.strip().casefold() for each in sheet.header]
    if header.strip().casefold() not in heads:
        known = ", ".join(each for each in sheet.header if each)
        cure = f"Write one of: {known}.{nearest(header, sheet.header)}"
        problem = Problem("The table has no such column.", cure, sheet.name, key="column", value=header[:40])
        raise SheetError([problem])
    words = sheet.columns[heads.index(header.strip().casefold())]
    marks = dict(zip(rows.row_numbers.tolist(), rows.marks, strict=True))
    strings: dict[str, dict[str, None]] = {}
    for number, word in zip(sheet.row_numbers.tolist(), words, strict=True):
        if word.strip() and number in marks:
            strings.setdefault(word.strip(), {})[marks[number]] = None
    return tuple(tuple(each) for each in strings.values())


def _wrong(reason: str, file: str, key: str = "") -> SheetError:
    return SheetError([Problem(reason, _CURE, file=file, key=key)])
