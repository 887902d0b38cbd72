"""A lay-up: every cell, ribbon and bus where it lies, seen from the sunny side.

The origin is the lower left corner of the pane seen sunny side up, x right, y up, in mm. Cells are
numbered along the string from the minus lead: cell 1 carries the minus lead, the last cell the plus.
With strings in parallel the numbers run on: the second string begins where the first one ends.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.cell.shape import Shape

Point = tuple[float, float]
End = Literal["bottom", "top"]


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

    `front` and `back` are the parts soldered to a sunny side and to a back, as lines; either may be
    None: a ribbon to a bus has one of them, a joint between back-contact cells has only a back.
    """

    from_cell: int | None
    to_cell: int | None
    busbar: int
    points: tuple[Point, ...]  #: middle line seen sunny side up
    length_mm: float  #: to cut, bends included
    front: tuple[Point, Point] | None = None
    back: tuple[Point, Point] | None = None
    steps: int = 0  #: bends that lift the ribbon from one level to another


@dataclass(frozen=True, slots=True)
class Bus:
    """A piece of bus ribbon, by its middle line."""

    name: str
    points: tuple[Point, ...]
    length_mm: float  #: to cut
    after_cell: int  #: electrically after this cell; 0 for the minus end
    pole: Literal["minus", "plus", "between"]
    end: End = "bottom"
    lane: int = 1  #: 1 lies next to the cells, 2 further out
    columns: tuple[int, ...] = ()  #: whose tabs end on it
    tabs_x_mm: tuple[float, ...] = ()  #: where they cross it
    width_mm: float = 5.0


@dataclass(frozen=True, slots=True)
class Lead:
    """Where a lead leaves the pane."""

    pole: Literal["minus", "plus"]
    at: Point


@dataclass(frozen=True, slots=True)
class Tap:
    """Where a bypass diode's wire leaves a bus that joins two columns."""

    after_cell: int  #: counted along the panel, as the cells are numbered
    string: int
    at: Point


@dataclass(frozen=True, slots=True)
class Tail:
    """The ribbon from a bus out through the back to its terminal in the junction box; a piece of its own."""

    name: str
    after_cell: int  #: as its lead's bus or its tap; 0 for the minus lead
    string: int  #: -1 for a lead, which serves all strings
    pole: Literal["minus", "plus", "between"]
    at: Point  #: on its bus
    into: Point  #: where it enters the box
    lap_mm: float  #: soldered across the bus
    rise_mm: float  #: out through what lies behind the cells, to the next whole millimetre
    bow_mm: float  #: loose, to the terminal

    @property
    def way_mm(self) -> float:
        """Along the back, from its exit to the box; 0 where the box covers the exit."""
        return math.dist(self.at, self.into)

    @property
    def length_mm(self) -> float:
        """To cut, to the next whole millimetre."""
        return float(math.ceil(self.lap_mm + self.rise_mm + self.way_mm + self.bow_mm - 1e-6))

    @property
    def sleeve_mm(self) -> float:
        """Insulating sleeve over it: from bus to box where it runs along the back, past other ribbon."""
        return float(math.ceil(self.rise_mm + self.way_mm - 1e-6)) if self.way_mm > 0 else 0.0

    @property
    def bends_mm(self) -> tuple[float, ...]:
        """Where it is bent, from its end on the bus."""
        out = self.lap_mm + self.rise_mm
        return (self.lap_mm, out, out + self.way_mm) if self.way_mm > 0 else (self.lap_mm,)


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

    def __post_init__(self) -> None:
        if min(self.columns, self.rows, self.in_series, self.strings, self.substrings) < 1:
            raise ValueError(f"a plan has a column, a row, a string and a cell or more, got {self}")
        if self.columns % self.strings or self.columns * self.rows != self.in_series * self.strings:
            raise ValueError(f"every string fills whole columns and every place holds a cell, got {self}")
        if min(self.cell_gap_mm, self.string_gap_mm, self.side_margin_mm, self.end_margin_mm) < 0:
            raise ValueError(f"gaps and margins are 0 or more, got {self}")

    @property
    def columns_a_string(self) -> int:
        """Columns through which one string snakes."""
        return self.columns // self.strings

    @property
    def cells_a_diode(self) -> int:
        """Cells under one bypass diode."""
        return self.in_series // self.substrings

    @property
    def leads_one_end(self) -> bool:
        """Whether both leads come out at the same end: true for an even number of columns a string."""
        return self.columns_a_string % 2 == 0


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
    #: bypass diodes reach from one of these cell numbers to the next, counted within a string;
    #: starts with 0, ends with `in_series`, and is the same in every string
    diode_after: tuple[int, ...]
    taps: tuple[Tap, ...] = ()
    tails: tuple[Tail, ...] = ()  #: one for each lead and tap
    tab_width_mm: float = 2.0
    front: Literal["minus", "plus", "behind"] = "minus"

    def __hash__(self) -> int:
        """Of what tells most lay-ups apart, not of every ribbon."""
        return hash((self.plan, self.pane_width_mm, self.pane_height_mm, self.tab_width_mm, self.front))
