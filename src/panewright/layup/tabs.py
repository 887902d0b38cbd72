"""Tabbing ribbons: which cells each one joins, on which side it lies, and how long it is cut.

Cells are numbered from the minus lead, so the plus of each cell joins the minus of the next. With the
minus on the sunny side a ribbon starts behind cell k and ends on the front of cell k + 1:

    sunny side      ___front of k+1______
                   /=====cell k+1========
    ==cell k=======/
     behind k _____/

With the plus on the sunny side it starts on the front and ends behind. Back-contact cells have both
poles behind: a short ribbon covers the pads at both facing edges and nothing lies on the sunny side.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from panewright.cell.kind import Pole
from panewright.cell.shape import Shape
from panewright.layup.layup import Bus, End, PlacedCell, Plan, Point, Tab
from panewright.layup.room import INSET_MM, PAD_MM, STEP_MM

Line = tuple[Point, Point]


def busbar_offsets_mm(shape: Shape) -> tuple[float, ...]:
    """Middle of each busbar from the middle of the cell, left to right: each serves an equal strip. [mm]

    >>> busbar_offsets_mm(Shape(156.0, 156.0, busbars=3))
    (-52.0, 0.0, 52.0)
    """
    pitch = shape.width_mm / shape.busbars
    return tuple((index + 0.5) * pitch - shape.width_mm / 2 for index in range(shape.busbars))


def covered_mm(shape: Shape, front: Pole) -> float:
    """How much of a cell's busbar, or of its pad behind, a ribbon covers. [mm]"""
    return min(PAD_MM, shape.length_mm / 2) if front == "behind" else shape.length_mm - INSET_MM


def tabs_of(
    plan: Plan, cells: tuple[PlacedCell, ...], buses: tuple[Bus, ...], front: Pole
) -> tuple[Tab, ...]:
    """All tabbing ribbons, by the number of the cell they come from."""
    by_end = {(column, bus.end): bus for bus in buses for column in bus.columns}
    return tuple(_tabs(plan, cells, by_end, front))


def _tabs(
    plan: Plan, cells: tuple[PlacedCell, ...], by_end: Mapping[tuple[int, End], Bus], front: Pole
) -> Iterator[Tab]:
    for start in range(0, len(cells), plan.rows):
        column = cells[start : start + plan.rows]
        first, last = column[0], column[-1]
        ends: tuple[End, End] = ("bottom", "top") if first.heads_up else ("top", "bottom")
        yield from _end_tabs(first, by_end[first.column, ends[0]], front, arriving=True)
        for here, there in pairwise(column):
            yield from _joints(here, there, front)
        yield from _end_tabs(last, by_end[last.column, ends[1]], front, arriving=False)


def _joints(here: PlacedCell, there: PlacedCell, front: Pole) -> Iterator[Tab]:
    """Ribbons from the plus of one cell to the minus of the next."""
    for busbar, offset in enumerate(busbar_offsets_mm(here.shape)):
        x = here.centre[0] + offset
        leaves = _line(here, x, front, towards_next=True)
        arrives = _line(there, x, front, towards_next=False)
        steps = 0 if front == "behind" else 2
        length = abs(arrives[1][1] - leaves[0][1]) + steps * STEP_MM
        points = (leaves[0], leaves[1], arrives[0], arrives[1])
        on_front, behind = _sides(leaves, arrives, front)
        yield Tab(here.number, there.number, busbar, points, length, on_front, behind, steps)


def _sides(leaves: Line, arrives: Line, front: Pole) -> tuple[Line | None, Line | None]:
    """Which part lies on a sunny side and which behind."""
    if front == "minus":
        return arrives, leaves
    if front == "plus":
        return leaves, arrives
    return None, (leaves[0], arrives[1])


def _end_tabs(cell: PlacedCell, bus: Bus, front: Pole, arriving: bool) -> Iterator[Tab]:
    """Ribbons between the end of a column and its bus; `arriving` ones come from the bus."""
    behind = front == "behind" or (front == "minus") != arriving
    for busbar, offset in enumerate(busbar_offsets_mm(cell.shape)):
        x = cell.centre[0] + offset
        line = _line(cell, x, front, towards_next=not arriving)
        out = 1 if bus.end == "top" else -1
        far = (x, bus.points[0][1] + out * bus.width_mm / 2)
        length = abs(far[1] - (line[1][1] if arriving else line[0][1])) + STEP_MM
        points = (far, *line) if arriving else (*line, far)
        yield Tab(
            None if arriving else cell.number,
            cell.number if arriving else None,
            busbar,
            points,
            length,
            front=None if behind else line,
            back=line if behind else None,
            steps=1,
        )


def _line(cell: PlacedCell, x: float, front: Pole, towards_next: bool) -> Line:
    """The soldered part on one cell, in the sense of the string.

    It reaches the edge that faces the neighbour and stops short of the far one.
    """
    sense = 1.0 if cell.heads_up else -1.0
    near = cell.centre[1] + sense * cell.shape.length_mm / 2 * (1 if towards_next else -1)
    covered = covered_mm(cell.shape, front)
    far = near - sense * covered if towards_next else near + sense * covered
    return ((x, far), (x, near)) if towards_next else ((x, near), (x, far))
