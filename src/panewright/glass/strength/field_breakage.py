"""How likely a pane breaks in any holding and under any load: the failure model over a whole field of stress.

As in `breakage`, with both faces counted, because under a hand or over a clip either may be pulled hardest:

    B = sum over both faces of k * integral of (c s60)^7 dA        P = 1 - exp(-B)

Gauss points lie between the sides of all patches and clips. That the model is asked about such loads at all
is the shop's own reckoning: ASTM E1300 has charts for edges held all along and even loads only.

[B] and [E] as in `breakage`.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import exp, expm1, log

import numpy as np

from panewright.glass.plate.basis import Array
from panewright.glass.plate.bending import area_m2
from panewright.glass.plate.field import Field, bent_field
from panewright.glass.plate.holding import Patch, Pressing, Supported
from panewright.glass.strength.breakage import FATIGUE, REFERENCE_S, K, M, biaxial

_STOPS = (0.0, 0.5, 0.85, 1.0)  # stress beside corners and edges is steep
_POINTS = 9
_MOST_ROUNDS = 30
_CLOSE = 1e-7
_PER_MPA7 = 1e42  # Pa^7 in MPa^7


def field_risk(field: Field, duration_s: float) -> float:
    """B of annealed glass under a load that lasts so long. [-]"""
    (x, weight_x), (y, weight_y) = _gauss(field, 0), _gauss(field, 1)
    surfaces = field.at(x, y)
    flaws = _flaws(surfaces.principal(1.0)) + _flaws(surfaces.principal(-1.0))
    mean = float(weight_x @ flaws @ weight_y)  # of (c s)^7, MPa^7
    lasting = (duration_s / REFERENCE_S) ** (M / FATIGUE)
    return float(K * _PER_MPA7 * mean * lasting * area_m2(field.plate))


def breakage(field: Field, duration_s: float) -> float:
    """Probability that an annealed pane breaks. [-]

    >>> from panewright.glass.strength.e1300 import GLASS
    >>> from panewright.glass.plate.bending import Plate
    >>> pane = Supported(Plate(1500, 1200, 5.56, GLASS))  # E1300: 8 in 1000 at 2510 Pa, one face counted
    >>> round(breakage(bent_field(pane, Pressing(2510)), 3.0) * 1000, 1)
    8.1
    """
    return -expm1(-field_risk(field, duration_s))


@lru_cache(maxsize=256)
def load_multiple(
    supported: Supported, pressing: Pressing, failure: float, duration_s: float
) -> tuple[float, bool]:
    """By how much a load may grow until annealed glass breaks so often [-], and whether theory reaches there.

    All of the load grows together. Newton's chord in logarithms, as in `breakage`.
    """
    if not pressing.pressure_pa and not any(patch.force_n for patch in pressing.patches):
        raise ValueError(f"a load that is nothing breaks nothing, got {pressing}")
    target, x, slope = log(-log(1 - failure)), 0.0, 6.0
    risk, known = _log_risk(supported, pressing, x, duration_s)
    for _ in range(_MOST_ROUNDS):
        y = risk - target
        step = float(np.clip(-y / slope, -1.5, 1.5))
        if abs(step) < _CLOSE or (not known and y < 0):  # past the theory more load changes nothing
            break
        before = risk
        risk, known = _log_risk(supported, pressing, x + step, duration_s)
        slope = min(max((risk - before) / step, 1.0), 9.0)
        x += step
    return exp(x), known


def grown(pressing: Pressing, times: float) -> Pressing:
    """All of a load so many times."""
    patches = tuple(
        Patch(each.force_n * times, each.along_mm, each.across_mm, each.long_mm, each.short_mm)
        for each in pressing.patches
    )
    return Pressing(pressing.pressure_pa * times, patches)


def _log_risk(
    supported: Supported, pressing: Pressing, log_times: float, duration_s: float
) -> tuple[float, bool]:
    field = bent_field(supported, grown(pressing, exp(log_times)))
    return log(field_risk(field, duration_s)), field.known


def _flaws(principal: tuple[Array, Array]) -> Array:
    """(c s)^7 of one face. [MPa^7]"""
    large, small = principal
    pulled = np.maximum(large, 0.0)
    ratio = np.where(pulled > 0, small / np.where(pulled > 0, large, 1.0), 1.0)
    return np.asarray(pulled**M * biaxial(ratio))


def _gauss(field: Field, way: int) -> tuple[Array, Array]:
    """Places along one way and weights that sum to 1; half of it where all is even."""
    shape = field.shape
    half = (shape.aspect / 2, 0.5)[way]
    stops = set(_STOPS) | {-stop for stop in _STOPS}
    for spot in (*shape.clips, *(spot for _, spot in shape.patches)):
        reach = spot[2 + way] / (2 * half)
        stops |= {round(spot[way] + side * reach, 9) for side in (-1.5, -1, 0, 1, 1.5)}
    low = 0.0 if shape.even[way] else -1.0
    kept = sorted(stop for stop in stops if low <= stop <= 1)
    at, weight = np.polynomial.legendre.leggauss(_POINTS)
    spans = [(a, b) for a, b in pairwise(kept) if b - a > 1e-9]
    places = np.concatenate([(a + b) / 2 + at * (b - a) / 2 for a, b in spans])
    shares = np.concatenate([weight * (b - a) / 2 for a, b in spans])
    return places, shares / (1 - low)
