"""Ampacity in the form of IEC 60364-5-52: by method of laying, metal and insulation, two loaded conductors.

In air (E), clipped to a surface (C), single wires in a conduit on a wall (B1), one cable in a conduit (B2).
Metric sizes only. The tables know no sun: behind panels and in the sun over a roof 70 degC counts at least,
as part 7-712 has it for cables under panels (recalled); over a roof this is a choice made here.

[B.52] tables B.52.2 and B.52.3 (B1, B2, C), B.52.10, B.52.12 and B.52.13 (E), 30 degC: public transcriptions,
       seen, of which several agree; E with PVC and aluminium, B.52.11: recalled.
[B.52.14] air other than 30 degC: public transcriptions agree (seen).
[B.52.17] circuits bunched, in one conduit or on one surface: public transcription (seen).
"""

from __future__ import annotations

from panewright.wire.laid import Laid, Place
from panewright.wire.sizes import Metal, Size

SUNNY_C = 70.0  #: least air that counts behind panels and in the sun
USUAL_TERMINAL_C = 70

_METHODS: dict[Place, str] = {"air": "E", "clipped": "C", "conduit": "B1", "conduit, one cable": "B2"}
_AREAS = (1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0)
_ALUMINIUM_AREAS = _AREAS[1:]

#: metal, insulation, method: ampere of each area [B.52]
_AMPERE: dict[tuple[Metal, int, str], tuple[float, ...]] = {
    ("copper", 70, "B1"): (17.5, 24, 32, 41, 57, 76, 101, 125, 151, 192, 232),
    ("copper", 70, "B2"): (16.5, 23, 30, 38, 52, 69, 90, 111, 133, 168, 201),
    ("copper", 70, "C"): (19.5, 27, 36, 46, 63, 85, 112, 138, 168, 213, 258),
    ("copper", 70, "E"): (22, 30, 40, 51, 70, 94, 119, 148, 180, 232, 282),
    ("copper", 90, "B1"): (23, 31, 42, 54, 75, 100, 133, 164, 198, 253, 306),
    ("copper", 90, "B2"): (22, 30, 40, 51, 69, 91, 119, 146, 175, 221, 265),
    ("copper", 90, "C"): (24, 33, 45, 58, 80, 107, 138, 171, 209, 269, 328),
    ("copper", 90, "E"): (26, 36, 49, 63, 86, 115, 149, 185, 225, 289, 352),
    ("aluminium", 70, "B1"): (18.5, 25, 32, 44, 60, 79, 97, 118, 150, 181),
    ("aluminium", 70, "B2"): (17.5, 24, 30, 41, 54, 71, 86, 104, 131, 157),
    ("aluminium", 70, "C"): (21, 28, 36, 49, 66, 83, 103, 125, 160, 195),
    ("aluminium", 70, "E"): (23, 31, 39, 54, 73, 89, 111, 135, 173, 210),
    ("aluminium", 90, "B1"): (25, 33, 43, 59, 79, 105, 130, 157, 200, 242),
    ("aluminium", 90, "B2"): (23, 31, 40, 54, 72, 94, 115, 138, 175, 210),
    ("aluminium", 90, "C"): (26, 35, 45, 62, 84, 101, 126, 154, 198, 241),
    ("aluminium", 90, "E"): (28, 38, 49, 67, 91, 108, 135, 164, 211, 257),
}
#: air, and what is left of the ampacity [B.52.14]
_BANDS_C = (10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80)
_LEFT = {
    70: (1.22, 1.17, 1.12, 1.06, 1.0, 0.94, 0.87, 0.79, 0.71, 0.61, 0.5),
    90: (1.15, 1.12, 1.08, 1.04, 1.0, 0.96, 0.91, 0.87, 0.82, 0.76, 0.71, 0.65, 0.58, 0.5, 0.41),
}
_CIRCUITS = (1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 16, 20)  #: [B.52.17]
_TOGETHER = (1.0, 0.8, 0.7, 0.65, 0.6, 0.57, 0.54, 0.52, 0.5, 0.45, 0.41, 0.38)


def heat_left(air_c: float, insulation_c: int) -> float:
    """Share of the ampacity left in air, read at the next warmer figure; 0 past the table. [-] [B.52.14]

    >>> heat_left(40, 90), heat_left(41, 90), heat_left(65, 70)
    (0.91, 0.87, 0.0)
    """
    return next((left for air, left in zip(_BANDS_C, _LEFT[insulation_c], strict=False) if air_c <= air), 0.0)


def circuits_left(circuits: int) -> float:
    """Share left where so many circuits lie together, by the next larger count; 0 past 20. [-] [B.52.17]

    >>> circuits_left(0), circuits_left(3), circuits_left(10)
    (1.0, 0.7, 0.45)
    """
    return next((left for most, left in zip(_CIRCUITS, _TOGETHER, strict=True) if circuits <= most), 0.0)


def round_it_c(laid: Laid) -> float:
    """Temperature of the air that counts round the run. [degC]"""
    sunny = laid.under_panels or laid.above_roof_mm is not None
    return max(laid.air_c, SUNNY_C) if sunny else laid.air_c


def ampere(area_mm2: float, metal: Metal, insulation_c: int, place: Place) -> float | None:
    """Ampacity as printed, at 30 degC; None where the table does not reach. [A] [B.52]

    >>> ampere(4.0, "copper", 90, "air"), ampere(16.0, "aluminium", 90, "conduit")
    (49, 79)
    >>> ampere(1.0, "copper", 90, "air") is None
    True
    """
    areas = _AREAS if metal == "copper" else _ALUMINIUM_AREAS
    if area_mm2 not in areas:
        return None
    return _AMPERE[(metal, insulation_c, _METHODS[place])][areas.index(area_mm2)]


def table_a(size: Size, laid: Laid) -> float | None:
    """Ampacity before heat and neighbours; None for what is no metric size of the tables. [A]"""
    return None if size.gauge else ampere(size.area_mm2, size.metal, laid.insulation_c, laid.place)


def left(laid: Laid) -> float:
    """Share of the ampacity that heat and neighbours leave. [-]"""
    return heat_left(round_it_c(laid), laid.insulation_c) * circuits_left(laid.beside)


def terminal_a(size: Size, laid: Laid) -> float | None:
    """What the run carries without heating terminals of 70 degC: as with PVC. [A] 523.1 (recalled)"""
    warmest = min(laid.terminal_c or USUAL_TERMINAL_C, laid.insulation_c)
    return None if size.gauge else ampere(size.area_mm2, size.metal, warmest, laid.place)
