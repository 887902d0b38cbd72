"""The pane as the glass shop makes it: sizes, both diagonals, where the stamp may lie; and its edge, large.

Seen from the sun with the panel's low edge at the foot, as the panel will stand.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from panewright.drawing.drawing import Dimension, Drawing, Item, Path, Point, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.layup.layup import Layup
from panewright.pack.bench import by_rule, told
from panewright.panel.design import Design
from panewright.structure.panes.ordered import ARRIS_MM

_EDGE_SHOWN_MM = 14.0
STAMP_MM = (30.0, 15.0)  #: room that a shop's stamp takes; common practice
_STAMP_IN_MM = 5.0  # from the pane's edges


def pane_figure(design: Design, text_mm: float) -> Drawing:
    """The pane with its sizes and diagonals. [mm]"""
    layup, units = design.layup, design.order.job.units
    wide, high = layup.pane_width_mm, layup.pane_height_mm
    items: list[Item] = [box(0, 0, wide, high, "pane", filled=True)]
    items += _diagonals((wide, high), text_mm, units)
    items += _stamp(layup, text_mm)
    items.append(Dimension((0, high), (wide, high), 2.2 * text_mm, text_mm))
    items.append(Dimension((0, high), (0, 0), -2.2 * text_mm, text_mm))
    items.append(Text((wide / 2, -2.0 * text_mm), "low edge of the panel", text_mm, "text", "centre"))
    return Drawing("Pane", tuple(items), "sunny side up")


def diagonal_mm(design: Design) -> float:
    """Corner to corner of the pane. [mm]"""
    return math.hypot(design.layup.pane_width_mm, design.layup.pane_height_mm)


def _diagonals(size: Point, text: float, units: str) -> Iterator[Item]:
    """Both, each with its name near its upper end, and their length on clear ground at the middle."""
    wide, high = size
    yield Path(((0, 0), (wide, high)), "centre")
    yield Path(((0, high), (wide, 0)), "centre")
    words = by_rule(math.hypot(wide, high), units)
    lines = ("D1 = D2", words)
    half = max(text_width_mm(line, text, bold=True) for line in lines) / 2 + 0.5 * text
    x, y = wide / 2, high / 2
    yield box(x - half, y - 1.6 * text, x + half, y + 1.6 * text, "hole", filled=True)
    yield Text((x, y + 0.35 * text), lines[0], text, "text", "centre", bold=True)
    yield Text((x, y - 1.0 * text), lines[1], text, "text", "centre")


def stamp_room(layup: Layup) -> tuple[float, float, float, float] | None:
    """Left, bottom, right, top of the corner in which a stamp shades no cell; None where none is so wide.

    The lower right corner, beside or below the silicon.
    """
    margin, wide = layup.plan, layup.pane_width_mm
    across, along = STAMP_MM
    if margin.end_margin_mm - 2 * _STAMP_IN_MM >= along:
        return (
            wide - _STAMP_IN_MM - across,
            _STAMP_IN_MM,
            wide - _STAMP_IN_MM,
            margin.end_margin_mm - _STAMP_IN_MM,
        )
    if margin.side_margin_mm - 2 * _STAMP_IN_MM >= across:
        return (wide - margin.side_margin_mm + _STAMP_IN_MM, _STAMP_IN_MM, wide - _STAMP_IN_MM, 2 * along)
    return None


def _stamp(layup: Layup, text: float) -> Iterator[Item]:
    """Where the stamp goes, named at the pane's right."""
    room = stamp_room(layup)
    if room is None:
        return
    left, low, right, top = room
    yield box(left, low, right, top, "mark")
    level = (low + top) / 2
    yield Path(((right, level), (layup.pane_width_mm + 1.2 * text, level)), "dimension")
    at = layup.pane_width_mm + 1.6 * text
    for line, words in enumerate(("stamp here,", "nowhere else")):
        yield Text((at, level + (0.3 - 1.25 * line) * text), words, text)


def edge_detail(design: Design, text_mm: float) -> Drawing:
    """The pane's edge cut through, the sun above: thickness and both arrises. [mm]"""
    sheet, units = design.structural.pane.sheet, design.order.job.units
    thick, arris = sheet.nominal_mm, sum(ARRIS_MM) / 2
    least, most = (told(each, units) for each in ARRIS_MM)
    right = _EDGE_SHOWN_MM
    points = ((0, arris), (arris, 0), (right, 0), (right, thick), (arris, thick), (0, thick - arris))
    zigzag = ((right, -0.8), (right, 0.4 * thick), (right - 0.7, 0.5 * thick), (right + 0.7, 0.5 * thick))
    end = ((right, 0.6 * thick), (right, thick + 0.8))
    out = "face OUT, to the sun: " + ("the smooth one" if sheet.surface == "patterned" else "either")
    inside = "face IN, to the cells" + (": the pattern" if sheet.surface == "patterned" else "")
    items: list[Item] = [
        Path(points, "pane", closed=True, filled=True),
        Path((*zigzag, *end), "border"),
        Text((1.5, thick + 0.8 * text_mm), out, text_mm),
        Text((1.5, -1.6 * text_mm), inside, text_mm),
    ]
    names = right + 1.6 * text_mm
    rows = (
        ((arris / 2, thick - arris / 2), f"arris {least} to {most} × 45°,"),
        ((arris / 2, arris / 2), "along every edge, both faces"),
        ((right - 2.0, thick / 2), f"{told(thick, units)} thick, {sheet.treatment}"),
    )
    for row, (point, words) in enumerate(rows):
        y = thick / 2 + (1.1 - 1.5 * row) * text_mm
        items.append(Path((point, (names - 0.4 * text_mm, y + 0.33 * text_mm)), "dimension"))
        items.append(Text((names, y), words, text_mm))
    return Drawing("Edge of the pane", tuple(items))
