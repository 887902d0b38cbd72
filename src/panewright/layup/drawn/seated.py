"""The lay-up with what is written on each cell at its place: the same geometry as the other drawings.

Each cell bears its mark, large, and the number of its place, small, near its edge. Tabs are left out, for the
maker lays cells by it; buses, poles and leads stay, so that the panel is held the right way round.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.lettering import CAPITAL, text_width_mm
from panewright.drawing.move import mirrored
from panewright.layup.drawn.figure import (
    PLAIN,
    Seen,
    View,
    bus_boxes,
    cell_outline,
    column_signs,
    lead_marks,
    number_height,
    side_words,
)
from panewright.layup.drawn.rim import rim_round
from panewright.layup.drawn.signs import centred
from panewright.layup.layup import Layup, PlacedCell
from panewright.layup.tabs import busbar_offsets_mm

_WIDE = 0.84  # of a cell, that its mark may take
_PLACE, _LEAST_PLACE, _AIR = 0.8, 0.17, 0.12  # height of the place's number; air round words, of their height
_ASIDE, _EDGE = -0.25, 0.07  # where it lies: of the width from the middle, clear of signs; from the edge


def seated_view(
    layup: Layup, marks: Mapping[int, str], text_mm: float = 25.0, *, seen: Seen = "front", view: View = PLAIN
) -> Drawing:
    """The panel with these marks by the cells' numbers, from the front or as the bench sees it."""
    name = "Cells from the front" if seen == "front" else "Cells on the bench"
    drawing = Drawing(name, tuple(_items(layup, marks, text_mm, (seen, view))), "sunny side up")
    if seen == "behind":
        drawing = mirrored(drawing, layup.pane_width_mm / 2)
    return drawing.with_items(side_words(layup, drawing, text_mm, view.out_mm))


def _items(layup: Layup, marks: Mapping[int, str], text: float, how: tuple[Seen, View]) -> Iterator[Item]:
    seen, view = how
    yield box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)
    if view.rim:
        yield from rim_round(layup, view.rim, seen)
    for cell in layup.cells:
        words = words_on(cell, marks.get(cell.number, ""), text)
        yield from silicon_round(cell, words)
        yield from words
    yield from bus_boxes(layup)
    yield from column_signs(layup, text)
    yield from lead_marks(layup, text, view.out_mm)


def words_on(cell: PlacedCell, words: str, text: float) -> tuple[Text, ...]:
    """A cell's mark in its middle, and its place near the upper edge."""
    shape, (x, y) = cell.shape, cell.centre
    small = min(_PLACE * number_height(shape, text), _LEAST_PLACE * shape.length_mm)
    at = x + _ASIDE * shape.width_mm, y + shape.length_mm / 2 - _EDGE * shape.length_mm - CAPITAL / 2 * small
    place = centred(str(cell.number), at, small, "number")
    mark = centred(words, (x, y), _mark_height(cell, words, text), "number", bold=True)
    return (mark, place) if words else (place,)


def _mark_height(cell: PlacedCell, words: str, text: float) -> float:
    """As large as the cell bears, and no larger than other words by more than a third. [mm]"""
    height, room = number_height(cell.shape, 1.3 * text), _WIDE * cell.shape.width_mm
    wide = text_width_mm(words, height, bold=True)
    return height if wide <= room else height * room / wide


def silicon_round(cell: PlacedCell, words: Sequence[Text]) -> Iterator[Path]:
    """A cell filled, its busbars broken where these words stand."""
    yield Path(cell_outline(cell.shape, cell.centre), "cell", closed=True, filled=True)
    yield from _busbars(cell, words)


def _busbars(cell: PlacedCell, words: Sequence[Text]) -> Iterator[Path]:
    """The cell's busbars, each broken where words stand on it."""
    half = cell.shape.length_mm / 2 - 1.0
    for offset in busbar_offsets_mm(cell.shape):
        x, low, top = cell.centre[0] + offset, cell.centre[1] - half, cell.centre[1] + half
        for foot, head in sorted(_high(each) for each in words if _lies_on(each, x)):
            if foot > low:
                yield Path(((x, low), (x, foot)), "busbar")
            low = max(low, head)
        if top > low:
            yield Path(((x, low), (x, top)), "busbar")


def _lies_on(words: Text, x: float) -> bool:
    """Whether centred words stand on an upright line there."""
    half = text_width_mm(words.words, words.height_mm, words.bold) / 2
    return abs(x - words.at[0]) < half + _AIR * words.height_mm


def _high(words: Text) -> tuple[float, float]:
    """From where to where words and a little air reach, upward."""
    return words.at[1] - 2 * _AIR * words.height_mm, words.at[1] + (CAPITAL + _AIR) * words.height_mm
