"""Where the panels lie: a stand seen from its face, each panel with its string, its place in it, its serial.

A string has a tint, a pattern and a letter, so that a black and white print tells as much. Leads go along the
panels' upper edges from each plus to the next minus; where a string goes on at another stand, the panel's
words say so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import get_args

from panewright.array.plan.plan import Placed, Plan
from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Layer, Path, Point, Text, box
from panewright.drawing.lettering import CAPITAL, text_width_mm
from panewright.drawing.title import wrapped
from panewright.pack.array_book.drawn.patterns import PATTERNS, pattern
from panewright.pack.array_book.drawn.scheme import string_sign

_TINTS: tuple[Layer, ...] = tuple(layer for layer in get_args(Layer) if layer.startswith("string-"))
_MINUS, _PLUS = 0.34, 0.66  # where leads come out, of a panel's width
_POLES, _LEADS = 0.80, (0.86, 0.97)  # heights of poles and leads, of a panel's height
_WORDS = 0.40  # height of the middle of its words
_RING = 0.62  # of the letters
_PITCH, _SMALLER = 1.25, 16  # from line to line, and how often words are tried smaller


def stand_drawing(plan: Plan, stand: int, text_mm: float) -> Drawing:
    """One stand. [mm]"""
    lying = tuple(p for p, placed in enumerate(plan.panels) if placed.stand == stand)
    drawn = _Lying(plan, tuple(row.panels for each in plan.inputs for row in each.rows), lying, text_mm)
    items: list[Item] = []
    for p in lying:
        items += drawn.panel(p)
    for p in lying:
        items += drawn.lead(p)
    for p in lying:
        items += drawn.words(p)
    items += _sizes([plan.panels[p] for p in lying], text_mm)
    return Drawing(f"Stand {plan.site.stands[stand].name}", tuple(items), "sunny side up")


def _sizes(panels: Sequence[Placed], text: float) -> Iterator[Item]:
    """Width and height of all that lies there."""
    left, low = min(p.left_mm for p in panels), min(p.up_mm for p in panels)
    right = max(p.left_mm + p.width_mm for p in panels)
    top = max(p.up_mm + p.height_mm for p in panels)
    yield Dimension((left, low), (right, low), -2.2 * text, text, "x", outside=False)
    yield Dimension((left, low), (left, top), 2.2 * text, text, "y", outside=False)


@dataclass(frozen=True)
class _Lying:
    """Panels of a plan as they lie, with the strings they belong to."""

    plan: Plan
    strings: tuple[tuple[int, ...], ...]
    lying: tuple[int, ...]  #: on the stand
    text_mm: float

    def string_of(self, panel: int) -> int | None:
        """Number of a panel's string; None for one that is not wired."""
        return next((n for n, string in enumerate(self.strings) if panel in string), None)

    def panel(self, p: int) -> Iterator[Item]:
        """Outline, tint and pattern."""
        at, string = self.plan.panels[p], self.string_of(p)
        left, low, right, top = _outline(at)
        if string is None:
            yield box(left, low, right, top, "hidden")
            return
        tint = _TINTS[string % PATTERNS]
        yield box(left, low, right, top, tint, True)
        patterned = (left, low, right, low + (_POLES - 0.07) * at.height_mm)
        yield from pattern(string, patterned, min(at.width_mm, at.height_mm) / 14, tint)
        yield box(left, low, right, top, "ink")

    def words(self, p: int) -> Iterator[Item]:
        """String and place, serial, and where a lead goes that leaves the stand, on a patch of white."""
        at, text = self.plan.panels[p], self.text_mm
        lines = self._set(p, self.less)
        high = sum(_PITCH * size for _, size, _ in lines)
        middle = at.left_mm + at.width_mm / 2
        y = at.up_mm + _WORDS * at.height_mm + high / 2
        longest = max(text_width_mm(words, size, bold) for words, size, bold in lines)
        half, air = min(at.width_mm, longest + 0.6 * text) / 2, 0.02 * at.height_mm
        yield box(middle - half, y - high - air, middle + half, y + air, "hole", True)
        for words, size, bold in lines:
            y -= _PITCH * size
            yield Text((middle, y + (_PITCH - CAPITAL) / 2 * size), words, size, "text", "centre", bold=bold)

    @cached_property
    def less(self) -> float:
        """By which words are smaller so that those of every panel lie on it."""
        tried = (0.85**step for step in range(_SMALLER))
        return next((less for less in tried if all(self._lies(p, less) for p in self.lying)), 0.05)

    def _lies(self, p: int, less: float) -> bool:
        high = 2 * (_WORDS - 0.08) * self.plan.panels[p].height_mm
        return sum(_PITCH * size for _, size, _ in self._set(p, less)) <= high

    def _set(self, p: int, less: float) -> list[tuple[str, float, bool]]:
        """Lines of a panel's words with their sizes."""
        wide = 0.92 * self.plan.panels[p].width_mm
        return [
            (line, _fitting(line, size * less, wide), bold)
            for words, size, bold in self._lines(p)
            for line in wrapped(words, wide, size * less)
        ]

    def _lines(self, p: int) -> Iterator[tuple[str, float, bool]]:
        at, string = self.plan.panels[p], self.string_of(p)
        if string is None:
            yield "not wired", self.text_mm, True
            yield at.serial, self.text_mm, False
            return
        row = self.strings[string]
        place = row.index(p)
        yield f"{string_sign(string)}{place + 1}", 1.5 * self.text_mm, True
        yield at.serial, self.text_mm, False
        for sign, way, other in (("−", "from", place - 1), ("+", "to", place + 1)):
            if 0 <= other < len(row) and self.plan.panels[row[other]].stand != at.stand:
                name = self.plan.site.stands[self.plan.panels[row[other]].stand].name
                yield f"{sign} {way} {string_sign(string)}{other + 1}, {name}", 0.85 * self.text_mm, False

    def lead(self, p: int) -> Iterator[Item]:
        """Both poles, and the lead from the plus to the next panel's minus."""
        at, string = self.plan.panels[p], self.string_of(p)
        if string is None:
            return
        row = self.strings[string]
        place = row.index(p)
        if place + 1 < len(row) and (after := self.plan.panels[row[place + 1]]).stand == at.stand:
            yield Path(tuple(self._way(at, after, string)), "lead")
        radius = self._radius(at)
        yield from _pole(self._pole(at, _MINUS), "−", radius, end=place == 0)
        yield from _pole(self._pole(at, _PLUS), "+", radius, end=place + 1 == len(row))

    def _radius(self, at: Placed) -> float:
        return min(_RING * self.text_mm, 0.05 * at.height_mm, 0.11 * at.width_mm)

    def _pole(self, at: Placed, share: float) -> Point:
        return at.left_mm + share * at.width_mm, at.up_mm + _POLES * at.height_mm

    def _lane(self, at: Placed, string: int) -> float:
        """Height of a string's leads over a panel: each string has its own."""
        low, high = _LEADS
        share = low + (high - low) * (string + 0.5) / len(self.strings)
        return at.up_mm + share * at.height_mm

    def _way(self, at: Placed, after: Placed, string: int) -> Iterator[Point]:
        """Up from the plus, along, between columns where rows change, and down to the minus."""
        start, end = self._pole(at, _PLUS), self._pole(after, _MINUS)
        yield start
        yield start[0], self._lane(at, string)
        if abs(at.up_mm - after.up_mm) > at.height_mm / 2:
            right = after.left_mm >= at.left_mm
            gap = at.left_mm + at.width_mm if right else at.left_mm
            gap += (1 if right else -1) * self.plan.site.stands[at.stand].gap_mm / 2
            yield gap, self._lane(at, string)
            yield gap, self._lane(after, string)
        else:
            yield end[0], self._lane(at, string)
        yield end[0], self._lane(after, string)
        yield end


def _fitting(words: str, size: float, room: float) -> float:
    wide = text_width_mm(words, size, bold=True)
    return size if wide <= room else size * room / wide


def _outline(at: Placed) -> tuple[float, float, float, float]:
    return at.left_mm, at.up_mm, at.left_mm + at.width_mm, at.up_mm + at.height_mm


def _pole(at: Point, sign: str, radius: float, end: bool) -> Iterator[Item]:
    """A ring with its sign; in a square where it is an end of the string."""
    (x, y), reach = at, 0.55 * radius
    if end:
        side = 1.25 * radius
        yield box(x - side, y - side, x + side, y + side, "hole", True)
    yield Arc(at, radius, "hole", filled=True)
    yield Path(((x - reach, y), (x + reach, y)), "ink")
    if sign == "+":
        yield Path(((x, y - reach), (x, y + reach)), "ink")
