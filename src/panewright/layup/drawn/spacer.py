"""Spacers to cut out of card or 3 mm sheet: combs whose teeth are as wide as the gaps between cells.

The cell comb lies beside a column; its teeth reach between the cells, past clipped corners, short of the
first ribbon. The column comb lies over the end of the pane, its back flush with the pane's end and one end
flush with the pane's side; its teeth reach between the columns. All teeth are one pitch apart, so no error
adds up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from panewright.cell.shape import Shape, end_widths_mm
from panewright.drawing.bounds import item_bounds
from panewright.drawing.drawing import Dimension, Drawing, Item, Path, Point, Text
from panewright.drawing.move import merged, moved
from panewright.layup.layup import Layup

SPINE_MM = 15.0  #: common practice, as all sizes here that no gap or cell gives
LONGEST_MM = 600.0  #: of a comb, so that it goes on a usual cutter's bed; longer only for a single tooth
_END_MM = 20.0  # of the spine past its last tooth
_CLEAR_MM = 2.0  # tooth to the nearest ribbon
_LEAST_HOLD_MM = 3.0  # of a tooth along straight edges
_HOLD_MM = 20.0
_FOOT_MM = 5.0  # of a foot, on either side of its tooth
_TAPER_MM, _TAPER_EACH_MM = 3.0, 0.4  # a tooth's tip, so that it finds its gap


@dataclass(frozen=True, slots=True)
class Comb:
    """One comb: its teeth stand up from a straight spine."""

    name: str
    gap_mm: float  #: width of every tooth
    pitch_mm: float
    first_mm: float  #: middle of the first tooth from the comb's left end
    teeth: int
    tooth_mm: float  #: length, its foot with it
    foot_mm: float = 0.0  #: as far the tooth is wide and strong; nothing lies there

    @property
    def long_mm(self) -> float:
        """Of the whole comb. [mm]"""
        return self.first_mm + (self.teeth - 1) * self.pitch_mm + self.gap_mm / 2 + _END_MM

    @property
    def middles_mm(self) -> tuple[float, ...]:
        """Of the teeth, from the comb's left end. [mm]"""
        return tuple(self.first_mm + n * self.pitch_mm for n in range(self.teeth))


def combs(layup: Layup) -> tuple[Comb, ...]:
    """Those that this lay-up can use: between cells, between columns."""
    found = (cell_comb(layup), column_comb(layup))
    return tuple(comb for comb in found if comb)


def cell_comb(layup: Layup) -> Comb | None:
    """Between the cells of a column; None for a single row, no gap, or no straight edge before a ribbon."""
    plan, shape = layup.plan, layup.cells[0].shape
    free = shape.width_mm / (2 * shape.busbars) - layup.tab_width_mm / 2 - _CLEAR_MM
    corner = clipped_mm(layup)
    if plan.rows < 2 or plan.cell_gap_mm <= 0 or free - corner < _LEAST_HOLD_MM:
        return None
    pitch, first = shape.length_mm + plan.cell_gap_mm, _END_MM + plan.cell_gap_mm / 2
    teeth = _teeth(plan.rows - 1, first, pitch)
    return Comb("Cell comb", plan.cell_gap_mm, pitch, first, teeth, min(free, corner + _HOLD_MM))


def column_comb(layup: Layup) -> Comb | None:
    """Between columns, from an end of the pane; None for a single column or no gap."""
    plan, shape = layup.plan, layup.cells[0].shape
    if plan.columns < 2 or plan.string_gap_mm <= 0:
        return None
    pitch = shape.width_mm + plan.string_gap_mm
    first = plan.side_margin_mm + shape.width_mm + plan.string_gap_mm / 2
    teeth = _teeth(plan.columns - 1, first, pitch)
    over = max(0.0, plan.end_margin_mm - SPINE_MM)
    reach = float(math.ceil(over + clipped_mm(layup) + _HOLD_MM))
    return Comb("Column comb", plan.string_gap_mm, pitch, first, teeth, reach, max(0.0, over - _CLEAR_MM))


def _teeth(gaps: int, first: float, pitch: float) -> int:
    """As many as there are gaps, or as go on the longest comb, one at least."""
    return max(1, min(gaps, int((LONGEST_MM - first - _END_MM) / pitch) + 1))


def clipped_mm(layup: Layup) -> float:
    """How far the deepest clipped corner reaches in along a cell's end or side. [mm]"""
    return max(_corner_mm(shape) for shape in {cell.shape for cell in layup.cells})


def _corner_mm(shape: Shape) -> float:
    """A wafer's corner is alike along both sides; a strip keeps it at one end."""
    return (shape.width_mm - min(end_widths_mm(shape))) / 2


def comb_outline(comb: Comb) -> tuple[Point, ...]:
    """From the spine's lower left corner, counter-clockwise. [mm]"""
    points: list[Point] = [(0.0, 0.0), (comb.long_mm, 0.0), (comb.long_mm, SPINE_MM)]
    half, tip = comb.gap_mm / 2, SPINE_MM + comb.tooth_mm
    narrow = max(0.25 * comb.gap_mm, half - _TAPER_EACH_MM)
    shoulder = tip - min(_TAPER_MM, comb.tooth_mm / 3)
    foot = SPINE_MM + comb.foot_mm
    for x in reversed(comb.middles_mm):
        right = [(half, foot), (half, shoulder), (narrow, tip)]
        if comb.foot_mm:
            right = [(half + _FOOT_MM, SPINE_MM), (half + _FOOT_MM, foot), *right]
        points += [(x + out, y) for out, y in right] + [(x - out, y) for out, y in reversed(right)]
    return (*points, (0.0, SPINE_MM))


def spacer_drawing(layup: Layup, text_mm: float = 3.2, system: str = "metric") -> Drawing:
    """All combs at full size, one above the other. [mm]"""
    level, drawn = 0.0, list[Drawing]()
    for comb in combs(layup):
        level -= SPINE_MM + comb.tooth_mm + 16.0 * text_mm if drawn else 0.0
        drawn.append(moved(Drawing(comb.name, tuple(_comb_items(comb, text_mm, system))), 0.0, level))
    return merged("Spacers between cells", tuple(drawn))


def _comb_items(comb: Comb, text: float, system: str) -> Iterator[Item]:
    yield Path(comb_outline(comb), "border", closed=True)
    first, tip = comb.middles_mm[0], SPINE_MM + comb.tooth_mm
    half = comb.gap_mm / 2
    yield Text((0.0, tip + 8.4 * text), comb.name, 1.25 * text, bold=True)
    if len(comb.middles_mm) > 1:
        second = comb.middles_mm[1]
        yield Dimension((first, tip), (second, tip), 4.2 * text, text, note="tooth to tooth")
    yield Dimension((first, 0.0), (0.0, 0.0), 1.8 * text, text, "x")  # a long figure runs out at the left
    yield Dimension((0.0, 0.0), (comb.long_mm, 0.0), -4.0 * text, text, "x")
    yield Dimension((comb.long_mm, SPINE_MM), (comb.long_mm, 0.0), 1.6 * text, text, "y", outside=True)
    last, root = comb.middles_mm[-1], tip - (comb.tooth_mm - comb.foot_mm) / 2
    width = Dimension((last - half, root), (last + half, root), 0.0, text, note="wide", outside=True)
    yield width
    clear = item_bounds(width, system).right - last + 2.2 * text
    yield Dimension((last + half, SPINE_MM), (last + half, tip), half - clear, text, "y")
