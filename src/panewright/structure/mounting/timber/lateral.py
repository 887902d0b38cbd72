"""Sideways load on a screw or bolt through a thin metal plate into timber, by NDS 2018 chapter 12.

The dowel yields: it crushes the wood (I, II), bends once (III) or twice (IV), each divided by a reduction.
Main member m is the wood, side member s the plate:

    Im = D lm Fem / Rd              II   = k1 D ls Fes / Rd       IIIs = k3 D ls Fem / ((2 + Re) Rd)
    Is = D ls Fes / Rd              IIIm = k2 D lm Fem / ((1 + 2 Re) Rd)
    IV = D^2 / Rd sqrt(2 Fem Fyb / (3 (1 + Re)))

D is the root where there is thread. Load across the grain is taken, the weaker way. True for one row of few
screws with the distances of 12.5 kept; a plate of another metal than steel bears 1.25 Ftu (derived as
appendix I derives steel's).

[N] NDS 2018 12.3.1 table 12.3.1A, 12.3.3 (recalled; table 12K, read, agrees to its printed digits).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.units import INCH_MM

PSI_MPA = 0.006894757293168361


@dataclass(frozen=True, slots=True)
class Dowel:
    """A dowel through a plate into wood. Lengths in mm, strengths in MPa."""

    nominal_mm: float
    root_mm: float
    yield_mpa: float  #: Fyb
    main_mm: float  #: lm in the wood
    side_mm: float  #: ls, the plate
    main_mpa: float  #: Fem
    side_mpa: float  #: Fes


def bearing_mpa(gravity: float, diameter_mm: float, grain_deg: float) -> float:
    """Fe of wood under a dowel. [MPa]  [N] 12.3.3; Hankinson between the grain's directions

    >>> [round(bearing_mpa(0.50, 9.525, angle) / PSI_MPA) for angle in (0, 90)]
    [5600, 3646]
    """
    inch = diameter_mm / INCH_MM
    if inch < 0.25:
        return float(16600 * gravity**1.84 * PSI_MPA)
    along, across = 11200 * gravity, 6100 * gravity**1.45 / math.sqrt(inch)
    turn = math.radians(grain_deg)
    hankinson = along * across / (along * math.sin(turn) ** 2 + across * math.cos(turn) ** 2)
    return float(hankinson * PSI_MPA)


def reductions(nominal_mm: float, root_mm: float, grain_deg: float) -> tuple[float, float, float]:
    """Rd of modes I, of II, of III and IV. [-]  [N] table 12.3.1B

    >>> reductions(0.375 * 25.4, 0.265 * 25.4, 90)
    (5.0, 4.5, 4.0)
    """
    turned = 1 + 0.25 * grain_deg / 90
    nominal, root = nominal_mm / INCH_MM, root_mm / INCH_MM
    if root < 0.25:
        small = 2.2 if root <= 0.17 else 10 * root + 0.5
        small *= turned if nominal >= 0.25 else 1.0
        return small, small, small
    return 4 * turned, 3.6 * turned, 3.2 * turned


def yield_modes_n(dowel: Dowel, grain_deg: float) -> dict[str, float]:
    """Reference lateral load of each way to yield. [N]  [N] table 12.3.1A"""
    d, lm, ls = dowel.root_mm, dowel.main_mm, dowel.side_mm
    fem, fes, fyb = dowel.main_mpa, dowel.side_mpa, dowel.yield_mpa
    re, rt = fem / fes, lm / ls
    first, second, third = reductions(dowel.nominal_mm, dowel.root_mm, grain_deg)
    inner = re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3
    k1 = (math.sqrt(inner) - re * (1 + rt)) / (1 + re)
    k2 = -1 + math.sqrt(2 * (1 + re) + 2 * fyb * (1 + 2 * re) * d**2 / (3 * fem * lm**2))
    k3 = -1 + math.sqrt(2 * (1 + re) / re + 2 * fyb * (2 + re) * d**2 / (3 * fem * ls**2))
    return {
        "Im": d * lm * fem / first,
        "Is": d * ls * fes / first,
        "II": k1 * d * ls * fes / second,
        "IIIm": k2 * d * lm * fem / ((1 + 2 * re) * third),
        "IIIs": k3 * d * ls * fem / ((2 + re) * third),
        "IV": d**2 / third * math.sqrt(2 * fem * fyb / (3 * (1 + re))),
    }


def lateral_n(dowel: Dowel, grain_deg: float) -> float:
    """Reference lateral load Z of one dowel, the weakest mode. [N]"""
    return min(yield_modes_n(dowel, grain_deg).values())


def together(pull_n: float, side_n: float, pull_limit_n: float, side_limit_n: float) -> float:
    """Share used by pull and side load on a lag screw. [-]  [N] 12.4.1, Hankinson

    >>> together(100.0, 0.0, 200.0, 50.0)
    0.5
    """
    whole = math.hypot(pull_n, side_n)
    if whole == 0:
        return 0.0
    if min(pull_limit_n, side_limit_n) <= 0:
        return math.inf
    return side_n**2 / whole / side_limit_n + pull_n**2 / whole / pull_limit_n
