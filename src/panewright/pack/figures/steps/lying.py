"""A tall panel laid on its side, its foot at the left, so that it is drawn large; words stay level."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Arc, Drawing, Item, Path, Point, Side, Text
from panewright.drawing.lettering import CAPITAL


def laid(items: Sequence[Item], *, tall: bool) -> tuple[Item, ...]:
    """The same things, a quarter turned where the panel is tall."""
    return tuple(map(_quarter, items)) if tall else tuple(items)


def with_words(name: str, items: Sequence[Item], words: str, text: float, side: Side = "") -> Drawing:
    """A drawing with one line of words centred under it."""
    drawn = Drawing(name, tuple(items), side)
    if not words:
        return drawn
    around = bounds(drawn)
    at = (around.left + around.right) / 2, around.bottom - 1.8 * text
    return drawn.with_items((Text(at, words, text, "text", "centre"),))


def _quarter(item: Item) -> Item:
    match item:
        case Path():
            return replace(item, points=tuple(map(_turned, item.points)))
        case Arc():
            return replace(item, centre=_turned(item.centre))
        case Text():
            half = CAPITAL * item.height_mm / 2  # the middle of the letters turns, not their foot
            x, y = _turned((item.at[0], item.at[1] + half))
            return replace(item, at=(x, y - half))
        case _:
            raise ValueError("a dimension tells its own length and is not laid on its side")


def _turned(point: Point) -> Point:
    return point[1], -point[0]
