"""Bars as one sees them at the saw: each piece in its place, remnants hatched by a word."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.cutting.bars.laid import laid_out
from panewright.cutting.piece import Piece, Saw
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
        at = _At(f"{number} ×", -row * _PITCH, scale)
        items += _bar(bar, at, cuts.saw, system)
    return Figure(Drawing("Bars", tuple(items)), 1.0, "Bars as cut, from the left", to_scale=False)


def rows_figure(rows: Sequence[tuple[int, BarCut]], saw: Saw, system: str) -> Figure:
    """Every bar in a row of its own behind its number; each piece says whose it is."""
    scale = max(bar.bar_mm for _, bar in rows) / ROOM_MM
    items: list[Item] = []
    for row, (number, bar) in enumerate(rows):
        items += _bar(bar, _At(f"{number}", -row * _PITCH, scale), saw, system)
    return Figure(Drawing("Bars", tuple(items)), 1.0, "Bars as cut, from the left", to_scale=False)


@dataclass(frozen=True, slots=True)
class _At:
    """What stands before a bar, where its foot lies on the paper, and mm of bar to a mm of paper."""

    label: str
    foot: float
    scale: float


def _bar(bar: BarCut, at: _At, saw: Saw, system: str) -> Iterator[Item]:
    """One bar: outline, pieces with their lengths, and what is left. [mm of paper]"""
    foot, top, scale = at.foot, at.foot + _THICK, at.scale
    yield Text((-2.0, foot + 1.3), at.label, _LETTER * 1.15, "text", "right", bold=True)
    yield box(0.0, foot, bar.bar_mm / scale, top, "hidden")
    laid = laid_out(bar, saw)
    for each in laid.pieces:
        left, right = each.left_mm / scale, each.right_mm / scale
        yield box(left, foot, right, top, "rail", filled=True)
        words = next((w for w in _names(each.piece, system) if _fits(w, right - left)), "")
        if words:
            yield Text(((left + right) / 2, foot + 1.3), words, _LETTER, "text", "centre")
    left = laid.rest_from_mm / scale
    yield Path(((left, foot), (left, top)), "cut")
    rest = f"left {told(round(bar.remnant_mm), system)}"
    if _fits(rest, bar.bar_mm / scale - left):
        yield Text((left + 1.0, foot + 1.3), rest, _LETTER)


def _names(piece: Piece, system: str) -> tuple[str, ...]:
    """The piece in words, shorter and shorter."""
    length = told(piece.length_mm, system)
    short = length.split("(")[0].strip()
    whose = (f"{piece.order}: {piece.name} {length}", f"{piece.order}: {length}", f"{piece.order}: {short}")
    return (*(whose if piece.order else (f"{piece.name} {length}",)), length, short)


def _fits(words: str, room: float) -> bool:
    return text_width_mm(words, _LETTER) <= room - 1.0
