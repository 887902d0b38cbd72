"""The leaves of a pack: what each file says, before anyone decides how it is written.

The room above turns each leaf into bytes. A leaf knows its file name and holds neutral records only,
so that the printed book, the workshop files and the lists can never disagree.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.drawing.drawing import Drawing
from panewright.drawing.listing import Listing
from panewright.drawing.sheet import Book


@dataclass(frozen=True, slots=True)
class BookLeaf:
    """Pages to print and to read."""

    name: str
    book: Book


@dataclass(frozen=True, slots=True)
class TemplateLeaf:
    """A drawing to print at full size, on one large sheet and on tiles."""

    name: str
    drawing: Drawing
    order: str  #: printed on every tile
    revision: str
    paper: Literal["A4", "Letter"]
    units: Literal["metric", "us"] = "metric"
    stamp: str = ""
    note: str = ""  #: material and tolerance, on every sheet
    cards: tuple[Drawing, ...] = ()  #: sheets to print in the stead of tiles


@dataclass(frozen=True, slots=True)
class DxfLeaf:
    """A drawing for the workshop's machines, at full size."""

    name: str
    drawing: Drawing
    units: Literal["metric", "us"]


@dataclass(frozen=True, slots=True)
class WorkbookLeaf:
    """Lists as the sheets of one workbook."""

    name: str
    listings: tuple[Listing, ...]
    note: str = ""  #: a first line on every sheet, such as NOT PROVEN


@dataclass(frozen=True, slots=True)
class CsvLeaf:
    """One list as plain text."""

    name: str
    listing: Listing


@dataclass(frozen=True, slots=True)
class RecordLeaf:
    """A tree of records, for programs."""

    name: str
    record: object


@dataclass(frozen=True, slots=True)
class SvgLeaf:
    """A drawing to print small or to show on a screen."""

    name: str
    drawing: Drawing


Leaf = BookLeaf | TemplateLeaf | DxfLeaf | WorkbookLeaf | CsvLeaf | RecordLeaf | SvgLeaf


@dataclass(frozen=True, slots=True)
class Pack:
    """Everything that leaves the desk for one order."""

    leaves: tuple[Leaf, ...]

    def leaf(self, name: str) -> Leaf:
        """The leaf of that file name; KeyError where there is none."""
        for leaf in self.leaves:
            if leaf.name == name:
                return leaf
        raise KeyError(name)
