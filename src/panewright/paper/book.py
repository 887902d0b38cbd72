"""A book's pages as plain data for the setter: figures become SVG, checks become words and shares.

Which letters may be broken is settled here too: a word that is longer than the column it stands in gets
places to break, so that nothing runs off the paper whatever a person types.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import Any

from panewright import units
from panewright.check import Check
from panewright.drawing.drawing import Drawing, Path
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.paper_size import (
    BOTTOM_MM,
    LEFT_MM,
    PAPERS,
    RIGHT_MM,
    TOP_MM,
    Size,
    figure_area,
    scale_to_fit,
    text_area,
)
from panewright.drawing.sheet import (
    Block,
    Book,
    Caution,
    Fields,
    Figure,
    Heading,
    Numbers,
    Page,
    Pointers,
    Step,
    Steps,
    Table,
    Verdicts,
    Words,
)
from panewright.paper.svg import frame, svg
from panewright.paper.words import POINT_MM, SIDES, printable, shortened

_NARROWEST_MM = 50.0  # no running words stand in a narrower column, tables aside
_COVER_HEAD_MM = 45.0

Data = dict[str, Any]


def book_data(book: Book) -> Data:
    """The book as dicts, lists, text and numbers; `ValueError` where a figure does not fit its page."""
    if not book.pages:
        raise ValueError(f"{book.title}: a book needs one page at least")
    paper = PAPERS[book.paper]
    return {
        "title": _run(book.title),
        "order": _run(book.order),
        "revision": _run(book.revision),
        "stamp": shortened(printable(book.stamp), 75.0, 17.0),
        "head": {
            "order": shortened(printable(book.order), 68.0, 8.5),
            "title": shortened(printable(book.title), 68.0, 8.5),
            "revision": shortened(printable(book.revision), 25.0, 8.5),
        },
        "width": paper.width_mm,
        "height": paper.height_mm,
        "left": LEFT_MM,
        "right": RIGHT_MM,
        "top": TOP_MM,
        "bottom": BOTTOM_MM,
        "cover": _cover(book, book.cover) if book.cover else None,
        "pages": [_page(book, page) for page in book.pages],
    }


def _run(words: str, width_mm: float = _NARROWEST_MM, points: float = 10.0) -> str:
    """Printable words with places to break in those that are longer than a column."""
    parts = printable(words).split(" ")
    size = points * POINT_MM
    return " ".join(
        "\u200b".join(part) if text_width_mm(part, size, bold=True) > width_mm else part for part in parts
    )


def _cover(book: Book, drawing: Drawing) -> Data:
    area = figure_area(book.paper)
    room = Size(area.width_mm, area.height_mm - _COVER_HEAD_MM)
    return _figure(Figure(drawing, scale_to_fit(drawing, room, book.units)), book)


def _page(book: Book, page: Page) -> Data:
    blocks = [_block(block, book) for block in page.blocks]
    side = shortened(printable(page.side), 58.0, 8.5)
    return {"title": _run(page.title, 150.0, 20.0), "head-side": side, "blocks": blocks}


def _block(block: Block, book: Book) -> Data:
    match block:
        case Figure():
            return _figure(block, book)
        case Table():
            return _table(block, text_area(book.paper).width_mm)
        case Verdicts():
            return {"kind": "verdicts", "checks": [_check(check, book.units) for check in block.checks]}
        case Steps():
            return {
                "kind": "steps",
                "first": block.first,
                "steps": [_step(step, book) for step in block.steps],
            }
        case Numbers():
            pairs = [[_run(name, 36.0), _run(figure, 75.0, 12.0)] for name, figure in block.pairs]
            return {"kind": "numbers", "pairs": pairs}
        case Fields():
            wide = (text_area(book.paper).width_mm + 8.0) / block.columns - 8.0
            labels = [[_run(label, wide), _run(unit, wide)] for label, unit in block.labels]
            return {"kind": "fields", "columns": block.columns, "labels": labels}
        case Heading():
            return {"kind": "heading", "words": _run(block.words)}
        case Caution():
            return {"kind": "caution", "words": _run(block.words), "close": block.close}
        case Pointers():
            return {"kind": "pointers", "rows": [_pointer(row, book) for row in block.rows]}
        case Words():
            return {"kind": "words", "words": _run(block.words), "size": block.size}


def _pointer(row: tuple[str, str], book: Book) -> Data:
    """Words and which page of the book they point to, counted from 0; it must be there."""
    words, title = row
    titles = [page.title for page in book.pages]
    if title not in titles:
        raise ValueError(f"no page is called {title!r}")
    return {"words": _run(words), "to": titles.index(title)}


def _figure(figure: Figure, book: Book) -> Data:
    """A figure at its true scale; one that does not fit its page is a mistake of whoever chose the scale."""
    drawing, scale = figure.drawing, figure.scale
    view, room = frame(drawing, scale, book.units), figure_area(book.paper)
    wide, high = view.width_mm / scale, view.height_mm / scale
    if wide > room.width_mm + 1e-6 or high > room.height_mm + 1e-6:
        raise ValueError(
            f"{drawing.name} at 1 : {scale:g} is {wide:.1f} x {high:.1f} mm; a page of {book.paper} bears "
            f"{room.width_mm:.1f} x {room.height_mm:.1f} mm; draw it at 1 : {scale_to_fit(drawing, room):g}"
        )
    alt = " ".join(part for part in (drawing.name, figure.caption, drawing.side) if part)
    return {
        "kind": "figure",
        "svg": svg(drawing, scale, book.units, window=view),
        "width": wide,
        "height": high,
        "caption": _run(figure.caption),
        "side": SIDES[drawing.side],
        "alt": printable(alt),
        "scale": _scale_words(drawing, scale) if figure.to_scale else "",
    }


def _scale_words(drawing: Drawing, scale: float) -> str:
    """How large the figure is; nothing for a chart, which has no size in the world."""
    if any(isinstance(item, Path) and item.layer == "axis" for item in drawing.items):
        return ""
    if scale == 1:
        return "full size"
    return f"scale 1 : {scale:g}" if scale > 1 else f"scale {1 / scale:g} : 1"


def _table(table: Table, width_mm: float) -> Data:
    """A table whose widths share the page; short rows are filled up, longer ones are a mistake."""
    count = len(table.columns)
    if not count or {len(table.widths), len(table.align)} != {count}:
        raise ValueError(f"table {table.caption!r}: columns, widths and align must be as many")
    if any(len(row) > count for row in table.rows):
        raise ValueError(f"table {table.caption!r}: a row is longer than the head")
    inner = [width_mm * share / sum(table.widths) - 3.6 for share in table.widths]
    filled = [[*row, *[""] * (count - len(row))] for row in table.rows]
    return {
        "kind": "table",
        "columns": _cells(table.columns, inner),
        "rows": [_cells(row, inner) for row in filled],
        "widths": list(table.widths),
        "align": list(table.align),
        "caption": _run(table.caption),
        "ticks": table.ticks,
    }


def _cells(row: Sequence[str], widths_mm: Sequence[float]) -> list[str]:
    return [_run(cell, width, 9.0) for cell, width in zip(row, widths_mm, strict=True)]


def _check(check: Check, system: str) -> Data:
    """A check in words: what is asked, what it may bear, the share used, the cure where it fails."""
    share = check.utilisation
    demand, limit = units.show(check.demand, check.unit, system), "no limit known"
    if check.limit is not None:
        demand, limit = units.against(check.demand, check.limit, check.unit, system)
        limit = f"of {limit}"
    return {
        "rule": _run(check.rule, 51.0, 9.5),
        "source": _run(check.source, 51.0, 7.8),
        "demand": _run(demand, 30.0),
        "limit": _run(limit, 30.0),
        "share": min(share, 99.0),
        "percent": _percent(share),
        "word": check.verdict,
        "cure": "" if check.passed else _run(check.cure),
    }


def _percent(share: float) -> str:
    """The share of the limit that is used; rounded up, so that 100 % is never shown for more."""
    if not math.isfinite(share):
        return "–"
    percent = math.ceil(share * 100 - 1e-9)
    return f"{percent}\u00a0%" if percent < 1000 else "> 999\u00a0%"


def _step(step: Step, book: Book) -> Data:
    data: Data = {field.name: getattr(step, field.name) for field in fields(Step)}
    minutes = f"{step.minutes:g}\u00a0min" if step.minutes else ""
    listed = {"tools": _run(", ".join(step.tools)), "takes": _run(", ".join(step.takes))}
    drawn = _figure(step.figure, book) if step.figure else None
    return _all_run(data) | {"minutes": minutes, "figure": drawn} | listed


def _all_run(data: Mapping[str, Any]) -> Data:
    return {key: _run(value) if isinstance(value, str) else value for key, value in data.items()}
