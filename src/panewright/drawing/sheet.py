"""Pages as a list of plain blocks: what a page says, not how it is set.

A `Book` is pages for one reader. The room that renders decides type, colours and margins.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from panewright.check import Check
from panewright.drawing.drawing import Align, Drawing


@dataclass(frozen=True, slots=True)
class Heading:
    """A line that opens a part of a page."""

    words: str


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph; 'small' for sources and side remarks, 'lead' for the one sentence that matters."""

    words: str
    size: Literal["normal", "small", "lead"] = "normal"


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing set at a stated scale; `scale` 10 prints ten millimetres as one."""

    drawing: Drawing
    scale: float
    caption: str = ""
    to_scale: bool = True  #: False for a diagram, whose sizes mean nothing


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a head; `widths` are shares of the page."""

    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    align: tuple[Align, ...]
    caption: str = ""
    ticks: bool = False  #: a box to tick before each row


@dataclass(frozen=True, slots=True)
class Numbers:
    """The few figures that matter, large: (name, figure with unit)."""

    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Verdicts:
    """Checks as bars of demand against limit, each with its word."""

    checks: tuple[Check, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One step at the bench: do, check, and what reading to expect."""

    title: str
    do: str
    check: str = ""
    expect: str = ""  #: the reading computed for this panel
    minutes: float = 0.0
    caution: str = ""
    tools: tuple[str, ...] = ()
    takes: tuple[str, ...] = ()  #: what goes in, amounts first
    wait: str = ""  #: how long it is left alone after, and what can be done meanwhile
    figure: Figure | None = None


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps with tick boxes and room for readings, numbered on from `first`."""

    steps: tuple[Step, ...]
    first: int = 1


@dataclass(frozen=True, slots=True)
class Fields:
    """Empty lines to write on with a thick pencil: (label, unit)."""

    labels: tuple[tuple[str, str], ...]
    columns: int = 2


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt, where the hand is about to do it; `close` where many stand under each other."""

    words: str
    close: bool = False


@dataclass(frozen=True, slots=True)
class Pointers:
    """Where else in the book to read on: (words, title of the page); the page's number is set behind."""

    rows: tuple[tuple[str, str], ...]


Block = Heading | Words | Figure | Table | Numbers | Verdicts | Steps | Fields | Caution | Pointers


@dataclass(frozen=True, slots=True)
class Page:
    """One page, or more where the blocks run on; `side` says which side of the panel it shows."""

    title: str
    blocks: tuple[Block, ...]
    side: str = ""


@dataclass(frozen=True, slots=True)
class Book:
    """Pages for one order at one revision."""

    title: str
    order: str  #: order number and name, printed on every page
    revision: str  #: from the order's content
    paper: Literal["A4", "Letter"]
    pages: tuple[Page, ...]
    units: Literal["metric", "us"] = "metric"
    stamp: str = ""  #: large type across every page, such as NOT PROVEN
    cover: Drawing | None = field(default=None)
