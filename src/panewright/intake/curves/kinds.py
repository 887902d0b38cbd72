"""What kind of row each row of a file is: a point, a header, units, facts, words, a total, or empty."""

from __future__ import annotations

import re
from collections.abc import Sequence

from panewright.intake.curves.facts import COMMENT, facts_in
from panewright.intake.curves.naming import kind_of, known, named
from panewright.intake.curves.quantity import QUANTITIES
from panewright.intake.grid import Grid
from panewright.intake.sheet import TOTAL

POINT, LONG, HEADER, UNITS, FACTS, WORDS, SUM, EMPTY = "plhufwte"

_NUMERIC = re.compile(r"[-+\u2212]?(?:\d|[.,]\d)[\d.,' eE+:-]*(?:\s*[A-Za-z%°]{1,5})?")
_TELLS = re.compile(r"[:=]\s*$|=|:.*\d")  # a name with what it is, not a heading
_STARTS = frozenset("0123456789-+.,")
_BEGINS_A_ROW = frozenset(
    {"", "stage", "sweep", "serial", "remark", "date", "time"}
)  # words before its figures
_WIDEST_DOUBT = 3  #: neither figures nor facts: a bad point only under a header of few columns


def kinds(grid: Grid) -> str:
    """One letter for each row.

    >>> rows = ["Panel 42"], ["G: 812 W/m2"], ["U", "I"], ["V", "mA"], ["0.1", "310"], [""], ["0.2", "OL"]
    >>> kinds(Grid("curve", rows, tuple(range(1, 8))))
    'ffhupep'
    """
    letters: list[str] = []
    header: tuple[str, ...] = ()
    width = 0
    plain = False  # whether the row before was a point: then most rows need no closer look
    for row in grid.rows:
        if plain and len(row) == width and row[0][:1] in _STARTS and row[0]:
            letters.append(POINT)
            continue
        kind = _kind(row, header, letters[-1] if letters else "")
        if kind == HEADER:
            header = heads(row)
        elif kind == POINT and not header:
            header = ("",) * len(row)
        width, plain = len(header), kind == POINT
        letters.append(kind)
    return "".join(letters)


def heads(row: Sequence[str]) -> tuple[str, ...]:
    """A header's cells, without mark of a comment and without empty ones at its end."""
    cells = [text.strip() for text in row]
    while cells and not cells[-1]:
        cells.pop()
    first = next((place for place, text in enumerate(cells) if text), 0)
    cells[first] = cells[first].lstrip(COMMENT).strip()
    return tuple(cells)


def _kind(row: list[str], header: tuple[str, ...], before: str) -> str:
    filled = [text.strip() for text in row if text.strip()]
    if not filled:
        return EMPTY
    if before == HEADER and _all_units(filled):
        return UNITS
    if _is_header(filled):
        return HEADER
    if len(filled) > 1 and TOTAL.fullmatch(filled[0]):
        return SUM
    if _is_point(row, filled, header):
        return LONG if header and any(map(str.strip, row[len(header) :])) else POINT
    return FACTS if facts_in(filled, 0) else WORDS


def _all_units(filled: list[str]) -> bool:
    said = [text.strip("[](){}").strip() for text in filled]
    return any(map(kind_of, said)) and all(kind_of(each) or each in ("", "-", "1", "%") for each in said)


def _is_header(filled: list[str]) -> bool:
    """Two names of what a curve has, one of them with a unit, and no number: a line that tells is none."""
    cells = [filled[0].lstrip(COMMENT).strip(), *filled[1:]]
    if any(_NUMERIC.fullmatch(text) or _TELLS.search(text) for text in cells):
        return False
    measured = any(QUANTITIES[name].kind for text in cells if (name := named(text).quantity))
    return measured and sum(map(known, cells)) > 1


def _is_point(row: list[str], filled: list[str], header: tuple[str, ...]) -> bool:
    """Whether a row holds figures in columns; without a header two numbers are the least."""
    numbers = sum(bool(_NUMERIC.fullmatch(text)) for text in filled)
    if filled[0][0] in COMMENT or (len(filled) == 1 and len(header) != 1):
        return False
    told = named(filled[0]).quantity or filled[0][-1] == ":" or facts_in(filled[:1], 0)
    if not header:
        return numbers >= 2 and numbers == len(filled) and not told
    if told and _heading_over(row, header) not in _BEGINS_A_ROW:
        return False
    if told and numbers < 2:
        return False
    return numbers >= 2 or (numbers == 1 and len(filled) > 1) or _as_full(filled, header)


def _as_full(filled: list[str], header: tuple[str, ...]) -> bool:
    """A row of as many words as there are columns is a point that cannot be read."""
    return len(filled) == len(header) and len(header) <= _WIDEST_DOUBT


def _heading_over(row: list[str], header: tuple[str, ...]) -> str:
    """What the heading over a row's first field names."""
    place = next(place for place, text in enumerate(row) if text.strip())
    return named(header[place]).quantity if place < len(header) else ""
