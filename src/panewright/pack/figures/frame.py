"""Rails as they lie on the bench, unfolded: the upright above the heel line, the seat below it.

The datum is the left end with the upright towards the maker and the seat down. Every hole stands at its
distance from the datum, written at the foot of a line from the hole; so one rule, hooked at the left end,
marks a whole rail, and no error adds up from hole to hole. Across the rail a hole lies so far from the heel:
in the upright up from the outside of the seat, in the seat inward from the outside of the upright.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from panewright.drawing.drawing import Arc, Dimension, Drawing, Item, Layer, Path, Point, Text, box
from panewright.drawing.lettering import text_width_mm
from panewright.drawing.move import merged, moved
from panewright.layup.drawn.signs import spread
from panewright.pack.bench import by_rule, told
from panewright.pack.figures.finished import bracket_marks, bracket_places, rails
from panewright.pack.figures.scale import fitted
from panewright.structure.bead.bead import block_long_mm
from panewright.structure.drilling.frame_plan import FramePlan, Hole, RailPiece

_ROUND = 16  # pieces of a half circle
CROSS: Layer = "dimension"  #: of a hole: thin and unbroken, for it is punched where its lines meet
LETTERS = {"bracket": "B", "corner": "C", "drain": "D", "earth": "E", "board": "S"}


def rail_figure(
    piece: RailPiece, frame: FramePlan, text_mm: float, system: str = "metric", name: str = ""
) -> Drawing:
    """One rail with all its holes from the datum. [mm]"""
    seat, upright = _legs(frame)
    items: list[Item] = [
        Path(rail_outline(piece, frame), "rail", closed=True),
        Path(((0.0, 0.0), (piece.length_mm, 0.0)), "hidden"),
    ]
    for hole in piece.holes:
        items += hole_mark(hole)
    items += _places(piece.holes, -seat, text_mm, system)
    title = name or piece.name
    items += _across(piece, text_mm, _beside_mm(piece, title, text_mm, system))
    items.append(Dimension((0.0, upright), (piece.length_mm, upright), 2.2 * text_mm, text_mm))
    items.append(Text((0.0, upright + 4.6 * text_mm), title, 1.25 * text_mm, bold=True))
    return Drawing(title, tuple(items))


def _beside_mm(piece: RailPiece, title: str, text: float, system: str) -> float:
    """How far past a short rail's end its title runs, or the figure of its length."""
    over = text_width_mm(title, 1.25 * text) - piece.length_mm
    figure = text_width_mm(told(piece.length_mm, system), text)
    beside = figure + 2.0 * text if figure + 1.6 * text > piece.length_mm else 0.0
    return max(0.0, over, beside)


def _legs(frame: FramePlan) -> tuple[float, float]:
    return frame.rail.seat_mm, frame.rail.upright_mm


def rail_outline(piece: RailPiece, frame: FramePlan) -> tuple[Point, ...]:
    """Upright above the heel, seat below it, its ends mitred or cut back. [mm]"""
    seat, upright = _legs(frame)
    long = piece.length_mm
    if piece.cut_deg == 45.0:
        return ((0.0, 0.0), (seat, -seat), (long - seat, -seat), (long, 0.0), (long, upright), (0.0, upright))
    cope, wall = piece.cope_mm, min(frame.rail.wall_mm, seat)
    if cope <= 0:
        return ((0.0, -seat), (long, -seat), (long, upright), (0.0, upright))
    left = ((0.0, -wall), (cope, -wall), (cope, -seat))
    right = ((long - cope, -seat), (long - cope, -wall), (long, -wall))
    return ((0.0, upright), *left, *right, (long, upright))


def hole_centre(hole: Hole) -> Point:
    """On the rail unfolded, from the datum and the heel. [mm]"""
    return hole.along_mm, hole.across_mm if hole.leg == "upright" else -hole.across_mm


def hole_mark(hole: Hole) -> Iterator[Item]:
    """A hole or slot with its cross. [mm]"""
    x, y = hole_centre(hole)
    radius, arm = hole.diameter_mm / 2, hole.diameter_mm * 0.9
    if hole.slot_mm:
        yield Path(_slot(x, y, radius, hole.slot_mm / 2), "hole", closed=True)
    else:
        yield Arc((x, y), radius, "hole")
    long = arm + hole.slot_mm / 2
    yield Path(((x - long, y), (x + long, y)), CROSS)
    yield Path(((x, y - arm), (x, y + arm)), CROSS)


