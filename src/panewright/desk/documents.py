"""An order's documents, as functions that another process can be asked for by name: all, or one alone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from panewright.desk.designed import designed
from panewright.desk.own_shelf import Stand, stand
from panewright.desk.progress import at

if TYPE_CHECKING:
    from panewright.desk.paper import Paper as DeskPaper
    from panewright.price.actuals import Actuals

_ROWS, _COLUMNS = 8, 5  #: of a list, shown before it is opened


@dataclass(frozen=True, slots=True)
class Paper:
    """One document as the list of papers shows it: a picture, or the first lines."""

    name: str
    kind: str
    group: str  #: who takes it in hand
    opens: bool  #: a browser shows it
    paged: bool  #: its pages can be looked at one by one
    pictured: bool
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()


def papers(text: str, file: str, own: Actuals | None = None) -> tuple[Paper, ...]:
    """Every document of an order."""
    found = _papers(text, file, own, stand())
    listed = []
    for n, each in enumerate(found):
        at(70 + 30 * n // len(found))
        listed.append(_paper(each))
    return tuple(listed)


def paper(text: str, file: str, name: str, own: Actuals | None = None) -> tuple[str, bytes]:
    """One document's media type and bytes; nothing where there is no such document."""
    found = [each for each in _papers(text, file, own, stand()) if each.name == name]
    at(75)
    return (found[0].media, found[0].content()) if found else ("", b"")


def look(text: str, file: str, name: str, own: Actuals | None = None) -> tuple[str, bytes]:
    """A picture of one document; nothing where there is none."""
    from panewright.paper.look import picture

    found = [each for each in _papers(text, file, own, stand()) if each.name == name]
    return picture(found[0].leaf) if found else ("", b"")


def pages(text: str, file: str, name: str, own: Actuals | None = None) -> tuple[bytes, ...]:
    """Every page of one document as a picture; nothing where it has no pages."""
    from panewright.paper.look import pages as pictures

    found = [each for each in _papers(text, file, own, stand()) if each.name == name]
    at(75)
    return pictures(found[0].leaf) if found else ()


def _paper(each: DeskPaper) -> Paper:
    from panewright.pack.leaf import BookLeaf, CsvLeaf, RecordLeaf, TemplateLeaf, WorkbookLeaf

    paged = isinstance(each.leaf, BookLeaf | TemplateLeaf)
    known = each.name, each.kind, each.group
    opens = each.media.startswith(("application/pdf", "image/svg", "text/csv", "application/json"))
    match each.leaf:
        case WorkbookLeaf() | CsvLeaf():
            listing = each.leaf.listing if isinstance(each.leaf, CsvLeaf) else each.leaf.listings[0]
            head = tuple(column.head for column in listing.columns[:_COLUMNS])
            rows = tuple(tuple(map(_short, row[:_COLUMNS])) for row in listing.rows[:_ROWS])
            return Paper(*known, opens, paged, pictured=False, head=head, rows=rows)
        case RecordLeaf():
            rows = ((each.leaf.record.verdict,),) if hasattr(each.leaf.record, "verdict") else ()
            return Paper(*known, opens, paged, pictured=False, head=("Begins with",), rows=rows)
    return Paper(*known, opens, paged, pictured=True)


def _short(cell: object) -> str:
    """A cell of a list, as short as it can be told."""
    if cell is None:
        return ""
    return f"{cell:g}" if isinstance(cell, float) else str(cell)


@lru_cache(maxsize=2)
def _papers(text: str, file: str, own: Actuals | None, _shelf: Stand) -> tuple[DeskPaper, ...]:
    from panewright import desk

    at(5)
    made = desk.priced(designed(text, file), own)
    at(40)
    return desk.papers(made)
