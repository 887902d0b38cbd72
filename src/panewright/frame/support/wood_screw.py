"""A screw or a through bolt that holds a bracket to timber.

The two families know different screws: lag screws to ASME B18.2.1 and wood screws to ASME B18.6.1, coach
screws to EN 14592. A screw made to the other family's standard has no limit. Bolts are bolts in both.

[L] NDS 2018 appendix L2 (recalled; the 1/2 in tip read in a worked example): root, tip E, thread L/2 + 1/2
    in. Wood screws, appendix L3: thread two thirds of the length, no tip counted, root 0.80 of the shank
    (No. 10, 0.152 of 0.190 in, read in a worked example; No. 14 0.196 of 0.242 in, recalled). Fyb of wood
    screws 80 ksi up to 0.236 in, 70 ksi up to 0.273 in; of lag screws 70 ksi of 1/4 in, 60 ksi of 5/16 in,
    45 ksi from 3/8 in on (NDS table 12K, recalled; its values agree).
[D] coach screws of the DIN 571 pattern: root about 0.7 of the thread, thread 0.6 of the length; stainless
    A2-50, 500 MPa (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from panewright.frame.support.timber import Family
from panewright.units import INCH_MM

Kind = Literal["lag screw", "wood screw", "coach screw", "bolt"]

KSI_MPA = 6.894757293168361
_TIP_IN = {0.25: 5 / 32, 0.3125: 3 / 16, 0.375: 7 / 32, 0.5: 5 / 16}  # [L]
_ROOT_IN = {0.25: 0.173, 0.3125: 0.227, 0.375: 0.265, 0.5: 0.371}  # [L]
_NEAR_IN = 0.005
_STEEL_KG_M3 = 7900.0  #: stainless A2 (EN 10088-1, recalled)


@dataclass(frozen=True, slots=True)
class WoodScrew:
    """One fastener in timber; length from under the head."""

    name: str
    kind: Kind
    diameter_mm: float
    length_mm: float

    def __post_init__(self) -> None:
        if min(self.diameter_mm, self.length_mm) <= 0:
            raise ValueError(f"a screw has positive sizes, got {self}")

    def made_for(self, family: Family) -> bool:
        """Whether the family's standard lists such a fastener."""
        own = ("lag screw", "wood screw") if family == "ASCE" else ("coach screw",)
        return self.kind in ("bolt", *own)

    @property
    def mass_kg(self) -> float:
        """A plain rod of its sizes: what the thread lacks, the head makes up (common practice). [kg]

        >>> round(WoodScrew("", "coach screw", 8.0, 80.0).mass_kg, 3)
        0.032
        """
        return math.pi / 4 * self.diameter_mm**2 * self.length_mm * 1e-9 * _STEEL_KG_M3

    @property
    def root_mm(self) -> float:
        """Diameter at the bottom of the thread; of a bolt the shank counts. [mm]"""
        if self.kind == "bolt":
            return self.diameter_mm
        if self.kind == "lag screw":
            return _by_inch(_ROOT_IN, self.diameter_mm, 0.7)
        return (0.8 if self.kind == "wood screw" else 0.7) * self.diameter_mm

    @property
    def tip_mm(self) -> float:
        """Tapered, of no use against pull; EN counts it as thread. [mm]"""
        return _by_inch(_TIP_IN, self.diameter_mm, 0.625) if self.kind == "lag screw" else 0.0

    @property
    def thread_mm(self) -> float:
        """Length of the thread, tip included. [mm]"""
        if self.kind == "lag screw":
            return min(self.length_mm / 2 + INCH_MM / 2, 6 * INCH_MM, self.length_mm)
        return (2 / 3 if self.kind == "wood screw" else 0.6) * self.length_mm

    @property
    def bending_yield_mpa(self) -> float:
        """Fyb. [MPa]  [L]"""
        inch = self.diameter_mm / INCH_MM
        if self.kind == "wood screw" and inch <= 0.236:
            return KSI_MPA * 80
        return KSI_MPA * (70 if inch < 0.28 else 60 if inch < 0.34 else 45)

    @property
    def rupture_mpa(self) -> float:
        """Tensile strength of stainless A2-50; bolts A2-70. [MPa]  [D]"""
        return 700.0 if self.kind == "bolt" else 500.0

    @property
    def washer_mm(self) -> float:
        """Outer diameter of the washer on timber, three diameters (EN 1995-1-1 10.4.3). [mm]"""
        return 3 * self.diameter_mm


def _by_inch(table: dict[float, float], diameter_mm: float, share: float) -> float:
    """The table's figure for an inch size [mm]; a share of the diameter for a size between."""
    for inch, figure in table.items():
        if abs(inch - diameter_mm / INCH_MM) < _NEAR_IN:
            return figure * INCH_MM
    return share * diameter_mm
