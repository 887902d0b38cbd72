"""How a run is laid: where, in which air, beside which others, and under which family of rules.

A family is taken whole: gauges with the one, metric sizes with the other. Nothing of one answers for the
other.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.wire.ampacity import Insulation

Family = Literal["NEC", "IEC"]
Place = Literal["air", "clipped", "conduit", "conduit, one cable"]


@dataclass(frozen=True, slots=True)
class Laid:
    """One way of laying. `beside` counts what the family counts, see there."""

    family: Family
    place: Place
    air_c: float  #: shade temperature of the air, at the hottest
    insulation_c: Insulation | Literal[70] = 90  #: NEC: 60, 75, 90; IEC: 70 (PVC), 90 (XLPE)
    beside: int = (
        0  #: NEC: conductors with current in one conduit or bundle; IEC: circuits; 0: this run alone
    )
    above_roof_mm: float | None = None  #: in the sun over a roof; None where it lies in shade
    under_panels: bool = False  #: touches hot panels or lies close behind them
    terminal_c: Literal[60, 70, 75, 90] | None = None  #: what its terminals bear; None: 75 by NEC, 70 by IEC

    def __post_init__(self) -> None:
        allowed = (60, 75, 90) if self.family == "NEC" else (70, 90)
        if self.insulation_c not in allowed:
            heats = ", ".join(str(heat) for heat in allowed)
            raise ValueError(f"{self.family} has insulation of {heats} degC, not of {self.insulation_c}")
        if self.terminal_c is not None and self.terminal_c not in allowed:
            raise ValueError(f"{self.family} tables have no terminals of {self.terminal_c} degC")
        if self.beside < 0 or (self.above_roof_mm is not None and self.above_roof_mm < 0):
            raise ValueError(f"a run lies beside 0 others or more and on its roof or above it, got {self}")
