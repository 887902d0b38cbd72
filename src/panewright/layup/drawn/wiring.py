"""The wiring diagram: strings of cells, bypass diodes in the junction box, and both leads.

A bypass diode lets current pass a substring that is in the dark: its arrow points from the minus end of
the substring to its plus end.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.drawing.drawing import Arc, Drawing, Item, Path, Point, Text, box
from panewright.layup.drawn.signs import arrow_head, centred, pole_sign
from panewright.layup.layup import Layup

_STEP = 11.0  # width of one substring, in heights of text
_FALL = 9.5  # from one string to the next


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Where things lie; lengths in millimetres."""

    text: float
    substrings: int
    strings: int

    def x(self, node: float) -> float:
        """Across, of the joint after so many substrings."""
        return (2.0 + _STEP * node) * self.text

    def y(self, string: int) -> float:
        """Height of a string's cells."""
        return (_FALL * (self.strings - string) + 1.5) * self.text

    @property
    def rail_y(self) -> float:
        """Height of the leads."""
        return 2.0 * self.text


def wiring_diagram(layup: Layup, text_mm: float = 4.0, diodes: bool = True) -> Drawing:
    """Minus at the left, plus at the right; cell numbers as on the lay-up."""
    sheet = _Sheet(text_mm, layup.plan.substrings, layup.plan.strings)
    items: list[Item] = [*_box(sheet)] if diodes else []
    for string in range(sheet.strings):
        items += _string(sheet, layup, string, diodes)
    items += _leads(sheet)
    return Drawing("Wiring", tuple(items))


def _string(sheet: _Sheet, layup: Layup, string: int, diodes: bool) -> Iterator[Item]:
    """Substrings side by side, each with its diode below."""
    first = string * layup.plan.in_series
    for index in range(sheet.substrings):
        low, high = layup.diode_after[index], layup.diode_after[index + 1]
        yield from _cells(sheet, string, index, first + low + 1, first + high)
        if diodes:
            yield from _diode(sheet, string, index)
    for node in range(sheet.substrings + 1):
        x, y = sheet.x(node), sheet.y(string)
        if diodes:
            yield Path(((x, y), (x, y - 3.6 * sheet.text)), "lead")
            yield Arc((x, y - 3.6 * sheet.text), 0.16 * sheet.text, "lead", filled=True)
        yield Arc((x, y), 0.16 * sheet.text, "lead", filled=True)


def _cells(sheet: _Sheet, string: int, index: int, first: int, last: int) -> Iterator[Item]:
    """A substring: its first and last cell as a short and a long stroke, dots for those between."""
    text, y = sheet.text, sheet.y(string)
    left, right = sheet.x(index), sheet.x(index + 1)
    middle = (left + right) / 2
    shown = [middle] if first == last else [left + 2.2 * text, right - 2.2 * text]
    ends = [left, *(x + side * 0.25 * text for x in shown for side in (-1, 1)), right]
    wires = [(ends[0], ends[1]), (ends[-2], ends[-1])]
    for start, end in wires:
        yield Path(((start, y), (end, y)), "lead")
    for x in shown:
        yield Path(((x - 0.25 * text, y - 0.5 * text), (x - 0.25 * text, y + 0.5 * text)), "minus")
        yield Path(((x + 0.25 * text, y - 1.0 * text), (x + 0.25 * text, y + 1.0 * text)), "plus")
    if len(shown) == 2:
        start, end = ends[2], ends[3]
        yield Path(((start, y), (start + 1.2 * text, y)), "lead")
        yield Path(((end - 1.2 * text, y), (end, y)), "lead")
        yield Path(((start + 1.2 * text, y), (end - 1.2 * text, y)), "hidden")
    count = last - first + 1
    words = f"cell {first}" if count == 1 else f"cells {first} to {last}"
    yield Text((middle, y + 1.5 * text), words, text, "text", "centre", bold=True)


def _diode(sheet: _Sheet, string: int, index: int) -> Iterator[Item]:
    """Triangle and bar, minus end to plus end."""
    text, y = sheet.text, sheet.y(string) - 3.6 * sheet.text
    left, right = sheet.x(index), sheet.x(index + 1)
    middle = (left + right) / 2
    yield Path(((left, y), (right, y)), "lead")
    yield arrow_head((middle + 0.6 * text, y), (1.0, 0.0), 1.2 * text, "ink")
    yield Path(((middle + 0.6 * text, y - 0.6 * text), (middle + 0.6 * text, y + 0.6 * text)), "ink")
    name = f"D{string * sheet.substrings + index + 1}"
    yield Text((middle, y + 0.9 * text), name, text, "text", "centre")


def _box(sheet: _Sheet) -> Iterator[Item]:
    """The junction box round all diodes."""
    text = sheet.text
    for string in range(sheet.strings):
        y = sheet.y(string) - 3.6 * text
        left, right = sheet.x(0) - 1.2 * text, sheet.x(sheet.substrings) + 1.2 * text
        yield box(left, y - 2.0 * text, right, y + 2.0 * text, "border")
        yield Text(
            (left + 0.5 * text, y - 1.6 * text),
            "in the junction box" if sheet.strings > 1 else "junction box",
            0.9 * text,
            "text",
        )


def _leads(sheet: _Sheet) -> Iterator[Item]:
    """Both leads, gathered from all strings, with their poles."""
    text = sheet.text
    for node, pole, way in ((0, "minus", -1), (sheet.substrings, "plus", 1)):
        x = sheet.x(node)
        out = x + way * 2.4 * text
        top = sheet.y(0)
        for string in range(sheet.strings):
            yield Path(((x, sheet.y(string)), (out, sheet.y(string))), "lead")
        points: tuple[Point, ...] = ((out, top), (out, sheet.rail_y), (out + way * 3.0 * text, sheet.rail_y))
        yield Path(points, "lead")
        end = out + way * 3.8 * text
        yield Arc((end, sheet.rail_y), 0.8 * text, "lead")
        yield pole_sign("minus" if pole == "minus" else "plus", (end, sheet.rail_y), 1.2 * text)
        yield centred(f"{pole} lead", (out + way * 2.6 * text, sheet.rail_y - 1.6 * text), text, bold=True)