def _slot(x: float, y: float, radius: float, half: float) -> tuple[Point, ...]:
    """A slot along the rail, its round ends as fine as a drawing shows them."""
    turns = [math.pi * (step / _ROUND - 0.5) for step in range(_ROUND + 1)]
    right = [(x + half + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]
    left = [(x - half - radius * math.cos(turn), y - radius * math.sin(turn)) for turn in turns]
    return (*right, *left)


def _places(holes: tuple[Hole, ...], foot: float, text: float, system: str) -> Iterator[Item]:
    """A line down from each hole and its distance from the datum, upright, side by side."""
    ordered = sorted(holes, key=lambda hole: hole.along_mm)
    middles = spread([hole.along_mm for hole in ordered], [1.15 * text] * len(ordered), 0.15 * text)
    top, bend = foot - 0.6 * text, foot - 2.0 * text
    for hole, middle in zip(ordered, middles, strict=True):
        x, y = hole_centre(hole)
        yield Path(((x, y - hole.diameter_mm / 2), (x, top), (middle, bend)), "dimension")
        kind = f"{LETTERS[hole.purpose]} slot" if hole.slot_mm else LETTERS[hole.purpose]
        words = f"{kind}  {told(hole.along_mm, system)}"
        long = text_width_mm(words, text)
        yield Text((middle + 0.33 * text, bend - 0.4 * text - long), words, text, "dimension", "left", 90.0)


def _across(piece: RailPiece, text: float, beside: float) -> Iterator[Dimension]:
    """How far across its leg each kind of hole lies, from the heel, past the rail's right end.

    The furthest stands nearest to the rail, so that no witness line runs through another's figure.
    """
    asked = {(hole.leg, hole.across_mm) for hole in piece.holes}
    ordered = sorted(asked, key=lambda leg_across: (leg_across[0] == "seat", -leg_across[1]))
    for level, (leg, across) in enumerate(ordered):
        out = (2.0 + 2.2 * level) * text + beside
        way = 1.0 if leg == "upright" else -1.0
        end = (piece.length_mm, way * across)
        yield Dimension((piece.length_mm, 0.0), end, -way * out, text, "y", outside=True)


def edge_words(hole: Hole, system: str = "metric") -> str:
    """The leg that is drilled, and how far across it from which face."""
    across = told(hole.across_mm, system)
    if hole.leg == "upright":
        return f"upright, {across} up from seat's outside"
    return f"seat, {across} in from upright's outside"


def brackets_figure(
    frame: FramePlan, text_mm: float, system: str = "metric", blocks_mm: tuple[float, ...] = ()
) -> Drawing:
    """The frame from the front with the middle of each bracket dimensioned from its rail's datum. [mm]

    Setting blocks lie in the gap at the low edge.
    """
    margin = (frame.outer_width_mm - frame.pane_width_mm) / 2
    left, low = -margin, -margin
    right, top = frame.pane_width_mm + margin, frame.pane_height_mm + margin
    seat = frame.rail.seat_mm
    items: list[Item] = [*rails(frame)]
    inner = box(left + seat, low + seat, right - seat, top - seat, "hidden")
    items += [inner, box(0, 0, frame.pane_width_mm, frame.pane_height_mm, "pane"), *bracket_marks(frame)]
    half = block_long_mm(min(frame.pane_width_mm, frame.pane_height_mm)) / 2
    items += [box(at - half, -frame.gap_mm, at + half, 0, "bead", filled=True) for at in blocks_mm]
    places = bracket_places(frame)
    tall = bool(places["right rail"])
    for number, along in enumerate(places["right rail" if tall else "bottom rail"]):
        # from hole to datum: a figure too long for its arrows runs past the datum, clear of the others
        out = (number + 1) * 2.2 * text_mm + 40.0
        start, end = ((right, low + along), (right, low)) if tall else ((left + along, low), (left, low))
        items.append(Dimension(start, end, out, text_mm, "y" if tall else "x"))
    if tall:
        items.append(Dimension((right, low), (left, low), 2.2 * text_mm, text_mm))
        items.append(Dimension((left, top), (left, low), -2.6 * text_mm - 24.0, text_mm))
    else:
        items.append(Dimension((right, low), (right, top), -2.2 * text_mm, text_mm))
        items.append(Dimension((left, top), (right, top), 2.6 * text_mm + 24.0, text_mm))
    items += _datum(frame, (left, low), text_mm)
    items += _diagonals(frame, (left, low), (right, top), text_mm, system)
    return Drawing("Brackets", tuple(items), "sunny side up")


def _datum(frame: FramePlan, corner: Point, text: float) -> Iterator[Item]:
    """The corner from which brackets are measured, with its name beside it, inside if there is room."""
    x, y = corner[0] + frame.rail.seat_mm + 0.8 * text, corner[1] + frame.rail.seat_mm + 0.8 * text
    wide = 0.6 * text + text_width_mm("datum", text, bold=True)
    # to the right of where the diagonal has risen over the word
    x = max(x, corner[0] + (y - corner[1] + text) * frame.outer_width_mm / frame.outer_height_mm)
    if x + wide > corner[0] + frame.outer_width_mm / 2 - text:  # a narrow frame has no room within
        x, y = corner[0] + 0.3 * text, corner[1] - 4.6 * text
    yield Path(((x, y), corner), "mark")
    yield Arc(corner, 0.3 * text, "mark", filled=True)
    yield Text((x + 0.3 * text, y), "datum", text, "mark", bold=True)


def _diagonals(frame: FramePlan, low: Point, high: Point, text: float, system: str) -> Iterator[Item]:
    """Both diagonals, alike where the frame is square, with their length on clear ground at the middle."""
    yield Path((low, high), "centre")
    yield Path(((low[0], high[1]), (high[0], low[1])), "centre")
    x, y = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
    room = 0.9 * (high[0] - low[0] - 2 * frame.rail.seat_mm)
    lines = ("both diagonals", by_rule(diagonal_mm(frame), system))
    said = [
        fitted((x, y + up * text), words, text, room, "text", "centre")
        for words, up in zip(lines, (0.35, -1.0), strict=True)
    ]
    half = max(text_width_mm(each.words, each.height_mm) for each in said) / 2 + 0.5 * text
    yield box(x - half, y - 1.6 * text, x + half, y + 1.6 * text, "hole", filled=True)
    yield from said


def diagonal_mm(frame: FramePlan) -> float:
    """Outer corner to outer corner. [mm]"""
    return math.hypot(frame.outer_width_mm, frame.outer_height_mm)


def frame_drawing(frame: FramePlan, system: str = "metric", text_mm: float = 10.0) -> Drawing:
    """All four rails unfolded, one under the other, for the workshop's machines. [mm]"""
    seat, upright = _legs(frame)
    pitch = seat + upright + 26.0 * text_mm
    each = (
        moved(rail_figure(piece, frame, text_mm, system), 0.0, -number * pitch)
        for number, piece in enumerate(frame.pieces)
    )
    return merged("Frame rails, unfolded", tuple(each))
