"""Rows of words and watts, each with a small bar from one common line: losses left of it, gains right.

A loss is an empty box and its figure has a minus, a gain is a filled box and its figure has a plus: side,
sign and fill tell them apart without any colour. Every bar starts at the same line, so that two of them can
be compared.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.sheet import Figure

_PITCH, _THICK, _LETTER = 6.0, 2.6, 3.1  # mm of paper
_FIGURE_X, _SHARE_X = 100.0, 119.0  # right ends of the two columns of figures
_BARS_X = 124.0  # left end of the bars
_ROOM = 33.0  # for the longest loss and the longest gain together
_LEAST = 0.25  # the shortest bar that can be seen
_FOOT = 1.1  # of the letters over the foot of a bar's row


@dataclass(frozen=True, slots=True)
class BarRow:
    """One row: words, figure and share in words, and the size of its bar, below zero for a loss."""

    words: str
    figure: str
    share: str = ""
    size: float | None = None  #: None for a row without a bar, set in bold between two rules


def small_bars(rows: Sequence[BarRow], heads: tuple[str, str], caption: str) -> Figure:
    """All rows under each other; `heads` stand over the two columns of figures."""
    zero, scale = _measure([row.size for row in rows if row.size is not None])
    items: list[Item] = [*_head(heads, zero)]
    for place, row in enumerate(rows, start=1):
        items += _row(row, -place * _PITCH, zero, scale)
    foot = -len(rows) * _PITCH
    items.append(Path(((zero, foot), (zero, 0.0)), "axis"))
    return Figure(Drawing("Small bars", tuple(items)), 1.0, caption, to_scale=False)


def _measure(sizes: Sequence[float]) -> tuple[float, float]:
    """Where the common line stands, and paper for each unit. [mm]"""
    loss, gain = -min((0.0, *sizes)), max((0.0, *sizes))
    scale = _ROOM / (loss + gain) if loss + gain > 0 else 0.0
    return _BARS_X + max(_LEAST, loss * scale), scale


def _head(heads: tuple[str, str], zero: float) -> Iterator[Item]:
    for words, right in zip(heads, (_FIGURE_X, _SHARE_X), strict=True):
        yield Text((right, _FOOT), words, _LETTER, "text", "right", bold=True)
    for words, at, side in (("lost", -2.0, "right"), ("gained", 2.0, "left")):
        if side == "left" or zero - 2.0 - text_width_mm(words, _LETTER) >= _BARS_X - 2.0:
            yield Text((zero + at, _FOOT), words, _LETTER, "text", "right" if side == "right" else "left")


def _row(row: BarRow, foot: float, zero: float, scale: float) -> Iterator[Item]:
    bold = row.size is None
    yield Text((0.0, foot + _FOOT), row.words, _LETTER, bold=bold)
    yield Text((_FIGURE_X, foot + _FOOT), row.figure, _LETTER, "text", "right", bold=bold)
    yield Text((_SHARE_X, foot + _FOOT), row.share, _LETTER, "text", "right", bold=bold)
    if row.size is None:
        for at in (foot - 0.6, foot + _PITCH - 0.6):
            yield Path(((0.0, at), (_SHARE_X, at)), "axis")
    elif abs(row.size) * scale >= _LEAST / 2:
        yield _bar(row.size * scale, foot + 0.7, zero)


def _bar(long: float, foot: float, zero: float) -> Item:
    if long < 0:
        return box(zero + min(long, -_LEAST), foot, zero, foot + _THICK, "hole", filled=True)
    return box(zero, foot, zero + max(long, _LEAST), foot + _THICK, "ink", filled=True)
