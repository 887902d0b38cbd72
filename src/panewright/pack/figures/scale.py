"""Which round scale lets a drawing fit its place on the page."""

from __future__ import annotations

from collections.abc import Callable

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Align, Drawing, Layer, Point, Text
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.paper_size import Paper, Size, figure_area
from panewright.drawing.sheet import Figure

SCALES = (
    *(0.2, 0.25, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.5, 8.0),
    *(10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 150.0, 200.0, 400.0, 1000.0),
    *(2000.0, 5000.0, 10000.0, 20000.0),
)
LETTERS_MM = (2.7, 2.3, 1.9)  #: height of words on paper, the first that fits; on most drawings the first
_SMALLER, _MOST_SMALLER = 0.85, 12  # letters for what fits no page at any of these
_SPECK_MM = 0.01  # words so small that they take no room
_EDGE_MM = 1.5  # half of the thickest line on either side, and a little more


def fitting(width_mm: float, height_mm: float, room: Size) -> float:
    """The smallest round scale at which so large a thing fits the room.

    >>> fitting(1000.0, 500.0, Size(170.0, 200.0))
    6.0
    """
    needed = max(width_mm / room.width_mm, height_mm / room.height_mm)
    return next((scale for scale in SCALES if scale >= needed - 1e-9), needed)


def page_room(paper: Paper, taken_mm: float = 0.0) -> Size:
    """Room for a figure on a page of its own, under so many millimetres of words."""
    whole = figure_area(paper)
    return Size(whole.width_mm, whole.height_mm - taken_mm)


def figure(make: Callable[[float], Drawing], room: Size, caption: str = "", system: str = "metric") -> Figure:
    """A drawing as a figure at the largest round scale that fits the room on paper.

    `make` draws it with words of a given height [mm on the thing], so that words are alike on paper at
    any scale.
    """
    inner = Size(room.width_mm - _EDGE_MM, room.height_mm - _EDGE_MM)
    bare = _needed(make(_SPECK_MM), inner, system)  # words only add to this
    for letter in (*LETTERS_MM, *(LETTERS_MM[-1] * _SMALLER**n for n in range(1, _MOST_SMALLER))):
        if found := _first_fit(make, letter, bare, inner, system):
            return Figure(*found, caption)
    raise ValueError(
        f"{caption or 'a drawing'} has no place in {room.width_mm:.0f} x {room.height_mm:.0f} mm"
    )


def _first_fit(
    make: Callable[[float], Drawing], letter_mm: float, bare: float, room: Size, system: str
) -> tuple[Drawing, float] | None:
    """The drawing at the smallest scale at which it fits with letters so high, where there is one.

    Larger scales mean larger words. What sticks out farthest moves out straight with them, so what is needed
    grows faster and faster: a scale below the straight line through the last two that were tried is no use.
    """
    tried, needed, slope = 0.0, bare, 0.0
    for scale in SCALES:
        if scale < needed + slope * (scale - tried):
            continue
        drawing = make(letter_mm * scale)
        before, needed = needed, _needed(drawing, room, system)
        if needed <= scale:
            return drawing, scale
        tried, slope = scale, max((needed - before) / (scale - tried), 0.0)
    return None


def _needed(drawing: Drawing, room: Size, system: str) -> float:
    """The scale at which a drawing just fits."""
    around = bounds(drawing, system)
    return max(around.width_mm / room.width_mm, around.height_mm / room.height_mm)


def fitted(
    at: Point,
    words: str,
    height_mm: float,
    room_mm: float,
    layer: Layer = "text",
    align: Align = "left",
    *,
    bold: bool = False,
) -> Text:
    """A line of words no longer than the room there is, set smaller where it must be."""
    width = text_width_mm(words, height_mm, bold)
    height = height_mm if width <= room_mm else height_mm * room_mm / width
    return Text(at, words, height, layer, align, bold=bold)
