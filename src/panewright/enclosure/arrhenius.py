"""How fast a cure goes at one heat, from its time at two others.

    time ~ exp(E / R T),   T in kelvin [A]

Two times of one data sheet give E, and E the time at any heat between. For a reaction of 50 to 55 kJ/mol, as
two-part silicones have it, a shop ten kelvin warmer halves every time near room heat.

[A] S. Arrhenius, Z. Phys. Chem. 4, 1889, p. 226 (recalled). R: CODATA 2018, exact.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.units import KELVIN

GAS_J_MOLK = 8.314462618


@dataclass(frozen=True, slots=True)
class Timed:
    """So long at such a heat; times only need one unit."""

    time: float
    at_c: float

    def __post_init__(self) -> None:
        if not (self.time > 0 and self.at_c > -KELVIN):
            raise ValueError(f"a cure takes time at a temperature, got {self}")


def energy_j_mol(one: Timed, other: Timed) -> float:
    """Activation energy behind two times of one reaction. [J/mol]  [A]

    >>> round(energy_j_mol(Timed(48.0, 25.0), Timed(35 / 60, 100.0)) / 1000, 1)
    54.4
    """
    if one.at_c == other.at_c:
        raise ValueError(f"two times at one heat tell nothing of another, got {one}, {other}")
    return GAS_J_MOLK * math.log(one.time / other.time) / _inverse_k(one.at_c, other.at_c)


def slower(energy: float, known_c: float, at_c: float) -> float:
    """Times at one heat over those at the known one. [-]  [A]

    >>> round(slower(54.4e3, 23.0, 13.0), 2), round(slower(54.4e3, 23.0, 33.0), 2)
    (2.16, 0.49)
    """
    return math.exp(-energy / GAS_J_MOLK * _inverse_k(known_c, at_c))


def _inverse_k(one_c: float, other_c: float) -> float:
    """How much larger 1/T is at the one than at the other. [1/K]"""
    return 1 / (one_c + KELVIN) - 1 / (other_c + KELVIN)
