"""The lay-up in parts that a screen can take hold of: what lies under the cells, each cell, what lies over.

The geometry is that of the drawings on paper; only the order differs, as every cell must be one thing to
touch. Dimensions are left to the paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import chain

from panewright.drawing.bounds import Bounds, bounds
from panewright.drawing.drawing import Drawing, Item, box
from panewright.drawing.move import merged, mirrored
from panewright.layup.drawn.figure import (
    Seen,
    bus_boxes,
    column_signs,
    lead_marks,
    number_on,
    ribbons,
    side_words,
    silicon_of,
)
from panewright.layup.drawn.rim import Rim, rim_round
from panewright.layup.drawn.seated import silicon_round, words_on
from panewright.layup.layup import Layup, PlacedCell

WORDS_MM = 25.0  #: height of words on a drawing for a screen


@dataclass(frozen=True, slots=True)
class Parted:
    """One side of the panel in parts, back to front, all in the same millimetres."""

    under: Drawing  #: pane and frame
    cells: tuple[tuple[PlacedCell, Drawing], ...]
    over: Drawing  #: ribbons, buses, numbers, signs, leads, and the side in words

    @property
    def bounds(self) -> Bounds:
        """The rectangle round all of it. [mm]"""
        return bounds(merged("all", (self.under, *(drawn for _, drawn in self.cells), self.over)))


def parted(layup: Layup, seen: Seen, rim: Rim | None = None) -> Parted:
    """The lay-up from the front, sunny side up, or from behind as the bench sees it, the mirror image."""
    out = rim.margin_mm if rim else 0.0
    pane = box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)
    under = _turned(layup, seen, (pane, *(rim_round(layup, rim, seen) if rim else ())))
    cells = tuple((cell, _turned(layup, seen, silicon_of(cell))) for cell in layup.cells)
    over = _turned(layup, seen, _over(layup, seen, out))
    return Parted(under, cells, over.with_items(side_words(layup, over, WORDS_MM, out)))


def parted_marks(layup: Layup, marks: Mapping[int, str], seen: Seen, rim: Rim | None = None) -> Parted:
    """The same with what is written on each cell at its place, as it is laid: no tabs yet."""
    out = rim.margin_mm if rim else 0.0
    pane = box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)
    under = _turned(layup, seen, (pane, *(rim_round(layup, rim, seen) if rim else ())))
    words = {cell.number: words_on(cell, marks.get(cell.number, ""), WORDS_MM) for cell in layup.cells}
    cells = tuple(
        (cell, _turned(layup, seen, silicon_round(cell, words[cell.number]))) for cell in layup.cells
    )
    signs = column_signs(layup, WORDS_MM), lead_marks(layup, WORDS_MM, out)
    over = _turned(layup, seen, chain(bus_boxes(layup), *words.values(), *signs))
    return Parted(under, cells, over.with_items(side_words(layup, over, WORDS_MM, out)))


def _over(layup: Layup, seen: Seen, out: float) -> Iterable[Item]:
    numbers = (number_on(cell, layup, WORDS_MM, patches=True) for cell in layup.cells)
    return chain(
        ribbons(layup, seen),
        bus_boxes(layup),
        chain.from_iterable(numbers),
        column_signs(layup, WORDS_MM),
        lead_marks(layup, WORDS_MM, out),
    )


def _turned(layup: Layup, seen: Seen, items: Iterable[Item]) -> Drawing:
    drawing = Drawing("Lay-up", tuple(items), "sunny side up")
    return drawing if seen == "front" else mirrored(drawing, layup.pane_width_mm / 2)
