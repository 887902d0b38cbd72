"""Extruded aluminium: stiffness, weight, expansion, and the stress each family of codes allows.

A family has its own strengths and factors; an alloy that a family does not list has no limit there (None),
never a borrowed one. Welding softens these alloys: true for rails that are screwed or clipped.

[B] ASTM B221 least strengths, wall up to 12.5 mm (read in an extruder's sheet).
[M] Aluminum Design Manual: Omega 1.65 at yield, 1.95 at rupture; E 10 100 ksi (recalled).
[E] EN 1999-1-1 table 3.2b, f0 and fu of extruded profiles by wall; gamma_M1 1.10, gamma_M2 1.25; E 70 GPa
    (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.frame.rail import Alloy

Family = Literal["ASCE", "EN"]

OMEGA_YIELD, OMEGA_RUPTURE = 1.65, 1.95  #: [M]
GAMMA_M1, GAMMA_M2 = 1.10, 1.25  #: [E]
POISSON = 0.33


@dataclass(frozen=True, slots=True)
class Aluminium:
    """One alloy and temper. Strengths in MPa; None where the family does not list it."""

    name: Alloy
    density_kg_m3: float
    expansion_per_k: float
    yield_mpa: float | None  #: Fty [B]
    rupture_mpa: float | None  #: Ftu [B]
    en_by_wall: tuple[tuple[float, float, float], ...]  #: (wall up to mm, f0, fu) [E]

    def en_strengths_mpa(self, wall_mm: float) -> tuple[float, float] | None:
        """f0 and fu of a profile with this wall. [MPa]"""
        for most, proof, rupture in self.en_by_wall:
            if wall_mm <= most:
                return proof, rupture
        return None


_ALLOYS = {
    one.name: one
    for one in (
        Aluminium("6063-T5", 2690, 23.4e-6, 110.0, 152.0, ((3, 130, 175), (25, 110, 160))),
        Aluminium("6063-T52", 2690, 23.4e-6, 110.0, 152.0, ()),
        Aluminium("6063-T6", 2690, 23.4e-6, 172.0, 207.0, ((25, 160, 195),)),
        Aluminium("6061-T6", 2700, 23.6e-6, 241.0, 262.0, ((25, 240, 260),)),
        Aluminium("6060-T66", 2700, 23.4e-6, None, None, ((3, 160, 215), (25, 150, 195))),
    )
}


def alloy(name: Alloy) -> Aluminium:
    """The figures of an alloy."""
    return _ALLOYS[name]


def young_pa(family: Family) -> float:
    """Stiffness each family reckons with. [Pa]  [M], [E]"""
    return 69.6e9 if family == "ASCE" else 70.0e9


def bending_limit_mpa(name: Alloy, family: Family, wall_mm: float) -> float | None:
    """Bending stress a rail may bear. [MPa]

    ASCE: allowable, against service loads, the lesser of Fty / 1.65 and Ftu / 1.95 [M]. EN: design, against
    factored loads, f0 / 1.10 [E]. None where the family does not list the alloy.

    >>> round(bending_limit_mpa("6063-T6", "ASCE", 3), 2)
    104.24
    """
    metal = alloy(name)
    if family == "ASCE":
        if metal.yield_mpa is None or metal.rupture_mpa is None or wall_mm > 12.5:
            return None
        return min(metal.yield_mpa / OMEGA_YIELD, metal.rupture_mpa / OMEGA_RUPTURE)
    strengths = metal.en_strengths_mpa(wall_mm)
    return None if strengths is None else strengths[0] / GAMMA_M1


def bending_source(family: Family) -> str:
    """Where the bending limit comes from."""
    return "Aluminum Design Manual, Fty/1.65, Ftu/1.95" if family == "ASCE" else "EN 1999-1-1, f0/1.10"
