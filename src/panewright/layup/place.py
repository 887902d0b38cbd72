"""A plan laid out on the pane: every cell, ribbon, bus, lead and diode tap in its place.

Strips cut from a wafer differ in shape. Where the caller names no shapes they are taken in cyclic order:
cell 1 is the wafer's first strip, cell 2 the second, and so on, none turned round. So where a column runs
back down, the wafer's clipped corners meet inside; its shape is all that this changes.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from panewright.cell.kind import CellKind
from panewright.cell.shape import Shape, strips
from panewright.layup.buses import buses_of, leads_of, taps_of
from panewright.layup.columns import columns_in_order
from panewright.layup.layup import Layup, PlacedCell, Plan
from panewright.layup.plan_facts import pane_size_mm
from panewright.layup.tabs import tabs_of
from panewright.layup.tails import tails_of


@lru_cache(maxsize=32)
def lay(
    plan: Plan,
    kind: CellKind,
    tab_width_mm: float = 2.0,
    shapes: tuple[Shape, ...] | None = None,
    behind_mm: float = 0.0,
) -> Layup:
    """The whole lay-up, seen sunny side up; kept, for panels that differ in their glass alone share it.

    Parameters
    ----------
    plan : columns, rows, gaps and margins
    kind : the cells, and which pole lies on their sunny side
    tab_width_mm : width of the tabbing ribbon
    shapes : shape of each cell in the order of their numbers; default the strips in cyclic order
    behind_mm : thickness of what lies behind the cells, through which tails leave
    """
    cells = place_cells(plan, shapes or cyclic_shapes(kind, plan.in_series * plan.strings))
    width, length = _largest_rectangle(tuple(cell.shape for cell in cells))
    pane = pane_size_mm(plan, width, length)
    buses = buses_of(plan, cells, pane, tab_width_mm)
    step = plan.in_series // plan.substrings
    leads, taps = leads_of(plan, buses, pane), taps_of(plan, buses, pane)
    return Layup(
        plan=plan,
        pane_width_mm=pane[0],
        pane_height_mm=pane[1],
        cells=cells,
        tabs=tabs_of(plan, cells, buses, kind.front),
        buses=buses,
        leads=leads,
        diode_after=tuple(range(0, plan.in_series + 1, step)),
        taps=taps,
        tails=tails_of(plan, leads, taps, behind_mm),
        tab_width_mm=tab_width_mm,
        front=kind.front,
    )


def cyclic_shapes(kind: CellKind, count: int) -> tuple[Shape, ...]:
    """Shapes of `count` cells: the wafer's strips from its foot to its head, over and over."""
    kinds = strips(kind.shape, kind.parts)
    return tuple(kinds[number % len(kinds)] for number in range(count))


def corners_meet_inside(layup: Layup) -> bool:
    """Whether clipped corners of strips face each other in a column that runs back down."""
    return any(
        cell.shape.circle_mm is not None and cell.shape.off_centre_mm != 0
        for cell in layup.cells
        if not cell.heads_up
    )


def place_cells(plan: Plan, shapes: tuple[Shape, ...]) -> tuple[PlacedCell, ...]:
    """Every cell by its middle, in the order of the numbers."""
    if len(shapes) != plan.in_series * plan.strings:
        raise ValueError(f"{plan.in_series * plan.strings} cells need as many shapes, got {len(shapes)}")
    width, length = _largest_rectangle(shapes)
    across, along = width + plan.string_gap_mm, length + plan.cell_gap_mm
    left, foot = plan.side_margin_mm + width / 2, plan.end_margin_mm + length / 2
    return tuple(
        PlacedCell(
            number=number,
            string=string,
            column=column,
            row=row,
            shape=shapes[number - 1],
            centre=(left + column * across, foot + row * along),
            heads_up=heads_up,
        )
        for number, (string, column, row, heads_up) in enumerate(_places(plan), start=1)
    )


def _places(plan: Plan) -> Iterator[tuple[int, int, int, bool]]:
    """String, column, row and sense of each place, the way the current runs inside the cells."""
    for string in range(plan.strings):
        for ordinal, column in enumerate(columns_in_order(plan, string)):
            heads_up = ordinal % 2 == 0
            for step in range(plan.rows):
                yield string, column, step if heads_up else plan.rows - 1 - step, heads_up


def _largest_rectangle(shapes: tuple[Shape, ...]) -> tuple[float, float]:
    """The rectangle every cell fits into. [mm]"""
    return max(shape.width_mm for shape in shapes), max(shape.length_mm for shape in shapes)
