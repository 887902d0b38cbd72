"""Ampacity as the NEC has it: table 310.16, less for heat, for a bundle, and more heat over a sunny roof.

The table is for up to three conductors in a raceway; it is taken for free air too, where more would be
allowed. Gauges only.

[310.16] copper and aluminium, 30 degC: public transcriptions of the 2023 print (seen). Older prints differ
         in some figures.
[310.15(C)(1)] conductors that carry current in one raceway: public transcription (seen).
[310.15(B)(2)] 33 K on top of the air in raceways and cables nearer than 23 mm to a roof in the sun, from the
         2017 print on: courses on the code (seen). Type XHHW-2 is excepted there, not here. Before, a table
         went from 33 K down to 14 K at 0.9 m: not used.
[240.4(D)] largest fuse of thin wires: public text (seen), aluminium 12 AWG 15 A and 10 AWG 25 A (seen).
"""

from __future__ import annotations

from typing import cast

from panewright.wire.ampacity import FUSE_LIMIT_A, Insulation, copper_ampere, heat_left
from panewright.wire.laid import Laid
from panewright.wire.sizes import Metal, Size

ROOF_NEARER_MM, ROOF_K = 23.0, 33.0  #: [310.15(B)(2)]
USUAL_TERMINAL_C: Insulation = 75  #: where the equipment says so; 60 degC below 100 A else, 110.14(C)
_CLOSE_BEHIND_K = 33.0  # behind hot panels: the roof's figure taken, no figure of the code

#: gauge: ampere at 60, 75 and 90 degC of insulation [310.16]
_ALUMINIUM_AMPERE: dict[str, tuple[float, float, float]] = {
    "12": (15.0, 20.0, 25.0),
    "10": (25.0, 30.0, 35.0),
    "8": (35.0, 40.0, 45.0),
    "6": (40.0, 50.0, 55.0),
    "4": (55.0, 65.0, 75.0),
    "3": (65.0, 75.0, 85.0),
    "2": (75.0, 90.0, 100.0),
    "1": (85.0, 100.0, 115.0),
    "1/0": (100.0, 120.0, 135.0),
    "2/0": (115.0, 135.0, 150.0),
    "3/0": (130.0, 155.0, 175.0),
    "4/0": (150.0, 180.0, 205.0),
}
_ALUMINIUM_FUSE_A = {"12": 15.0, "10": 25.0}  #: [240.4(D)]
_BUNDLES = ((3, 1.0), (6, 0.8), (9, 0.7), (20, 0.5), (30, 0.45), (40, 0.4))  #: up to so many [310.15(C)(1)]
_MORE = 0.35


def bundle_left(conductors: int) -> float:
    """Share of the ampacity left where so many conductors with current share a raceway. [-] [310.15(C)(1)]

    >>> bundle_left(2), bundle_left(4), bundle_left(41)
    (1.0, 0.8, 0.35)
    """
    return next((left for most, left in _BUNDLES if conductors <= most), _MORE)


def roof_k(above_roof_mm: float) -> float:
    """What the sun on a roof adds to the air round a run. [K] [310.15(B)(2)]

    >>> roof_k(10.0), roof_k(23.0)
    (33.0, 0.0)
    """
    return ROOF_K if above_roof_mm < ROOF_NEARER_MM else 0.0


def round_it_c(laid: Laid) -> float:
    """Temperature of the air that counts round the run. [degC]"""
    roof = 0.0 if laid.above_roof_mm is None else roof_k(laid.above_roof_mm)
    return laid.air_c + max(roof, _CLOSE_BEHIND_K if laid.under_panels else 0.0)


def ampere(gauge: str, metal: Metal, insulation_c: Insulation) -> float | None:
    """Ampacity as printed, at 30 degC; None where the table does not reach. [A] [310.16]

    >>> ampere("10", "copper", 90), ampere("10", "aluminium", 75), ampere("14", "aluminium", 75)
    (40.0, 30.0, None)
    """
    column = (60, 75, 90).index(insulation_c)
    if metal == "copper":
        return copper_ampere(gauge, insulation_c)
    row = _ALUMINIUM_AMPERE.get(gauge)
    return None if row is None else row[column]


def table_a(size: Size, laid: Laid) -> float | None:
    """Ampacity before heat and bundle; None for what is no gauge of the table. [A]"""
    return ampere(size.gauge, size.metal, cast(Insulation, laid.insulation_c))


def left(laid: Laid) -> float:
    """Share of the ampacity that heat and bundle leave. [-]"""
    return heat_left(round_it_c(laid), cast(Insulation, laid.insulation_c)) * bundle_left(laid.beside)


def terminal_a(size: Size, laid: Laid) -> float | None:
    """What the run carries without heating its terminals too much. [A] 110.14(C)"""
    warmest = min(laid.terminal_c or USUAL_TERMINAL_C, laid.insulation_c)
    return ampere(size.gauge, size.metal, cast(Insulation, warmest))


def fuse_limit_a(size: Size) -> float | None:
    """Largest fuse of a thin wire whatever its ampacity; None where the code names none. [A] [240.4(D)]"""
    return (FUSE_LIMIT_A if size.metal == "copper" else _ALUMINIUM_FUSE_A).get(size.gauge)
