"""The frame round the pane, as the lay-up's views show it: metal that is seen, and what the pane hides."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.drawing.drawing import Path, Point, box
from panewright.layup.layup import Layup


@dataclass(frozen=True, slots=True)
class Rim:
    """How wide the frame stands round the pane. [mm]"""

    margin_mm: float  #: pane edge to the outside of the frame
    seen_mm: float  #: metal that the sun sees, from the outside in
    seat_mm: float  #: metal that the bench sees, from the outside in: the seat under the pane's rim
    lapped: bool = False  #: the rails at the sides run through; else corners are mitred


def butted(left: float, low: float, right: float, top: float, wide: float) -> Iterator[Path]:
    """Four pieces inside a rectangle, those at the sides run through."""
    for x in (left, right - wide):
        yield box(x, low, x + wide, top, "rail", filled=True)
    for y in (low, top - wide):
        yield box(left + wide, y, right - wide, y + wide, "rail", filled=True)


def ring(left: float, low: float, right: float, top: float, wide: float) -> Iterator[Path]:
    """Four mitred pieces inside a rectangle."""
    outer: tuple[Point, ...] = ((left, low), (right, low), (right, top), (left, top))
    inner: tuple[Point, ...] = (
        (left + wide, low + wide),
        (right - wide, low + wide),
        (right - wide, top - wide),
        (left + wide, top - wide),
    )
    for n in range(4):
        m = (n + 1) % 4
        yield Path((outer[n], outer[m], inner[m], inner[n]), "rail", closed=True, filled=True)


def rim_round(layup: Layup, rim: Rim, seen: Literal["front", "behind"]) -> Iterator[Path]:
    """From the front the seat's inner edge is hidden; from behind the seat hides the pane's edge. [mm]"""
    wide, high, out = layup.pane_width_mm, layup.pane_height_mm, rim.margin_mm
    metal = rim.seen_mm if seen == "front" else rim.seat_mm
    yield from (butted if rim.lapped else ring)(-out, -out, wide + out, high + out, metal)
    if seen == "behind":
        yield box(0, 0, wide, high, "hidden")
    elif rim.seat_mm > rim.seen_mm:
        under = rim.seat_mm - out
        yield box(under, under, wide - under, high - under, "hidden")
