"""The spot on the lay-up drawing: cells that may be it, with their odds in them."""

from __future__ import annotations

from typing import Any, Literal

from panewright.pack.leaf import SvgLeaf
from panewright.pack.pages.pick import seated_drawing
from panewright.panel.design import Design
from panewright.paper.leaf import render

_LETTER_MM = 25.0
_LIKELY, _MAYBE = 0.5, 0.1  #: of the likeliest cell
SIDES: dict[str, Literal["front", "behind"]] = {"bench": "behind", "front": "front"}


def classes(told: dict[str, Any]) -> dict[int, str]:
    """How each cell is marked on a page."""
    most = max((each["odds"] for each in told["cells"]), default=1.0)
    marks = {each["cell"]: each["odds"] / most for each in told["cells"]}
    return {
        cell: "suspect" if share >= _LIKELY else "maybe" for cell, share in marks.items() if share >= _MAYBE
    }


def drawings(design: Design, told: dict[str, Any]) -> dict[str, bytes]:
    """The lay-up from both sides as SVG files, the odds in the cells that may be it."""
    marked = {each["cell"]: f"{each['odds']:.0%}" for each in told["cells"]}
    words = tuple(marked.get(cell.number, "") for cell in design.layup.cells)
    return {
        f"fault-{side}.svg": render(SvgLeaf("fault", seated_drawing(design, words, seen, _LETTER_MM)))
        for side, seen in SIDES.items()
    }
