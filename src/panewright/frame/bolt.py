"""A stainless bolt through an aluminium wall: how much the thread, the shank and the wall bear.

The threaded area is that of a circle of the mean of pitch and minor diameter:

    At = pi/4 (d - 0.9382 p)^2

The aluminium is pressed by the bolt's side (bearing) until it yields around the hole or tears out to
the edge.

[I] ISO 898-1, ISO 3506-1: areas, and 450 / 700 MPa of class A2-70 (read on fastener makers' pages).
[M] Aluminum Design Manual J.3: bearing 2 d t Ftu, or e t Ftu near an edge, over 1.95; bolts over 2.34 with a
    shear strength of 0.6 of the tensile one (recalled).
[E] EN 1999-1-1 table 8.5: bearing 2.5 a fu d t / 1.25, a = min(1, e / 3 d0); EN 1993-1-8 table 3.4: shear
    0.6 fub As / 1.25 (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.frame.aluminium import GAMMA_M2, OMEGA_RUPTURE, Family, alloy
from panewright.frame.rail import Rail

_OMEGA_BOLT = 2.34
_SHEAR_SHARE = 0.6


@dataclass(frozen=True, slots=True)
class Bolt:
    """A metric bolt of stainless steel."""

    name: str
    diameter_mm: float
    pitch_mm: float
    hole_mm: float  #: medium clearance, ISO 273
    proof_mpa: float
    rupture_mpa: float

    @property
    def area_mm2(self) -> float:
        """Tensile stress area. [mm2]  [I]"""
        return metric_area_mm2(self.diameter_mm, self.pitch_mm)


M5 = Bolt("M5 A2-70", 5.0, 0.8, 5.5, 450.0, 700.0)
M6 = Bolt("M6 A2-70", 6.0, 1.0, 6.6, 450.0, 700.0)


def metric_area_mm2(diameter_mm: float, pitch_mm: float) -> float:
    """Tensile stress area of a metric thread. [mm2]  [I]

    >>> round(metric_area_mm2(6, 1), 1)
    20.1
    """
    return math.pi / 4 * (diameter_mm - 0.9382 * pitch_mm) ** 2


def shear_limit_n(bolt: Bolt, family: Family) -> float:
    """Shear a bolt may bear across its thread. [N]  [M], [E]"""
    strength = _SHEAR_SHARE * bolt.rupture_mpa * bolt.area_mm2
    return strength / (_OMEGA_BOLT if family == "ASCE" else GAMMA_M2)


def bearing_limit_n(rail: Rail, bolt: Bolt, edge_mm: float, family: Family) -> float | None:
    """Push across the rail that its wall bears around one bolt. [N]  [M], [E]

    `edge_mm` from the middle of the hole to the edge it is pushed towards. None where the family does not
    list the alloy.
    """
    d, t = bolt.diameter_mm, rail.wall_mm
    metal = alloy(rail.alloy)
    if family == "ASCE":
        return (
            None if metal.rupture_mpa is None else bearing_n(d, t, metal.rupture_mpa, edge_mm) / OMEGA_RUPTURE
        )
    strengths = metal.en_strengths_mpa(t)
    if strengths is None:
        return None
    return 2.5 * min(1.0, edge_mm / (3 * bolt.hole_mm)) * strengths[1] * d * t / GAMMA_M2


def bearing_n(diameter_mm: float, wall_mm: float, rupture_mpa: float, edge_mm: float) -> float:
    """Bearing strength of a wall, no safety in it. [N]  [M] J.3"""
    return min(2 * diameter_mm, edge_mm) * wall_mm * rupture_mpa


def bolt_limit_n(rail: Rail, bolt: Bolt, edge_mm: float, family: Family) -> float | None:
    """Least of the bolt's shear and the wall's bearing. [N]"""
    wall = bearing_limit_n(rail, bolt, edge_mm, family)
    return None if wall is None else min(wall, shear_limit_n(bolt, family))
