"""A list as plain text: RFC 4180 lines in UTF-8 without a mark at the start.

Numbers are written as numbers. A cell of words that starts like a formula (= + - @, or a tab or carriage
return before them) gets an apostrophe in front, because the programs that open such files would otherwise
reckon it; to a person it still reads the same.
"""

from __future__ import annotations

import csv
import io
import math
from decimal import Decimal

from panewright.drawing.listing import Cell, Listing

_FORMULA_STARTS = tuple("=+-@\t\r\n＝＋－＠")  # some programs read the wide signs alike


def csv_bytes(listing: Listing) -> bytes:
    """The list with one head line, lines ended by carriage return and line feed."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([_words(column.head) for column in listing.columns])
    writer.writerows([_cell(cell) for cell in row] for row in listing.rows)
    return stream.getvalue().encode("utf-8", errors="replace")


def _cell(cell: Cell) -> str:
    """One place as text: shortest figure that reads back the same, nothing for what is not a number."""
    match cell:
        case None:
            return ""
        case str():
            return _words(cell)
        case bool():
            return "yes" if cell else "no"
        case float():
            return repr(cell) if math.isfinite(cell) else ""
        case Decimal():
            return f"{cell:f}" if cell.is_finite() else ""
        case _:
            return str(int(cell))


def _words(words: str) -> str:
    return f"'{words}" if words.startswith(_FORMULA_STARTS) else words
