"""Welded aluminium: heat within 25 mm of the weld undoes part of the temper, and the strength goes with it.

[M] Aluminum Design Manual table A.4.3: Ftuw, Ftyw, within 1 in of a weld (recalled; 24 ksi of 6061 also
    read in welders' talk of AWS D1.2); Omega 1.65 and 1.95.
[E] EN 1999-1-1 table 3.2b, f0,haz and fu,haz of extruded profiles (read); table 8.8, weld metal 5356 on
    6060, 6063 and 6061 (recalled); gamma_Mw 1.25, gamma_M1 1.10.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.frame.metals.aluminium import (
    GAMMA_M1,
    GAMMA_M2,
    OMEGA_RUPTURE,
    OMEGA_YIELD,
    Family,
    alloy,
)
from panewright.frame.rail import Alloy

THROAT_SHARE = 0.7  #: of the wall, a weld from one side with no backing, ground flush; common practice
GAMMA_MW = 1.25  #: [E]


@dataclass(frozen=True, slots=True)
class Softened:
    """Metal beside a weld, and the weld's own. [MPa]"""

    yield_mpa: float
    rupture_mpa: float
    weld_mpa: float


_ASCE: dict[Alloy, Softened] = {  # 17 and 8 ksi, 24 and 15 ksi; the metal beside the weld is the weaker
    "6063-T5": Softened(55.0, 117.0, 117.0),
    "6063-T52": Softened(55.0, 117.0, 117.0),
    "6063-T6": Softened(55.0, 117.0, 117.0),
    "6061-T6": Softened(103.0, 165.0, 165.0),
}
_EN: dict[Alloy, Softened] = {
    "6063-T5": Softened(60.0, 100.0, 160.0),
    "6063-T6": Softened(65.0, 110.0, 160.0),
    "6060-T66": Softened(65.0, 110.0, 160.0),
    "6061-T6": Softened(115.0, 175.0, 190.0),
}


def softened(name: Alloy, family: Family) -> Softened | None:
    """An alloy beside a weld; None where the family does not list it."""
    return (_ASCE if family == "ASCE" else _EN).get(name)


def kept_share(name: Alloy, wall_mm: float) -> float | None:
    """Proof strength that is left beside a weld, of that of the bar, EN. [-]  [E]

    >>> round(kept_share("6063-T6", 3.0), 2)
    0.41
    """
    metal, before = softened(name, "EN"), alloy(name).en_strengths_mpa(wall_mm)
    return None if metal is None or before is None else metal.yield_mpa / before[0]


def rail_limit_mpa(name: Alloy, family: Family) -> float | None:
    """Bending stress a rail may bear beside a weld. [MPa]  [M], [E]"""
    metal = softened(name, family)
    if metal is None:
        return None
    if family == "ASCE":
        return min(metal.yield_mpa / OMEGA_YIELD, metal.rupture_mpa / OMEGA_RUPTURE)
    return min(metal.yield_mpa / GAMMA_M1, metal.rupture_mpa / GAMMA_M2)


def weld_limit_mpa(name: Alloy, family: Family) -> float | None:
    """Comparison stress, root of s^2 + 3 t^2, that a butt weld and the metal beside it may bear. [MPa]"""
    metal = softened(name, family)
    if metal is None:
        return None
    if family == "ASCE":
        return min(metal.weld_mpa, metal.rupture_mpa) / OMEGA_RUPTURE
    return min(metal.weld_mpa, metal.rupture_mpa) / GAMMA_MW
