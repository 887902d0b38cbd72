"""The lay-up drawn: from the front, sunny side up, and as the bench sees it, sunny side down.

Both come from one geometry. The bench view is the front view turned round the pane's middle: cell 1
stays cell 1 and appears on the other side, and what lies behind the cells is what the maker sees.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.cell.shape import Shape, outline
from panewright.drawing.bounds import item_bounds
from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Path, Point, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.move import mirrored
from panewright.layup.drawn.rim import Rim, rim_round
from panewright.layup.drawn.signs import called_out, centred, pole_sign, side_note, side_note_width
from panewright.layup.layup import Layup, PlacedCell, Tab
from panewright.layup.tabs import busbar_offsets_mm
from panewright.layup.tolerance import largest, smallest

Seen = Literal["front", "behind"]


@dataclass(frozen=True, slots=True)
class View:
    """What a view shows beside pane, cells and ribbon."""

    dimensions: bool = True
    rim: Rim | None = None  #: the frame round the pane
    limits: bool = False  #: the largest and the smallest cell in every place
    patches: bool = True  #: clear ground under a number that busbars would cross
    system: str = "metric"  #: which units the figures of dimensions will have

    @property
    def out_mm(self) -> float:
        """How far the frame stands out beyond the pane. [mm]"""
        return self.rim.margin_mm if self.rim else 0.0


PLAIN = View()


def front_view(layup: Layup, text_mm: float = 25.0, view: View = PLAIN) -> Drawing:
    """The panel as the sun sees it; `text_mm` is the height of words on the drawing."""
    drawing = Drawing("Lay-up from the front", tuple(_items(layup, "front", text_mm, view)), "sunny side up")
    return drawing.with_items(side_words(layup, drawing, text_mm, view.out_mm))


def bench_view(layup: Layup, text_mm: float = 25.0, view: View = PLAIN) -> Drawing:
    """The panel as it lies on the bench, glass down: the mirror image, with the backs of the cells."""
    unturned = Drawing("Lay-up on the bench", tuple(_items(layup, "behind", text_mm, view)), "sunny side up")
    drawing = mirrored(unturned, layup.pane_width_mm / 2)
    return drawing.with_items(side_words(layup, drawing, text_mm, view.out_mm))


def _items(layup: Layup, seen: Seen, text: float, view: View) -> Iterator[Item]:
    yield box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)
    if view.rim:
        yield from rim_round(layup, view.rim, seen)
    yield from silicon(layup)
    if view.limits:
        yield from limits(layup)
    yield from ribbons(layup, seen)
    yield from bus_boxes(layup)
    for cell in layup.cells:
        yield from number_on(cell, layup, text, view.patches)
    yield from column_signs(layup, text)
    yield from lead_marks(layup, text, view.out_mm)
    if view.dimensions:
        yield from _dimensions(layup, text, view)


def limits(layup: Layup) -> Iterator[Path]:
    """The largest and the smallest cell in every place."""
    for cell in layup.cells:
        if cell.shape.tolerance_mm:
            for shape in (largest(cell.shape), smallest(cell.shape)):
                yield Path(cell_outline(shape, cell.centre), "limit", closed=True)


@lru_cache(maxsize=2048)
def cell_outline(shape: Shape, centre: Point) -> tuple[Point, ...]:
    """A cell's outline where it lies; a figure is drawn at many scales, with the same outlines in each."""
    return tuple((x + centre[0], y + centre[1]) for x, y in _outline(shape))


@lru_cache(maxsize=32)
def _outline(shape: Shape) -> tuple[Point, ...]:
    """The outline of a kind of cell, of which a panel has many."""
    return tuple(outline(shape))


def silicon(layup: Layup) -> Iterator[Item]:
    """Every cell filled, with its busbars."""
    for cell in layup.cells:
        yield from silicon_of(cell)


def silicon_of(cell: PlacedCell) -> Iterator[Path]:
    """One cell filled, with its busbars."""
    yield Path(cell_outline(cell.shape, cell.centre), "cell", closed=True, filled=True)
    half = cell.shape.length_mm / 2 - 1.0
    for offset in busbar_offsets_mm(cell.shape):
        x = cell.centre[0] + offset
        yield Path(((x, cell.centre[1] - half), (x, cell.centre[1] + half)), "busbar")


