"""The finished panel from the front: frame, pane and cells, with its outer sides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from panewright.drawing.drawing import Dimension, Drawing, Path, box
from panewright.layup.drawn.figure import ribbons, silicon
from panewright.layup.drawn.rim import Rim, butted, ring
from panewright.panel.design import Design
from panewright.structure.drilling.frame_plan import FramePlan

_BRACKET_MM = 40.0


def finished(design: Design, text_mm: float) -> Drawing:
    """The panel as it will hang in the sun, laid along the page. [mm]"""
    frame = design.structural.frame
    items = tuple(_parts(design))
    wide, high = frame.outer_width_mm, frame.outer_height_mm
    margin = (wide - frame.pane_width_mm) / 2
    left, low = -margin, -margin
    if high > wide:  # a tall panel lies on its side, its foot at the left
        items = tuple(replace(item, points=tuple((y, -x) for x, y in item.points)) for item in items)
        wide, high, low = high, wide, margin - wide
    out = 1.8 * text_mm + _BRACKET_MM * 0.6
    below = Dimension((left, low), (left + wide, low), -out, text_mm)
    beside = Dimension((left + wide, low), (left + wide, low + high), -out, text_mm)
    return Drawing("The finished panel", (*items, below, beside), "sunny side up")


def _parts(design: Design) -> Iterator[Path]:
    """Pane, cells, ribbon, rails and brackets as they stand."""
    layup = design.layup
    yield box(0, 0, layup.pane_width_mm, layup.pane_height_mm, "pane", filled=True)
    yield from (item for item in silicon(layup) if isinstance(item, Path))
    yield from (item for item in ribbons(layup, "front") if isinstance(item, Path))
    for bus in layup.buses:
        (left, y), (right, _) = bus.points[0], bus.points[-1]
        yield box(left, y - bus.width_mm / 2, right, y + bus.width_mm / 2, "bus", filled=True)
    yield from rails(design.structural.frame)
    yield from bracket_marks(design.structural.frame)


def rails(frame: FramePlan) -> Iterator[Path]:
    """What is seen of the frame from the front: the uprights' edges, or what reaches over the pane."""
    margin, seen = rim(frame).margin_mm, rim(frame).seen_mm
    draw = butted if rim(frame).lapped else ring
    yield from draw(-margin, -margin, frame.pane_width_mm + margin, frame.pane_height_mm + margin, seen)


def rim(frame: FramePlan) -> Rim:
    """The frame as the lay-up's views show it."""
    rail = frame.rail
    margin = (frame.outer_width_mm - frame.pane_width_mm) / 2
    return Rim(margin, rail.pocket.lip_mm, rail.seat_mm, frame.corner == "lapped")


def bracket_places(frame: FramePlan) -> dict[str, tuple[float, ...]]:
    """Middles of the brackets of each rail, from its datum. [mm]"""
    return {
        piece.name: tuple(hole.along_mm for hole in piece.holes if hole.purpose == "bracket")
        for piece in frame.pieces
    }


def bracket_marks(frame: FramePlan) -> Iterator[Path]:
    """Brackets outside the frame, each where its hole is."""
    margin = (frame.outer_width_mm - frame.pane_width_mm) / 2
    for name, places in bracket_places(frame).items():
        for along in places:
            yield _bracket(name, along, frame, margin)


def _bracket(name: str, along: float, frame: FramePlan, margin: float) -> Path:
    """A rail's datum is its left end as seen from outside of the frame."""
    half, out = _BRACKET_MM / 2, _BRACKET_MM * 0.6
    long = next(piece.length_mm for piece in frame.pieces if piece.name == name)
    width, height = frame.outer_width_mm, frame.outer_height_mm
    side, other = (height - long) / 2 - margin, (width - long) / 2 - margin
    left, right = -margin, width - margin
    low, top = -margin, height - margin
    if name == "right rail":
        return box(right, side + along - half, right + out, side + along + half, "bracket")
    if name == "left rail":
        down = side + long - along
        return box(left - out, down - half, left, down + half, "bracket")
    if name == "bottom rail":
        return box(other + along - half, low - out, other + along + half, low, "bracket")
    back = other + long - along
    return box(back - half, top, back + half, top + out, "bracket")
