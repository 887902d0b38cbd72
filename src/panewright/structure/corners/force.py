"""What one corner of the frame passes from rail to rail: in wind and snow, and in the hands of those who
carry it.

Wind and snow: what the four rails in space pass from one to the other there (space_frame.py), each rail for
itself; all of its figures as if at once, on the safe side, for they are bounds of unlike conditions.

Lifted by one corner the panel hangs on that corner and the opposite one, half its weight on each; no more
than that goes through the joint. Standing on one corner, upright, its weight goes into the two rails that
meet there, along each by its share of the diagonal. Carried by one rail it pulls its corners by less than
that.

A weight set down or snatched up at once counts twice: what falls from no height at all strains by twice
its rest [D].

[D] suddenly applied load, any book of strength of materials: derived from energy.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.climate.site import Family
from panewright.structure.space.bounds import AtCorner
from panewright.structure.space.space_frame import Side
from panewright.units import GRAVITY_M_S2

SNATCH = 2.0  #: [D]
GRAVITY_FACTOR: dict[Family, float] = {
    "ASCE": 1.0,
    "EN": 1.35,
}  #: to the level of strength, EN 1990 (recalled)


@dataclass(frozen=True, slots=True)
class CornerForce:
    """Forces and moments in one corner, at the level the family holds strengths against."""

    case: str  #: in words that finish a sentence
    shear_n: float  #: across the pane
    pull_n: float = 0.0  #: in the plane of the pane, along the rail
    apart_n: float = 0.0  #: in the plane of the pane, square to the rail
    twist_nmm: float = 0.0  #: about the rail itself
    tilt_nmm: float = 0.0  #: about the line inward: bends the rail across the pane
    turn_nmm: float = 0.0  #: about the upright line: in the plane of the pane, as where the frame leans

    def __post_init__(self) -> None:
        forces, moments = (
            (self.shear_n, self.pull_n, self.apart_n),
            (self.twist_nmm, self.tilt_nmm, self.turn_nmm),
        )
        if min(*forces, *moments) < 0:
            raise ValueError(f"forces in a corner are given by their size, got {self}")

    def turned(self, turn_nmm: float, pull_n: float) -> CornerForce:
        """The same with another turn and pull; asked for each clip of each corner."""
        return CornerForce(
            self.case, self.shear_n, pull_n, self.apart_n, self.twist_nmm, self.tilt_nmm, turn_nmm
        )


def weather_force(side: Side, rail: AtCorner) -> CornerForce:
    """Wind, snow and own weight: what the corner passes to the long or the short rail."""
    force = rail.force
    return CornerForce(
        f"in wind and snow, {side} rail",
        shear_n=force.across_n,
        pull_n=force.along_n,
        apart_n=force.sideways_n,
        twist_nmm=rail.twist_nmm,
        tilt_nmm=rail.tilt_nmm,
        turn_nmm=rail.turn_nmm,
    )


def carried_n(mass_kg: float, family: Family) -> float:
    """Weight of a panel as it counts in the hands, at the level of strength. [N]"""
    return mass_kg * GRAVITY_M_S2 * SNATCH * GRAVITY_FACTOR[family]


def lifted_force(mass_kg: float, family: Family) -> CornerForce:
    """Lifted off the bench by one corner."""
    return CornerForce("lifted by one corner", carried_n(mass_kg, family) / 2)


def standing_force(
    mass_kg: float, long_mm: float, short_mm: float, family: Family, turn_nmm: float = 0.0
) -> CornerForce:
    """Standing upright on one corner: the long rail takes the larger share of the weight."""
    pull = carried_n(mass_kg, family) * long_mm / math.hypot(long_mm, short_mm)
    return CornerForce("standing on one corner", 0.0, pull, turn_nmm=turn_nmm)
