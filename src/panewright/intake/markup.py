"""The files within a workbook, element by element (ECMA-376 part 1, chapter 18, recalled).

A document that declares entities of its own is refused before any of them is looked at.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from functools import lru_cache
from xml.parsers import expat

from panewright.intake.bounds import MOST_CELLS, MOST_COLUMNS, MOST_ROWS
from panewright.intake.grid import Merged, refuse

Attributes = dict[str, str]
_DAY_0 = datetime(1899, 12, 30)  # a spreadsheet's day 0, so that its false 29 February 1900 comes out right
_DAY_0_OF_1904 = datetime(1904, 1, 1)
_AGAIN = "Open it in a spreadsheet program and save it again as XLSX."


class _Declared(Exception):
    """The document declares something of its own."""


def walk(
    content: bytes,
    name: str,
    start: Callable[[str, Attributes], None],
    end: Callable[[str], None],
    text: Callable[[str], None],
) -> None:
    """Every element of a document, in order, by its name without a prefix."""
    parser = expat.ParserCreate()
    parser.buffer_text = True
    short: dict[str, str] = {}

    def begin(tag: str, attributes: Attributes) -> None:
        if tag not in short:
            short[tag] = tag.rpartition(":")[2]
        start(short[tag], attributes)

    def declared(*_: object) -> None:
        raise _Declared

    parser.StartElementHandler = begin
    parser.EndElementHandler = lambda tag: end(short[tag])
    parser.CharacterDataHandler = text
    parser.StartDoctypeDeclHandler = declared
    try:
        parser.Parse(content, True)
    except (expat.ExpatError, _Declared, ValueError, IndexError) as broken:
        raise refuse(
            name, f"The workbook is broken within ({broken or 'a declaration'}).", _AGAIN
        ) from broken


def elements(content: bytes, name: str, wanted: str) -> list[Attributes]:
    """The attributes of every element of one name."""
    found: list[Attributes] = []
    if content:
        walk(content, name, lambda tag, own: found.append(own) if tag == wanted else None, _none, _none)
    return found


def strings(content: bytes, name: str) -> list[str]:
    """The texts that a workbook's cells share, in order."""
    told: list[str] = []
    parts: list[str] = []
    within = [False, False]  # in a t, in a reading aid (rPh) that is no part of the text

    def start(tag: str, _: Attributes) -> None:
        if tag == "si":
            parts.clear()
        within[0] = tag == "t"
        within[1] = within[1] or tag == "rPh"

    def end(tag: str) -> None:
        if tag == "si":
            told.append("".join(parts))
        within[0] = False
        within[1] = within[1] and tag != "rPh"

    if content:
        walk(content, name, start, end, lambda text: parts.append(text) if within == [True, False] else None)
    return told


class Cells:
    """The cells of one sheet as they come, row by row."""

    def __init__(self, name: str, shared: list[str], dates: frozenset[int], from_1904: bool) -> None:
        self.name, self.shared, self.dates = name, shared, dates
        self.day_0 = _DAY_0_OF_1904 if from_1904 else _DAY_0
        self.rows: list[list[str]] = []
        self.numbers: list[int] = []
        self.merged: list[Merged] = []
        self._fields = self._row = self._column = 0
        self._open = self._kind = self._style = ""
        self._value: list[str] = []
        self._formula: list[str] | None = None

    def start(self, tag: str, own: Attributes) -> None:
        """An element begins."""
        if tag == "c":
            self._begin_cell(own)
        elif tag == "row":
            self._row = int(own.get("r") or self._row + 1)
            self._column = 0
            self.rows.append([])
            self.numbers.append(self._row)
        elif tag == "f":
            self._formula = []
        elif tag == "mergeCell":
            self.merged.append(_merged(own.get("ref", "A1")))
        self._open = tag

    def text(self, letters: str) -> None:
        """Letters within an element."""
        if self._open in ("v", "t"):
            self._value.append(letters)
        elif self._open == "f" and self._formula is not None:
            self._formula.append(letters)

    def end(self, tag: str) -> None:
        """An element ends."""
        self._open = ""
        if tag == "c":
            value = self._said()
            if value:
                self._put(value)
        elif tag == "row" and len(self.rows) > MOST_ROWS:
            reason = f"There are more than {MOST_ROWS} rows."
            raise refuse(self.name, reason, "Split the table into several files.", line=self._row)

    def _begin_cell(self, own: Attributes) -> None:
        place = own.get("r")
        self._column = _column(place) if place else self._column + 1
        self._kind, self._style = own.get("t", "n"), own.get("s", "")
        self._value, self._formula = [], None

    def _said(self) -> str:
        value = "".join(self._value)
        if not value:
            return "" if self._formula is None else "=" + "".join(self._formula)
        if self._kind == "s":
            return self.shared[int(value)]
        if self._kind == "b":
            return "TRUE" if value == "1" else "FALSE"
        if self._kind == "n" and self._style and int(self._style) in self.dates:
            return self._date(value)
        return value

    def _date(self, value: str) -> str:
        try:
            return (self.day_0 + timedelta(days=float(value))).isoformat(" ", "seconds")
        except (OverflowError, ValueError):
            return value

    def _put(self, value: str) -> None:
        if self._column > MOST_COLUMNS:
            reason = f"A cell stands in column {self._column}; at most {MOST_COLUMNS} columns are read."
            cure = "Keep one cell a row and its readings in columns."
            raise refuse(self.name, reason, cure, line=self._row, value=value[:40])
        row = self.rows[-1]
        wider = self._column - len(row)
        if wider > 0:
            self._fields += wider
            row.extend([""] * wider)
        row[self._column - 1] = value
        if self._fields > MOST_CELLS:
            reason = f"There are more than {MOST_CELLS} cells in it."
            raise refuse(self.name, reason, "Split the table into several files.", line=self._row)


def _none(*_: object) -> None:
    """Nothing to do."""


def _column(place: str) -> int:
    """The column of 'AB12', from 1."""
    return _lettered(place.rstrip("0123456789")[:8])


@lru_cache(maxsize=1024)
def _lettered(letters: str) -> int:
    number = 0
    for letter in letters:
        if not "A" <= letter <= "Z":
            break
        number = 26 * number + ord(letter) - 64
    return max(number, 1)


def _merged(where: str) -> Merged:
    first, _, last = where.replace("$", "").partition(":")
    last = last or first
    rows = [int(place.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ") or 1) for place in (first, last)]
    return Merged(rows[0], _column(first) - 1, rows[1], _column(last) - 1)
