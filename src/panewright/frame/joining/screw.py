"""A machine screw with its nut, through two walls: shear, bearing, tension, and its head pulled through.

    shear      share of Rm At
    bearing    min(2 D, e) t Ftu [M]; k1 ab fu d t [E]
    tension    0.75 Rm At [M]; 0.9 fub As [E]
    head       (1 + 1.7 t/Dws) Dws t Fty [S]; 0.6 pi dm t fu [E]

The nut is as strong as its screw (ISO 3506-2), so no thread strips.

[M] Aluminum Design Manual J.3: Omega 2.34 for bolts, 1.95 for bearing (recalled).
[S] Aluminum Design Manual 2015 J.5, pull-over, Omega 3.0 (recalled; its figures read in a screw maker's
    table).
[E] EN 1999-1-1 table 8.5: stainless 0.5 fub As (recalled); k1 = min(2.8 e2/d0 - 1.7, 2.5), ab = min(e1/3
    d0, 1), punching and tension as EN 1993-1-8 table 3.4 (read); gamma_M2 1.25.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.frame.joining.bolt import OMEGA_BOLT, SHEAR_SHARE, bearing_n
from panewright.frame.joining.thread import metric_area_mm2, unified_area_mm2
from panewright.frame.joining.wall import Wall
from panewright.frame.metals.aluminium import GAMMA_M2, OMEGA_RUPTURE, Family
from panewright.frame.metals.stainless import CLASSES, Class

OMEGA_SCREW = 3.0  #: [S]


@dataclass(frozen=True, slots=True)
class Screw:
    """A stainless machine screw, washer under its head and nut behind."""

    name: str
    diameter_mm: float
    area_mm2: float  #: tensile stress area
    hole_mm: float  #: clearance
    head_mm: float  #: across the washer or the head, whichever is wider
    grade: Class = 70

    @property
    def rupture_mpa(self) -> float:
        """Tensile strength. [MPa]"""
        return CLASSES[self.grade].rupture_mpa


def metric_screw(diameter_mm: float, pitch_mm: float, hole_mm: float, head_mm: float) -> Screw:
    """A screw of metric thread and class A2-70."""
    area = metric_area_mm2(diameter_mm, pitch_mm)
    return Screw(f"screw M{diameter_mm:g} A2-70", diameter_mm, area, hole_mm, head_mm)


def unified_screw(name: str, diameter_in: float, threads_per_inch: float, hole_mm: float) -> Screw:
    """A screw of unified thread, stainless of the strength of A2-70, its washer twice as wide as itself."""
    area = unified_area_mm2(diameter_in, threads_per_inch)
    return Screw(name, diameter_in * 25.4, area, hole_mm, 2 * diameter_in * 25.4)


def shear_n(screw: Screw, family: Family) -> float:
    """Shear that the thread may bear. [N]  [M], [E]

    >>> round(shear_n(metric_screw(5, 0.8, 5.5, 10), "EN"))
    3971
    """
    safety = OMEGA_BOLT if family == "ASCE" else GAMMA_M2
    return SHEAR_SHARE[family] * screw.rupture_mpa * screw.area_mm2 / safety


def wall_bearing_n(screw: Screw, wall: Wall, edge_mm: float, family: Family) -> float:
    """Push that a wall bears from a screw whose hole lies so far from the nearest edge. [N]  [M], [E]"""
    d, t = screw.diameter_mm, wall.thickness_mm
    if family == "ASCE":
        return bearing_n(d, t, wall.rupture_mpa, edge_mm) / OMEGA_RUPTURE
    across = min(2.8 * edge_mm / screw.hole_mm - 1.7, 2.5)
    along = min(edge_mm / (3 * screw.hole_mm), screw.rupture_mpa / wall.rupture_mpa, 1.0)
    return max(0.0, across * along * wall.rupture_mpa * d * t / GAMMA_M2)


def tension_n(screw: Screw, family: Family) -> float:
    """Tension that the thread may bear. [N]  [M], [E]"""
    strength = screw.rupture_mpa * screw.area_mm2
    return 0.75 * strength / OMEGA_BOLT if family == "ASCE" else 0.9 * strength / GAMMA_M2


def pull_over_n(head_mm: float, wall: Wall) -> float:
    """Pull at which a head comes through a wall, no safety in it. [N]  [S]

    >>> round(pull_over_n(10.0, Wall(3.0, 172.0, 207.0)))
    7792
    """
    return (1.0 + 1.7 * wall.thickness_mm / head_mm) * head_mm * wall.thickness_mm * wall.yield_mpa


def head_n(screw: Screw, wall: Wall, family: Family) -> float:
    """Pull that the wall under the head bears. [N]  [S], [E]"""
    if family == "ASCE":
        return pull_over_n(screw.head_mm, wall) / OMEGA_SCREW
    return 0.6 * math.pi * screw.head_mm * wall.thickness_mm * wall.rupture_mpa / GAMMA_M2
