"""Where a panel will stand and what the weather there can do, as the rule books ask for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Family = Literal["ASCE", "EN"]
WindKind = Literal["3 s gust", "10 min mean"]
Mounting = Literal["free-standing", "roof-parallel", "wall"]
Edition = Literal["ASCE 7-05", "ASCE 7-10", "ASCE 7-16", "ASCE 7-22", "EN 1991-1-4"]


@dataclass(frozen=True, slots=True)
class Wind:
    """A wind speed with all that makes it mean one pressure and not twice that."""

    speed_m_s: float
    kind: WindKind
    edition: Edition
    return_years: float | None = None  #: EN and ASCE 7-05; None where a risk category rules
    risk_category: Literal["I", "II", "III", "IV"] | None = None  #: ASCE 7-10 and later
    ground: str = "C"  #: ASCE exposure B, C, D; EN terrain 0, I, II, III, IV


@dataclass(frozen=True, slots=True)
class Site:
    """A place, its records, and how the panel stands there."""

    family: Family
    wind: Wind
    ground_snow_pa: float  #: characteristic, on the ground
    record_cold_c: float
    record_heat_c: float
    tilt_deg: float
    height_m: float  #: top of the panel above ground
    altitude_m: float
    mounting: Mounting
