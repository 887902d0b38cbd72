"""The template at full size, seen from the bench: glass on it, sunny side down, cells on their marks.

Each place shows the nominal outline between the largest and the smallest cell that may lie there, the
busbars, the cell's number and an arrow to the next cell.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.move import mirrored
from panewright.layup.drawn.figure import cell_outline, clear_x, column_signs, lead_marks, number_height
from panewright.layup.drawn.signs import arrow_head, centred, side_note
from panewright.layup.layup import Layup, PlacedCell
from panewright.layup.tabs import busbar_offsets_mm
from panewright.layup.tolerance import largest, smallest


def template(layup: Layup, text_mm: float = 6.0) -> Drawing:
    """Everything the hand that lays cells must see, 1 to 1."""
    drawing = mirrored(
        Drawing("Laying template", tuple(_items(layup, text_mm)), "sunny side up"), layup.pane_width_mm / 2
    )
    words = side_note(drawing.side, (0.0, layup.pane_height_mm + 3.4 * text_mm), text_mm)
    again = side_note(drawing.side, (0.0, -5 * text_mm), text_mm)
    return drawing.with_items((*words, *again))


def _items(layup: Layup, text: float) -> Iterator[Item]:
    yield box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane")
    for cell in layup.cells:
        yield from _place(cell, text)
    for bus in layup.buses:
        (left, y), (right, _) = bus.points[0], bus.points[-1]
        yield box(left, y - bus.width_mm / 2, right, y + bus.width_mm / 2, "bus")
        yield Path(bus.points, "centre")
    yield from column_signs(layup, 2 * text)
    yield from lead_marks(layup, text)


def _place(cell: PlacedCell, text: float) -> Iterator[Item]:
    """Limits, nominal outline, busbars, number, the side in words and the way to the next cell."""
    shape, (x, y) = cell.shape, cell.centre
    if shape.tolerance_mm:
        yield Path(cell_outline(largest(shape), cell.centre), "limit", closed=True)
        yield Path(cell_outline(smallest(shape), cell.centre), "limit", closed=True)
    yield Path(cell_outline(shape, cell.centre), "axis", closed=True)  # thin, or it would hide the limits
    for offset in busbar_offsets_mm(shape):
        yield Path(((x + offset, y - shape.length_mm / 2), (x + offset, y + shape.length_mm / 2)), "busbar")
    height = number_height(shape, 3 * text)
    free = x + clear_x(shape)
    yield centred(str(cell.number), (free, y), height, "number", bold=True)
    edge = x - shape.width_mm / 2
    yield Text((edge + 2.2 * text, y), "sunny side down", 0.6 * text, "text", "centre", 90.0)
    way = 1.0 if cell.heads_up else -1.0
    tip = (edge + text, y + way * 1.5 * text)
    yield Path((tip, (tip[0], y - way * 1.5 * text)), "ink")
    yield arrow_head(tip, (0.0, way), text, "ink")
