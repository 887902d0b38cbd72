"""A carton cut through: its tray, the lid over it, and what each part is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from panewright.crate.carton import Carton
from panewright.drawing.drawing import Item, Layer, Point, box
from panewright.pack.bench import count

_CARD: Layer = "bead"
NAMED = 5  #: parts that have their name beside the drawing


def wide_mm(carton: Carton, cut: Literal["across", "along"]) -> tuple[float, float, float]:
    """Level sizes of this cut: in the tray, over the tray, over the lid. [mm]"""
    inside, outside = (
        room.across_mm if cut == "across" else room.along_mm for room in (carton.inside, carton.outside)
    )
    return inside, inside + 2 * carton.board.thick_mm, outside


def folded(carton: Carton, cut: Literal["across", "along"]) -> Iterator[Item]:
    """Tray and lid; the middle of the carton is at 0, its floor on the ground at 0."""
    inside, tray, lid = wide_mm(carton, cut)
    thick, top = carton.board.thick_mm, carton.outside.up_mm
    yield box(-tray / 2, 0.0, tray / 2, thick, _CARD, filled=True)
    yield box(-lid / 2, top - thick, lid / 2, top, _CARD, filled=True)
    for inner, outer, high in ((inside, tray, top - thick), (tray, lid, top - thick)):
        for side in (-1, 1):
            left, right = sorted((side * inner / 2, side * outer / 2))
            yield box(left, thick if outer == tray else 0.0, right, high, _CARD)


def named(carton: Carton, cut: Literal["across", "along"]) -> list[tuple[Point, str]]:
    """A place in each part, and its name."""
    inside, tray, lid = wide_mm(carton, cut)
    stack, up, thick = carton.stack, carton.outside.up_mm, carton.board.thick_mm
    wide = stack.across_mm if cut == "across" else stack.along_mm
    foam, near = carton.cushion("face"), wide / 2 - min(20.0, wide / 8)
    return [
        (((tray + lid) / 4, up * 0.8), "lid"),
        (((inside + tray) / 4, up * 0.62), "tray"),
        ((near, thick + foam.thickness_mm / 2), foam.foam.name),
        ((wide / 2 - stack.loose_mm / 2, up * 0.45), "card round the kit"),
        ((near - 4.0, up / 2), count(stack.panels, stack.panel.goods)),
    ]
