"""Layers of a panel, each by what heat it lets through: solid sheets, and closed air spaces.

Solid: conductivity over thickness. Air space: the air itself, its rolls where the lower side is the hotter
one, and radiation from side to side. Rolls begin at R = Ra cos b = 1708 [H]:

    Nu = 1 + 1.44 (1 - 1708 (sin 1.8 b)^1.6 / R) (1 - 1708 / R)+ + ((R / 5830)^(1/3) - 1)+

where ( )+ is never less than nothing and b is the tilt, 75 degrees at most. Where the upper side is the
hotter one the air lies still.

[H] K. G. T. Hollands, T. E. Unny, G. D. Raithby, L. Konicek, J. Heat Transfer 98, 1976, p. 189: tilt 0 to 75
    degrees (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.climate.balance.film import conductivity_w_mk, rayleigh
from panewright.climate.balance.surroundings import STEFAN_W_M2K4
from panewright.units import MM

_STEEPEST_DEG = 75.0  # of [H]
_STARTS = 1708.0


@dataclass(frozen=True, slots=True)
class Solid:
    """A sheet, a pour or a film."""

    thickness_mm: float
    conductivity_w_mk: float

    def __post_init__(self) -> None:
        if min(self.thickness_mm, self.conductivity_w_mk) <= 0:
            raise ValueError(f"a layer has a thickness and conducts, got {self}")

    def flux_w_m2(self, lower_k: float, upper_k: float, tilt_deg: float) -> float:  # noqa: ARG002
        """Heat from the lower side to the upper. [W/m2]"""
        return self.conductivity_w_mk / (self.thickness_mm * MM) * (lower_k - upper_k)


@dataclass(frozen=True, slots=True)
class AirSpace:
    """Air closed in between two sides."""

    thickness_mm: float
    lower_emits: float = 0.85
    upper_emits: float = 0.84

    def __post_init__(self) -> None:
        if not (self.thickness_mm > 0 and 0 < self.lower_emits <= 1 and 0 < self.upper_emits <= 1):
            raise ValueError(f"an air space has a thickness and sides that radiate, got {self}")

    def flux_w_m2(self, lower_k: float, upper_k: float, tilt_deg: float) -> float:
        """Heat from the lower side to the upper. [W/m2]"""
        exchange = 1 / (1 / self.lower_emits + 1 / self.upper_emits - 1)
        mean_k, gap_m = (lower_k + upper_k) / 2, self.thickness_mm * MM
        over_k = lower_k - upper_k
        rolls = nusselt(rayleigh(over_k, mean_k, gap_m), tilt_deg) if over_k > 0 else 1.0
        still = conductivity_w_mk(mean_k) / gap_m
        return rolls * still * over_k + exchange * STEFAN_W_M2K4 * (lower_k**4 - upper_k**4)


Layer = Solid | AirSpace


def nusselt(ra: float, tilt_deg: float) -> float:
    """How many times as much as still air a space lets through, hotter below. [-]  [H]

    >>> round(nusselt(1e4, 0.0), 3), nusselt(1e3, 30.0)
    (2.391, 1.0)
    """
    tilt = math.radians(min(tilt_deg, _STEEPEST_DEG))
    across = ra * math.cos(tilt)
    if across <= _STARTS:
        return 1.0
    first = 1.44 * (1 - _STARTS * math.pow(math.sin(1.8 * tilt), 1.6) / across) * (1 - _STARTS / across)
    return 1 + first + max(0.0, math.cbrt(across / 5830) - 1)
