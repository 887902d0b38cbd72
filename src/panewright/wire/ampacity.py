"""What current a copper conductor may carry for hours, and what it must carry on a panel.

A panel gives more than its Isc under bright cloud: 1.25 Isc counts as its greatest current, and a
conductor or fuse that carries current for hours is chosen for 1.25 of that, 1.5625 Isc in all. Heat
round the conductor takes its share away.

A metric size counts as the next smaller gauge size. Sizes thinner than 18 AWG are not covered.

[NEC] NEC 690.8; table 310.16, copper, 30 degC air; table 310.15(B)(1), correction; 240.4(D), largest
      fuse: public transcriptions (seen). 18 and 16 AWG from table 402.5: from memory.
"""

from __future__ import annotations

from typing import Literal

from panewright.check import Check
from panewright.wire.sizes import awg_area_mm2

Insulation = Literal[60, 75, 90]

GREATEST_CURRENT_FACTOR = 1.25  #: of Isc [NEC] 690.8(A)
CONTINUOUS_FACTOR = 1.25  #: on top [NEC] 690.8(B)

#: gauge: ampere at 60, 75 and 90 degC of insulation [NEC]
_AMPERE: dict[str, tuple[float, float, float]] = {
    "18": (6.0, 6.0, 6.0),
    "16": (8.0, 8.0, 8.0),
    "14": (15.0, 20.0, 25.0),
    "12": (20.0, 25.0, 30.0),
    "10": (30.0, 35.0, 40.0),
    "8": (40.0, 50.0, 55.0),
    "6": (55.0, 65.0, 75.0),
    "4": (70.0, 85.0, 95.0),
    "3": (85.0, 100.0, 115.0),
    "2": (95.0, 115.0, 130.0),
    "1": (110.0, 130.0, 145.0),
    "1/0": (125.0, 150.0, 170.0),
    "2/0": (145.0, 175.0, 195.0),
    "3/0": (165.0, 200.0, 225.0),
    "4/0": (195.0, 230.0, 260.0),
}
FUSE_LIMIT_A = {"14": 15.0, "12": 20.0, "10": 30.0}  #: [NEC] 240.4(D)
#: upper end of each band of air temperature, and what is left of the ampacity [NEC]
_BANDS_C = (10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85)
_LEFT: dict[Insulation, tuple[float, ...]] = {
    60: (1.29, 1.22, 1.15, 1.08, 1.0, 0.91, 0.82, 0.71, 0.58, 0.41, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    75: (1.2, 1.15, 1.11, 1.05, 1.0, 0.94, 0.88, 0.82, 0.75, 0.67, 0.58, 0.47, 0.33, 0.0, 0.0, 0.0),
    90: (1.15, 1.12, 1.08, 1.04, 1.0, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71, 0.65, 0.58, 0.5, 0.41, 0.29),
}


def needed_ampacity_a(isc_a: float) -> float:
    """What a conductor or fuse on a panel must carry for hours. [A] [NEC] 690.8

    >>> round(needed_ampacity_a(8.55), 6)
    13.359375
    """
    return GREATEST_CURRENT_FACTOR * CONTINUOUS_FACTOR * isc_a


def copper_ampere(gauge: str, insulation_c: Insulation) -> float | None:
    """Ampacity of a copper gauge in air of 30 degC; None where the table does not reach. [A] [NEC]

    >>> copper_ampere("10", 75)
    35.0
    """
    row = _AMPERE.get(gauge)
    return None if row is None else row[(60, 75, 90).index(insulation_c)]


def gauge_of(area_mm2: float) -> str | None:
    """The thickest gauge in the table that has no more copper; None below 18 AWG."""
    fitting = [gauge for gauge in _AMPERE if awg_area_mm2(gauge) <= area_mm2 * 1.01]
    return fitting[-1] if fitting else None


def heat_left(air_c: float, insulation_c: Insulation = 90) -> float:
    """Share of the ampacity left in warm air; 0 where the insulation may not be used. [-] [NEC]"""
    return next((left for top, left in zip(_BANDS_C, _LEFT[insulation_c], strict=True) if air_c <= top), 0.0)


def ampacity_a(area_mm2: float, air_c: float = 30.0, insulation_c: Insulation = 90) -> float | None:
    """Current a conductor may carry for hours; None where the table does not reach. [A] [NEC]

    >>> ampacity_a(4.0)
    30.0
    """
    gauge = gauge_of(area_mm2)
    if gauge is None:
        return None
    return _AMPERE[gauge][(60, 75, 90).index(insulation_c)] * heat_left(air_c, insulation_c)


def lead_check(area_mm2: float, isc_a: float, air_c: float, insulation_c: Insulation = 90) -> Check:
    """A lead carries the panel's current for hours in the heat where it lies.

    The code asks for the larger of two: 1.5625 Isc before the heat is counted, 1.25 Isc after.
    """
    gauge, left = gauge_of(area_mm2), heat_left(air_c, insulation_c)
    cold_a = ampacity_a(area_mm2, 30.0, insulation_c)
    limit = None if gauge is None or cold_a is None else min(cold_a, cold_a * left * CONTINUOUS_FACTOR)
    return Check(
        rule="current in the leads",
        demand=needed_ampacity_a(isc_a),
        limit=limit,
        unit="A",
        source="NEC 690.8, table 310.16 and 310.15(B)(1)",
        cure="Take leads with more copper.",
        room="wire",
    )


def fuse_check(area_mm2: float, fuse_a: float) -> Check:
    """The label's fuse does not let more current through than a thin lead bears."""
    gauge = gauge_of(area_mm2)
    limit = None if gauge is None else FUSE_LIMIT_A.get(gauge, _AMPERE[gauge][2])
    return Check(
        rule="series fuse protects the leads",
        demand=fuse_a,
        limit=limit,
        unit="A",
        source="NEC 240.4(D) and table 310.16",
        cure="Take leads with more copper, or state a smaller fuse.",
        room="wire",
    )
