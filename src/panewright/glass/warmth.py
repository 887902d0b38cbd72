"""A sheet as heat meets it: what it lets through of the whole sun, what it keeps, how it conducts and emits.

Shares are of the whole sunlight, AM1.5 global, not only of the colours a cell uses. Conductivity: soda-lime
glass 1.0 W/mK (EN 572-1, recalled; 1.0 to 1.1 seen in a data base of materials), acrylic 0.19 and
polycarbonate 0.21 (seen on suppliers' pages). Emissivity: glass 0.84 (EN 673, recalled), plastics 0.9
(recalled).
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.glass.light.colours import known_sheet, thrown_back
from panewright.glass.light.spectrum import AM15_GLOBAL
from panewright.glass.pane import Material, Sheet

CONDUCTS_W_MK: dict[Material, float] = {"glass": 1.0, "acrylic": 0.19, "polycarbonate": 0.21}
EMITS: dict[Material, float] = {"glass": 0.84, "acrylic": 0.9, "polycarbonate": 0.9}


@dataclass(frozen=True, slots=True)
class Warmth:
    """One sheet, with what lies behind it."""

    through: float  #: of the sunlight, let through [-]
    takes: float  #: of the sunlight, turned to heat in the sheet [-]
    conducts_w_mk: float
    emits: float  #: in the infrared [-]


def warmth(sheet: Sheet, behind_index: float) -> Warmth:
    """What a sheet does to the sun's heat, a medium of that refractive index behind it."""
    light = known_sheet(sheet)
    through = AM15_GLOBAL.power_share(light.through(behind_index))
    back = AM15_GLOBAL.power_share(thrown_back(light.outer, light.inner(behind_index), light.kept))
    kept = max(0.0, 1 - through - back)
    return Warmth(through, kept, CONDUCTS_W_MK[sheet.material], EMITS[sheet.material])
