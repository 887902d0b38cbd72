"""One end of the panel drawn large, as the bench sees it: bus ribbons, tabs on them, leads and taps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from panewright.drawing.drawing import Dimension, Drawing, Item, Path, Side, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.move import mirrored
from panewright.layup.buses import LeadPole, crossings, film_mm
from panewright.layup.drawn.figure import cell_outline, clear_x, lead_marks
from panewright.layup.drawn.halves import between, beyond, cut_x
from panewright.layup.drawn.signs import centred, pole_sign, side_note, side_note_width
from panewright.layup.layup import Bus, End, Layup, PlacedCell
from panewright.layup.tabs import busbar_offsets_mm

_SHOWN_MM = 60.0  # of each column's last cell, at most


Half = Literal["", "left", "right"]


def end_view(layup: Layup, end: End, text_mm: float = 10.0, half: Half = "") -> Drawing:
    """The bottom or the top end seen from the bench; `text_mm` is the height of words on the drawing.

    The top end is drawn as it lies, its pane edge up. Left and right are those of the bench.
    """
    wide, cut = layup.pane_width_mm, cut_x(layup, end) if half else 0.0
    low, high = {"": (0.0, wide), "left": (cut, wide), "right": (0.0, cut)}[half]
    items = tuple(_items(layup, end, text_mm))
    marks = tuple(_marks(layup, end, text_mm, low, high))
    if half:
        items = tuple(between(items, low, high))
    name = f"The {end} end on the bench" + (f", {half} half" if half else "")
    drawing = mirrored(Drawing(name, (*items, *marks), "sunny side up"), wide / 2)
    return drawing.with_items(_notes(layup, end, text_mm, wide - (low + high) / 2))


def _notes(layup: Layup, end: End, text: float, middle: float) -> tuple[Item, ...]:
    """The side in words, and what a marked crossing needs, under the view."""
    side: Side = "sunny side down"
    level = -6.0 * text if end == "bottom" else _cut_y(layup, end) - 3.0 * text
    note = side_note(side, (middle - side_note_width(side, text) / 2, level), text)
    if crossings(tuple(bus for bus in layup.buses if bus.end == end)):
        words = "At every marked crossing: a film between ribbon and bus"
        note += (Text((middle, level - 1.8 * text), words, text, "text", "centre"),)
    return note


def _marks(layup: Layup, end: End, text: float, low: float, high: float) -> Iterator[Item]:
    """Leads and taps between two upright lines, named."""
    leads = tuple(lead for lead in layup.leads if low <= lead.at[0] <= high)
    taps = tuple(tap for tap in layup.taps if low <= tap.at[0] <= high)
    for item in lead_marks(replace(layup, leads=leads, taps=taps), text):
        if _at_end(item, layup, end):
            yield item


def _items(layup: Layup, end: End, text: float) -> Iterator[Item]:
    cut = _cut_y(layup, end)
    edge = 0.0 if end == "bottom" else layup.pane_height_mm
    wide = layup.pane_width_mm
    yield box(0, min(cut, edge), wide, max(cut, edge), "pane", filled=True)
    cells = [cell for cell in layup.cells if cell.row == (0 if end == "bottom" else layup.plan.rows - 1)]
    for cell in cells:
        yield from _cell_end(cell, layup, end, cut, text)
    buses = [bus for bus in layup.buses if bus.end == end]
    for bus in sorted(buses, key=lambda bus: -bus.lane):
        yield _bus_box(bus)
        yield from _tab_ends(bus, layup, cut)
    yield from _films(layup, buses)
    yield from _distances(layup, end, buses, edge, text)


def _cut_y(layup: Layup, end: End) -> float:
    """Where the view breaks off the columns. [mm]"""
    length = min(cell.shape.length_mm for cell in layup.cells)
    shown = layup.plan.end_margin_mm + min(_SHOWN_MM, 0.7 * length)
    return shown if end == "bottom" else layup.pane_height_mm - shown


def _cell_end(cell: PlacedCell, layup: Layup, end: End, cut: float, text: float) -> Iterator[Item]:
    """The part of a column's last cell up to the break, with its number and pole."""
    points = beyond(cell_outline(cell.shape, cell.centre), cut, below=end == "bottom")
    yield Path(points, "cell", closed=True, filled=True)
    out = -1 if end == "bottom" else 1
    tip = cell.centre[1] + out * cell.shape.length_mm / 2
    for offset in busbar_offsets_mm(cell.shape):
        x = cell.centre[0] + offset
        yield Path(((x, cut), (x, tip - out * 1.0)), "busbar")
    free = cell.centre[0] + clear_x(cell.shape)
    shown = abs(tip - cut)
    height = min(1.4 * text, 0.26 * shown)
    yield centred(str(cell.number), (free, cut + out * 0.3 * shown), height, "number", bold=True)
    arriving = (cell.number - 1) % layup.plan.rows == 0 and (end == "bottom") == cell.heads_up
    pole: LeadPole = "minus" if arriving else "plus"
    yield pole_sign(pole, (free, cut + out * 0.72 * shown), height)


