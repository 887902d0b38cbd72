"""A tapping screw, which cuts its own thread into the far wall.

bearing    min(2 D, e) t Ftu [S]; from 2.5 sqrt(t3 d) fu to 1.5 t d fu, by how thick the far wall is [T]
tilting    4.2 sqrt(t2^3 D) Ftu2, where the far wall is no thicker than the screw [S] pull-out   Ks D t2
Fty2 [S]; 0.95 fu sqrt(t2^3 d) [T] head       (1 + 1.7 t/Dws) Dws t Fty [S] shear      0.6 Rm A / 1.25
[S]; 380 A [T]

[S] Aluminum Design Manual 2015 J.5: Omega 3.0; Ks 1.01 from 0.06 in of wall, 1.2 from 0.08 to 0.125 in;
    for 0.164 to 0.25 in of screw (recalled; bearing and pull-over read in a screw maker's tables).
[T] EN 1999-1-4 clause 8.3: bearing, 5.5 mm and more of screw, no more than 260 MPa counted, thin wall on
    top (read); 380 MPa in shear, pull-out, 560 MPa in tension (recalled); gamma_M3 1.25. It has a head
    pulled through only sheet up to 1.5 mm (recalled): no limit for rails.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.frame.joining.bolt import bearing_n
from panewright.frame.joining.screw import OMEGA_SCREW, pull_over_n
from panewright.frame.joining.wall import Wall
from panewright.frame.metals.aluminium import Family
from panewright.units import INCH_MM

GAMMA_M3 = 1.25  #: [T]
_ASCE_MM = 0.164 * INCH_MM, 0.25 * INCH_MM  # of screw [S]
_EN_MM = 5.5, 8.0  # of screw [T]
_RUPTURE_MPA = 700.0  # stainless A2-70
_COUNTED_MPA = 260.0  # of the wall, at most [T]
_SHARE_IN_SHEAR, _SHEAR_FACTOR = 0.6, 1.25  # [S]


@dataclass(frozen=True, slots=True)
class TappingScrew:
    """A stainless tapping screw."""

    name: str
    diameter_mm: float
    root_mm2: float  #: area at the root of its thread
    hole_mm: float  #: clearance, in the wall under its head
    head_mm: float


def within_rule(screw: TappingScrew, family: Family) -> bool:
    """Whether the family's rules are for a screw of this size."""
    least, most = _ASCE_MM if family == "ASCE" else _EN_MM
    return least <= screw.diameter_mm <= most


def shear_n(screw: TappingScrew, family: Family) -> float:
    """Shear that the screw may bear. [N]  [S], [T]"""
    if family == "ASCE":
        return _SHARE_IN_SHEAR * _RUPTURE_MPA * screw.root_mm2 / (_SHEAR_FACTOR * OMEGA_SCREW)
    return 380.0 * screw.root_mm2 / GAMMA_M3


def walls_n(screw: TappingScrew, near: Wall, far: Wall, edge_mm: float, family: Family) -> float:
    """Push that the two walls bear, tilting of the screw counted. [N]  [S], [T]"""
    if family == "EN":
        return thin_sheet_bearing_n(screw.diameter_mm, near, far)
    d = screw.diameter_mm
    borne = [bearing_n(d, wall.thickness_mm, wall.rupture_mpa, edge_mm) for wall in (near, far)]
    if far.thickness_mm <= d:
        borne.append(tilting_n(d, far))
    return min(borne) / OMEGA_SCREW


def tilting_n(diameter_mm: float, far: Wall) -> float:
    """Push at which the screw tilts out of the far wall, no safety in it. [N]  [S]"""
    return 4.2 * math.sqrt(far.thickness_mm**3 * diameter_mm) * far.rupture_mpa


def thin_sheet_bearing_n(diameter_mm: float, near: Wall, far: Wall) -> float:
    """Bearing of the thinner of two walls, between tilting and not by how thick the other is. [N]  [T]"""
    t, other = sorted((near.thickness_mm, far.thickness_mm))
    strength = min(near.rupture_mpa, far.rupture_mpa, _COUNTED_MPA)
    most = 1.5 * t * diameter_mm * strength
    tilted = min(2.5 * math.sqrt(t**3 * diameter_mm) * strength, most)
    share = min(1.0, (other / t - 1.0) / 1.5)
    return (tilted + share * (most - tilted)) / GAMMA_M3


def pull_out_n(screw: TappingScrew, far: Wall, family: Family) -> float | None:
    """Pull that the thread cut into the far wall bears; None past the walls the rule is for. [N]  [S], [T]"""
    t, d = far.thickness_mm, screw.diameter_mm
    if family == "EN":
        return 0.95 * min(far.rupture_mpa, _COUNTED_MPA) * math.sqrt(t**3 * d) / GAMMA_M3
    inches = t / INCH_MM
    if not 0.06 <= inches <= 0.125:
        return None
    return (1.01 if inches < 0.08 else 1.2) * d * t * far.yield_mpa / OMEGA_SCREW


def pull_n(screw: TappingScrew, near: Wall, far: Wall, family: Family) -> float | None:
    """Pull along the screw: thread, head and shank; None where the family has no rule. [N]"""
    out = pull_out_n(screw, far, family)
    if family == "EN" or out is None:
        return None
    shank = _RUPTURE_MPA * screw.root_mm2 / (_SHEAR_FACTOR * OMEGA_SCREW)
    return min(out, pull_over_n(screw.head_mm, near) / OMEGA_SCREW, shank)
