"""Conductors as sold, copper and aluminium, by metric cross-section and by gauge number.

A metric size is a name for a greatest resistance, not for an area of copper: the flexible, tinned kind used
on panels resists a fifth more than its area says. Gauge sizes are areas; a strand of thin wires
resists 2 to 2.5 % more than a solid rod.

Aluminium is stranded (class 2); it is not sold thinner than 12 AWG or 10 mm2 for this work. What is asked of
by area alone (`size_of`) is copper.

[60228] IEC 60228, class 5 (flexible), tinned copper, and class 2 aluminium, greatest ohm per km at 20 degC;
        several public transcriptions agree (seen).
[NEC8] NEC chapter 9 table 8, uncoated stranded copper and aluminium, direct current, ohm per 1000 ft at
       75 degC; public transcriptions (seen). Its notes: 0.00323 per kelvin for copper and 0.00330 for
       aluminium, both of 75 degC (memory), which are 0.00393 and 0.00403 of 20 degC.
[AWG] d = 0.127 mm x 92^((36 - n) / 39).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Metal = Literal["copper", "aluminium"]

COPPER_PER_K = 0.00393  #: of the resistance at 20 degC, annealed copper
ALUMINIUM_PER_K = 0.00403  #: of the resistance at 20 degC [NEC8]
_FOOT_M = 0.3048
_NAMED_WITHIN = 0.01  #: an area this near to a size is that size

_METRIC_OHM_KM = {  # [60228]
    0.5: 40.1,
    0.75: 26.7,
    1.0: 20.0,
    1.5: 13.7,
    2.5: 8.21,
    4.0: 5.09,
    6.0: 3.39,
    10.0: 1.95,
    16.0: 1.24,
    25.0: 0.795,
    35.0: 0.565,
    50.0: 0.393,
    70.0: 0.277,
    95.0: 0.210,
}
_ALUMINIUM_OHM_KM = {  # [60228] class 2
    10.0: 3.08,
    16.0: 1.91,
    25.0: 1.20,
    35.0: 0.868,
    50.0: 0.641,
    70.0: 0.443,
    95.0: 0.320,
}
_GAUGE_OHM_KFT = {  # [NEC8] at 75 degC
    "18": 7.95,
    "16": 4.99,
    "14": 3.14,
    "12": 1.98,
    "10": 1.24,
    "8": 0.778,
    "6": 0.491,
    "4": 0.308,
    "3": 0.245,
    "2": 0.194,
    "1": 0.154,
    "1/0": 0.122,
    "2/0": 0.0967,
    "3/0": 0.0766,
    "4/0": 0.0608,
}
_ALUMINIUM_OHM_KFT = {  # [NEC8] at 75 degC
    "12": 3.25,
    "10": 2.04,
    "8": 1.28,
    "6": 0.808,
    "4": 0.508,
    "3": 0.403,
    "2": 0.319,
    "1": 0.253,
    "1/0": 0.201,
    "2/0": 0.159,
    "3/0": 0.126,
    "4/0": 0.100,
}


@dataclass(frozen=True, slots=True)
class Size:
    """One conductor as sold."""

    name: str  #: '4 mm²' or '12 AWG'
    area_mm2: float
    ohm_per_m: float  #: at 20 degC
    source: str
    metal: Metal = "copper"
    gauge: str = ""  #: '12' or '1/0'; empty for a metric size

    @property
    def per_k(self) -> float:
        """Change of resistance, share of that at 20 degC. [1/K]"""
        return COPPER_PER_K if self.metal == "copper" else ALUMINIUM_PER_K

    def ohm_per_m_at(self, temperature_c: float) -> float:
        """Resistance of a metre at a temperature of the conductor. [ohm/m]"""
        return self.ohm_per_m * (1 + self.per_k * (temperature_c - 20.0))


def awg_area_mm2(gauge: str | int) -> float:
    """Copper area of a gauge number; '1/0' and '2/0' are the steps above 1. [mm2] [AWG]

    >>> round(awg_area_mm2(10), 3)
    5.261
    """
    words = str(gauge).strip().upper().removeprefix("AWG").removesuffix("AWG").strip()
    noughts, slash, nought = words.partition("/")
    if not noughts.isdigit() or (slash and nought != "0"):
        raise ValueError(f"{gauge!r} is no wire gauge; write a number such as 12 or 1/0")
    number = 1 - int(noughts) if slash else int(noughts)
    diameter_mm: float = 0.127 * 92.0 ** ((36 - number) / 39)
    return math.pi * diameter_mm**2 / 4


def _metric(table: dict[float, float], metal: Metal, source: str) -> tuple[Size, ...]:
    return tuple(
        Size(f"{area:g}\u2009mm²", area, ohm_km / 1000, source, metal) for area, ohm_km in table.items()
    )


def _gauges(table: dict[str, float], metal: Metal, source: str) -> tuple[Size, ...]:
    per_k = COPPER_PER_K if metal == "copper" else ALUMINIUM_PER_K
    to_20c = 1000 * _FOOT_M * (1 + per_k * 55)
    return tuple(
        Size(f"{gauge}\u2009AWG", awg_area_mm2(gauge), ohm_kft / to_20c, source, metal, gauge)
        for gauge, ohm_kft in table.items()
    )


METRIC = _metric(_METRIC_OHM_KM, "copper", "IEC 60228 class 5, tinned")
GAUGES = _gauges(_GAUGE_OHM_KFT, "copper", "NEC chapter 9 table 8, stranded, uncoated")
ALUMINIUM_METRIC = _metric(_ALUMINIUM_OHM_KM, "aluminium", "IEC 60228 class 2, aluminium")
ALUMINIUM_GAUGES = _gauges(_ALUMINIUM_OHM_KFT, "aluminium", "NEC chapter 9 table 8, aluminium")
#: ohm m; what the worst metric size makes of its area, for areas that are no size at all
_UNNAMED_OHM_M = max(size.ohm_per_m * size.area_mm2 for size in METRIC) * 1e-6


def size_of(area_mm2: float) -> Size:
    """The conductor sold under this area, or one made up on the safe side where there is none.

    >>> size_of(5.26).source
    'NEC chapter 9 table 8, stranded, uncoated'
    """
    nearest = min((*METRIC, *GAUGES), key=lambda size: abs(size.area_mm2 / area_mm2 - 1))
    if abs(nearest.area_mm2 / area_mm2 - 1) <= _NAMED_WITHIN:
        return nearest
    ohm_per_m = _UNNAMED_OHM_M / (area_mm2 * 1e-6)
    return Size(
        f"{area_mm2:g}\u2009mm²", area_mm2, ohm_per_m, "no size as sold; as the worst of IEC 60228 class 5"
    )
