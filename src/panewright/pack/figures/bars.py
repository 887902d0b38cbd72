"""Bars as one sees them at the saw: each piece in its place, remnants hatched by a word."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.cutting.plan import BarCut, CutPlan
from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.sheet import Figure
from panewright.pack.bench import told

ROOM_MM = 150.0  #: paper for the longest bar
MOST_BARS = 14  #: kinds of bar that a figure shows; the table has them all
_THICK, _PITCH, _LETTER = 4.5, 9.5, 2.6  # mm of paper


def bars_figure(cuts: CutPlan, system: str) -> Figure | None:
    """Kinds of bar under each other, in true proportion; None where nothing is cut."""
    if not cuts.bars:
        return None
    scale = max(bar.bar_mm for bar in cuts.bars) / ROOM_MM
    items: list[Item] = []
    for row, (bar, number) in enumerate(cuts.grouped[:MOST_BARS]):
        items += _bar(bar, number, -row * _PITCH, scale, cuts, system)
    return Figure(Drawing("Bars", tuple(items)), 1.0, "Bars as cut, from the left", to_scale=False)


def _bar(bar: BarCut, number: int, foot: float, scale: float, cuts: CutPlan, system: str) -> Iterator[Item]:
    """One kind of bar: outline, pieces with their lengths, and how many such bars. [mm of paper]"""
    top = foot + _THICK
    yield Text((-2.0, foot + 1.3), f"{number} ×", _LETTER * 1.15, "text", "right", bold=True)
    yield box(0.0, foot, bar.bar_mm / scale, top, "hidden")
    left = cuts.saw.trim_mm / scale
    for piece in bar.pieces:
        right = left + piece.length_mm / scale
        yield box(left, foot, right, top, "rail", filled=True)
        words = next((w for w in _names(piece.name, piece.length_mm, system) if _fits(w, right - left)), "")
        if words:
            yield Text(((left + right) / 2, foot + 1.3), words, _LETTER, "text", "centre")
        left = right + cuts.saw.kerf_mm / scale
    yield Path(((left, foot), (left, top)), "cut")
    rest = f"left {told(round(bar.remnant_mm), system)}"
    if _fits(rest, bar.bar_mm / scale - left):
        yield Text((left + 1.0, foot + 1.3), rest, _LETTER)


def _names(name: str, length_mm: float, system: str) -> tuple[str, ...]:
    """The piece in words, shorter and shorter."""
    length = told(length_mm, system)
    short = length.split("(")[0].strip()
    return (f"{name} {length}", length, short)


def _fits(words: str, room: float) -> bool:
    return text_width_mm(words, _LETTER) <= room - 1.0
