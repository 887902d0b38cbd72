"""The corner clip to make: the strip before it is bent and after, the slice of angle, or the plate.

Holes and lengths run from one datum: the end of the strip, or the outside of the heel.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Path, Point, Text, box
from panewright.pack.bench import told
from panewright.pack.figures.frame import CROSS
from panewright.structure.corners.clip_cut import ClipCut, ClipLeg
from panewright.structure.drilling.drill import drill_words

NAMES = {
    "sawn": "Corner clip, sawn off angle",
    "bent": "Corner clip, cut and bent",
    "flat": "Corner plate",
}


def clip_figure(clip: ClipCut, text_mm: float, system: str = "metric") -> Drawing:
    """One clip with all that must be measured. [mm]"""
    draw = {"sawn": _sawn, "bent": _bent, "flat": _flat}[clip.kind]
    return Drawing(NAMES[clip.kind], tuple(draw(clip, text_mm, system)))


def _hole(middle: Point, wide: float) -> Iterator[Item]:
    (x, y), arm = middle, 0.9 * wide
    yield Arc(middle, wide / 2, "hole")
    yield Path(((x - arm, y), (x + arm, y)), CROSS)
    yield Path(((x, y - arm), (x, y + arm)), CROSS)


def _sawn(clip: ClipCut, text: float, system: str) -> Iterator[Item]:
    """Both legs opened flat about the heel, seen from outside; its end view below."""
    wide, (first, second) = clip.clip.wide_mm, clip.legs
    yield box(-second.long_mm, -wide / 2, first.long_mm, wide / 2, "bracket")
    yield Path(((0.0, -wide / 2), (0.0, wide / 2)), "hidden")
    for x in (*first.holes_mm, *(-at for at in second.holes_mm)):
        yield from _hole((x, 0.0), clip.hole_mm)
    yield from _leg_sizes(first, 1.0, wide / 2, text)
    if not clip.alike:
        yield from _leg_sizes(second, -1.0, wide / 2, text)
    yield from _width(clip, -second.long_mm, text)
    over = wide / 2 + 8.0 * text
    yield from _named_legs(clip, (-second.long_mm, 0.0), over, text)
    drill = f"holes {drill_words(clip.hole_mm, system)}, on the middle line"
    yield Text((-second.long_mm, over + 1.6 * text), f"opened flat about the heel, dashed; {drill}", text)
    yield from _end_view(clip, (-second.long_mm, -wide / 2 - 3.5 * text), text, system)


def _leg_sizes(leg: ClipLeg, way: float, top: float, text: float) -> Iterator[Dimension]:
    """Both holes and the end from the heel, the nearest at the lowest level."""
    for level, at in enumerate((*leg.holes_mm, leg.long_mm)):
        out = (1.8 + 2.2 * level) * text
        yield Dimension((0.0, top), (way * at, top), way * out, text, "x")


def _width(clip: ClipCut, left: float, text: float) -> Iterator[Dimension]:
    half = clip.clip.wide_mm / 2
    yield Dimension((left, half), (left, -half), -1.8 * text, text, "y", outside=True)


def _named_legs(clip: ClipCut, lefts: tuple[float, float], level: float, text: float) -> Iterator[Text]:
    """Whose leg is which, where they are not alike."""
    names = ("both legs alike",) if clip.alike else ("on the side rail", "on bottom or top rail")
    for left, name in zip(lefts, names, strict=False):
        yield Text((left, level), name, text, bold=True)


def _end_view(clip: ClipCut, corner: Point, text: float, system: str) -> Iterator[Item]:
    """The angle from its end, legs down and right from the heel at the upper left."""
    (x, y), t = corner, clip.clip.wall_mm
    first, second = clip.legs
    points = (
        (0, 0),
        (first.long_mm, 0),
        (first.long_mm, -t),
        (t, -t),
        (t, -second.long_mm),
        (0, -second.long_mm),
    )
    yield Path(tuple((x + a, y + b) for a, b in points), "bracket", closed=True, filled=True)
    words = (
        f"end view; {told(t, system)} thick, {clip.clip.metal}",
        f"saw {told(clip.clip.wide_mm, system)} off the bar, square;",
        "its legs may be longer",
    )
    for line, said in enumerate(words):
        yield Text((x + t + 1.5 * text, y - t - (1.8 + 1.5 * line) * text), said, text)


def _bent(clip: ClipCut, text: float, system: str) -> Iterator[Item]:
    """The blank with its bend line, all from its left end; below, bent."""
    half = clip.clip.wide_mm / 2
    yield box(0.0, -half, clip.blank_mm, half, "bracket")
    yield Path(((clip.bend_line_mm, -half - 1.0), (clip.bend_line_mm, half + 1.0)), "hidden")
    for x in clip.blank_holes_mm:
        yield from _hole((x, 0.0), clip.hole_mm)
    stations = sorted((*clip.blank_holes_mm, clip.bend_line_mm, clip.blank_mm))
    for level, at in enumerate(stations):
        note = "bend" if at == clip.bend_line_mm else "cut" if at == clip.blank_mm else ""
        out = -(1.8 + 2.2 * level) * text
        yield Dimension((at, half), (0.0, half), out, text, "x", note, outside=True)
    yield from _bent_width(clip, text)
    drill = f"holes {drill_words(clip.hole_mm, system)}, on the middle line"
    yield Text((0.0, half + 14.5 * text), f"flat, bend up along the dashes; {drill}", text)
    yield from _bent_view(clip, (0.0, -half - 3.5 * text), text, system)


def _bent_width(clip: ClipCut, text: float) -> Iterator[Dimension]:
    half = clip.clip.wide_mm / 2
    yield Dimension((clip.blank_mm, half), (clip.blank_mm, -half), 1.8 * text, text, "y", outside=True)


def _bent_view(clip: ClipCut, corner: Point, text: float, system: str) -> Iterator[Item]:
    """From its end: both legs' outside lengths, and the radius inside."""
    (x, y), t, r = corner, clip.clip.wall_mm, clip.radius_mm
    first, second = (leg.long_mm for leg in clip.legs)
    points = (
        *((first, 0.0), (first, -t), (t + r, -t), (t + 0.29 * r, -t - 0.29 * r), (t, -t - r), (t, -second)),
        *((0.0, -second), (0.0, -t - r), (0.29 * (t + r), -0.29 * (t + r)), (t + r, 0.0)),
    )
    yield Path(tuple((x + a, y + b) for a, b in points), "bracket", closed=True, filled=True)
    yield Dimension((x, y - second), (x + first, y - second), -1.8 * text, text, "x")
    yield Dimension((x, y), (x, y - second), -1.8 * text, text, "y")
    words = (
        f"bent 90°, inside radius {told(r, system)};",
        f"{told(t, system)} thick, {clip.clip.metal}",
        "legs measured outside" if clip.alike else "longer leg on bottom or top rail",
    )
    for line, said in enumerate(words):
        yield Text((x + t + r + 1.0 * text, y - t - (1.8 + 1.5 * line) * text), said, text)


