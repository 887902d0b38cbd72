"""Lists as one workbook: a sheet a list, numbers as numbers, words never reckoned as formulas.

The file carries a fixed date, so the same lists give the same bytes.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Sequence
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

import xlsxwriter

from panewright.drawing.lettering import text_width_mm
from panewright.drawing.listing import Cell, Column, Listing
from panewright.paper.ink import RED

_MADE = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)  # the file format keeps no zone
_OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    "nan_inf_to_errors": False,
}
_SHAPES = {"text": "@", "number": "General", "money": "#,##0.00", "count": "#,##0"}
_LONGEST_CELL = 32_767
_FORBIDDEN = re.compile(r"[\[\]:*?/\\\x00-\x1f]")


def xlsx(listings: Sequence[Listing], note: str = "") -> bytes:
    """The lists as one workbook, in their order, at least one; a note stands above every list."""
    if not listings:
        raise ValueError("a workbook needs one list at least")
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(stream, _OPTIONS)
    book.set_properties({"created": _MADE, "title": "", "author": ""})
    names: set[str] = set()
    for listing in listings:
        sheet = book.add_worksheet(_sheet_name(listing.name, names))
        _fill(book, sheet, listing, note)
    book.close()
    return stream.getvalue()


def _sheet_name(name: str, taken: set[str]) -> str:
    """A name that the file format bears: 31 letters, none of them reserved, none twice."""
    plain = _FORBIDDEN.sub(" ", name).strip().strip("'")[:31].strip() or "list"
    if plain.lower() == "history":  # reserved by the format
        plain = "history list"
    unique, count = plain, 1
    while unique.lower() in taken:
        count += 1
        unique = f"{plain[: 31 - len(str(count)) - 1]} {count}"
    taken.add(unique.lower())
    return unique


def _fill(book: Any, sheet: Any, listing: Listing, note: str) -> None:
    """Note, head, rows, column widths, and a page set-up that prints on one page's width."""
    top = 1 if note else 0
    if note:
        sheet.write_string(0, 0, note, book.add_format({"bold": True, "font_color": RED, "font_size": 14}))
    head = book.add_format({"bold": True, "bottom": 1, "valign": "top", "text_wrap": True})
    for at, column in enumerate(listing.columns):
        shape = book.add_format({"num_format": _SHAPES[column.kind], "valign": "top", "text_wrap": True})
        sheet.set_column(at, at, _letters_wide(column, [row[at] for row in listing.rows]), shape)
        sheet.write_string(top, at, column.head, head)
    for down, row in enumerate(listing.rows, start=top + 1):
        for at, cell in enumerate(row):
            _write(sheet, down, at, cell)
    sheet.freeze_panes(top + 1, 0)
    sheet.repeat_rows(0, top)
    sheet.fit_to_pages(1, 0)
    if listing.rows:
        sheet.autofilter(top, 0, top + len(listing.rows), len(listing.columns) - 1)


def _write(sheet: Any, row: int, column: int, cell: Cell) -> None:
    """One place; words stay words whatever they look like, and what is not a number stays empty."""
    match cell:
        case None:
            return
        case str():
            sheet.write_string(row, column, cell[:_LONGEST_CELL])
        case bool():
            sheet.write_string(row, column, "yes" if cell else "no")
        case float() | int() | Decimal():
            if math.isfinite(cell):
                sheet.write_number(row, column, cell)


def _letters_wide(column: Column, cells: Sequence[Cell]) -> float:
    """A width that shows the longest cell, within reason."""
    longest = max((text_width_mm(str(cell), 1.0) for cell in cells if cell is not None), default=0.0)
    return min(60.0, max(8.0, 2 * max(longest, text_width_mm(column.head, 1.0, bold=True)) + 2))
