"""Everything that was read with a multimeter of one panel, as it was read.

The meter's own limits of error are typed as its leaflet gives them: a share of the reading and so many
steps of its last digit. Within them any error is as likely as any other, so that one standard deviation is
the limit over the root of three (JCGM 100, 4.3.7). The same for a resistor's tolerance.

    ammeter            its shunt and leads have a resistance: Isc is read at V = I R, not at zero volts
    volts at the load  lack what is lost in the leads: V = V read + I leads
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

_RECTANGULAR = math.sqrt(3.0)


@dataclass(frozen=True, slots=True)
class MeterClass:
    """What a meter's leaflet promises of one range."""

    share: float  #: of the reading: 0.005 for 0.5 %
    digits: float  #: steps of the last digit
    step: float  #: one step, in the unit that is read

    def __post_init__(self) -> None:
        if not all(0 <= each < math.inf for each in (self.share, self.digits, self.step)):
            raise ValueError(f"a meter's limits are zero or more, got {self}")

    def sigma(self, value: float) -> float:
        """One standard deviation of a reading, in its unit.

        >>> round(MeterClass(0.005, 2, 0.01).sigma(20.0) * 3**0.5, 3)
        0.12
        """
        return (self.share * abs(value) + self.digits * self.step) / _RECTANGULAR


@dataclass(frozen=True, slots=True)
class Load:
    """One reading between short and open circuit. A lamp has no `ohm`: then volts and amperes are read."""

    name: str
    ohm: float | None = None
    tolerance: float = 0.0  #: share of the resistance
    voltage_v: float | None = None
    current_a: float | None = None


@dataclass(frozen=True, slots=True)
class MeterSet:
    """Readings of one panel or cell, one after another in about the same light."""

    volts: MeterClass
    amperes: MeterClass
    voc_v: float | None = None
    isc_a: float | None = None
    loads: tuple[Load, ...] = ()
    ammeter_ohm: float = 0.0  #: shunt of the ammeter and its leads
    leads_ohm: float = 0.0  #: both leads from the panel to the load
    volts_at: Literal["panel", "load"] = "panel"
    before: Mapping[str, float] = field(
        default_factory=dict
    )  #: isc_a, irradiance_w_m2, voc_v, cell_c, back_c
    after: Mapping[str, float] = field(default_factory=dict)
    irradiance_w_m2: float | None = None
    cell_c: float | None = None
    cells: int | None = None  #: in series
    serial: str = ""
