"""Rows of words set as a table of a page: widths, and figures at the right."""

from __future__ import annotations

import re

from panewright.drawing.drawing import Align
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.sheet import Table

PAGE_MM = 172.0  #: between the margins of the narrower page
_BODY_MM = 3.2  # 9 point
_PADDING_MM = 4.0

# a number with at most one short unit behind it, millimetres in brackets beside inches, or nothing
_FIGURE = re.compile(r"([-−+≤≥]?\s*[\d.,/\u2009 ]*\d(\s?[^\s\d]{1,5}\d?)?( \([\d.]+\s?mm\))?|–)?")


def words_table(columns: tuple[str, ...], rows: tuple[tuple[str, ...], ...], caption: str = "") -> Table:
    """Rows that are words already; every column at the left except where all its cells are figures."""
    align: tuple[Align, ...] = tuple(
        "right" if n and any(row[n] for row in rows) and all(_is_figure(row[n]) for row in rows) else "left"
        for n in range(len(columns))
    )
    return Table(columns, rows, widths(columns, rows), align, caption)


def without_empty(
    columns: tuple[str, ...], rows: tuple[tuple[str, ...], ...]
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Heads and rows without the columns in which no row says anything.

    >>> without_empty(("Ribbon", "Against it"), (("2 mm", ""), ("3 mm", "")))
    (('Ribbon',), (('2 mm',), ('3 mm',)))
    """
    kept = [n for n in range(len(columns)) if any(row[n] for row in rows)]
    return tuple(columns[n] for n in kept), tuple(tuple(row[n] for n in kept) for row in rows)


def widths(columns: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> tuple[float, ...]:
    """Share of the page for each column: short columns get all they ask, long ones share what is left."""
    asked = [
        max(_long(words) for words in (head, *(row[n] for row in rows))) + _PADDING_MM
        for n, head in enumerate(columns)
    ]
    given = _shared_out(asked) if sum(asked) > PAGE_MM else asked
    return tuple(round(width / sum(given), 4) for width in given)


def _shared_out(asked: list[float]) -> list[float]:
    """Widths that fill the page; whoever asks for less than an even share of the rest gets it whole."""
    given = [0.0] * len(asked)
    waiting, left = sorted(range(len(asked)), key=lambda n: asked[n]), PAGE_MM
    for place, n in enumerate(waiting):
        given[n] = min(asked[n], left / (len(asked) - place))
        left -= given[n]
    return given


def _long(words: str) -> float:
    """Length of a line of words in a table's body, at its boldest. [mm]"""
    return text_width_mm(words, _BODY_MM, bold=True)


def _is_figure(words: str) -> bool:
    return _FIGURE.fullmatch(words) is not None
