"""A corner of the frame: cut level with its fasteners, from outside, and cut across; or the welded mitre.

The lower left corner as the sun sees it; the others are turned or mirrored. x runs along the bottom rail, y
along the side rail, from the frame's outer corner. Third angle: the view from outside stands below the plan,
the cut A-A at its right.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Path, Point, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.frame.joining.weld import THROAT_SHARE
from panewright.pack.bench import told
from panewright.pack.figures.frame import CROSS
from panewright.pack.figures.section import edge
from panewright.panel.design import Design
from panewright.structure.corners.clip_cut import ClipCut, clip_cut, short_mm
from panewright.structure.drilling.frame_plan import FramePlan

_PAST_MM = 16.0  # of the rails, beyond the clip's toe
_HEAD_MM, _TAIL_MM = 3.0, 6.0  # a fastener's head and what stands out behind; only to be seen
_WELDED_MM = 70.0  # of the rails, where there is no clip


@dataclass(frozen=True, slots=True)
class _At:
    """What is drawn, and how large words are."""

    design: Design
    clip: ClipCut
    text: float
    reach: float  #: of both rails, from the corner

    @property
    def frame(self) -> FramePlan:
        return self.design.structural.frame

    @property
    def ends(self) -> Point:
        """How far the bottom and the side rail's ends stay behind the corner."""
        bottom, side = (short_mm(piece, self.frame) for piece in self.frame.pieces[:2])
        return bottom, side

    @property
    def holes(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Holes near the corner, from the corner, along the bottom and the side rail."""
        bottom, side = (
            tuple(sorted(hole.along_mm + short for hole in piece.holes if hole.purpose == "corner")[:2])
            for piece, short in zip(self.frame.pieces[:2], self.ends, strict=True)
        )
        return bottom, side


def corner_figure(design: Design, text_mm: float) -> Drawing:
    """The corner of a design in as many views as it needs. [mm]"""
    clip = clip_cut(design.structural.frame)
    if clip is None:
        return Drawing("Corner, welded", tuple(_welded(design, text_mm)))
    legs = max(leg.long_mm for leg in clip.legs)
    reach = legs + design.structural.rail.seat_mm * (clip.leg == "seat") + _PAST_MM
    at = _At(design, clip, text_mm, reach)
    if clip.leg == "seat":
        return Drawing("Corner, plate on the seats", tuple(_on_seats(at)))
    return Drawing("Corner", (*_plan(at), *_from_outside(at), *_across(at)))


def _rail_shapes(frame: FramePlan, reach: float, wide: float) -> Iterator[Path]:
    """Both rails' legs of one width, mitred or lapped, as far as they are shown."""
    bottom, side = (short_mm(piece, frame) for piece in frame.pieces[:2])
    if frame.corner == "lapped":
        start = max(bottom, wide)
        yield Path(((start, 0), (reach, 0), (reach, wide), (start, wide)), "rail", True, True)
        yield Path(((0, side), (wide, side), (wide, reach), (0, reach)), "rail", True, True)
    else:
        yield Path(((0, 0), (reach, 0), (reach, wide), (wide, wide)), "rail", True, True)
        yield Path(((0, 0), (wide, wide), (wide, reach), (0, reach)), "rail", True, True)


def _plan(at: _At) -> Iterator[Item]:
    """Level with the fasteners: walls and clip cut, seats below them."""
    frame, rail, t = at.frame, at.design.structural.rail, at.clip.clip.wall_mm
    seat, wall = rail.seat_mm, rail.wall_mm
    yield from _rail_shapes(frame, at.reach, seat)
    if not at.clip.outside:
        yield from _walls(at, wall)
    yield _clip_shape(at, wall)
    near, far = (-t, wall) if at.clip.outside else (0.0, wall + t)
    half = at.clip.hole_mm / 2 - 0.2
    for x in at.holes[0]:
        yield from _bolt((x, near), (x, far), half)
    for y in at.holes[1]:
        yield from _bolt((near, y), (far, y), half)
    yield from _along(at, near)
    level = at.reach + 1.0 * at.text
    yield Text((0.0, level), "cut at the fasteners", at.text, bold=True)
    yield from _named_rails(at)


def _walls(at: _At, wall: float) -> Iterator[Path]:
    """The uprights cut through, darker than the seats."""
    for path in _rail_shapes(at.frame, at.reach, wall):
        yield Path(path.points, "bracket", closed=True, filled=True)


def _clip_shape(at: _At, wall: float) -> Path:
    t = at.clip.clip.wall_mm
    heel = -t if at.clip.outside else wall
    along, up = (heel + leg.long_mm for leg in at.clip.legs)
    points = (
        *((heel, heel), (along, heel), (along, heel + t)),
        *((heel + t, heel + t), (heel + t, up), (heel, up)),
    )
    return Path(points, "bead", closed=True, filled=True)


def _bolt(near: Point, far: Point, half: float) -> Iterator[Item]:
    """A fastener from outside in: head, shank, tail and its middle line."""
    along = (0.0, 1.0) if near[0] == far[0] else (1.0, 0.0)
    side = (along[1], along[0])

    def bar(start: Point, end: Point, wide: float) -> Path:
        corners = (
            (start[0] - wide * side[0], start[1] - wide * side[1]),
            (start[0] + wide * side[0], start[1] + wide * side[1]),
            (end[0] + wide * side[0], end[1] + wide * side[1]),
            (end[0] - wide * side[0], end[1] - wide * side[1]),
        )
        return Path(corners, "hole", closed=True, filled=True)

    head = (near[0] - _HEAD_MM * along[0], near[1] - _HEAD_MM * along[1])
    tail = (far[0] + _TAIL_MM * along[0], far[1] + _TAIL_MM * along[1])
    yield bar(near, tail, half)
    yield bar(head, near, 1.8 * half)
    over = (head[0] - 2 * along[0], head[1] - 2 * along[1]), (tail[0] + 2 * along[0], tail[1] + 2 * along[1])
    yield Path(over, "centre")


def _along(at: _At, near: float) -> Iterator[Dimension]:
    """Each rail's holes from its own end: below the bottom rail, left of the side rail."""
    (bottom, side), text, foot = at.ends, at.text, near - _HEAD_MM - 2.0
    for level, x in enumerate(at.holes[0]):
        out = (1.6 + 2.2 * level) * text
        yield Dimension((x, foot), (bottom, foot), out, text, "x", outside=True)
    for level, y in enumerate(reversed(at.holes[1])):  # else a witness line ran through the inner figure
        out = (1.6 + 2.2 * level) * text
        yield Dimension((foot, side), (foot, y), out, text, "y", outside=True)


def _named_rails(at: _At) -> Iterator[Text]:
    """Which rail is which, on their seats or beside them."""
    text = at.text
    wide = at.design.structural.rail.seat_mm
    name = "side rail" + (" runs through" if at.frame.corner == "lapped" else "")
    yield Text((wide + 0.8 * text, at.reach - 1.2 * text), name, text)
    left = max(at.reach - text_width_mm("bottom rail", text), wide + 0.8 * text)
    yield Text((left, wide + 0.6 * text), "bottom rail", text)


def _from_outside(at: _At) -> Iterator[Item]:
    """The bottom rail's upright from below the plan, its clip behind it dashed."""
    rail, text, clip = at.design.structural.rail, at.text, at.clip
    drop = _drop(at)
    bottom = at.ends[0]
    yield box(bottom, drop, at.reach, drop + rail.upright_mm, "rail", filled=True)
    if bottom > 0:
        yield box(0.0, drop, bottom, drop + rail.upright_mm, "bracket", filled=True)
    level, half = drop + clip.level_mm, clip.clip.wide_mm / 2
    start = -clip.clip.wall_mm if clip.outside else rail.wall_mm
    edge_of_clip = box(start, level - half, start + clip.legs[0].long_mm, level + half, "hidden")
    yield edge_of_clip
    for x in at.holes[0]:
        yield from _hole((x, level), clip.hole_mm)
    yield Dimension((at.reach, drop), (at.reach, level), -1.8 * text, text, "y", outside=True)
    yield Text((0.0, drop - 1.6 * text), "bottom rail from outside", text, bold=True)
    yield Path(
        (
            (at.holes[0][0], drop + rail.upright_mm + 0.6 * text),
            (at.holes[0][0], drop + rail.upright_mm + 2.0 * text),
        ),
        "border",
    )
    yield Text((at.holes[0][0] + 0.4 * text, drop + rail.upright_mm + 0.8 * text), "A", text, bold=True)


def _drop(at: _At) -> float:
    """Foot of the view from outside. [mm]"""
    near = -at.clip.clip.wall_mm if at.clip.outside else 0.0
    return near - _HEAD_MM - 2.0 - 9.0 * at.text - at.design.structural.rail.upright_mm


def _hole(middle: Point, wide: float) -> Iterator[Item]:
    (x, y), arm = middle, 0.9 * wide
    yield Arc(middle, wide / 2, "hole", filled=True)
    yield Path(((x - arm, y), (x + arm, y)), CROSS)
    yield Path(((x, y - arm), (x, y + arm)), CROSS)


def _across(at: _At) -> Iterator[Item]:
    """A-A: the rail, the clip, bead and pane through the first fastener."""
    clip, text, units = at.clip, at.text, at.design.order.job.units
    rail, place = at.design.structural.rail, edge(at.design)
    right, drop = at.reach + 8.0 * text, _drop(at)

    def put(x: float, y: float) -> Point:
        return right + x, drop + y

    tip = max(rail.seat_mm, place.bead_right) + 12.0
    under = place.upright if place.tube else place.wall
    (x0, y0), (x1, y1) = put(place.pane_left, under), put(place.bead_right, place.pane_foot)
    yield box(x0, y0, x1, y1, "bead", filled=True)
    (x0, y0), (x1, y1) = put(place.pane_left, place.pane_foot), put(tip, place.face)
    yield box(x0, y0, x1, y1, "pane", filled=True)
    outer, *holes = place.outlines
    yield Path(tuple(put(*point) for point in outer), "rail", closed=True, filled=True)
    yield from (Path(tuple(put(*point) for point in hole), "hole", True, True) for hole in holes)
    t, half = clip.clip.wall_mm, clip.clip.wide_mm / 2
    left = -t if clip.outside else rail.wall_mm
    (x0, y0), (x1, y1) = put(left, clip.level_mm - half), put(left + t, clip.level_mm + half)
    yield box(x0, y0, x1, y1, "bead", filled=True)
    near, far = (-t, rail.wall_mm) if clip.outside else (0.0, rail.wall_mm + t)
    yield from _bolt(put(near, clip.level_mm), put(far, clip.level_mm), clip.hole_mm / 2 - 0.2)
    yield Text((right, drop - 1.6 * text), "A–A", text, bold=True)
    over = max((x for x, y in outer if y >= place.face), default=0.0)  # metal that reaches in over the pane
    bolt = put(far + _TAIL_MM + 2.0, clip.level_mm)
    left = max(bolt[0] + 2.5 * text, right + over + 1.2 * text)
    yield from _section_names(at, (bolt, put(tip, place.face)), left, units)


def _section_names(at: _At, places: tuple[Point, Point], left: float, units: str) -> Iterator[Item]:
    """What goes through, the clip, and the pane, each at the end of a line."""
    clip, text, (bolt, pane) = at.clip.clip, at.text, places
    joint = at.frame.joint
    assert joint is not None
    high = max(bolt[1], pane[1] + 1.5 * text) + 1.5 * text
    rim = (bolt[0] - _TAIL_MM - 2.6, bolt[1] + clip.wide_mm / 2 - 0.6)
    yield Path(((bolt[0] - 1.0, bolt[1]), (left - 0.4 * text, high + 0.33 * text)), "dimension")
    yield Path((rim, (left - 0.4 * text, high + 3.33 * text)), "dimension")
    yield Text((left, high), joint.fastener.name, text)
    size = f"{told(clip.wide_mm, units)} wide, {told(clip.wall_mm, units)} thick"
    yield Text((left, high + 3.0 * text), f"clip of {clip.metal},", text)
    yield Text((left, high + 1.5 * text), size, text)
    yield Text((pane[0], pane[1] + 0.4 * text), "pane", text, "text", "right")


def _on_seats(at: _At) -> Iterator[Item]:
    """From behind: a flat L on both seats."""
    rail, text, clip = at.design.structural.rail, at.text, at.clip
    yield from _rail_shapes(at.frame, at.reach, rail.seat_mm)
    low, high = clip.level_mm - clip.clip.wide_mm / 2, clip.level_mm + clip.clip.wide_mm / 2
    along, up = (low + leg.long_mm for leg in clip.legs)
    points = ((low, low), (along, low), (along, high), (high, high), (high, up), (low, up))
    yield Path(points, "bead", closed=True, filled=True)
    for x in at.holes[0]:
        yield from _hole((x, clip.level_mm), clip.hole_mm)
    for y in at.holes[1]:
        yield from _hole((clip.level_mm, y), clip.hole_mm)
    yield from _along(at, 0.0)
    yield Dimension((at.reach, 0.0), (at.reach, clip.level_mm), -1.8 * text, text, "y", outside=True)
    yield Text((0.0, at.reach + 1.0 * text), "from behind, plate on the seats", text, bold=True)


def _welded(design: Design, text: float) -> Iterator[Item]:
    """From the front: the mitre, and where the weld runs."""
    rail, frame, units = design.structural.rail, design.structural.frame, design.order.job.units
    reach = rail.seat_mm + _WELDED_MM
    yield from _rail_shapes(frame, reach, rail.seat_mm)
    yield Path(((0.0, 0.0), (rail.seat_mm, rail.seat_mm)), "ink")
    point = (0.6 * rail.seat_mm, 0.6 * rail.seat_mm)
    left, level = rail.seat_mm + 3.0 * text, rail.seat_mm + 6.0 * text
    yield Path((point, (left - 0.4 * text, level + 0.33 * text)), "dimension")
    throat = told(THROAT_SHARE * rail.wall_mm, units)
    where = "all round" if rail.profile == "tube" else "upright and seat, from outside"
    for line, words in enumerate((f"weld {where}", f"throat {throat} at least")):
        yield Text((left, level - 1.5 * line * text), words, text)
    yield Dimension((0.0, 0.0), (rail.seat_mm, 0.0), -2.0 * text, text, "x", outside=True)
    yield Text((0.0, reach + 1.0 * text), "from the front", text, bold=True)
