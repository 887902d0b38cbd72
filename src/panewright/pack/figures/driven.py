"""Screws of a crate as its cut across shows them: head, tip and size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.crate.box import Crate
from panewright.crate.screws import BEARER, FLOOR, LID, SILL, WALL
from panewright.drawing.drawing import Path, Point


@dataclass(frozen=True, slots=True)
class Driven:
    """A screw seen from the side, from its head to its tip. [mm]"""

    head: Point
    tip: Point
    words: str

    def drawn(self) -> Path:
        """As a line."""
        return Path((self.head, self.tip), "ink")

    @property
    def middle(self) -> Point:
        """Half way."""
        return (self.head[0] + self.tip[0]) / 2, (self.head[1] + self.tip[1]) / 2


def driven(crate: Crate) -> Iterator[Driven]:
    """One of each joint that the cut across shows, at the right; skewed ones are not drawn."""
    found = {joint.name: joint.screw for joint in crate.joints if not joint.skewed}
    inside, over = crate.inside.across_mm, crate.box.across_mm
    foot, top, sill = crate.foot_mm, crate.foot_mm + crate.box.up_mm, crate.sill
    x_sill, face = over / 2 - sill.wide_mm / 2, over / 2 + crate.batten.wide_mm
    starts = {
        FLOOR: ((x_sill, foot + crate.ply_mm), (0, -1)),
        BEARER: ((x_sill, foot), (0, -1)),
        WALL: ((inside / 2, top - crate.batten.deep_mm / 2), (1, 0)),
        SILL: ((face, foot - crate.drop_mm / 2), (-1, 0)),
        LID: ((over / 2 + crate.batten.wide_mm / 2, top + crate.lid.deep_mm), (0, -1)),
    }
    for name, ((x, y), (right, up)) in starts.items():
        if name in found:
            long = found[name].long_mm
            yield Driven((x, y), (x + right * long, y + up * long), f"screw {found[name].name}")
