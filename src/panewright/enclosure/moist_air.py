"""Damp air: how much water it can hold, and when it lets go of it.

    saturated = 611.2 exp(17.62 t / (243.12 + t)) Pa,  t in degC, over water           [M]
    saturated = 611.15 exp(22.46 t / (272.62 + t)) Pa below 0 degC, over ice           [M]

[M] Magnus form with the constants of D. Sonntag, Z. Meteorol. 70, 1990, p. 340: those over water read in an
    engineer's collection of formulas (seen), those over ice from memory.
"""

from __future__ import annotations

import math

from panewright.units import KELVIN

WATER_J_KGK = 461.5  #: gas constant of water vapour
_OVER_WATER, _OVER_ICE = (611.2, 17.62, 243.12), (611.15, 22.46, 272.62)


def saturation_pa(at_c: float) -> float:
    """Pressure of water vapour over water, or ice below freezing. [Pa]  [M]

    >>> round(saturation_pa(20.0)), round(saturation_pa(-10.0))
    (2333, 260)
    """
    if not -60 <= at_c <= 100:
        raise ValueError(f"the formula reaches from -60 to 100 degC, not {at_c:g}")
    least, slope, offset = _OVER_WATER if at_c >= 0 else _OVER_ICE
    return least * math.exp(slope * at_c / (offset + at_c))


def dew_point_c(vapour_pa: float) -> float:
    """Heat at which air of that vapour fogs a pane, or frosts it. [degC]  [M]

    >>> round(dew_point_c(0.5 * saturation_pa(20.0)), 1)
    9.3
    """
    if not vapour_pa > 0:
        raise ValueError(f"dry air has no dew point, got {vapour_pa:g} Pa")
    least, slope, offset = _OVER_WATER if vapour_pa >= _OVER_WATER[0] else _OVER_ICE
    ratio = math.log(vapour_pa / least)
    return offset * ratio / (slope - ratio)


def water_g_m3(vapour_pa: float, at_c: float) -> float:
    """Water in a cubic metre of air. [g/m3]

    >>> round(water_g_m3(saturation_pa(20.0), 20.0), 1)
    17.2
    """
    return 1000 * vapour_pa / (WATER_J_KGK * (at_c + KELVIN))
