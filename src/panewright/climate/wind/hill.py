"""Wind over a ridge, an escarpment or a hill: faster at the crest than on flat ground.

The panel is taken at the crest, where it is worst. ASCE: Kzt = (1 + K1 K2 K3)^2, K2 1 at the crest,
K3 = exp(-gamma z / Lh); Lh reaches from the crest down to half the height, half of a straight slope; a slope
steeper than 1 in 2 counts as one of 1 in 2 with Lh = 2 H [A]. The rule's own exemptions of low and gentle
hills are not taken. EN: c0 = 1 + 2 s Phi up to Phi 0.3, 1 + 0.6 s beyond, 1 below 0.05; Phi is the height
over the length of the windward slope, s falls with z over Le, that length or H / 0.3 where it is steep [E].

[A] ASCE 7-16 26.8 and figure 26.8-1 (recalled). [E] EN 1991-1-4 annex A.3 (recalled); its curves end at
    z = 2 Le, and the last value stays.
"""

from __future__ import annotations

import math

from panewright.climate.site import Hill

_K1 = {  # K1 over H / Lh by exposure; and gamma
    "ridge": ({"B": 1.30, "C": 1.45, "D": 1.55}, 3.0),
    "escarpment": ({"B": 0.75, "C": 0.85, "D": 0.95}, 2.5),
    "hill": ({"B": 0.95, "C": 1.05, "D": 1.15}, 4.0),
}
_STEEPEST = 0.5  # H / Lh
_GENTLE, _STEEP = 0.05, 0.3  # Phi
_CURVE = (0.1552, -0.8575, 1.8133, -1.9115, 1.0124)  # s at the crest, powers of z / Le from the fourth down
_CURVE_END = 2.0


def standing(hill: Hill | None) -> str:
    """Where the panel stands, in words."""
    return "flat ground" if hill is None else f"on the crest of the {hill.shape}"


def topographic_factor(hill: Hill | None, exposure: str, height_m: float) -> float:
    """Kzt at a height above the crest. [-]  [A]

    >>> round(topographic_factor(Hill("ridge", 30.0, 120.0), "C", 10.0), 2)
    2.07
    """
    if hill is None:
        return 1.0
    by_exposure, gamma = _K1[hill.shape]
    half_m = max(hill.slope_m / 2, hill.height_m / _STEEPEST)
    k1 = by_exposure[exposure] * hill.height_m / half_m
    return (1 + k1 * math.exp(-gamma * height_m / half_m)) ** 2


def orography_factor(hill: Hill | None, height_m: float) -> float:
    """c0 at a height above the crest. [-]  [E]

    >>> round(orography_factor(Hill("ridge", 30.0, 120.0), 10.0), 2)
    1.43
    """
    if hill is None or hill.height_m / hill.slope_m < _GENTLE:
        return 1.0
    steepness = min(hill.height_m / hill.slope_m, _STEEP)
    place = min(height_m / (hill.height_m / steepness), _CURVE_END)
    at_crest = sum(factor * place**power for factor, power in zip(_CURVE, (4, 3, 2, 1, 0), strict=True))
    return 1 + 2 * at_crest * steepness
