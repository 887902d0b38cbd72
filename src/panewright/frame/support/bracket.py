"""A bracket: a piece of angle, one leg bolted to the rail, the other screwed to what carries the panel.

          rail
           |  bolt, halfway up the leg
           |
fastener   |
----o------+  heel
toe |<-a-->|
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.frame.metals.metal import Metal, density_kg_m3

_GAUGE = 0.55  # of the leg, from the outside of the heel to the middle of the fastener; common practice


@dataclass(frozen=True, slots=True)
class Bracket:
    """An equal-legged angle as long as `length_mm` along the rail."""

    name: str
    leg_mm: float
    wall_mm: float
    length_mm: float
    metal: Metal

    def __post_init__(self) -> None:
        if min(self.leg_mm, self.wall_mm, self.length_mm) <= 0 or 3 * self.wall_mm >= self.leg_mm:
            raise ValueError(f"a bracket has positive sizes and a wall under a third of its leg, got {self}")

    @property
    def lever_mm(self) -> float:
        """From the middle of the leg at the rail to the fastener. [mm]"""
        return _GAUGE * self.leg_mm - self.wall_mm / 2

    @property
    def toe_mm(self) -> float:
        """From the fastener to the free edge. [mm]"""
        return (1 - _GAUGE) * self.leg_mm

    @property
    def height_mm(self) -> float:
        """Of the rail's bolt above what carries the bracket. [mm]"""
        return self.leg_mm / 2

    @property
    def mass_kg(self) -> float:
        """Holes not taken off. [kg]"""
        area = (2 * self.leg_mm - self.wall_mm) * self.wall_mm
        return area * self.length_mm * 1e-9 * density_kg_m3(self.metal)

    def modulus_mm3(self, hole_mm: float = 0.0) -> float:
        """Elastic section of one leg, less a hole in it. [mm3]

        >>> round(Bracket("b", 40, 4, 40, "6063-T6").modulus_mm3(), 1)
        106.7
        """
        return max(0.0, self.length_mm - hole_mm) * self.wall_mm**2 / 6
