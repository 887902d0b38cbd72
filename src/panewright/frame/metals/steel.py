"""Steel of posts and brackets: stiffness, weight, and the stress each family of codes allows.

A family that does not list a steel has no limit for it (None). True for walls that do not buckle first.

[A] AISC 360-16 chapter F: Fy / 1.67; ASTM A500 grade B round 42 ksi, 58 ksi. AISC 370-21 for stainless: the
    same 1.67; ASTM A240 type 304: 30 ksi, 75 ksi. All recalled.
[E] EN 1993-1-1 6.1: fy / 1.00; EN 10025-2 S235: 235, 360 MPa up to 16 mm. EN 1993-1-4 table 2.1 and 5.1:
    1.4301 hot rolled plate 210, 520 MPa, gamma_M0 1.10. All recalled.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

SteelName = Literal["S235", "A500 B", "stainless 304"]
Family = Literal["ASCE", "EN"]

OMEGA = 1.67  #: [A]


@dataclass(frozen=True, slots=True)
class Steel:
    """One steel. Strengths in MPa; None where the family does not list it."""

    name: SteelName
    density_kg_m3: float
    young_pa: float
    asce_mpa: tuple[float, float] | None  #: Fy, Fu [A]
    en_mpa: tuple[float, float] | None  #: fy, fu [E]
    gamma_m0: float  #: [E]


_STEELS = {
    one.name: one
    for one in (
        Steel("S235", 7850, 210e9, None, (235.0, 360.0), 1.00),
        Steel("A500 B", 7850, 200e9, (290.0, 400.0), None, 1.00),
        Steel("stainless 304", 7900, 193e9, (207.0, 517.0), (210.0, 520.0), 1.10),
    )
}
NAMES: tuple[SteelName, ...] = tuple(_STEELS)


def steel(name: SteelName) -> Steel:
    """The figures of a steel."""
    return _STEELS[name]


def yield_limit_mpa(name: SteelName, family: Family) -> float | None:
    """Bending stress it may bear, ASCE under service loads, EN under factored ones. [MPa]  [A], [E]

    >>> round(yield_limit_mpa("A500 B", "ASCE"), 1), yield_limit_mpa("S235", "ASCE")
    (173.7, None)
    """
    metal = steel(name)
    if family == "ASCE":
        return None if metal.asce_mpa is None else metal.asce_mpa[0] / OMEGA
    return None if metal.en_mpa is None else metal.en_mpa[0] / metal.gamma_m0


def rupture_mpa(name: SteelName, family: Family) -> float | None:
    """Tensile strength, no safety in it. [MPa]"""
    strengths = steel(name).asce_mpa if family == "ASCE" else steel(name).en_mpa
    return None if strengths is None else strengths[1]
