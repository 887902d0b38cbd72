"""A large drawing shared out to sheets of paper that are laid together again.

Neighbouring tiles share a strip of 10 mm. A dashed line runs along the middle of each strip and a cross
marks where lines meet and midway between; a cross stands at the same place of the drawing on every tile
that shows it, so tiles are true when cross lies on cross. Each tile is cut along its own left and top line
and laid over its neighbours, whose crosses are still whole.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from panewright.drawing.bounds import Bounds, item_bounds
from panewright.drawing.drawing import Arc, Drawing, Item, Path
from panewright.drawing.paper_size import TILE_MARGIN_MM, Paper, Size, tile_area

OVERLAP_MM = 10.0
MARGIN_MM = TILE_MARGIN_MM
_CROSS_MM, _RING_MM = 4.0, 2.0


@dataclass(frozen=True, slots=True)
class Tile:
    """One sheet's part of the drawing; row 0 is the top one, column 0 the left one."""

    row: int
    column: int
    window: Bounds


@dataclass(frozen=True, slots=True)
class Tiling:
    """All tiles of a drawing, row by row from the top."""

    rows: int
    columns: int
    tiles: tuple[Tile, ...]

    @property
    def lines_x(self) -> tuple[float, ...]:
        """Where tiles join from left to right: the middle of each shared strip. [mm]"""
        return tuple(t.window.left + OVERLAP_MM / 2 for t in self.tiles if t.row == 0 and t.column)

    @property
    def lines_y(self) -> tuple[float, ...]:
        """Where tiles join from top to bottom: the middle of each shared strip. [mm]"""
        return tuple(t.window.top - OVERLAP_MM / 2 for t in self.tiles if t.column == 0 and t.row)


def tiling(seen: Bounds, paper: Paper) -> Tiling:
    """The fewest tiles that show everything, spread evenly over the drawing."""
    size = tile_area(paper)
    columns, rows = _count(seen.width_mm, size.width_mm), _count(seen.height_mm, size.height_mm)
    step_x, step_y = size.width_mm - OVERLAP_MM, size.height_mm - OVERLAP_MM
    left = (seen.left + seen.right - (columns - 1) * step_x - size.width_mm) / 2
    top = (seen.bottom + seen.top + (rows - 1) * step_y + size.height_mm) / 2
    tiles = (
        Tile(row, column, _window(left + column * step_x, top - row * step_y, size))
        for row in range(rows)
        for column in range(columns)
    )
    return Tiling(rows, columns, tuple(tiles))


def _count(length: float, tile: float) -> int:
    return max(1, math.ceil((length - OVERLAP_MM) / (tile - OVERLAP_MM) - 1e-9))


def _window(left: float, top: float, size: Size) -> Bounds:
    return Bounds(left, top - size.height_mm, left + size.width_mm, top)


def tile_drawings(drawing: Drawing, tiles: Tiling, system: str) -> Iterator[Drawing]:
    """Each tile's own items with the marks over them; what lies elsewhere is left out."""
    items = [*drawing.items, *_marks(tiles)]
    boxes = [item_bounds(item, system).grown(1.0) for item in items]
    for tile in tiles.tiles:
        near = (item for item, span in zip(items, boxes, strict=True) if span.meets(tile.window))
        yield replace(drawing, items=tuple(near))


def _marks(tiles: Tiling) -> Iterator[Item]:
    """The lines to cut along, and crosses where they meet and midway between."""
    first, last = tiles.tiles[0].window, tiles.tiles[-1].window
    whole = Bounds(first.left, last.bottom, last.right, first.top)
    for x in tiles.lines_x:
        yield Path(((x, whole.bottom), (x, whole.top)), "cut")
    for y in tiles.lines_y:
        yield Path(((whole.left, y), (whole.right, y)), "cut")
    across = _with_middles(whole.left, tiles.lines_x, whole.right)
    upward = _with_middles(whole.bottom, tiles.lines_y[::-1], whole.top)
    for x in across:
        for y in upward:
            if x in tiles.lines_x or y in tiles.lines_y:
                yield from _cross(x, y)


def _with_middles(start: float, lines: tuple[float, ...], end: float) -> list[float]:
    stops = [start, *lines, end]
    middles = [(a + b) / 2 for a, b in pairwise(stops)]
    return sorted([*lines, *middles])


def _cross(x: float, y: float) -> Iterator[Item]:
    yield Path(((x - _CROSS_MM, y), (x + _CROSS_MM, y)), "border")
    yield Path(((x, y - _CROSS_MM), (x, y + _CROSS_MM)), "border")
    yield Arc((x, y), _RING_MM, "border")
