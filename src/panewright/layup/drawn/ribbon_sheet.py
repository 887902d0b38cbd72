"""Every kind of tab as it is cut and bent: the flat length, the number wanted, and the bent side view.

Lengths are drawn true; the height of the bends is not, or they could not be seen.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Dimension, Drawing, Item, Path, Text, box
from panewright.layup.layup import Layup
from panewright.layup.lengths import RibbonPiece, tab_pieces

_WORDS = {
    "cell to cell": "one cell's back to the next cell's front",
    "pad to pad": "a pad behind one cell to the next cell's",
    "front to bus": "cell's front to bus",
    "back to bus": "cell's back to bus",
}


def ribbon_sheet(layup: Layup, text_mm: float = 8.0, panels: int = 1) -> Drawing:
    """All kinds below each other; the number is for `panels` panels."""
    items: list[Item] = []
    level = 0.0
    for piece in tab_pieces(layup):
        items += _tab(piece, level, text_mm, layup, panels)
        level -= 10.8 * text_mm + 2 * _half_mm(layup.tab_width_mm, text_mm)
    return Drawing("Tabs to cut and bend", tuple(items))


def _title(piece: RibbonPiece, level: float, text: float, width: float, panels: int) -> Iterator[Item]:
    """The number wanted, large, and what the piece joins."""
    foot = level + 1.0 * text + _half_mm(width, text)
    yield Text((0.0, foot), f"{piece.quantity * panels} ×", 1.4 * text, "text", bold=True)
    words = _WORDS.get(piece.name, piece.name)
    yield Text((6.0 * text, foot), words, text, "text")


def _flat(piece: RibbonPiece, level: float, text: float, width: float, panels: int) -> Iterator[Item]:
    """The piece before it is bent, with the length to cut."""
    yield from _title(piece, level, text, width, panels)
    half = _half_mm(width, text)
    yield box(0, level - half, piece.length_mm, level + half, "ribbon", True)
    yield Dimension((0, level - half), (piece.length_mm, level - half), -1.4 * text, text, note="cut")


def _tab(piece: RibbonPiece, level: float, text: float, layup: Layup, panels: int) -> Iterator[Item]:
    """The flat piece and below it the bent one, on its cells."""
    yield from _flat(piece, level, text, layup.tab_width_mm, panels)
    yield from _bent(piece, level - 4.6 * text - _half_mm(layup.tab_width_mm, text), text)


def _half_mm(width_mm: float, text: float) -> float:
    """Half the drawn width of a ribbon: true, or wide enough to be seen. [mm]"""
    return max(width_mm, 0.25 * text) / 2


def _bent(piece: RibbonPiece, level: float, text: float) -> Iterator[Item]:
    """Side view, sunny side up: behind one cell, a step up, on the front of the next; or on to a bus."""
    rise = 0.7 * text
    back, free, front = piece.back_mm, piece.free_mm, piece.front_mm
    if back and front:
        yield from _cell_bar(0, back, level + 0.15 * text, rise)
        yield from _cell_bar(back + free, back + free + front, level, rise)
        ys = (level, level, level + rise + 0.3 * text, level + rise + 0.3 * text)
    elif piece.steps == 0:
        yield from _cell_bar(0, back / 2, level + 0.15 * text, rise)
        yield from _cell_bar(back / 2 + free, back + free, level + 0.15 * text, rise)
        ys = (level,) * 4
    elif back:
        yield from _cell_bar(0, back, level + 0.15 * text, rise)
        ys = (level, level, level + 0.3 * text, level + 0.3 * text)
    else:
        yield from _cell_bar(0, front, level, rise)
        ys = (level + rise + 0.15 * text, level + rise + 0.15 * text, level, level)
    xs = _stations(piece)
    yield Path(tuple(zip(xs, ys, strict=True)), "ribbon")
    yield from _bend_marks(piece, level, rise, text)


def _bend_marks(piece: RibbonPiece, level: float, rise: float, text: float) -> Iterator[Item]:
    """Soldered lengths below, the free length above."""
    first = piece.back_mm or piece.front_mm
    until, end = first + piece.free_mm, first + piece.free_mm + piece.front_mm
    top = level + rise + 0.3 * text
    if piece.steps == 0:
        first, until = piece.back_mm / 2, piece.back_mm / 2 + piece.free_mm
        yield Dimension((0, level), (first, level), -1.4 * text, text, note="behind")
        yield Dimension((first, top), (until, top), 1.0 * text, text)
        return
    side, both = "behind" if piece.back_mm else "on front", piece.back_mm and piece.front_mm
    # one level lower where the figures of both would meet, and nothing at its right runs down so far
    lower = 3.0 if both and piece.front_mm <= 15 * text else 1.4
    yield Dimension((0, level), (first, level), -lower * text, text, note=side)
    yield Dimension((first, top), (until, top), 1.0 * text, text)
    if both:
        yield Dimension((until, level), (end, level), -1.4 * text, text, note="on front")


def _cell_bar(left: float, right: float, foot: float, rise: float) -> Iterator[Item]:
    yield box(left, foot, right, foot + rise, "cell", filled=True)


def _stations(piece: RibbonPiece) -> tuple[float, float, float, float]:
    """Where the ribbon bends, from its first end. [mm]"""
    first = piece.back_mm or piece.front_mm
    joint = piece.steps != 1
    bend = piece.free_mm if joint else min(piece.free_mm, 3.0)
    last = max(first + piece.free_mm + (piece.front_mm if piece.back_mm else 0.0), first + bend)
    return 0.0, first, first + bend, last
