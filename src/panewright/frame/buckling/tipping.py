"""How far apart a rail may be held before it tips over sideways as it bends (lateral torsional buckling).

A rail bent about its stiff principal axis, by a moment even over the length L between two holds that keep it
from turning about itself, tips at

    Me = pi^2 E Iz / L^2 (sqrt(beta^2 + Cw / Iz + G J L^2 / (pi^2 E Iz)) - beta)                       [T]

Iz of the weak axis, J of twisting, Cw of warping about the shear centre; beta, half of the figure that
textbooks give, tells how uneven the section is: the rail is bent both ways, so the worse sign is taken.

A yielding rail tips sooner. With My = F W, F where the rail yields and W its modulus about the stiff axis:

    ASCE, Aluminum Design Manual 2015 F.5.2 [A]   Me <= My: (0.92 - 0.17 Me/My) Me
                                                  beyond: (1.92 - 1.17 sqrt(My/Me)) My, up to My; over 1.65
    EN 1999-1-1 6.3.2 [E]   l = sqrt(My/Me), phi = (1 + 0.20 (l - 0.4) + l^2)/2,
                            chi = 1 / (phi + sqrt(phi^2 - l^2)), 1 up to l = 0.4; My chi / 1.10

The answer is a stress, the moment over W; so all stress of a rail is taken as if it came of that one moment,
on the safe side. The load lies in the seat, near the shear centre's height: it makes this no worse.

[T] S. Timoshenko, J. Gere, Theory of Elastic Stability, and many textbooks (recalled).
[A] F.5.2, F.4 (recalled). [E] 6.3.2.2, class 3 and 4 sections (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from panewright.frame.metals.aluminium import GAMMA_M1, OMEGA_YIELD, POISSON, Family, alloy, young_pa
from panewright.frame.rail import Rail
from panewright.frame.shape.outline import edges
from panewright.frame.shape.profile import outlines
from panewright.frame.shape.section import section

Point = tuple[float, float]
_CUBIC = ((1 / 3, 1 / 3, -27 / 48), (0.6, 0.2, 25 / 48), (0.2, 0.6, 25 / 48), (0.2, 0.2, 25 / 48))


def tipping_moment_nmm(rail: Rail, held_mm: float, young_mpa: float) -> float:
    """Even moment about the stiff axis at which a rail held so far apart tips, still elastic. [N mm]  [T]"""
    whole = section(rail)
    weak = math.pi**2 * young_mpa * whole.imin_mm4 / held_mm**2
    twist = young_mpa / (2 * (1 + POISSON)) * whole.j_mm4
    uneven = uneven_mm(rail)
    return weak * (math.sqrt(uneven**2 + whole.warping_mm6 / whole.imin_mm4 + twist / weak) - uneven)


@lru_cache(maxsize=256)
def uneven_mm(rail: Rail) -> float:
    """The integral of z (w^2 + z^2) over 2 Iw, less the shear centre's z; its size. [mm]

    w along the stiff axis, z across it, from the centroid. Nothing for an angle of equal legs.

    >>> from panewright.frame.rail import Rail
    >>> round(uneven_mm(Rail("even", "angle", 40, 40, 3, "6060-T66", 6000)), 6)
    0.0
    """
    whole = section(rail)
    turn = math.radians(whole.principal_deg)
    x, y = whole.shear_x_mm - whole.x_mm, whole.shear_y_mm - whole.y_mm
    return abs(_third_mm5(rail, turn) / (2 * whole.imax_mm4) - (y * math.cos(turn) - x * math.sin(turn)))


def _third_mm5(rail: Rail, turn: float) -> float:
    """The integral of z (w^2 + z^2): over triangles from the centroid to each edge, exact for cubes."""
    total = 0.0
    for (ax, ay), (bx, by) in _edges(rail):
        twice = ax * by - bx * ay
        for one, other, share in _CUBIC:
            x, y = one * ax + other * bx, one * ay + other * by
            total += twice / 2 * share * (y * math.cos(turn) - x * math.sin(turn)) * (x * x + y * y)
    return total


def _edges(rail: Rail) -> Iterator[tuple[Point, Point]]:
    """Of all lines, from the centroid."""
    x, y = section(rail).x_mm, section(rail).y_mm
    for line in outlines(rail):
        for (ax, ay), (bx, by) in edges(line):
            yield (ax - x, ay - y), (bx - x, by - y)


def stiff_modulus_mm3(rail: Rail) -> float:
    """Moment about the stiff axis over the largest stress it makes. [mm3]"""
    whole = section(rail)
    turn = math.radians(whole.principal_deg)
    far = max(abs(y * math.cos(turn) - x * math.sin(turn)) for x, y in whole.corners_mm)
    return whole.imax_mm4 / far


@lru_cache(maxsize=1024)
def tipping_limit_mpa(rail: Rail, family: Family, held_mm: float) -> float | None:
    """Stress a rail bears before it tips between such holds; None where the alloy is not listed. [MPa]

    >>> from panewright.frame.rail import Rail
    >>> rail = Rail("L38", "angle", 38.1, 38.1, 3.175, "6063-T6", 6000)
    >>> [round(tipping_limit_mpa(rail, "ASCE", far), 1) for far in (300.0, 1000.0, 2000.0)]
    [104.2, 92.8, 54.5]
    """
    strength = _yield_mpa(rail, family)
    if strength is None:
        return None
    tips = tipping_moment_nmm(rail, held_mm, young_pa(family) * 1e-6) / stiff_modulus_mm3(rail)
    share = tips / strength
    if family == "ASCE":
        return strength / OMEGA_YIELD * asce_share(share)
    return strength / GAMMA_M1 * en_share(share)


def asce_share(tips: float) -> float:
    """How much of yielding a rail bears that tips, still elastic, at so many times yielding.  [A]"""
    return min(1.0, (0.92 - 0.17 * tips) * tips if tips <= 1 else 1.92 - 1.17 / math.sqrt(tips))


def en_share(tips: float) -> float:
    """The same by the other book.  [E]"""
    slender = 1 / math.sqrt(tips)
    if slender <= 0.4:
        return 1.0
    phi = (1 + 0.20 * (slender - 0.4) + slender**2) / 2
    return min(1.0, 1 / (phi + math.sqrt(phi**2 - slender**2)))


def _yield_mpa(rail: Rail, family: Family) -> float | None:
    metal = alloy(rail.alloy)
    if family == "ASCE":
        return metal.yield_mpa if rail.wall_mm <= 12.5 else None
    strengths = metal.en_strengths_mpa(rail.wall_mm)
    return None if strengths is None else strengths[0]


def tipping_source(family: Family) -> str:
    """Where the limit comes from."""
    return "Aluminum Design Manual F.5.2" if family == "ASCE" else "EN 1999-1-1 6.3.2"
