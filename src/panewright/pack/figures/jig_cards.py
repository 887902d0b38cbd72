"""The hole jig for a small printer: a card for each group of holes, and no paper where no hole is.

A card is a piece of the rail's sleeve at full size. One edge of it says where it lies: flush with an end of
the rail, or so far from the datum, to be measured with a tape. So no sheets are joined, and no error of
joining adds up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Item, Path, Point, Text
from panewright.drawing.move import merged, moved
from panewright.drawing.paper_size import Paper, Size, tile_area
from panewright.drawing.title import wrapped
from panewright.layup.drawn.signs import arrow_head
from panewright.pack.bench import told
from panewright.pack.figures.frame import hole_mark, rail_outline
from panewright.pack.figures.jig import drills, letters, places
from panewright.structure.drilling.frame_plan import FramePlan, Hole, RailPiece
from panewright.units import INCH_MM

_PAST_MM = 25.0  #: of sleeve beyond the outermost hole of a card
_WORDS_MM = 84.0  #: a card is as wide as its words at least; two stand beside each other
_APART_MM = 8.0
_EDGE_MM = 4.0  #: left round all cards of a sheet
_STEP_MM = {"metric": 5.0, "us": INCH_MM / 2}  #: edges lie on marks that a tape has


def card_room(paper: Paper) -> Size:
    """What the cards of one sheet may fill. [mm]"""
    whole = tile_area(paper)
    return Size(whole.width_mm - _EDGE_MM, whole.height_mm - _EDGE_MM)


@dataclass(frozen=True, slots=True)
class Card:
    """A piece of a rail with some of its holes. [mm from the datum]"""

    names: str
    piece: RailPiece
    start: float
    end: float
    holes: tuple[Hole, ...]


def jig_sheets(
    kinds: Sequence[tuple[str, RailPiece]],
    frame: FramePlan,
    room: Size,
    system: str = "metric",
    text_mm: float = 3.2,
) -> tuple[Drawing, ...]:
    """All cards, as many on each sheet as find room. [mm]"""
    found = [card for names, piece in kinds for card in cards_of(names, piece, room, system)]
    drawn = [card_drawing(card, frame, system, text_mm) for card in found]
    return tuple(
        merged(f"Hole jig, sheet {n}", sheet) for n, sheet in enumerate(_laid(drawn, room, system), 1)
    )


def cards_of(names: str, piece: RailPiece, room: Size, system: str) -> Iterator[Card]:
    """Holes beside each other as long as a sheet holds them; lengths between have none."""
    ordered = sorted(piece.holes, key=lambda hole: hole.along_mm)
    while ordered:
        start = _start(ordered[0], system)
        most = start + room.width_mm - 2.0
        mine = [hole for hole in ordered if _end(hole, piece) <= most]
        yield Card(names, piece, start, _end(mine[-1], piece), tuple(mine))
        ordered = ordered[len(mine) :]


def _start(hole: Hole, system: str) -> float:
    step, least = _STEP_MM[system], hole.along_mm - hole.slot_mm / 2 - _PAST_MM
    return max(0.0, step * math.floor(least / step))


def _end(hole: Hole, piece: RailPiece) -> float:
    """Past the hole; to the rail's end where that is near."""
    far = hole.along_mm + hole.slot_mm / 2 + _PAST_MM
    return piece.length_mm if far > piece.length_mm - _PAST_MM else far


def card_drawing(card: Card, frame: FramePlan, system: str, text: float) -> Drawing:
    """One card; its left edge at 0, its heel at 0. [mm]"""
    piece, upright, seat = card.piece, frame.rail.upright_mm, frame.rail.seat_mm
    ends_here = card.end >= piece.length_mm and card.start > 0
    items: list[Item] = [
        Path(cut_between(rail_outline(piece, frame), card.start, card.end), "border", closed=True),
        Path(((card.start, 0.0), (card.end, 0.0)), "hidden"),
    ]
    for hole in card.holes:
        items += hole_mark(hole)
    items += letters(card.holes, text)
    items += places(card.holes, -seat, text, system)
    edge = card.end if ends_here else card.start
    items.append(arrow_head((edge, upright), (0.0, -1.0), 1.2 * text, "ink"))
    moved_left = moved(Drawing(card.names, tuple(items)), -card.start, 0.0)
    return moved_left.with_items(_head(card, frame, system, text, ends_here=ends_here))


def _head(card: Card, frame: FramePlan, system: str, text: float, *, ends_here: bool) -> Iterator[Text]:
    """Which rail, which edge lies where, which drills: lines over the strip, the first one bold."""
    wide = max(_WORDS_MM, card.end - card.start)
    some = replace(card.piece, holes=card.holes)
    rail = f"{card.names.capitalize()}: {frame.rail.name}, {told(card.piece.length_mm, system)} long"
    if ends_here:
        lies = "right edge flush with the rail's right end"
    elif card.start > 0:
        lies = f"left edge {told(card.start, system)} from the rail's left end"
    else:
        lies = "left edge flush with the rail's left end"
    said = [(line, True) for line in wrapped(rail, wide, text)]
    said += [
        (line, False)
        for words in (f"{lies}, upright towards you", drills(some, system))
        for line in wrapped(words, wide, text)
    ]
    top = frame.rail.upright_mm + 1.9 * text + 1.35 * text * (len(said) - 1)
    for number, (line, bold) in enumerate(said):
        yield Text((0.0, top - 1.35 * text * number), line, text, bold=bold)


def cut_between(outline: Sequence[Point], left: float, right: float) -> tuple[Point, ...]:
    """What of an outline lies between two upright lines.

    >>> cut_between(((0, 0), (10, 0), (10, 4), (0, 4)), 2.0, 5.0)
    ((2.0, 0.0), (5.0, 0.0), (5.0, 4.0), (2.0, 4.0))
    """
    points = list(outline)
    for at, inside in ((left, 1.0), (right, -1.0)):
        points = list(_kept(points, at, inside))
    return tuple(points)


def _kept(points: list[Point], at: float, inside: float) -> Iterator[Point]:
    """The points on one side of an upright line, and those where the outline crosses it."""
    for (x0, y0), (x1, y1) in zip([points[-1], *points[:-1]], points, strict=True):
        was, is_ = inside * (x0 - at) >= 0, inside * (x1 - at) >= 0
        if was != is_:
            yield (at, y0 + (y1 - y0) * (at - x0) / (x1 - x0))
        if is_:
            yield (float(x1), float(y1))


def _laid(drawn: Sequence[Drawing], room: Size, system: str) -> Iterator[tuple[Drawing, ...]]:
    """Cards beside each other in rows, rows below each other, sheet by sheet; the upper left corner at 0."""
    sheet: list[Drawing] = []
    x = y = low = 0.0
    for each in drawn:
        size = bounds(each, system)
        if sheet and x + size.width_mm > room.width_mm:
            x, y = 0.0, low - _APART_MM
        if sheet and y - size.height_mm < -room.height_mm:
            yield tuple(sheet)
            sheet, x, y, low = [], 0.0, 0.0, 0.0
        sheet.append(moved(each, x - size.left, y - size.top))
        x += size.width_mm + _APART_MM
        low = min(low, y - size.height_mm)
    if sheet:
        yield tuple(sheet)
