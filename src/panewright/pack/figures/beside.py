"""A small detail laid beside or under a figure on the same page, clear of everything that is drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from panewright.drawing.bounds import Bounds, bounds, item_bounds
from panewright.drawing.drawing import Drawing, Text
from panewright.drawing.move import enlarged, merged, moved
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Figure
from panewright.pack.figures.scale import LETTERS_MM, figure

_AIR_MM = 4.0  # of paper, between figure and detail
_EDGE_MM = 3.0  # of paper, that outermost lines take
_TRIES = 32  # places from left to right


@dataclass(frozen=True, slots=True)
class Detail:
    """A part drawn for the page at a scale of its own, with its title."""

    drawing: Drawing
    scale: float
    title: str


def with_detail(
    make: Callable[[float], Drawing], room: Size, caption: str, system: str, detail: Detail
) -> Figure:
    """A figure with its detail; the figure is drawn smaller only where the page has no other room."""
    whole = figure(make, room, caption, system)
    small = _titled(detail, system)
    if laid := _laid(whole, small, detail.scale, room, system):
        return laid
    less = bounds(small).height_mm / detail.scale + _AIR_MM + _EDGE_MM
    shrunk = figure(make, Size(room.width_mm, room.height_mm - less), caption, system)
    return _laid(shrunk, small, detail.scale, room, system) or whole


def _titled(detail: Detail, system: str) -> Drawing:
    """The detail with its dimensions told, under its title. [mm, for its own scale]"""
    flat, letter = enlarged(detail.drawing, 1.0, system), LETTERS_MM[0] * detail.scale
    around = bounds(flat)
    title = Text((around.left, around.top + 1.2 * letter), detail.title, letter, bold=True)
    return flat.with_items((title,))


def _laid(whole: Figure, small: Drawing, scale: float, room: Size, system: str) -> Figure | None:
    """Both in one drawing at the first free place that keeps to the room; None where there is none."""
    detail, air = enlarged(small, whole.scale / scale), _AIR_MM * whole.scale
    around, size = bounds(whole.drawing, system), bounds(detail)
    taken = [item_bounds(item, system).grown(air / 2) for item in whole.drawing.items]
    wide, high = ((side - _EDGE_MM) * whole.scale for side in room)
    for left, low in _places(around, size, air, wide):
        there = Bounds(left, low, left + size.width_mm, low + size.height_mm)
        if (
            max(around.right, there.right) - min(around.left, there.left) <= wide
            and max(around.top, there.top) - min(around.bottom, there.bottom) <= high
            and not any(there.meets(other) for other in taken)
        ):
            put = moved(detail, left - size.left, low - size.bottom)
            both = merged(whole.drawing.name, (whole.drawing, put), whole.drawing.side)
            return Figure(both, whole.scale, whole.caption)
    return None


def _places(around: Bounds, size: Bounds, air: float, wide: float) -> Iterator[tuple[float, float]]:
    """Along the foot of the figure from left to right, then under it. [mm]"""
    for step in range(_TRIES + 1):
        yield around.left + (wide - size.width_mm) * step / _TRIES, around.bottom
    middle = (around.left + around.right - size.width_mm) / 2
    yield middle, around.bottom - air - size.height_mm
