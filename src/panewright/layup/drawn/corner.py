"""A corner where cells meet, drawn large: nominal outlines between the largest and the smallest allowed."""

from __future__ import annotations

from collections.abc import Iterator

from panewright import units
from panewright.cell.shape import Shape
from panewright.drawing.dimension import figure_digits
from panewright.drawing.drawing import Dimension, Drawing, Item, Layer, Path, Point, Text
from panewright.drawing.placing import Box, clipped_runs
from panewright.layup.drawn.figure import cell_outline
from panewright.layup.layup import Layup, PlacedCell
from panewright.layup.tolerance import largest, smallest

_INWARD_MM, _PAST_MM = 3.0, 3.0  # of the cell, and past the next cell's edge
_DOWN_MM = 6.0


def corner_detail(layup: Layup, text_mm: float, system: str = "metric") -> Drawing | None:
    """Where the straight right side of cell 1 ends, with its neighbours; None for cells of one size. [mm]"""
    cell = min(layup.cells, key=lambda each: (each.column, each.row))
    if not cell.shape.tolerance_mm:
        return None
    edge = _end_of_side(cell)
    beside = next((c for c in layup.cells if (c.column, c.row) == (cell.column + 1, cell.row)), None)
    gap = layup.plan.string_gap_mm if beside else 0.0
    window = edge[0] - _INWARD_MM, edge[1] - _DOWN_MM, edge[0] + gap + _PAST_MM, edge[1] + _PAST_MM
    items: list[Item] = []
    for each in layup.cells:
        items += _outlines(each, window)
    items += _names(cell.shape, edge, window, text_mm, system)
    if beside:
        items += _gaps(cell.shape, beside.shape, edge, gap, window, text_mm)
    return Drawing("Corner of a cell", tuple(items))


def _end_of_side(cell: PlacedCell) -> Point:
    """The upper end of the straight right side, where a clipped corner begins."""
    points = cell_outline(cell.shape, cell.centre)
    right = max(x for x, _ in points)
    return right, max(y for x, y in points if x > right - 1e-6)


def _outlines(cell: PlacedCell, window: Box) -> Iterator[Path]:
    """The parts of three outlines that lie in the window."""
    shapes: tuple[tuple[Shape, Layer], ...] = (
        (cell.shape, "cell"),
        (largest(cell.shape), "limit"),
        (smallest(cell.shape), "limit"),
    )
    reach = (cell.shape.width_mm + cell.shape.length_mm) / 2 + 10.0
    if abs(cell.centre[0] - window[0]) > reach or abs(cell.centre[1] - window[1]) > reach:
        return
    for shape, layer in shapes:
        points = cell_outline(shape, cell.centre)
        for run in clipped_runs((*points, points[0]), window):
            yield Path(tuple(run), layer)


def _names(shape: Shape, edge: Point, window: Box, text: float, system: str) -> Iterator[Item]:
    """What each outline is, at the left, with its sides and a line to it."""
    half = shape.tolerance_mm / 2
    rows = (("largest", largest(shape), half), ("nominal", shape, 0.0), ("smallest", smallest(shape), -half))
    left, pitch = window[0] - 2.0 * text, 1.8 * text
    middle = (window[1] + edge[1]) / 2
    for row, (name, sized, out) in enumerate(rows):
        y = middle + (1 - row) * pitch
        point = (edge[0] + out, middle + (1 - row) * 1.2)
        yield Path((point, (left + 0.4 * text, y + 0.33 * text)), "dimension")
        yield Text((left, y), f"{name} {_sides(sized, system)}", text, "text", "right")


def _sides(shape: Shape, system: str) -> str:
    """Both sides of a cell, a square one by its side."""
    wide, long = _size(shape.width_mm, system), _size(shape.length_mm, system)
    return wide if wide == long else f"{wide} × {long}"


def _size(length_mm: float, system: str) -> str:
    """Millimetres only: the band is finer than a rule in inches shows."""
    words = units.show(length_mm, "mm", "metric", figure_digits(length_mm))
    return words if system == "metric" else f"{length_mm / units.INCH_MM:.3f}\u2009in ({words})"


def _gaps(one: Shape, other: Shape, edge: Point, gap: float, window: Box, text: float) -> Iterator[Dimension]:
    """Between nominal neighbours, and what is left between the largest; figures at the left."""
    low = window[1]
    yield Dimension((edge[0] + gap, low), (edge[0], low), 2.0 * text, text, note="gap", outside=True)
    start, end = edge[0] + one.tolerance_mm / 2, edge[0] + gap - other.tolerance_mm / 2
    if end > start:
        yield Dimension((end, low), (start, low), 4.2 * text, text, note="at least", outside=True)
