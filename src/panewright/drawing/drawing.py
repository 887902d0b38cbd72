"""Lines, arcs, words and dimensions in millimetres: one geometry for screen, paper and workshop files.

x runs right and y runs up, as on a drawing board. A `Drawing` says which side of the panel it shows.
Every item lies on a layer named after a thing of the trade; what colour, weight and dash a layer has
is decided once, by the room that renders.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

Point = tuple[float, float]
Align = Literal["left", "centre", "right"]
Layer = Literal[
    "cell",  # silicon outline, filled
    "limit",  # largest and smallest a cell may be
    "busbar",
    "ribbon",
    "bus",
    "lead",
    "pane",
    "bead",
    "encapsulant",
    "rail",
    "hole",
    "bracket",
    "hidden",
    "centre",
    "dimension",
    "text",
    "number",  # a cell's number
    "border",
    "cut",  # where to cut paper
    "plus",
    "minus",
    "axis",
    "grid",
    "predicted",
    "measured",
    "band",
    "mark",
    "ink",  # plain outlines, filled black where filled
    "string-1",  # panels of one string of an array; eight tints, each with a pattern of its own
    "string-2",
    "string-3",
    "string-4",
    "string-5",
    "string-6",
    "string-7",
    "string-8",
    "warn",
]
Side = Literal["sunny side up", "sunny side down", ""]


@dataclass(frozen=True, slots=True)
class Path:
    """Straight pieces from point to point; closed joins the last to the first."""

    points: tuple[Point, ...]
    layer: Layer
    closed: bool = False
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, counter-clockwise from start to end; 0 to 360 degrees is a whole circle."""

    centre: Point
    radius_mm: float
    layer: Layer
    start_deg: float = 0.0
    end_deg: float = 360.0
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """A line of words; `at` is the foot of the line at its left, middle or right end."""

    at: Point
    words: str
    height_mm: float  #: height of the letters' body on the drawing, not of the capital
    layer: Layer = "text"
    align: Align = "left"
    angle_deg: float = 0.0
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measured distance; its figure is always the length itself, never typed.

    The dimension line lies `offset_mm` to the left of the way from start to end (negative: to the right).
    `axis` takes only the horizontal or the vertical part.
    """

    start: Point
    end: Point
    offset_mm: float
    height_mm: float
    axis: Literal["along", "x", "y"] = "along"
    note: str = ""  #: words after the figure, such as 'typ.'
    outside: bool = False  #: words past the end even where they would fit between the arrows

    @property
    def length_mm(self) -> float:
        """What the figure says. [mm]"""
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        return abs(dx) if self.axis == "x" else abs(dy) if self.axis == "y" else math.hypot(dx, dy)


Item = Path | Arc | Text | Dimension


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture with a name, its items back to front, and the side of the panel it shows."""

    name: str
    items: tuple[Item, ...]
    side: Side = ""

    def with_items(self, items: Iterable[Item]) -> Drawing:
        """The same picture with more on top."""
        return replace(self, items=self.items + tuple(items))


def box(left: float, bottom: float, right: float, top: float, layer: Layer, filled: bool = False) -> Path:
    """A rectangle with its sides along the axes."""
    corners = ((left, bottom), (right, bottom), (right, top), (left, top))
    return Path(corners, layer, closed=True, filled=filled)
