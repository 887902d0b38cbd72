"""The lay-up as it grows on the bench: columns, buses, leads, diodes, and what the meter touches."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Drawing, Item, Path, Text, box
from panewright.drawing.move import mirrored
from panewright.layup.drawn.figure import bus_boxes, cell_outline, clear_x, silicon_of
from panewright.layup.drawn.rim import rim_round
from panewright.layup.drawn.signs import centred, pole_sign, spread
from panewright.layup.layup import Layup, PlacedCell
from panewright.pack.bench import Bench
from panewright.pack.figures.finished import rim
from panewright.pack.figures.steps.arrow import meter
from panewright.pack.figures.steps.lying import laid, with_words


def one_column(bench: Bench, text: float) -> Drawing:
    """The first column strung, the others waiting as outlines. [mm]"""
    layup = bench.design.layup
    mine = layup.cells[: layup.plan.rows]
    numbers = {cell.number for cell in mine}
    items: list[Item] = [_pane(layup), *_ghosts(layup.cells[layup.plan.rows :])]
    items += [item for cell in mine for item in silicon_of(cell)]
    half = layup.tab_width_mm / 2
    for tab in layup.tabs:
        if tab.from_cell in numbers or tab.to_cell in numbers:
            (x, start), (_, end) = tab.points[0], tab.points[-1]
            items.append(box(x - half, min(start, end), x + half, max(start, end), "ribbon", filled=True))
    items += [_number(cell, text) for cell in mine]
    return _lying(layup, "One column strung", items)


def buses(bench: Bench, text: float) -> Drawing:
    """Bus ribbons joining the columns; cells as outlines, the first and the last numbered. [mm]"""
    layup = bench.design.layup
    items: list[Item] = [_pane(layup), *_ghosts(layup.cells), *bus_boxes(layup)]
    items += [_number(cell, text) for cell in (layup.cells[0], layup.cells[-1])]
    return _lying(layup, "Columns joined by bus ribbon", [*items, *_leads(layup, text)])


def meter_on_leads(bench: Bench, text: float) -> Drawing:
    """The meter between plus and minus. [mm]"""
    layup = bench.design.layup
    items: list[Item] = [_pane(layup), *_ghosts(layup.cells), *_faint_buses(layup)]
    by_pole = {lead.pole: lead.at for lead in layup.leads}
    low = min(at[1] for at in by_pole.values())
    x = layup.pane_width_mm / 2
    y = (low + layup.pane_height_mm / 2) / 2
    items += meter((x, y), "V", (by_pole["minus"], by_pole["plus"]), 2.6 * text)
    return _lying(layup, "Meter on the leads", [*items, *_leads(layup, text)])


def tester_on_frame(bench: Bench, text: float) -> Drawing:
    """The tester between both leads together and the bare frame. [mm]"""
    layup, out = bench.design.layup, rim(bench.design.structural.frame)
    items: list[Item] = [_pane(layup), *rim_round(layup, out, "behind"), *_ghosts(layup.cells)]
    by_pole = {lead.pole: lead.at for lead in layup.leads}
    items.append(Path((by_pole["minus"], by_pole["plus"]), "lead"))
    on_frame = (layup.pane_width_mm + out.margin_mm / 2, layup.pane_height_mm / 2)
    middle = layup.pane_width_mm * 0.6, layup.pane_height_mm / 2
    items += meter(middle, "MΩ", (by_pole["plus"], on_frame), 2.6 * text)
    return _lying(layup, "Tester between leads and frame", [*items, *_leads(layup, text)])


def closed_back(bench: Bench, text: float) -> Drawing:
    """The back with its box over the exits of the leads, and where the earth goes. [mm]"""
    layup, out = bench.design.layup, rim(bench.design.structural.frame)
    items: list[Item] = [_pane(layup), *rim_round(layup, out, "behind"), *_boxed(layup, text)]
    words = "earth: toothed washer on bare metal, at the hole E of the frame"
    return _lying(layup, "The back closed", [*items, *_leads(layup, text)], words, text)


def label_place(bench: Bench, text: float) -> Drawing:
    """Where the label goes: on the back, clear of box and rails. [mm]"""
    layup, out = bench.design.layup, rim(bench.design.structural.frame)
    items: list[Item] = [_pane(layup), *rim_round(layup, out, "behind"), *_boxed(layup, text)]
    wide, high = min(100.0, 0.5 * layup.pane_width_mm), min(70.0, 0.3 * layup.pane_height_mm)
    x, y = layup.pane_width_mm / 2, layup.pane_height_mm * 0.6
    items.append(box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2, "mark", filled=True))
    return _lying(layup, "The label's place", items, "amber: the label; grey: the box", text)


def _boxed(layup: Layup, text: float) -> Iterator[Item]:
    """The junction box over the exits of the leads."""
    xs, ys = [lead.at[0] for lead in layup.leads], [lead.at[1] for lead in layup.leads]
    pad = 1.2 * text
    yield box(min(xs) - pad, min(ys) - pad, max(xs) + pad, max(ys) + pad, "bracket", filled=True)


def _pane(layup: Layup) -> Path:
    return box(0.0, 0.0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)


def _ghosts(cells: tuple[PlacedCell, ...]) -> Iterator[Path]:
    for cell in cells:
        yield Path(cell_outline(cell.shape, cell.centre), "hidden", closed=True)


def _faint_buses(layup: Layup) -> Iterator[Path]:
    for bus in layup.buses:
        yield Path(bus.points, "hidden")


def _number(cell: PlacedCell, text: float) -> Text:
    at = cell.centre[0] + clear_x(cell.shape), cell.centre[1]
    height = min(1.6 * text, 0.3 * cell.shape.length_mm)
    return centred(str(cell.number), at, height, "number", bold=True)


def _leads(layup: Layup, text: float) -> Iterator[Item]:
    """Rings where leads and diode taps leave, the leads with their signs beside them."""
    for tap in layup.taps:
        yield Arc(tap.at, 0.25 * text, "lead", filled=True)
    for low in (True, False):
        there = sorted(
            (lead for lead in layup.leads if (lead.at[1] < layup.pane_height_mm / 2) is low),
            key=lambda lead: lead.at[0],
        )
        y = -1.4 * text if low else layup.pane_height_mm + 1.4 * text
        places = spread([lead.at[0] for lead in there], [2.2 * text] * len(there), 0.2 * text)
        for lead, x in zip(there, places, strict=True):
            yield Arc(lead.at, 0.35 * text, "lead", filled=True)
            yield pole_sign(lead.pole, (x, y), 1.8 * text)


def _lying(layup: Layup, name: str, items: list[Item], words: str = "", text: float = 1.0) -> Drawing:
    """As the bench sees it, sunny side down; a tall panel lies with its foot at the left."""
    drawn = mirrored(Drawing(name, tuple(items), "sunny side up"), layup.pane_width_mm / 2)
    turned = laid(drawn.items, tall=layup.pane_height_mm > layup.pane_width_mm)
    return with_words(name, turned, words, text, drawn.side)
