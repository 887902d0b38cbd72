"""Columns of a table of figures, as wide as what stands in them."""

from __future__ import annotations

from panewright.drawing.drawing import Align
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.sheet import Table

_BODY_MM = 3.2  # 9 point
_PADDING_MM = 4.0
_SHORT_MM = 13.0  # heads that stay on one line


def fitted(heads: tuple[str, ...], rows: tuple[tuple[str, ...], ...], caption: str, left: set[int]) -> Table:
    """A table whose columns share the page by what they need; all but those of `left` stand at the right."""
    wide = [max(_needs(head, row[n]) for row in rows) for n, head in enumerate(heads)]
    align: tuple[Align, ...] = tuple("left" if n in left else "right" for n in range(len(heads)))
    return Table(heads, rows, tuple(round(each / sum(wide), 4) for each in wide), align, caption)


def _needs(head: str, cell: str) -> float:
    """Words of a head or a cell may break between them, a short head may not. [mm]"""
    whole = text_width_mm(head, _BODY_MM, bold=True)
    asked = whole if whole <= _SHORT_MM else _longest_mm(head)
    return max(asked, _longest_mm(cell)) + _PADDING_MM


def _longest_mm(words: str) -> float:
    """The longest of words; spaces that do not break hold a figure together. [mm]"""
    return max(text_width_mm(word, _BODY_MM, bold=True) for word in words.split(" "))
