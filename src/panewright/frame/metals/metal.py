"""What any metal of the frame's shelf bears: aluminium by its own rules, steel by its own.

Shear at yield is taken as 0.6 of tension where the American books have it (Aluminum Design Manual G, AISC 360
G), and as 1 / sqrt 3 where the European ones do (EN 1999-1-1 6.2.6, EN 1993-1-1 6.2.6). All recalled.
"""

from __future__ import annotations

import math
from typing import Literal, cast

from panewright.frame.metals import aluminium, steel
from panewright.frame.metals.steel import SteelName
from panewright.frame.rail import Alloy

Metal = Literal["6063-T5", "6063-T52", "6063-T6", "6061-T6", "6060-T66", "S235", "A500 B", "stainless 304"]
Family = Literal["ASCE", "EN"]


def is_steel(metal: Metal) -> bool:
    """Whether the rules for steel hold, and not those for aluminium."""
    return metal in steel.NAMES


def bending_limit_mpa(metal: Metal, family: Family, wall_mm: float) -> float | None:
    """Bending stress it may bear; None where the family does not list it. [MPa]"""
    if is_steel(metal):
        return steel.yield_limit_mpa(cast(SteelName, metal), family)
    return aluminium.bending_limit_mpa(cast(Alloy, metal), family, wall_mm)


def shear_limit_mpa(metal: Metal, family: Family, wall_mm: float) -> float | None:
    """Shear stress it may bear. [MPa]

    >>> round(shear_limit_mpa("S235", "EN", 3), 1), round(shear_limit_mpa("6063-T6", "ASCE", 3), 1)
    (135.7, 62.5)
    """
    bending = bending_limit_mpa(metal, family, wall_mm)
    return None if bending is None else bending * (0.6 if family == "ASCE" else 1 / math.sqrt(3))


def rupture_mpa(metal: Metal, family: Family, wall_mm: float) -> float | None:
    """Tensile strength, no safety in it. [MPa]"""
    if is_steel(metal):
        return steel.rupture_mpa(cast(SteelName, metal), family)
    alloy = aluminium.alloy(cast(Alloy, metal))
    strengths = alloy.en_strengths_mpa(wall_mm)
    return alloy.rupture_mpa if family == "ASCE" else None if strengths is None else strengths[1]


def young_pa(metal: Metal, family: Family) -> float:
    """Stiffness. [Pa]"""
    return steel.steel(cast(SteelName, metal)).young_pa if is_steel(metal) else aluminium.young_pa(family)


def density_kg_m3(metal: Metal) -> float:
    """Mass of a cubic metre. [kg/m3]"""
    if is_steel(metal):
        return steel.steel(cast(SteelName, metal)).density_kg_m3
    return aluminium.alloy(cast(Alloy, metal)).density_kg_m3


def bending_source(metal: Metal, family: Family) -> str:
    """Where the bending limit comes from."""
    if not is_steel(metal):
        return aluminium.bending_source(family)
    if metal == "stainless 304":
        return "AISC 370 Fy/1.67 (recalled)" if family == "ASCE" else "EN 1993-1-4 fy/1.10 (recalled)"
    return "AISC 360 Fy/1.67 (recalled)" if family == "ASCE" else "EN 1993-1-1 fy/1.00 (recalled)"
