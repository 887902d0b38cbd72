"""What a rail of thin walls bears along itself before a wall buckles, by the family that judges it.

Each wall is taken as pressed evenly over its whole width by the largest stress of the rail, whichever way the
rail is bent: on the safe side where a wall is partly pulled. The worst wall limits the rail.

ASCE, Aluminum Design Manual 2015, tempers T5 to T9 [B]: with the buckling constants of table B.4.2 [ksi],

    Bp = Fcy (1 + (Fcy / 1500)^(1/3))     Dp = Bp / 10 sqrt(Bp / E)     Cp = 0.41 Bp / Dp

and n = 5.0 for a wall free at one edge (B.5.4.1, F.5 for angles), 1.6 for one held at both (B.5.4.2): up to
(Bp - Fcy) / (n Dp) a wall yields; then it bears Bp - n Dp b/t; from Cp / n on, pi^2 E / (n b/t)^2. Over 1.65.
What a wall bears after it has buckled is not counted.

EN 1999-1-1 6.1.4 [E]: beta = b/t, eps = sqrt(250 / f0). A wall past class 3 counts with the thickness rho t,

    rho = C1 / (beta / eps) - C2 / (beta / eps)^2

As every wall of a rail is thinned by the worst rho here, its modulus shrinks by rho, and so does the limit.

[B] tables B.4.1 and B.4.2, sections B.5.4, F.5 (recalled); of extrusions Fcy = Fty (recalled).
[E] tables 6.2 and 6.3: beta3 and C1, C2 without welds; buckling classes in table 3.2b (recalled). At beta3
    the curve is 1, as it has to be.
"""

from __future__ import annotations

import math
from functools import lru_cache

from panewright.frame.buckling.flat_wall import FlatWall, Held, flat_walls
from panewright.frame.metals.aluminium import OMEGA_YIELD, Family, alloy, bending_limit_mpa, young_pa
from panewright.frame.rail import Alloy, Rail

KSI_MPA = 6.894757
_N: dict[Held, float] = {"one edge": 5.0, "both edges": 1.6}  # [B]
_CLASS_B = {"6063-T5", "6063-T52"}  # [E]; the other alloys are class A
#: (beta3, C1, C2) without welds, classes A and B [E]
_EN: dict[Held, tuple[tuple[float, float, float], tuple[float, float, float]]] = {
    "one edge": ((6.0, 10.0, 24.0), (5.0, 9.0, 20.0)),
    "both edges": ((22.0, 32.0, 220.0), (18.0, 29.0, 198.0)),
}


def asce_wall_mpa(yield_mpa: float, wall: FlatWall) -> float:
    """Stress at which a wall yields or buckles, no safety in it. [MPa]  [B]

    >>> round(asce_wall_mpa(172.0, FlatWall(11.0, "one edge")))
    150
    """
    press, young, n = yield_mpa / KSI_MPA, young_pa("ASCE") * 1e-6 / KSI_MPA, _N[wall.held]
    bp = press * (1 + math.cbrt(press / 1500))
    dp = bp / 10 * math.sqrt(bp / young)
    equal = n * wall.slenderness
    if equal <= (bp - press) / dp:
        return yield_mpa
    if equal < 0.41 * bp / dp:
        return KSI_MPA * (bp - dp * equal)
    return KSI_MPA * math.pi**2 * young / equal**2


def en_share(proof_mpa: float, wall: FlatWall, name: Alloy) -> float:
    """How much of a wall's thickness counts.  [E]

    >>> round(en_share(160.0, FlatWall(47 / 3, "one edge"), "6060-T66"), 3)
    0.645
    """
    most, c1, c2 = _EN[wall.held][name in _CLASS_B]
    beta = wall.slenderness / math.sqrt(250 / proof_mpa)
    return 1.0 if beta <= most else c1 / beta - c2 / beta**2


@lru_cache(maxsize=256)
def pressed_limit_mpa(rail: Rail, family: Family) -> float | None:
    """Stress along a rail that its walls bear; None where the family does not list the alloy. [MPa]

    >>> from panewright.frame.rail import Rail
    >>> stout = Rail("stout", "angle", 30, 30, 4, "6063-T6", 6000)
    >>> thin = Rail("thin", "angle", 30, 30, 2, "6063-T6", 6000)
    >>> round(pressed_limit_mpa(stout, "ASCE"), 1), round(pressed_limit_mpa(thin, "ASCE"), 1)
    (104.2, 79.8)
    """
    plain = bending_limit_mpa(rail.alloy, family, rail.wall_mm)
    if plain is None:
        return None
    metal = alloy(rail.alloy)
    if family == "ASCE":
        strength = metal.yield_mpa or 0.0
        return min(plain, *(asce_wall_mpa(strength, wall) / OMEGA_YIELD for wall in flat_walls(rail)))
    proof, _ = metal.en_strengths_mpa(rail.wall_mm) or (0.0, 0.0)
    return plain * min(en_share(proof, wall, rail.alloy) for wall in flat_walls(rail))


def pressed_source(family: Family) -> str:
    """Where the limit comes from."""
    if family == "ASCE":
        return "Aluminum Design Manual, Fty/1.65, Ftu/1.95, thin walls by B.5.4 and F.5"
    return "EN 1999-1-1, f0/1.10, thin walls by 6.1.4"