def ribbons(layup: Layup, seen: Seen) -> Iterator[Item]:
    """The parts of the tabs that are seen from that side: on this side of a cell, and between cells."""
    for tab in layup.tabs:
        (_, low), (_, high) = _seen_part(tab, seen)
        x, half = tab.points[0][0], layup.tab_width_mm / 2
        if abs(high - low) > 1e-9:
            yield box(x - half, min(low, high), x + half, max(low, high), "ribbon", filled=True)


def bus_boxes(layup: Layup) -> Iterator[Path]:
    """Every piece of bus ribbon, as wide as it is."""
    for bus in layup.buses:
        (left, y), (right, _) = bus.points[0], bus.points[-1]
        yield box(left, y - bus.width_mm / 2, right, y + bus.width_mm / 2, "bus", filled=True)


def _seen_part(tab: Tab, seen: Seen) -> tuple[Point, Point]:
    """From the first to the last point of a tab less the part that a cell hides."""
    hidden = tab.back if seen == "front" else tab.front
    first, last = tab.points[0], tab.points[-1]
    if hidden is None:
        return first, last
    if first in hidden:
        first = hidden[1] if hidden[0] == first else hidden[0]
    elif last in hidden:
        last = hidden[0] if hidden[1] == last else hidden[1]
    return first, last


def clear_x(shape: Shape) -> float:
    """Nearest place to the middle that lies between two busbars, from the cell's middle. [mm]

    Beside a single busbar it is the middle of that half of the cell.
    """
    if shape.busbars == 1:
        return shape.width_mm / 4
    return 0.0 if shape.busbars % 2 == 0 else shape.width_mm / shape.busbars / 2


def number_height(shape: Shape, text: float) -> float:
    """Height of a cell's number that suits the cell. [mm]"""
    return min(1.2 * text, 0.3 * shape.length_mm, 0.3 * shape.width_mm)


def number_on(cell: PlacedCell, layup: Layup, text: float, patches: bool) -> Iterator[Item]:
    """The number between two busbars, a little smaller if need be; else on a patch clear of ribbons."""
    words, height = str(cell.number), number_height(cell.shape, text)
    clear = _clear_mm(cell, layup)
    width = text_width_mm(str(len(layup.cells)), height, bold=True)  # all numbers alike
    if clear < width <= clear * height / (0.75 * min(text, height)):
        height, width = height * clear / width, clear
    middle = (cell.centre[0] + clear_x(cell.shape), cell.centre[1])
    if patches and width > clear * (1 + 1e-9):
        half, up = 0.55 * width, 0.5 * height
        yield box(middle[0] - half, middle[1] - up, middle[0] + half, middle[1] + up, "cell", filled=True)
    yield centred(words, middle, height, "number", bold=True)


def column_signs(layup: Layup, text: float) -> Iterator[Item]:
    """A minus where the string enters a column, a plus where it leaves it."""
    rows = layup.plan.rows
    for start in range(0, len(layup.cells), rows):
        first, last = layup.cells[start], layup.cells[start + rows - 1]
        height = _sign_height(first, layup, text)
        yield pole_sign("minus", _sign_place(first, -1, height), height)
        yield pole_sign("plus", _sign_place(last, 1, height), height)


def _clear_mm(cell: PlacedCell, layup: Layup) -> float:
    """Room for words between two ribbons. [mm]"""
    return 0.8 * (cell.shape.width_mm / max(2, cell.shape.busbars) - layup.tab_width_mm)


def _sign_height(cell: PlacedCell, layup: Layup, text: float) -> float:
    """As large as suits the cell and still lies between two ribbons. [mm]"""
    between = _clear_mm(cell, layup) / text_width_mm("+", 1.0, bold=True)
    return min(1.2 * text, 0.24 * cell.shape.length_mm, max(between, 0.1 * text))


def _sign_place(cell: PlacedCell, way: int, height: float) -> Point:
    """Near the edge of the cell that faces the bus; `way` is 1 along the string and -1 against it."""
    up = way if cell.heads_up else -way
    from_middle = cell.shape.length_mm / 2 - 0.75 * height
    return cell.centre[0] + clear_x(cell.shape), cell.centre[1] + up * from_middle


