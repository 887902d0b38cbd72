"""The outline of a rail, from its heel: the seat along x, the upright along y."""

from __future__ import annotations

from panewright.frame.rail import Rail
from panewright.frame.shape.outline import Outline, turned


def outlines(rail: Rail) -> tuple[Outline, ...]:
    """The outer line of a rail and its holes, metal on the left. [mm]

    >>> outlines(Rail("L", "angle", 30, 20, 3, "6063-T6", 6000))[0]
    ((0.0, 0.0), (30, 0.0), (30, 3), (3, 3), (3, 20), (0.0, 20))
    """
    if rail.profile == "drawn":
        return turned(rail.outline_mm), *(turned(hole, hole=True) for hole in rail.holes_mm)
    b, h, t = rail.seat_mm, rail.upright_mm, rail.wall_mm
    if rail.profile == "angle":
        return (((0.0, 0.0), (b, 0.0), (b, t), (t, t), (t, h), (0.0, h)),)
    if rail.profile == "channel":
        return (((0.0, 0.0), (b, 0.0), (b, t), (t, t), (t, h - t), (b, h - t), (b, h), (0.0, h)),)
    outer = ((0.0, 0.0), (b, 0.0), (b, h), (0.0, h))
    return outer, ((t, t), (t, h - t), (b - t, h - t), (b - t, t))
