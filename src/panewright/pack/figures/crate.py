"""The crate cut through, to scale: once across, once along; wood, sizes and names round what lies in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from panewright.crate.box import Crate
from panewright.crate.carton import Carton
from panewright.crate.level import sills_mm
from panewright.crate.timber import Section
from panewright.drawing.dimension import figure_digits
from panewright.drawing.drawing import Dimension, Drawing, Item, Layer, Path, Point, Text, box
from panewright.pack.bench import count
from panewright.pack.figures import carton
from panewright.pack.figures.driven import driven
from panewright.pack.figures.joined import joined, joint_marks
from panewright.pack.figures.stacked import Cut, Span, stacked
from panewright.units import THIN, show

_WOOD: Layer = "bead"


def crate_section(crate: Crate | Carton, cut: Cut, text_mm: float, units: str = "metric") -> Drawing:
    """The crate, or the carton, cut across or along, its sizes dimensioned. [mm]"""
    parts = (*_shell(crate, cut), *stacked(crate, cut), *_screws(crate, cut))
    words = (*_sizes(crate, cut, text_mm), *_names(crate, cut, text_mm, units))
    return Drawing(f"{'Carton' if isinstance(crate, Carton) else 'Crate'} cut {cut}", (*parts, *words))


def _shell(crate: Crate | Carton, cut: Cut) -> Iterator[Item]:
    return carton.folded(crate, cut) if isinstance(crate, Carton) else _wood(crate, cut)


def _screws(crate: Crate | Carton, cut: Cut) -> Iterator[Item]:
    if cut == "across" and not isinstance(crate, Carton):
        yield from (each.drawn() for each in driven(crate))


def _wide(crate: Crate | Carton, cut: Cut) -> tuple[float, float, float]:
    """Level sizes of this cut: inside, over the plywood, over everything. [mm]"""
    if isinstance(crate, Carton):
        return carton.wide_mm(crate, cut)
    rooms = (crate.inside, crate.box, crate.outside)
    inside, over, all_ = (room.across_mm if cut == "across" else room.along_mm for room in rooms)
    return inside, over, all_


def _wood(crate: Crate, cut: Cut) -> Iterator[Item]:
    """Plywood and battens; the middle of the crate is at 0, the ground below at 0."""
    inside, over, outside = _wide(crate, cut)
    foot, up, ply = crate.foot_mm, crate.box.up_mm, crate.ply_mm
    proud, wide = crate.batten.wide_mm, crate.batten.deep_mm
    yield from (each.drawn(_WOOD) for each in _feet(crate, cut, over, outside))
    for low in (foot, foot + up - ply):
        yield box(-over / 2, low, over / 2, low + ply, _WOOD, filled=True)
    for side in (-1, 1):
        left, right = sorted((side * inside / 2, side * over / 2))
        yield box(left, foot + ply, right, foot + up - ply, _WOOD, filled=True)
        left, right = sorted((side * over / 2, side * (over / 2 + proud)))
        lowest = foot - crate.drop_mm if cut == "across" else foot
        for low in (lowest, foot + up - wide):
            yield box(left, low, right, low + wide, _WOOD, filled=True)
    yield from (each.drawn(_WOOD) for each in _over(crate, cut, over))
    yield from joined(crate, cut)


def _feet(crate: Crate, cut: Cut, over: float, outside: float) -> Iterator[Span]:
    """Sills, and bearers under them."""
    sill, low, bearer = crate.sill, crate.foot_mm - crate.sill.deep_mm, crate.yard.bearer
    if cut == "along":
        yield Span(-over / 2 - crate.batten.wide_mm, low, over / 2 + crate.batten.wide_mm, crate.foot_mm)
    else:
        for middle in sills_mm(crate):
            left = middle - over / 2 - sill.wide_mm / 2
            yield Span(left, low, left + sill.wide_mm, crate.foot_mm)
    if not crate.by_hand and cut == "across":
        yield Span(-outside / 2, 0.0, outside / 2, bearer.deep_mm)
    elif not crate.by_hand:
        half = over / 2 - bearer.wide_mm / 2
        for middle in (-half, 0.0, half):
            yield Span(middle - bearer.wide_mm / 2, 0.0, middle + bearer.wide_mm / 2, bearer.deep_mm)


def _over(crate: Crate, cut: Cut, over: float) -> Iterator[Span]:
    """Battens over the lid."""
    low = crate.foot_mm + crate.box.up_mm
    high = low + crate.lid.deep_mm
    if cut == "across":
        yield Span(-over / 2 - crate.batten.wide_mm, low, over / 2 + crate.batten.wide_mm, high)
        return
    apart = (over - crate.lid.wide_mm) / (crate.lid_battens - 1)
    for number in range(crate.lid_battens):
        left = -over / 2 + number * apart
        yield Span(left, low, left + crate.lid.wide_mm, high)


def _sizes(crate: Crate | Carton, cut: Cut, text: float) -> Iterator[Item]:
    """Below: outside. Above: foam, then inside. At the left: outside, then foam below.

    Words run past the ends where no line of another one comes.
    """
    inside, _, outside = _wide(crate, cut)
    top, floor = crate.outside.up_mm, crate.foot_mm + crate.ply_mm
    left, aside = -inside / 2, crate.cushion(_level(crate, cut)).thickness_mm
    under = 2.4 * text + max(0.0, -_first_row(crate, cut, text))  # clear of the last name
    yield Dimension((-outside / 2, 0.0), (outside / 2, 0.0), -under, text, "x", "outside", outside=True)
    yield Dimension((-left - aside, top), (-left, top), 2.0 * text, text, "x", "foam", outside=True)
    yield Dimension((left, top), (-left, top), 4.4 * text, text, "x", "inside", outside=True)
    edge = -outside / 2
    below = crate.cushion(_upright(crate)).thickness_mm
    yield Dimension((edge, floor), (edge, floor + below), 5.0 * text, text, "y", "foam", outside=True)
    yield Dimension((edge, top), (edge, 0.0), -2.5 * text, text, "y", "outside", outside=True)


def _level(crate: Crate | Carton, cut: Cut) -> Literal["face", "edge", "end"]:
    if cut == "along":
        return "end"
    return "face" if crate.stack.lay == "on edge" else "edge"


def _upright(crate: Crate | Carton) -> Literal["face", "edge"]:
    return "edge" if crate.stack.lay == "on edge" else "face"


def _names(crate: Crate | Carton, cut: Cut, text: float, units: str) -> Iterator[Item]:
    """What each part is, at the right, a line to each."""
    _, _, outside = _wide(crate, cut)
    left = outside / 2 + 3.0 * text
    marks = carton.named(crate, cut) if isinstance(crate, Carton) else _marks(crate, cut, units)
    rows = sorted(marks, key=lambda mark: mark[0][1])
    pitch = _pitch(crate, cut, text)
    for number, (point, words) in enumerate(rows):
        y = _first_row(crate, cut, text) + number * pitch
        yield Path((point, (left - 0.5 * text, y + 0.33 * text)), "dimension")
        yield Text((left, y), words, text)


def _rows(crate: Crate | Carton, cut: Cut) -> int:
    if isinstance(crate, Carton):
        return carton.NAMED
    return len(_marks(crate, cut, "metric"))


def _pitch(crate: Crate | Carton, cut: Cut, text: float) -> float:
    return max(1.7 * text, crate.outside.up_mm / _rows(crate, cut))


def _first_row(crate: Crate | Carton, cut: Cut, text: float) -> float:
    """Height of the lowest name; the highest stays below what is dimensioned over the lid. [mm]"""
    reach, top = _pitch(crate, cut, text) * (_rows(crate, cut) - 1), crate.outside.up_mm
    return min((top - reach) / 2, top - reach - 0.5 * text)


def _marks(crate: Crate, cut: Cut, units: str) -> list[tuple[Point, str]]:
    """A place in each part, and its name."""
    inside, over, _ = _wide(crate, cut)
    foot, up, stack = crate.foot_mm, crate.box.up_mm, crate.stack
    under = crate.cushion(_upright(crate))
    foam_y = foot + crate.ply_mm + under.thickness_mm / 2
    wide = stack.across_mm if cut == "across" else stack.along_mm
    near, loose = wide / 2 - min(20.0, wide / 8), stack.loose_mm
    middle = foot + up / 2
    marks = [
        (
            (over / 2 + crate.batten.wide_mm / 2, foot + up - crate.batten.deep_mm / 2),
            f"batten {section_words(crate.batten, units)}",
        ),
        (((inside + over) / 4, foot + up * 0.7), f"plywood {thin_words(crate.ply_mm, units)}"),
        ((near, foam_y), under.foam.name),
        ((wide / 2 - loose / 2, middle * 0.9), f"loose plywood {thin_words(loose, units)}"),
        ((near - 4.0, middle), count(stack.panels, stack.panel.goods)),
        (
            (_sill_x(crate, cut, over), foot - crate.sill.deep_mm / 2),
            f"sill {section_words(crate.sill, units)}",
        ),
    ]
    if not crate.by_hand:
        wood = crate.yard.bearer
        place = over / 2 - wood.wide_mm / 2, wood.deep_mm / 2
        marks.append((place, f"bearer {section_words(wood, units)}"))
    marks += joint_marks(crate, cut)
    if cut == "across":
        marks += [(each.middle, each.words) for each in driven(crate)]
    return marks


def _sill_x(crate: Crate, cut: Cut, over: float) -> float:
    return over / 2 - crate.sill.wide_mm / 2 if cut == "across" else over / 2


def section_words(section: Section, units: str) -> str:
    """A batten as a yard calls it.

    >>> section_words(Section(45.0, 20.0), "metric").replace("\u2009", " ")
    '20 × 45 mm'
    """
    thin, wide = section.sides_mm
    if units == "us":
        return f"{thin_words(thin, units)} × {thin_words(wide, units)}"
    return f"{thin:g} × {wide:g}{THIN}mm"


def thin_words(size_mm: float, units: str) -> str:
    """A thickness alone, in the order's own units."""
    return show(size_mm, "mm", units, figure_digits(size_mm)).partition(" (")[0]