def _bus_box(bus: Bus) -> Path:
    (left, y), (right, _) = bus.points[0], bus.points[-1]
    return box(left, y - bus.width_mm / 2, right, y + bus.width_mm / 2, "bus", filled=True)


def _tab_ends(bus: Bus, layup: Layup, cut: float) -> Iterator[Item]:
    """Tabs from their cells over the whole bus; those on a sunny side come from under the cell."""
    out = -1 if bus.end == "bottom" else 1
    far = bus.points[0][1] + out * bus.width_mm / 2
    half = layup.tab_width_mm / 2
    for tab in layup.tabs:
        number = tab.to_cell if tab.from_cell is None else tab.from_cell if tab.to_cell is None else None
        if (
            number is None
            or abs((tab.points[0] if tab.from_cell is None else tab.points[-1])[1] - far) > 1e-9
        ):
            continue
        x = tab.points[0][0]
        cell = layup.cells[number - 1]
        if cell.column not in bus.columns:
            continue
        edge = cell.centre[1] + out * cell.shape.length_mm / 2
        start = edge if tab.back is None else cut
        yield box(x - half, min(start, far), x + half, max(start, far), "ribbon", filled=True)


def _films(layup: Layup, buses: Sequence[Bus]) -> Iterator[Item]:
    """A square of film under every tab that crosses another bus."""
    half = film_mm(layup.plan.bus_width_mm) / 2
    for x, y in crossings(tuple(buses)):
        yield box(x - half, y - half, x + half, y + half, "mark")


def _at_end(item: Item, layup: Layup, end: End) -> bool:
    match item:
        case Path():
            y = item.points[0][1]
        case Dimension():
            y = item.start[1]
        case _:
            y = item.centre[1] if hasattr(item, "centre") else item.at[1]
    return (y < layup.pane_height_mm / 2) == (end == "bottom")


def _distances(layup: Layup, end: End, buses: Sequence[Bus], edge: float, text: float) -> Iterator[Item]:
    """From the cells to the pane's edge and to the middle of each lane, beside the pane."""
    wide = layup.pane_width_mm
    out = -1 if end == "bottom" else 1
    silicon = edge - out * layup.plan.end_margin_mm
    lanes = sorted({bus.points[0][1] for bus in buses}, key=lambda y: -abs(y - silicon))
    figure = text_width_mm("88.88 mm", text)
    roomy = all(abs(y - silicon) > figure + 2.6 * text for y in lanes)  # for a figure between its arrows
    # figures past their arrows stand outermost, clear of the others' lines; else the short ones lie within
    for level, y in enumerate((*lanes[::-1], edge) if roomy else (edge, *lanes), start=1):
        past = y == edge and not roomy and _through(lanes, silicon, edge, figure + 0.4 * text)
        yield Dimension((wide, silicon), (wide, y), -out * 2.0 * level * text, text, outside=past)
    side = layup.plan.side_margin_mm
    cut = _cut_y(layup, end)
    yield Dimension((side, cut), (0, cut), (1 if out < 0 else -1) * -1.6 * text, text)
    first = min(bus.points[0][0] for bus in buses)
    beyond_names = edge + out * 2.4 * text  # or a witness line might run through the name of a lead
    yield Dimension((0, beyond_names), (first, beyond_names), out * 1.0 * text, text)


def _through(lanes: Sequence[float], silicon: float, edge: float, figure: float) -> bool:
    """Whether a lane's witness line would run through a figure in the middle from cells to edge."""
    middle = (silicon + edge) / 2
    return any(abs(y - middle) < figure / 2 for y in lanes)
