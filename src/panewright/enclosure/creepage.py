"""How far live metal must lie from the frame, along a surface and through air.

Creepage is the way along the surface of the glass from silicon or ribbon to the earthed frame. It grows
with the voltage, with the dirt and damp that may settle there (pollution degree) and with how easily
the surface tracks (material group; glass and silicone would be better than IIIa, tapes may not be). A
touchable frame asks for reinforced insulation: twice the basic distance. Clearance is the way through
air, ruled by surges; reinforced takes the next step of impulse.

Away from these rules, makers who lay up by hand keep 10 mm and more: cells shift, ribbon ends stick
out, and the pane's edge is where water comes in.

[664] IEC 60664-1 table F.4, as printed in a terminal-block catalogue (seen); linear interpolation is allowed.
      Clearances, tables F.1 and F.2, inhomogeneous field, pollution degree 2, up to 2000 m: from memory.
[61730] IEC 61730-1:2016 table 3 is recalled to print 6.4, 10, 14.2 and 20 mm at 1000 V, which is what
        doubling [664] gives.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

import numpy as np

from panewright.check import Check

Pollution = Literal[1, 2, 3]
Group = Literal["I", "II", "III"]

HAND_LAY_UP_MM = 10.0  #: common practice, no source

_VOLTS = (32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 320, 400, 500, 630, 800, 1000, 1250, 1600)
_P1 = (0.14, 0.16, 0.18, 0.2, 0.22, 0.25, 0.28, 0.32, 0.42, 0.56, 0.75, 1.0, 1.3, 1.8, 2.4, 3.2, 4.2, 5.6)
_P2_I = (0.53, 0.56, 0.6, 0.63, 0.67, 0.71, 0.75, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.2, 4, 5, 6.3, 8)
_P2_II = (0.53, 0.8, 0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.4, 1.8, 2.2, 2.8, 3.6, 4.5, 5.6, 7.1, 9, 11)
_P2_III = (0.53, 1.1, 1.2, 1.25, 1.3, 1.4, 1.5, 1.6, 2, 2.5, 3.2, 4, 5, 6.3, 8, 10, 12.5, 16)
_P3_I = (1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2, 2.5, 3.2, 4, 5, 6.3, 8, 10, 12.5, 16, 20)
_P3_III = (1.3, 1.8, 1.9, 2, 2.1, 2.2, 2.4, 2.5, 3.2, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25)

_BASIC_MM: dict[tuple[Pollution, Group], tuple[float, ...]] = {
    (1, "I"): _P1,
    (1, "II"): _P1,
    (1, "III"): _P1,
    (2, "I"): _P2_I,
    (2, "II"): _P2_II,
    (2, "III"): _P2_III,
    (3, "I"): _P3_I,
    (3, "II"): _P3_III,  # the source at hand lacks this column; group III is never less
    (3, "III"): _P3_III,
}
MOST_SYSTEM_V = float(_VOLTS[-1])

#: system voltage up to, reinforced clearance: the next step of impulse above overvoltage category III
_CLEARANCE_MM = ((50, 0.5), (100, 1.5), (150, 3.0), (300, 5.5), (600, 8.0), (1000, 14.0))


def basic_mm(system_v: float, pollution: Pollution = 2, group: Group = "III") -> float:
    """Creepage of basic insulation; below 32 V as at 32 V. [mm] [664]

    >>> round(basic_mm(600.0), 2)
    6.0
    """
    if not 0 <= system_v <= MOST_SYSTEM_V:
        raise ValueError(f"the table of creepage reaches from 0 to {MOST_SYSTEM_V:g} V, not {system_v:g} V")
    return float(np.interp(system_v, _VOLTS, _BASIC_MM[pollution, group]))


@lru_cache(maxsize=64)
def needed_mm(system_v: float, pollution: Pollution = 2, group: Group = "III") -> float:
    """Creepage of reinforced insulation, from live metal to a frame one can touch. [mm] [664]

    >>> needed_mm(1000.0)
    20.0
    """
    return 2 * basic_mm(system_v, pollution, group)


def clearance_mm(system_v: float) -> float | None:
    """Way through air of reinforced insulation; None above 1000 V. [mm] [664]"""
    return next((way for top, way in _CLEARANCE_MM if system_v <= top), None)


def clearance_check(there_mm: float, system_v: float) -> Check:
    """The lay-up keeps its distance through air from live metal to the frame."""
    needed = clearance_mm(system_v)
    return Check(
        rule="clearance from live metal to the frame",
        demand=_CLEARANCE_MM[-1][1] if needed is None else needed,
        limit=None if needed is None else there_mm,
        unit="mm",
        source="IEC 60664-1 tables F.1 and F.2, overvoltage category III, reinforced; from memory",
        cure="Widen the margin between the cells and the edge of the pane.",
        room="enclosure",
    )
