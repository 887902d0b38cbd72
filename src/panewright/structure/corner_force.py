"""What one corner of the frame passes from rail to rail: in wind and snow, and in the hands of those who
carry it.

Wind and snow: the short rail hangs in its corners, so the corner passes its end's reaction. Screwed
corners are hinges and pass no moment. A welded corner holds the short rail's end as far as the long rail,
held at its first bracket, does not twist:

    M = M0 k / (k + 2 E I / b),  k = G J / s,  M0 = 5 w b^2 / 96 of a triangle w high

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
from panewright.frame.aluminium import POISSON, young_pa
from panewright.frame.rail import Rail
from panewright.frame.section import section
from panewright.structure.loads import GRAVITY_M_S2, Loads

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
    pull_n: float = 0.0  #: in the plane of the pane
    bend_nmm: float = 0.0  #: of the short rail's end, across the pane
    rack_nmm: float = 0.0  #: in the plane of the pane, as the frame leans

    def __post_init__(self) -> None:
        if min(self.shear_n, self.pull_n, self.bend_nmm, self.rack_nmm) < 0:
            raise ValueError(f"forces in a corner are given by their size, got {self}")


def weather_force(reaction_n: float, bend_nmm: float = 0.0) -> CornerForce:
    """Wind, snow and own weight: the reaction at the end of the short rail."""
    return CornerForce("in wind and snow", reaction_n, bend_nmm=bend_nmm)


def end_moment_nmm(rail: Rail, short_mm: float, from_end_mm: float, loads: Loads) -> float:
    """Moment at the end of a short rail that is welded to the long ones. [N mm]"""
    peak = max(loads.design_down_pa, loads.design_up_pa) * 1e-6 * short_mm / 2  # N/mm
    return 5 * peak * short_mm**2 / 96 * held_share(rail, short_mm, from_end_mm, loads.family)


def held_share(rail: Rail, short_mm: float, from_end_mm: float, family: Family) -> float:
    """How much of a clamped end's moment a long rail holds by its twisting. [-]

    >>> angle = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
    >>> round(held_share(angle, 1000, 300, "ASCE"), 3)
    0.015
    """
    young, shape = young_pa(family) * 1e-6, section(rail)
    twist = young / (2 * (1 + POISSON)) * shape.j_mm4 / max(from_end_mm, 1.0)
    bend = 2 * young * shape.ix_mm4 / short_mm
    return twist / (twist + bend)


def carried_n(mass_kg: float, family: Family) -> float:
    """Weight of a panel as it counts in the hands, at the level of strength. [N]"""
    return mass_kg * GRAVITY_M_S2 * SNATCH * GRAVITY_FACTOR[family]


def lifted_force(mass_kg: float, family: Family) -> CornerForce:
    """Lifted off the bench by one corner."""
    return CornerForce("lifted by one corner", carried_n(mass_kg, family) / 2)


def standing_force(
    mass_kg: float, long_mm: float, short_mm: float, family: Family, rack_nmm: float = 0.0
) -> CornerForce:
    """Standing upright on one corner: the long rail takes the larger share of the weight."""
    pull = carried_n(mass_kg, family) * long_mm / math.hypot(long_mm, short_mm)
    return CornerForce("standing on one corner", 0.0, pull, rack_nmm=rack_nmm)
