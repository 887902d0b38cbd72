"""From how high a crate falls: the lighter it is, the higher it is carried and the more it is thrown.

| handling | moved by hand | moved by machine, on its base | on its sides |
|---|---|---|---|
| rough | ISTA 2A heights [I] | ASTM D4169 level I [D] | 1.75 m/s [D] |
| ordinary | ISTA 1A heights [I] | level II | 1.22 m/s |
| careful | half of ISTA 1A (common practice, no source) | level III | 0.91 m/s |

A shock of a speed is a fall from speed squared over twice gravity.

[I] ISTA 1A and 2A heights by mass, 1B 150 mm above 68 kg (tables read at an inspection house, not in the
    standard). [D] ASTM D4169-09 10.3, mechanical handling: falls on base edges, blows on all sides (read).
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.units import GRAVITY_M_S2, MM

# mass below which the height holds [kg], and the heights [mm]
_ISTA_1A = ((10.0, 760.0), (19.0, 610.0), (28.0, 460.0), (45.0, 310.0), (68.0, 200.0))
_ISTA_2A = ((10.0, 970.0), (19.0, 810.0), (28.0, 660.0), (45.0, 510.0), (68.0, 310.0))
_HEAVY_MM = 150.0  # ISTA 1B
_BY_MACHINE = {"rough": (305.0, 229.0), "ordinary": (229.0, 152.0), "careful": (152.0, 76.0)}
_MACHINE_KG = 226.8
_BLOW_M_S = {"rough": 1.75, "ordinary": 1.22, "careful": 0.91}
_CAREFUL = 0.5  # of the ordinary height; common practice, no source


@dataclass(frozen=True, slots=True)
class Falls:
    """What the crate falls from."""

    down_mm: float  #: on its base and its lid
    aside_mm: float  #: on its sides, or as a blow is a fall
    source: str


def falls(mass_kg: float, handling: str, by_hand: bool, pinned_mm: float | None = None) -> Falls:
    """Heights for a crate with so much in it.

    >>> falls(12.0, "ordinary", True).down_mm, round(falls(300.0, "ordinary", False).aside_mm)
    (610.0, 76)
    """
    if mass_kg <= 0:
        raise ValueError(f"a crate has a mass, got {mass_kg}")
    if pinned_mm is not None:
        return Falls(pinned_mm, pinned_mm, "height of the order")
    if by_hand:
        height = by_hand_mm(mass_kg, handling)
        return Falls(height, height, "ISTA 1A, 1B, 2A heights by mass (seen); careful: half of 1A, shop rule")
    light, heavy = _BY_MACHINE[handling]
    down = light if mass_kg <= _MACHINE_KG else heavy
    return Falls(down, blow_mm(_BLOW_M_S[handling]), "ASTM D4169-09 10.3 mechanical handling (seen)")


def by_hand_mm(mass_kg: float, handling: str) -> float:
    """Height from which what is moved by hand falls. [mm]"""
    table = _ISTA_2A if handling == "rough" else _ISTA_1A
    height = next((height for below, height in table if mass_kg < below), _HEAVY_MM)
    return height * (_CAREFUL if handling == "careful" else 1.0)


def blow_mm(speed_m_s: float) -> float:
    """The fall that ends with this speed. [mm]

    >>> round(blow_mm(1.22), 1)
    75.9
    """
    return speed_m_s**2 / (2 * GRAVITY_M_S2) / MM
