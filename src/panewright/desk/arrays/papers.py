"""The papers of an array by their names, each made when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from panewright.array.plan.plan import Plan
from panewright.pack.array_book.book import BOOK, book_leaf, leaves_beside
from panewright.paper.leaf import render

WORDS = {
    "array.pdf": "Book of the array",
    "array.xlsx": "All lists, a workbook",
    "single-line.svg": "Single-line drawing",
    "single-line.dxf": "Single-line drawing, for drawing programs",
    "strings.csv": "Strings",
    "panels.csv": "Panels and their places",
    "cables.csv": "Cables",
    "to-buy.csv": "What to buy",
    "needs.csv": "What protects it",
    "limits.csv": "Limits",
    "energy.csv": "Energy by month",
    "sizes.csv": "Numbers of strings and sizes of bank",
}
"""What a paper is, in words; those of stands have their number in their name."""


def kind_of(name: str) -> str:
    """What a paper is; of one that is not known here, its name.

    >>> kind_of("array.pdf"), kind_of("stand-2.svg")
    ('Book of the array', 'Where the panels lie, stand 2')
    """
    if not name.startswith("stand-"):
        return WORDS.get(name, name)
    number, _, kind = name.removeprefix("stand-").partition(".")
    return f"Where the panels lie, stand {number}{', for drawing programs' if kind == 'dxf' else ''}"


def makers_of(plan: Plan) -> dict[str, Callable[[], bytes]]:
    """Each paper by its name, made when it is called for."""
    beside = {leaf.name: partial(render, leaf) for leaf in leaves_beside(plan)}
    return {BOOK: lambda: render(book_leaf(plan)), **beside}


def documents_of(plan: Plan) -> dict[str, bytes]:
    """All papers; the same plan gives the same bytes."""
    return {name: make() for name, make in makers_of(plan).items()}
