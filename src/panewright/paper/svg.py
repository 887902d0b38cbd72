"""A drawing as SVG: millimetres outside, the drawing's own millimetres inside.

The picture's view box keeps the drawing's coordinates, with y turned over: a point (x, y) of the drawing
is (x, -y) in the file, to 0.0001 mm. This is the only place where y is turned. Line weights are widths on
paper, so they grow with the scale. The file names the face and asks nothing of the outside.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from html import escape
from itertools import groupby

from panewright.drawing.bounds import Bounds, bounds
from panewright.drawing.dimension import explode
from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Layer, Path, Text
from panewright.drawing.lettering import text_width_mm
from panewright.paper.ink import INKS, THICK
from panewright.paper.words import printable

FACE = "Source Sans Pro"  #: the one face of all paper and screens
_ANCHOR = {"left": "start", "centre": "middle", "right": "end"}

Flat = Path | Arc | Text


def frame(drawing: Drawing, scale: float = 1.0, system: str = "metric") -> Bounds:
    """The drawing's bounds with room for the thickest line all round. [mm of the drawing]"""
    return bounds(drawing, system).grown(THICK * scale)


def svg(
    drawing: Drawing,
    scale: float = 1.0,
    system: str = "metric",
    *,
    window: Bounds | None = None,
    face: str = FACE,
    fitted: bool = False,
) -> str:
    """The drawing as an SVG document; `scale` 10 prints ten millimetres as one.

    `window` shows only that part of the drawing. [mm of the drawing] Words that are `fitted` keep their
    length where a program lacks the face and takes another.
    """
    if not (math.isfinite(scale) and scale > 0):
        raise ValueError(f"a scale is a number above 0, got {scale}")
    view = window or frame(drawing, scale, system)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(view.width_mm / scale)}mm" '
        f'height="{number(view.height_mm / scale)}mm" viewBox="{number(view.left)} {number(-view.top)} '
        f'{number(view.width_mm)} {number(view.height_mm)}" font-family="{escape(face)}" fill="none" '
        'stroke-linejoin="round">'
    )
    lines = [head, f"<title>{escape(printable(drawing.name))}</title>"]
    if drawing.side:
        lines.append(f"<desc>{drawing.side}</desc>")
    lines += _groups(drawing, scale, system, fitted)
    return "\n".join([*lines, "</svg>", ""])


@lru_cache(maxsize=1 << 16)
def number(value: float) -> str:
    """A length with as many decimals as it needs, four at most.

    Kept, for cells stand in rows, and whatever a sheet shows stands on some tile again.

    >>> number(156.75), number(-0.00001), number(1/3), number(100.0)
    ('156.75', '0', '0.3333', '100')
    """
    words = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


def _groups(drawing: Drawing, scale: float, system: str, fitted: bool) -> Iterator[str]:
    """Items back to front; neighbours on one layer share a group that carries the layer's name."""
    seen: dict[str, int] = {}
    for layer, items in groupby(flat(drawing, system), key=lambda item: item.layer):
        seen[layer] = seen.get(layer, 0) + 1
        name = layer if seen[layer] == 1 else f"{layer}-{seen[layer]}"
        yield f'<g id="{name}" class="{layer}"{_group_style(layer, scale)}>'
        yield from (_item(item, fitted) for item in items)
        yield "</g>"


def flat(drawing: Drawing, system: str) -> Iterator[Flat]:
    """The items with every dimension taken apart."""
    for item in drawing.items:
        if isinstance(item, Dimension):
            yield from _only_flat(explode(item, system))
        else:
            yield item


def _only_flat(items: tuple[Item, ...]) -> Iterator[Flat]:
    for item in items:
        assert not isinstance(item, Dimension)
        yield item


def _group_style(layer: Layer, scale: float) -> str:
    ink = INKS[layer]
    if ink.stroke == "none":
        return ""
    dash = " ".join(number(length * scale) for length in ink.dash_mm)
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f' stroke="{ink.stroke}" stroke-width="{number(ink.width_mm * scale)}"{dashes}'


def _item(item: Flat, fitted: bool) -> str:
    if isinstance(item, Text):
        return shape(
            item, f' stroke="none" fill="{INKS[item.layer].letters}"{_length(item) if fitted else ""}'
        )
    return shape(item, _fill(item))


def _length(text: Text) -> str:
    """How long the words are in the one face."""
    length = text_width_mm(text.words, text.height_mm, text.bold)
    return f' textLength="{number(length)}" lengthAdjust="spacingAndGlyphs"' if length else ""


def shape(item: Flat, look: str) -> str:
    """One element of a picture; `look` is what it says of its colours, a blank before each attribute."""
    match item:
        case Path():
            return f'<path d="{_way(item)}"{look}/>'
        case Arc():
            return _arc(item, look)
        case Text():
            return _text(item, look)


def _fill(item: Path | Arc) -> str:
    fill = INKS[item.layer].fill
    return f' fill="{fill}"' if item.filled and fill != "none" else ""


def _way(path: Path) -> str:
    points = "L".join(f"{number(x)} {number(-y)}" for x, y in path.points)
    return f"M{points}Z" if path.closed else f"M{points}"


def _arc(arc: Arc, look: str) -> str:
    (x, y), r = arc.centre, arc.radius_mm
    span = arc.end_deg - arc.start_deg
    span = span + 360.0 if span <= 0 else span
    if span >= 360.0:
        return f'<circle cx="{number(x)}" cy="{number(-y)}" r="{number(r)}"{look}/>'
    start, end = math.radians(arc.start_deg), math.radians(arc.start_deg + span)
    sx, sy = number(x + r * math.cos(start)), number(-(y + r * math.sin(start)))
    ex, ey = number(x + r * math.cos(end)), number(-(y + r * math.sin(end)))
    size = f"{number(r)} {number(r)} 0 {int(span > 180)} 0"  # counter-clockwise on paper
    return f'<path d="M{sx} {sy}A{size} {ex} {ey}"{look}/>'


def _text(text: Text, look: str) -> str:
    x, y = number(text.at[0]), number(-text.at[1])
    place = f'x="{x}" y="{y}" font-size="{number(text.height_mm)}"'
    anchor = "" if text.align == "left" else f' text-anchor="{_ANCHOR[text.align]}"'
    turn = f' transform="rotate({number(-text.angle_deg)} {x} {y})"' if text.angle_deg % 360 else ""
    bold = ' font-weight="700"' if text.bold else ""
    return f"<text {place}{anchor}{turn}{bold}{look}>{escape(printable(text.words), quote=False)}</text>"
