"""Sideways load on a screw or bolt through a thin or thick plate into timber, by EN 1995-1-1 8.2.3.

    thin  (t <= d/2):  0.4 fh t1 d,    1.15 sqrt(2 My fh d) + rope
    thick (t >= d):    fh t1 d,    fh t1 d (sqrt(2 + 4 My / (fh d t1^2)) - 1) + rope,    2.3 sqrt(My fh d) +
    rope

Between thin and thick, straight. The rope is a quarter of the pull-out, no more than the yield part itself
(screws), a quarter of it (bolts); the proofs here take none, as wind may use the pull-out already.

[E] EN 1995-1-1:2004+A1 8.2.2, 8.2.3, 8.5.1 (8.30 to 8.33), 8.7.1: screws up to 6 mm like nails in drilled
    holes, d_ef 1.1 times the root (recalled; bolts under steel plates: parts of a worked example read).
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Joint:
    """A dowel through one plate into timber."""

    diameter_mm: float  #: d or d_ef
    moment_nmm: float  #: My,Rk
    in_wood_mm: float  #: t1
    embedding_mpa: float  #: fh,k
    plate_mm: float


def embedding_mpa(density_kg_m3: float, diameter_mm: float, grain_deg: float) -> float:
    """fh,k of softwood with drilled holes. [MPa]  [E] 8.31 to 8.33

    >>> round(embedding_mpa(350.0, 12.0, 0.0), 2), round(embedding_mpa(350.0, 12.0, 90.0), 2)
    (25.26, 16.51)
    """
    along = 0.082 * (1 - 0.01 * diameter_mm) * density_kg_m3
    if diameter_mm <= 6:
        return along
    turn = math.radians(grain_deg)
    k90 = 1.35 + 0.015 * diameter_mm
    return along / (k90 * math.sin(turn) ** 2 + math.cos(turn) ** 2)


def yield_moment_nmm(rupture_mpa: float, diameter_mm: float) -> float:
    """My,Rk of a round dowel. [N mm]  [E] 8.30

    >>> round(yield_moment_nmm(400.0, 12.0))
    76745
    """
    return float(0.3 * rupture_mpa * diameter_mm**2.6)


def thin_n(joint: Joint, rope_n: float = 0.0) -> float:
    """F_v,Rk under a thin plate. [N]  [E] 8.9"""
    hold = joint.embedding_mpa * joint.diameter_mm
    return min(0.4 * hold * joint.in_wood_mm, 1.15 * math.sqrt(2 * joint.moment_nmm * hold) + rope_n)


def thick_n(joint: Joint, rope_n: float = 0.0) -> float:
    """F_v,Rk under a thick plate. [N]  [E] 8.10"""
    hold, t1 = joint.embedding_mpa * joint.diameter_mm, joint.in_wood_mm
    once = hold * t1 * (math.sqrt(2 + 4 * joint.moment_nmm / (hold * t1**2)) - 1)
    twice = 2.3 * math.sqrt(joint.moment_nmm * hold)
    return min(hold * t1, once + rope_n, twice + rope_n)


def lateral_n(joint: Joint, rope_n: float = 0.0) -> float:
    """F_v,Rk between thin and thick. [N]  [E] 8.2.3(1)"""
    share = min(1.0, max(0.0, joint.plate_mm / joint.diameter_mm * 2 - 1))
    return (1 - share) * thin_n(joint, rope_n) + share * thick_n(joint, rope_n)


def together(pull_n: float, side_n: float, pull_limit_n: float, side_limit_n: float) -> float:
    """Share used by pull and side load on a screw: the root of the sum of squares. [-]  [E] 8.28

    >>> together(3.0, 4.0, 10.0, 10.0)
    0.5
    """
    if min(pull_limit_n, side_limit_n) <= 0:
        return math.inf if pull_n or side_n else 0.0
    return math.hypot(pull_n / pull_limit_n, side_n / side_limit_n)
