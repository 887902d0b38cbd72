"""Small signs that say the same as the words beside them: poles, and which side of the panel is seen."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from panewright.drawing.drawing import Arc, Item, Layer, Path, Point, Side, Text
from panewright.drawing.lettering import CAPITAL, text_width_mm

SIDE_WORDS: dict[Side, str] = {
    "sunny side up": "Seen from the front, sunny side up",
    "sunny side down": "Seen from the bench, sunny side down",
    "": "",
}
POLE_SIGN = {"minus": "−", "plus": "+"}


def pole_sign(pole: Literal["minus", "plus"], middle: Point, height_mm: float) -> Text:
    """A plus or minus whose middle lies there."""
    return centred(POLE_SIGN[pole], middle, height_mm, pole, bold=True)


def centred(words: str, middle: Point, height_mm: float, layer: Layer = "text", bold: bool = False) -> Text:
    """Words whose middle lies there."""
    return Text(
        (middle[0], middle[1] - CAPITAL / 2 * height_mm), words, height_mm, layer, "centre", 0.0, bold
    )


def side_note(side: Side, left: Point, height_mm: float) -> tuple[Item, ...]:
    """The side in words, behind a sign: a sun above the pane's line, or below it."""
    x, y = left[0] + 0.6 * height_mm, left[1] + CAPITAL / 2 * height_mm
    sun = y + (0.2 if side == "sunny side up" else -0.2) * height_mm
    pane = y + (-0.5 if side == "sunny side up" else 0.5) * height_mm
    line = Path(((x - 0.6 * height_mm, pane), (x + 0.6 * height_mm, pane)), "ink")
    words = Text((left[0] + 1.6 * height_mm, left[1]), SIDE_WORDS[side], height_mm, "text", bold=True)
    return (line, *_sun((x, sun), 0.22 * height_mm), words)


def side_note_width(side: Side, height_mm: float) -> float:
    """How wide the note is. [mm]"""
    return 1.6 * height_mm + text_width_mm(SIDE_WORDS[side], height_mm, bold=True)


def _sun(middle: Point, radius: float) -> tuple[Item, ...]:
    rays = []
    for eighth in range(8):
        angle = math.pi * eighth / 4
        cos, sin = math.cos(angle), math.sin(angle)
        ends = [(middle[0] + r * cos, middle[1] + r * sin) for r in (1.5 * radius, 2.1 * radius)]
        rays.append(Path(tuple(ends), "ink"))
    return (Arc(middle, radius, "ink"), *rays)


def arrow_head(tip: Point, towards: Point, size_mm: float, layer: Layer) -> Path:
    """A filled triangle; `towards` is the direction it points in, of length 1."""
    back = (tip[0] - size_mm * towards[0], tip[1] - size_mm * towards[1])
    side = (-towards[1] * size_mm * 0.4, towards[0] * size_mm * 0.4)
    corners = (tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))
    return Path(corners, layer, closed=True, filled=True)


def spread(places: Sequence[float], widths: Sequence[float], gap: float) -> tuple[float, ...]:
    """Middles of labels as near to their places as they can be without touching; places rise."""
    middles = list(places)
    for _ in range(200):
        moved = False
        for left, right in pairwise(range(len(middles))):
            need = (widths[left] + widths[right]) / 2 + gap
            short = need - (middles[right] - middles[left])
            if short > 1e-9 * max(1.0, need):
                middles[left] -= short / 2
                middles[right] += short / 2
                moved = True
        if not moved:
            break
    return tuple(middles)


def called_out(
    marks: Sequence[tuple[Point, str, Layer]], level: float, height_mm: float, below: bool
) -> tuple[Item, ...]:
    """Labels side by side on one level, each with a line from what it names."""
    listed = sorted(marks, key=lambda mark: (mark[0][0], mark[1]))
    widths = [text_width_mm(words, height_mm, bold=True) for _, words, _ in listed]
    middles = spread([point[0] for point, _, _ in listed], widths, 0.8 * height_mm)
    items: list[Item] = []
    for (point, words, layer), x in zip(listed, middles, strict=True):
        foot = level + (0.9 * height_mm if below else -0.4 * height_mm)
        items.append(Path((point, (x, foot)), "dimension"))
        items.append(Text((x, level), words, height_mm, layer, "centre", bold=True))
    return tuple(items)