def _flat(clip: ClipCut, text: float, system: str) -> Iterator[Item]:
    """The L, its lower left corner the datum; both legs' holes on their middle lines."""
    wide, (first, second) = clip.clip.wide_mm, clip.legs
    half = wide / 2
    points = (
        (0, 0),
        (first.long_mm, 0),
        (first.long_mm, wide),
        (wide, wide),
        (wide, second.long_mm),
        (0, second.long_mm),
    )
    yield Path(points, "bracket", closed=True)
    for at in first.holes_mm:
        yield from _hole((at, half), clip.hole_mm)
    for at in second.holes_mm:
        yield from _hole((half, at), clip.hole_mm)
    for level, at in enumerate((*first.holes_mm, first.long_mm)):
        yield Dimension((at, 0.0), (0.0, 0.0), (1.8 + 2.2 * level) * text, text, "x", outside=True)
    for level, at in enumerate(reversed((*second.holes_mm, second.long_mm))):
        yield Dimension((0.0, 0.0), (0.0, at), (1.8 + 2.2 * level) * text, text, "y", outside=True)
    yield Dimension((first.long_mm, 0.0), (first.long_mm, wide), -1.8 * text, text, "y", outside=True)
    words = (
        f"{told(clip.clip.wall_mm, system)} thick, {clip.clip.metal}",
        f"holes {drill_words(clip.hole_mm, system)}, on the middle lines",
    )
    for line, said in enumerate(words):
        yield Text((wide + 1.5 * text, second.long_mm - (1.0 + 1.5 * line) * text), said, text)
