"""How deep a post has to stand in the ground so that wind does not turn it out.

ASCE family, International Building Code: free at the ground,

    d = A/2 (1 + sqrt(1 + 4.36 h / A)),   A = 2.34 P / (S1 b)

P level force h above the ground, b diameter of the concrete, S1 lateral bearing at a third of the depth.
Held at the ground by a pavement: d^2 = 4.25 P h / (S3 b). The doubling that the code gives to lone poles
(1806.3.4) is not taken.

EN family: EN 1997-1 gives no closed rule. Own reckoning: the post turns as a rigid body, the ground yields
in front of it, a known model of short piles [B]; partial factors of EN 1997-1 design approach 1, both
combinations. A national annex or an engineer may ask for another model.

    sand   H (h + d) = Kp gamma b d^3 / 2          clay   9 cu b below 1.5 b, moments about the point it
    turns at

[I] IBC 2018 1807.3.2 (formulas read; eq. 18-1, 18-3), depth for pressure no more than 12 ft.
[B] B. Broms, Lateral resistance of piles in cohesive and cohesionless soils, J. Soil Mech. Found. Div. ASCE
    90, 1964 (recalled).
[E] EN 1997-1 annex A, tables A.3, A.4: tan phi / 1.25, cu / 1.4, Q 1.3 (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Callable

from panewright.structure.mounting.ground.soil import Soil

MOST_M = 3.658  #: [I] 12 ft
SOIL_FACTOR, COHESION_FACTOR = 1.25, 1.4  #: [E] M2
LOADS_ONE, LOADS_TWO = 1.5, 1.3  #: [E] Q in combination 1 and 2
_STEPS = 60  # halvings: finer than any spade


def free_depth_m(level_n: float, arm_m: float, across_m: float, lateral_pa: float) -> float:
    """d of a post free at the ground, S1 known. [m]  [I] 18-1

    >>> round(free_depth_m(4448.2, 2.0, 0.3, 15000.0), 3)
    3.682
    """
    a = 2.34 * level_n / (lateral_pa * across_m)
    return 0.5 * a * (1 + math.sqrt(1 + 4.36 * arm_m / a)) if a > 0 else 0.0


def held_depth_m(moment_nm: float, across_m: float, lateral_pa: float) -> float:
    """d of a post held at the ground by a pavement, S3 known. [m]  [I] 18-3"""
    return math.sqrt(4.25 * moment_nm / (lateral_pa * across_m))


def asce_depth_m(level_n: float, arm_m: float, across_m: float, ground: Soil) -> float:
    """Depth that a post free at the ground needs; its S1 grows with the depth itself. [m]  [I]"""

    def enough(depth_m: float) -> bool:
        lateral = ground.asce_lateral_pa_m * min(depth_m, MOST_M) / 3
        return free_depth_m(level_n, arm_m, across_m, lateral) <= depth_m

    return _least(enough) if level_n > 0 else 0.0


def asce_held_depth_m(moment_nm: float, across_m: float, ground: Soil) -> float:
    """Depth that a post held at the ground needs; its S3 grows with the depth. [m]  [I]

    >>> from panewright.structure.mounting.ground.soil import soil
    >>> round(asce_held_depth_m(1000.0, 0.3, soil("clay")), 2)
    0.97
    """

    def enough(depth_m: float) -> bool:
        lateral = ground.asce_lateral_pa_m * min(depth_m, MOST_M)
        return held_depth_m(moment_nm, across_m, lateral) <= depth_m

    return _least(enough) if moment_nm > 0 else 0.0


def sand_limit_n(
    depth_m: float, arm_m: float, across_m: float, friction_deg: float, weight_n_m3: float
) -> float:
    """Level force at which a short post turns in sand. [N]  [B]"""
    passive = math.tan(math.radians(45 + friction_deg / 2)) ** 2
    return 0.5 * passive * weight_n_m3 * across_m * depth_m**3 / (arm_m + depth_m)


def clay_limit_n(depth_m: float, arm_m: float, across_m: float, cohesion_pa: float) -> float:
    """Level force at which a short post turns in clay; the top 1.5 diameters hold nothing. [N]  [B]

    9 cu b presses one way above the point it turns at and the other way below. With x from the dead top to
    that point and L the length below the dead top: H = p (2 x - L), H (e + 1.5 b) = p (L^2 / 2 - x^2).
    """
    length, arm = depth_m - 1.5 * across_m, arm_m + 1.5 * across_m
    if length <= 0:
        return 0.0
    press = 9 * cohesion_pa * across_m
    turn = -arm + math.sqrt(arm**2 + arm * length + length**2 / 2)
    return press * (2 * turn - length)


def en_limit_n(depth_m: float, arm_m: float, across_m: float, ground: Soil) -> float:
    """Level force of combination 1 (Q 1.5) that a depth bears, both combinations kept. [N]  [B], [E]"""
    limits = [
        factor * _turning_n(depth_m, arm_m, across_m, ground, soft)
        for factor, soft in ((1.0, False), (LOADS_ONE / LOADS_TWO, True))
    ]
    return min(limits)


def _turning_n(depth_m: float, arm_m: float, across_m: float, ground: Soil, soft: bool) -> float:
    if ground.cohesion_pa > 0:
        cohesion = ground.cohesion_pa / (COHESION_FACTOR if soft else 1.0)
        return clay_limit_n(depth_m, arm_m, across_m, cohesion)
    slope = math.tan(math.radians(ground.friction_deg)) / (SOIL_FACTOR if soft else 1.0)
    return sand_limit_n(depth_m, arm_m, across_m, math.degrees(math.atan(slope)), ground.weight_n_m3)


def en_depth_m(level_n: float, arm_m: float, across_m: float, ground: Soil) -> float:
    """Depth that bears a level force of combination 1. [m]  [B], [E]"""
    return _least(lambda depth: en_limit_n(depth, arm_m, across_m, ground) >= level_n) if level_n > 0 else 0.0


def _least(enough: Callable[[float], bool]) -> float:
    """The least depth that is enough; more depth is never less. [m]"""
    low, high = 0.0, 1.0
    while not enough(high) and high < 1e3:
        low, high = high, 2 * high
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high
