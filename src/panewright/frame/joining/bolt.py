"""A stainless bolt through an aluminium wall: how much the thread, the shank and the wall bear.

The aluminium is pressed by the bolt's side (bearing) until it yields around the hole or tears out to
the edge.

[I] ISO 3506-1: 450 / 700 MPa of class A2-70 (read in a fastener maker's sheet); areas in `thread.py`.
[M] Aluminum Design Manual J.3: bearing 2 d t Ftu, or e t Ftu near an edge, over 1.95; bolts over 2.34
    with a shear strength of 0.6 of the tensile one (recalled).
[E] EN 1999-1-1 table 8.5: bearing 2.5 a fu d t / 1.25, a = min(1, e / 3 d0); shear 0.5 fub As / 1.25 for
    stainless bolts (recalled; EN 1993-1-8 table 3.4, read, has 0.6 for some grades of carbon steel).
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.frame.joining.thread import metric_area_mm2
from panewright.frame.metals.aluminium import GAMMA_M2, OMEGA_RUPTURE, Family, alloy
from panewright.frame.metals.stainless import CLASSES
from panewright.frame.rail import Rail

OMEGA_BOLT = 2.34  #: [M]
SHEAR_SHARE: dict[Family, float] = {"ASCE": 0.6, "EN": 0.5}  #: of the tensile strength [M], [E]


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


_A2_70 = CLASSES[70].proof_mpa, CLASSES[70].rupture_mpa
M5 = Bolt("M5 A2-70", 5.0, 0.8, 5.5, *_A2_70)
M6 = Bolt("M6 A2-70", 6.0, 1.0, 6.6, *_A2_70)


def shear_limit_n(bolt: Bolt, family: Family) -> float:
    """Shear a bolt may bear across its thread. [N]  [M], [E]"""
    strength = SHEAR_SHARE[family] * bolt.rupture_mpa * bolt.area_mm2
    return strength / (OMEGA_BOLT if family == "ASCE" else GAMMA_M2)


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
