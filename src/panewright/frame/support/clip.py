"""A corner clip: a piece of angle inside the corner, each leg flat on one rail's upright.

Where the rails hold it by their seats it is cut flat, an L of the same width and thickness.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.frame.metals.metal import Metal, density_kg_m3

ClipMetal = Literal["stainless", "aluminium"]
METALS: dict[ClipMetal, Metal] = {"stainless": "stainless 304", "aluminium": "6061-T6"}

_FROM_END_MM = 15.0  # of the first fastener, where a thin clip leaves its head room; common practice
_HEAD_ROOM_MM = 12.0  # of it behind the other leg: a rail's wall, a washer and a head; common practice


@dataclass(frozen=True, slots=True)
class Clip:
    """One clip; how long its legs are follows from where its fasteners sit."""

    name: str
    metal: ClipMetal
    wide_mm: float
    wall_mm: float
    mass_kg: float

    def __post_init__(self) -> None:
        if min(self.wide_mm, self.wall_mm) <= 0 or self.mass_kg < 0:
            raise ValueError(f"a clip has a width and a thickness, got {self}")

    @property
    def material(self) -> Metal:
        """The metal as the rule books know it: soft sheet, or angle known to both of them."""
        return METALS[self.metal]

    @property
    def from_end_mm(self) -> float:
        """First fastener from the rail's end: the thicker the other leg, the farther its head needs. [mm]

        >>> Clip("c", "aluminium", 40, 8, 0.1).from_end_mm
        20.0
        """
        return max(_FROM_END_MM, _HEAD_ROOM_MM + self.wall_mm)


def cut_clip(name: str, metal: ClipMetal, wide_mm: float, wall_mm: float, leg_mm: float = 50.0) -> Clip:
    """A clip whose mass is reckoned from its size."""
    volume_mm3 = (2 * leg_mm - wall_mm) * wall_mm * wide_mm
    return Clip(name, metal, wide_mm, wall_mm, volume_mm3 * 1e-9 * density_kg_m3(METALS[metal]))


_USUAL_MM: dict[ClipMetal, float] = {"stainless": 2.0, "aluminium": 3.0}
#: where a shelf tells no sizes; common practice
USUAL: dict[ClipMetal, Clip] = {
    metal: cut_clip(f"corner clip of {wall_mm:g} mm {metal}, 16 mm wide", metal, 16.0, wall_mm)
    for metal, wall_mm in _USUAL_MM.items()
}
