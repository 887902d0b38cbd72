"""Cells as they are sorted and tabbed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.layup.drawn.figure import cell_outline, clear_x, silicon_of
from panewright.layup.drawn.signs import centred, pole_sign
from panewright.layup.layup import PlacedCell, Tab
from panewright.pack.bench import Bench


def sorted_cells(bench: Bench, text: float) -> Drawing:
    """A sound cell with its pole, beside one that is put aside. [mm]"""
    first = bench.design.layup.cells[0]
    good = replace(first, centre=(0.0, 0.0))
    bad = replace(first, centre=(first.shape.width_mm + 6.0 * text, 0.0))
    items = [*silicon_of(good), *_pole(bench, good, text), *silicon_of(bad), *_cracks(bad, text)]
    foot = -first.shape.length_mm / 2 - 2.0 * text
    items += [
        Text((0.0, foot), "sound: both sides whole", text, "text", "centre"),
        Text((bad.centre[0], foot), "put aside: chip or crack", text, "text", "centre"),
    ]
    return Drawing("Cells to sort", tuple(items), "sunny side up")


def trial_patch(bench: Bench, text: float) -> Drawing:
    """A scrap cell with a seam soldered as yours will be, half of it under a patch of the mix. [mm]"""
    first = replace(bench.design.layup.cells[0], centre=(0.0, 0.0))
    wide, high = first.shape.width_mm / 2, first.shape.length_mm / 2
    out = 0.15 * wide
    items: list[Item] = [box(-wide - out, -high - out, wide + out, high + out, "pane", filled=True)]
    items += silicon_of(first)
    items.append(box(-0.7 * wide, -0.6 * high, 0.7 * wide, 0.2 * high, "encapsulant", filled=True))
    foot = -high - out - 2.0 * text
    items.append(
        Text(
            (0.0, foot), "scrap of glass, scrap cell with your flux, patch of the mix", text, "text", "centre"
        )
    )
    return Drawing("Trial patch", tuple(items))


def _pole(bench: Bench, cell: PlacedCell, text: float) -> Iterator[Item]:
    """The pole that the design takes to lie in front."""
    front = bench.design.order.cell.front
    middle = clear_x(cell.shape), 0.0
    if front == "minus":
        yield pole_sign("minus", middle, 2.2 * text)
    elif front == "plus":
        yield pole_sign("plus", middle, 2.2 * text)


def _cracks(cell: PlacedCell, text: float) -> Iterator[Item]:
    """A crack across a corner, a chip, and a cross over both."""
    (x, y), wide, high = cell.centre, cell.shape.width_mm / 2, cell.shape.length_mm / 2
    yield Path(
        ((x - wide, y + 0.1 * high), (x - 0.5 * wide, y + 0.35 * high), (x - 0.2 * wide, y + high)), "ink"
    )
    arm = 1.6 * text
    centre = x + clear_x(cell.shape), y - 0.2 * high
    yield box(centre[0] - arm, centre[1] - arm, centre[0] + arm, centre[1] + arm, "warn")
    for way in (1.0, -1.0):
        yield Path(
            ((centre[0] - arm, centre[1] - way * arm), (centre[0] + arm, centre[1] + way * arm)), "warn"
        )


def tabbed_cells(bench: Bench, text: float) -> Drawing:
    """The first cells of a column with their ribbons; the next one waits. [mm]"""
    layup = bench.design.layup
    cells = layup.cells[: min(2, layup.plan.rows)]
    numbers = {cell.number for cell in cells}
    items: list[Item] = [item for cell in cells for item in silicon_of(cell)]
    items += [_strip(tab, layup.tab_width_mm) for tab in layup.tabs if tab.from_cell in numbers]
    if layup.plan.rows > 2:
        ghost = layup.cells[2]
        items.insert(0, Path(cell_outline(ghost.shape, ghost.centre), "hidden", closed=True))
    for cell in cells:
        at = cell.centre[0] + clear_x(cell.shape), cell.centre[1]
        items.append(centred(str(cell.number), at, 2.0 * text, "number", bold=True))
    turned = tuple(_lying(item) for item in items)
    return Drawing("Tabbed cells", turned, "sunny side up")


def _lying(item: Item) -> Item:
    """A column laid along the page: up becomes right."""
    match item:
        case Path():
            return replace(item, points=tuple((y, -x) for x, y in item.points))
        case Text():
            up = 0.33 * item.height_mm
            return replace(item, at=(item.at[1] + up, -item.at[0] - up))
    return item


def _strip(tab: Tab, width_mm: float) -> Path:
    """A ribbon over its whole length."""
    (x, start), (_, end) = tab.points[0], tab.points[-1]
    half = width_mm / 2
    return box(x - half, min(start, end), x + half, max(start, end), "ribbon", filled=True)