def lead_marks(layup: Layup, text: float, out: float = 0.0) -> Iterator[Item]:
    """Leads and diode taps as filled rings, named outside of the pane and of what stands out round it."""
    radius = 0.25 * text
    places: list[tuple[Point, str, Literal["plus", "minus", "text"]]] = [
        (lead.at, "− lead" if lead.pole == "minus" else "+ lead", lead.pole) for lead in layup.leads
    ]
    name = "diode tap " if len(layup.taps) <= 4 else ""
    places += [(tap.at, f"{name}{tap.after_cell}|{tap.after_cell + 1}", "text") for tap in layup.taps]
    for point, _, _ in places:
        yield Arc(point, radius, "lead", filled=True)
    middle = layup.pane_height_mm / 2
    yield from called_out([p for p in places if p[0][1] < middle], -out - 1.9 * text, text, below=True)
    above = layup.pane_height_mm + out + 1.4 * text
    yield from called_out([p for p in places if p[0][1] >= middle], above, text, below=False)


def _dimensions(layup: Layup, text: float, view: View) -> Iterator[Item]:
    """Above the pane and to its right: pitches, then gaps, then margins; the pane's own sizes outermost.

    On a pane so narrow that figures above it run past its right edge the pane's width stands innermost,
    its figure at the left, where no line of the others runs through it.
    """
    wide, high, out = layup.pane_width_mm, layup.pane_height_mm, view.out_mm
    named_above = any(lead.at[1] > high / 2 for lead in layup.leads)
    # over the names of leads their lines begin, or they would run through them
    top, foot = (high + out + 2.6 * text, 0.0) if named_above else (high, out)
    across = list(_across(layup, text, top, foot))
    if _reach(across, view.system) < wide - 0.2 * text:
        yield Dimension((0, top), (wide, top), foot + 6.0 * text, text)
    else:
        yield Dimension((wide, top), (0, top), -foot - 2.0 * text, text, outside=True)
        across = list(_across(layup, text, top, foot + 2.0 * text))
    yield Dimension((0, high), (0, 0), -2.0 * text - out, text)
    yield from across
    yield from _along(layup, text, out)


def _reach(dimensions: Sequence[Dimension], system: str) -> float:
    """How far right the figures of dimensions reach. [mm]"""
    return max(item_bounds(dimension, system).right for dimension in dimensions)


def _across(layup: Layup, text: float, high: float, foot: float) -> Iterator[Dimension]:
    """Pitch and gap of the middle columns and the side margin, above the pane.

    Figures too wide for their arrows run outward, so that no witness line crosses them.
    """
    plan = layup.plan
    yield Dimension((plan.side_margin_mm, high), (0, high), -foot - 4.0 * text, text)
    if plan.columns < 2:
        return
    pitch = (layup.pane_width_mm - 2 * plan.side_margin_mm + plan.string_gap_mm) / plan.columns
    edge = plan.side_margin_mm + plan.columns // 2 * pitch
    yield Dimension((edge - pitch, high), (edge, high), foot + 2.0 * text, text)
    gap = Dimension((edge - plan.string_gap_mm, high), (edge, high), foot + 4.0 * text, text, note="typ.")
    yield gap


def _along(layup: Layup, text: float, out: float) -> Iterator[Item]:
    """Pitch of the upper rows, end margin and gap, right of the pane.

    A pitch whose figure is too long for its arrows runs downward, clear of the lines of the others.
    """
    plan, wide, high = layup.plan, layup.pane_width_mm, layup.pane_height_mm
    yield Dimension((wide, high - plan.end_margin_mm), (wide, high), -4.0 * text - out, text)
    if plan.rows < 2:
        return
    pitch = (high - 2 * plan.end_margin_mm + plan.cell_gap_mm) / plan.rows
    edge = high - plan.end_margin_mm - pitch + plan.cell_gap_mm
    yield Dimension((wide, edge), (wide, edge - pitch), 2.0 * text + out, text)
    yield Dimension((wide, edge - plan.cell_gap_mm), (wide, edge), -6.0 * text - out, text, note="typ.")


def side_words(layup: Layup, drawing: Drawing, text: float, out: float) -> tuple[Item, ...]:
    """Centred under the pane."""
    words = side_note_width(drawing.side, text)
    return side_note(drawing.side, ((layup.pane_width_mm - words) / 2, -out - 4.6 * text), text)
