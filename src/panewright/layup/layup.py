"""A lay-up: every cell, ribbon and bus where it lies, seen from the sunny side.

The origin is the lower left corner of the pane seen sunny side up, x right, y up, in mm. Cells are
numbered along the string from the minus lead: cell 1 carries the minus lead, the last cell the plus.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.cell.shape import Shape

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class PlacedCell:
    """One cell on the pane."""

    number: int  #: 1 at the minus end
    string: int  #: 0 for the first string
    column: int  #: 0 at the left
    row: int  #: 0 at the bottom
    shape: Shape
    centre: Point  #: middle of the cell's own rectangle
    heads_up: bool  #: the string runs upward through this cell


@dataclass(frozen=True, slots=True)
class Tab:
    """One tabbing ribbon: along busbar `busbar` of `from_cell` on to the next cell or to a bus.

    `front` and `back` are its two ends as lines; either may be None at the ends of a column.
    """

    from_cell: int | None
    to_cell: int | None
    busbar: int
    points: tuple[Point, ...]  #: middle line seen sunny side up
    length_mm: float  #: to cut, bends included


@dataclass(frozen=True, slots=True)
class Bus:
    """A piece of bus ribbon, by its middle line."""

    name: str
    points: tuple[Point, ...]
    length_mm: float  #: to cut
    after_cell: int  #: electrically after this cell; 0 for the minus end
    pole: Literal["minus", "plus", "between"]


@dataclass(frozen=True, slots=True)
class Lead:
    """Where a lead leaves the pane."""

    pole: Literal["minus", "plus"]
    at: Point


@dataclass(frozen=True, slots=True)
class Plan:
    """What a lay-up is made from: the pins of the order or the tool's choice."""

    columns: int
    rows: int
    in_series: int
    strings: int  #: in parallel
    substrings: int  #: bypass diodes a string
    cell_gap_mm: float
    string_gap_mm: float
    side_margin_mm: float  #: silicon to pane edge, left and right
    end_margin_mm: float  #: silicon to pane edge, top and bottom, bus ribbons within
    bus_width_mm: float


@dataclass(frozen=True, slots=True)
class Layup:
    """Everything that lies on one pane."""

    plan: Plan
    pane_width_mm: float
    pane_height_mm: float
    cells: tuple[PlacedCell, ...]
    tabs: tuple[Tab, ...]
    buses: tuple[Bus, ...]
    leads: tuple[Lead, ...]
    diode_after: tuple[
        int, ...
    ]  #: bypass diodes reach from one of these cell numbers to the next; starts with 0
