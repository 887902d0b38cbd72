"""A lay-up as a picture for a page: every cell one thing to touch, no colour or width said in the picture.

A page under a strict content policy lets no picture bring a style of its own, so each element names its layer
as its class, and `stylesheet` says what each looks like, from the same inks as the paper. A cell is

    <g class="cell" id="cell-7" data-cell="7" data-string="1" data-column="2" data-row="3">

and bears further classes where the caller names any. What lies over the cells lets touches through.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from html import escape

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Layer, Text
from panewright.layup.drawn.parted import Parted
from panewright.layup.layup import PlacedCell
from panewright.paper.ink import INKS, Ink
from panewright.paper.svg import FACE, Flat, flat, number, shape

SCALE = 2.0  #: lines on a screen are so much wider, against a panel, than on paper of full size
_EDGE_MM = 6.0


def screen(parts: Parted, classes: Mapping[int, str] | None = None) -> str:
    """The picture as one svg element; `classes` gives cells, by their numbers, further classes."""
    view, said = parts.bounds.grown(_EDGE_MM), classes or {}
    box = f"{number(view.left)} {number(-view.top)} {number(view.width_mm)} {number(view.height_mm)}"
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" class="drawn" viewBox="{box}">']
    lines.append(f"<title>Lay-up, {parts.under.side}</title>")
    lines += _group("under", parts.under)
    for cell, drawn in parts.cells:
        lines += _cell(cell, drawn, said.get(cell.number, ""))
    lines += _group("over", parts.over)
    return "\n".join([*lines, "</svg>", ""])


def picture(drawing: Drawing, system: str = "metric") -> str:
    """Any drawing as one svg element that says no colour and no width, for the same style sheet."""
    view = bounds(drawing, system).grown(_EDGE_MM)
    box = f"{number(view.left)} {number(-view.top)} {number(view.width_mm)} {number(view.height_mm)}"
    head = f'<svg xmlns="http://www.w3.org/2000/svg" class="drawn plain" viewBox="{box}" aria-hidden="true">'
    return "\n".join([head, *(_element(item) for item in flat(drawing, system)), "</svg>", ""])


def stylesheet() -> str:
    """How every layer looks, for the page's own style sheet."""
    head = (
        f'.drawn{{font-family:"{FACE}",sans-serif;fill:none;stroke-linejoin:round}}',
        ".drawn .over{pointer-events:none}",
        ".drawn text{stroke:none}",
        ".drawn.plain path,.drawn.plain circle{vector-effect:non-scaling-stroke}",
    )
    return "\n".join([*head, *(rule for layer, ink in INKS.items() for rule in _rules(layer, ink)), ""])


def _rules(layer: Layer, ink: Ink) -> Iterator[str]:
    dash = " ".join(number(length * SCALE) for length in ink.dash_mm)
    dashes = f";stroke-dasharray:{dash}" if dash else ""
    width = number(ink.width_mm * SCALE)
    lines = f".drawn path.{layer},.drawn circle.{layer}"
    yield f"{lines}{{stroke:{ink.stroke};stroke-width:{width}{dashes}}}"
    if ink.fill != "none":
        yield f".drawn path.{layer}.filled,.drawn circle.{layer}.filled{{fill:{ink.fill}}}"
    yield f".drawn text.{layer}{{fill:{ink.letters}}}"


def _group(name: str, drawing: Drawing) -> Iterator[str]:
    yield f'<g class="{name}">'
    yield from (_element(item) for item in flat(drawing, "metric"))
    yield "</g>"


def _cell(cell: PlacedCell, drawn: Drawing, further: str) -> Iterator[str]:
    """Strings, columns and rows are told from 1."""
    look = escape(f"cell {further}".strip())
    where = f'data-string="{cell.string + 1}" data-column="{cell.column + 1}" data-row="{cell.row + 1}"'
    yield f'<g class="{look}" id="cell-{cell.number}" data-cell="{cell.number}" {where}>'
    yield from (_element(item) for item in flat(drawn, "metric"))
    yield "</g>"


def _element(item: Flat) -> str:
    filled = " filled" if not isinstance(item, Text) and item.filled else ""
    return shape(item, f' class="{item.layer}{filled}"')
