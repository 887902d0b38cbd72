"""Where a panel will stand and what the weather there can do, as the rule books ask for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Family = Literal["ASCE", "EN"]
WindKind = Literal["3 s gust", "10 min mean", "1 h mean", "fastest mile"]
Mounting = Literal["free-standing", "pole", "flat roof", "roof-parallel", "wall"]
Roof = Literal["duopitch", "monopitch"]
Zone = Literal["middle", "edge", "corner"]
Edition = Literal["ASCE 7-05", "ASCE 7-10", "ASCE 7-16", "ASCE 7-22", "EN 1991-1-4"]

ROOF_RULED = ("ASCE 7-16", "ASCE 7-22")  #: editions with a rule for panels that stand on a flat roof

# Where nothing is said of them.
RAILS_MM = 100.0  #: what rails add to a pane's length at most; common practice
ROOF_GAP_MM, ROOF_EDGE_MM, UPPER_DROP_M = 100.0, 600.0, 3.0


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
class Hill:
    """A rise of the ground below the panel, which stands on its crest."""

    shape: Literal["ridge", "escarpment", "hill"]
    height_m: float
    slope_m: float  #: length of the windward slope on plan, foot to crest

    def __post_init__(self) -> None:
        if not min(self.height_m, self.slope_m) > 0:
            raise ValueError(f"a hill has a height and a slope, got {self}")


@dataclass(frozen=True, slots=True)
class Size:
    """What a wind rule asks of the panel itself."""

    area_m2: float  #: no more than the panel's own
    long_mm: float  #: up the slope, no less than the panel's own

    def __post_init__(self) -> None:
        if not min(self.area_m2, self.long_mm) > 0:
            raise ValueError(f"a panel has an area and a length, got {self}")


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
    zone: Zone | None = None  #: of the roof or wall; None takes the usual one of the mounting
    roof_gap_mm: float = ROOF_GAP_MM  #: roof-parallel: from the roof to the panel
    roof_edge_mm: float = (
        ROOF_EDGE_MM  #: roof-parallel, flat roof: from the panel to the nearest edge or ridge
    )
    roof: Roof | None = None  #: roof-parallel: its shape; None where it is not known
    lower_edge_mm: float | None = None  #: above the ground or flat roof below; None: as `height_m` leaves it
    upper_roof_m: float = 0.0  #: plan depth of a higher roof that sheds its snow on the panel
    hill: Hill | None = None  #: None is flat ground
    upper_drop_m: float = UPPER_DROP_M  #: height of its wall above what the panel stands on
    hail_mm: float = 25.0  #: largest ball of ice that is to do no harm; 0 where none is asked for

    @property
    def in_the_open(self) -> bool:
        """Whether the wind reaches both faces."""
        return self.mounting in ("free-standing", "pole", "flat roof")

    @property
    def by_roof_rule(self) -> bool:
        """Whether the edition has a rule for panels that stand on a flat roof; it asks for their size."""
        return self.mounting == "flat roof" and self.wind.edition in ROOF_RULED

    @property
    def wind_zone(self) -> Zone:
        """The zone stated; else the middle of a free roof, the edge of a building's roof or wall.

        On a flat roof by its own rule: the corner, for a small roof is all corner.
        """
        if self.by_roof_rule:
            return self.zone or "corner"
        return self.zone or ("middle" if self.in_the_open else "edge")
