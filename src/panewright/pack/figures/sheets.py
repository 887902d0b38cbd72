"""A sheet as one sees it on the cutting table: panels in their places, cuts numbered, rests to keep."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from panewright.cutting.sheets.layout import Step
from panewright.cutting.sheets.sheet import Rectangle, Sheet
from panewright.cutting.sheets.sheet_plan import SheetCut
from panewright.drawing.bounds import item_bounds
from panewright.drawing.dimension import dimension_words
from panewright.drawing.drawing import Dimension, Drawing, Item, Path, Point, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Figure
from panewright.pack.bench import sawn_mm, told
from panewright.pack.figures.scale import fitting

ROOM_MM = 130.0  #: paper for the longer side of the sheet
_LETTER, _AWAY = 2.6, 7.0  # mm of paper
_SLIDES = 8  #: places that a number is tried at along its cut


def sheet_figure(
    cut: SheetCut, number: int, system: str, letter_mm: float = _LETTER, room_mm: float = ROOM_MM
) -> Figure:
    """One kind of sheet in true proportion, with its size; the cuts bear the numbers of their steps."""
    scale = fitting(cut.sheet.width_mm, cut.sheet.height_mm, Size(room_mm, room_mm))
    letter = letter_mm * scale
    items: list[Item] = [box(0.0, 0.0, cut.sheet.width_mm, cut.sheet.height_mm, "hidden")]
    items += [box(*_corners(each.at), "pane") for each in cut.panels]
    for rest in cut.kept:
        items += [box(*_corners(rest), "mark"), *_words(rest, ("keep",), letter, system)]
    for each in cut.panels:
        items += _words(
            each.at, (f"{each.panel.name} {each.panel.order}".strip(), each.panel.name), letter, system
        )
    items += _cuts(cut, letter, items)
    items += _sides(cut, letter, scale, system)
    caption = f"{number} × this sheet; cut in the order of the numbers"
    return Figure(Drawing("Sheet", tuple(items)), scale, caption)


def _corners(at: Rectangle) -> tuple[float, float, float, float]:
    return at.left_mm, at.bottom_mm, at.left_mm + at.width_mm, at.bottom_mm + at.height_mm


def _words(at: Rectangle, names: tuple[str, ...], letter: float, system: str) -> Iterator[Item]:
    """The name, and the size under it, where they fit; upright where the rectangle is."""
    sides = f"{_short(at.width_mm, system)} × {_short(at.height_mm, system)}"
    upright = at.height_mm > at.width_mm
    along, across = (at.height_mm, at.width_mm) if upright else (at.width_mm, at.height_mm)
    name = next((n for n in names if text_width_mm(n, letter) <= along - 3 * letter), "")
    lines = [name] if name and across >= 3 * letter else []
    if text_width_mm(sides, letter) <= along - 3 * letter and across >= 4.5 * letter:
        lines.append(sides)
    middle_x, middle_y = at.left_mm + at.width_mm / 2, at.bottom_mm + at.height_mm / 2
    for row, words in enumerate(lines):
        off = letter * (0.7 * (len(lines) - 1) - 1.4 * row - 0.35)
        foot = (middle_x - off, middle_y) if upright else (middle_x, middle_y + off)
        yield Text(foot, words, letter, "text", "centre", 90.0 if upright else 0.0)


def _short(length_mm: float, system: str) -> str:
    return told(length_mm, system).split("(")[0].strip()


def _cuts(cut: SheetCut, letter: float, drawn: Sequence[Item]) -> Iterator[Item]:
    """Each cut as a line, its number by it, clear of other words and of every line; else without one."""
    taken = [_taken(item) for item in drawn if isinstance(item, Text)]
    lines: list[Sequence[Point]] = [_round(item) for item in drawn if isinstance(item, Path)]
    lines += [step.line for step in cut.steps]
    for step in cut.steps:
        yield Path(step.line, "cut")
        words = Text((0.0, 0.0), f"{step.number}", 0.8 * letter, "number", "left", bold=True)
        for place in _places(step, words, letter):
            if _free(place, cut.sheet, taken) and not any(_meets(place, line) for line in lines):
                taken.append(place)
                yield replace(words, at=(place.left_mm, place.bottom_mm))
                break


def _round(path: Path) -> tuple[Point, ...]:
    return (*path.points, path.points[0]) if path.closed else path.points


def _taken(words: Text) -> Rectangle:
    """The paper that words take."""
    found = item_bounds(words)
    return Rectangle(found.left, found.bottom, found.right - found.left, found.top - found.bottom)


def _meets(place: Rectangle, line: Sequence[Point]) -> bool:
    """Whether a line, upright or level from point to point, runs through it."""
    left, bottom, right, top = _corners(place)
    return any(
        min(x0, x1) < right and max(x0, x1) > left and min(y0, y1) < top and max(y0, y1) > bottom
        for (x0, y0), (x1, y1) in pairwise(line)
    )


def _places(step: Step, words: Text, letter: float) -> Iterator[Rectangle]:
    """Left of a cut across, over one along; beyond it; then farther and farther along the cut."""
    (x0, y0), _ = step.line
    wide, high = text_width_mm(words.words, words.height_mm, bold=True), words.height_mm
    for slide in range(_SLIDES):
        for beyond in (False, True):
            if step.axis == "across":
                left = x0 + 0.3 * letter if beyond else x0 - 0.3 * letter - wide
                yield Rectangle(left, y0 + (0.4 + slide) * letter, wide, high)
            else:
                foot = y0 - 0.3 * letter - high if beyond else y0 + 0.3 * letter
                yield Rectangle(x0 + 0.4 * letter + slide * (wide + 0.3 * letter), foot, wide, high)


def _free(place: Rectangle, sheet: Sheet, taken: Iterable[Rectangle]) -> bool:
    """Within the sheet and on no other number."""
    left, bottom, right, top = _corners(place)
    within = left > 0 and bottom > 0 and right < sheet.width_mm and top < sheet.height_mm
    apart = (
        right <= each.left_mm
        or left >= each.left_mm + each.width_mm
        or top <= each.bottom_mm
        or bottom >= each.bottom_mm + each.height_mm
        for each in taken
    )
    return within and all(apart)


def _sides(cut: SheetCut, letter: float, scale: float, system: str) -> Iterator[Item]:
    """Width below, height at the left, and from the left and lower edge where the first cuts run."""
    width, height = cut.sheet.width_mm, cut.sheet.height_mm
    away = _AWAY * scale
    first_across = bool(cut.steps) and cut.steps[0].axis == "across"
    first_along = bool(cut.steps) and not first_across
    yield Dimension((0.0, 0.0), (width, 0.0), -(1 + first_across) * away, letter)
    yield Dimension((0.0, 0.0), (0.0, height), (1 + first_along) * away, letter)
    if cut.steps:
        first, trim = cut.steps[0], _trim(cut)
        if first.axis == "across":
            inner = Dimension((trim, 0.0), (trim + sawn_mm(first.at_mm), 0.0), -away, letter)
        else:
            inner = Dimension((0.0, trim), (0.0, trim + sawn_mm(first.at_mm)), away, letter)
        yield from (inner,) if _has_room(inner, width if first_across else height, system) else ()


def _has_room(inner: Dimension, side_mm: float, system: str) -> bool:
    """Whether its figure stands between its arrows, or past them and before the end of the whole side."""
    letter, length = inner.height_mm, inner.length_mm
    figure = text_width_mm(dimension_words(inner, system), letter)
    return figure <= length - 1.6 * letter or max(inner.end) + 2.4 * letter + figure <= side_mm


def _trim(cut: SheetCut) -> float:
    """How far the first part lies in from the sheet's edge. [mm]"""
    return (cut.sheet.width_mm - cut.steps[0].size_mm[0]) / 2
