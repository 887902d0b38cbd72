"""Joints of a crate's plywood as its cuts show them: where sheets meet, the batten there, and its name."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.crate.box import Crate
from panewright.drawing.drawing import Item, Layer, Path, Point, box
from panewright.pack.figures.stacked import Cut

_WOOD: Layer = "bead"


def joined(crate: Crate, cut: Cut) -> Iterator[Item]:
    """Joints of floor, lid and both walls that this cut goes through, with what lies over them."""
    over, inside, level = _walls(crate, cut)
    foot, top, ply = crate.foot_mm, crate.foot_mm + crate.box.up_mm, crate.ply_mm
    half, proud = crate.batten.deep_mm / 2, crate.batten.wide_mm
    for at in _upright(crate, cut):
        x = at - over / 2
        if cut == "along":
            yield box(x - half, foot - proud, x + half, foot, _WOOD, filled=True)
        for low in (foot, top - ply):
            yield Path(((x, low), (x, low + ply)), "cut")
    for at in level:
        y = foot + ply + at
        for side in (-1, 1):
            left, right = sorted((side * over / 2, side * (over / 2 + proud)))
            yield box(left, y - half, right, y + half, _WOOD, filled=True)
            yield Path(((side * inside / 2, y), (side * over / 2, y)), "cut")


def joint_marks(crate: Crate, cut: Cut) -> Iterator[tuple[Point, str]]:
    """A place in the nearest joint of each kind, and its name."""
    over, _, level = _walls(crate, cut)
    foot, top = crate.foot_mm, crate.foot_mm + crate.box.up_mm
    if at := _upright(crate, cut):
        x = at[-1] - over / 2
        lies, name = (crate.batten.wide_mm, "batten") if cut == "along" else (crate.sill.deep_mm, "sill")
        yield (x, top - crate.ply_mm / 2), "joint of lid"
        yield (x, foot - lies / 2), f"{name} under joint of floor"
    if level:
        wall = "side" if cut == "across" else "end"
        place = over / 2 + crate.batten.wide_mm / 2, foot + crate.ply_mm + level[-1]
        yield place, f"batten at joint of {wall}"


def _walls(crate: Crate, cut: Cut) -> tuple[float, float, tuple[float, ...]]:
    """Over and between the walls that are cut, and the heights of their level joints over the floor."""
    if cut == "across":
        return crate.box.across_mm, crate.inside.across_mm, crate.seams.side.across_mm
    return crate.box.along_mm, crate.inside.along_mm, crate.seams.end.across_mm


def _upright(crate: Crate, cut: Cut) -> tuple[float, ...]:
    """Joints of floor and lid that are cut across."""
    return crate.seams.lid.across_mm if cut == "across" else crate.seams.lid.along_mm
