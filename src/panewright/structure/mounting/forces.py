"""What the panel hands on to its mounting: wind across it, its own weight, snow, and how they act together.

Level of design: what the family holds strengths against. ASCE: service level, 0.6 W, D and S of ASCE 7 2.4.1.
EN: factored, 1.35 G, 1.5 Q, and 0.9 G against lifting (EN 1990 tables A1.2(A), A1.2(B), recalled). How the
wind takes hold of the whole panel, and how far off its middle, is told by `climate/load.py`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate import asce, en
from panewright.climate.load import WindLoad
from panewright.climate.site import Family, Site
from panewright.climate.snow import SnowLoad
from panewright.structure.loads import GRAVITY_M_S2, Loads
from panewright.units import MM

#: own weight where it holds down (ASCE 7 2.4.1; EN 1990 A1.2(A)) and where it presses (A1.2(B))
HOLDING: dict[Family, float] = {"ASCE": 0.6, "EN": 0.9}
PRESSING: dict[Family, float] = {"ASCE": 1.0, "EN": 1.35}
_DUST_MM = 1.0  # heights are rounded to whole millimetres
_SNOW: dict[Family, float] = {"ASCE": 1.0, "EN": 1.5}


@dataclass(frozen=True, slots=True)
class Wind:
    """One wind on the whole panel, square to it: plus presses on the face, minus lifts."""

    design_pa: float  #: at the level of design
    service_pa: float  #: for movement
    along_share: float  #: from the middle up the slope, of its length
    across_share: float  #: to either side, of the width


@dataclass(frozen=True, slots=True)
class Panel:
    """The panel as its mounting sees it."""

    family: Family
    tilt_deg: float
    width_mm: float  #: level
    slope_mm: float  #: up the slope
    mass_kg: float
    winds: tuple[Wind, ...]  #: none on a roof or wall: there the wind is known for the brackets only
    wind_on_post_pa: float  #: velocity pressure at the level of design, before a shape's coefficient
    snow_plan_pa: float  #: characteristic
    top_mm: float = math.inf  #: its high edge above the ground, where that is known

    @property
    def area_m2(self) -> float:
        """Of the frame's outside. [m2]"""
        return self.width_mm * self.slope_mm * MM**2

    @property
    def weight_n(self) -> float:
        """Own weight, no factor. [N]"""
        return self.mass_kg * GRAVITY_M_S2

    @property
    def down_n(self) -> float:
        """The most that wind presses, across the panel. [N]"""
        return max((self.across_n(wind) for wind in self.winds), default=0.0)

    @property
    def up_n(self) -> float:
        """The most that wind lifts, across the panel. [N]"""
        return max((-self.across_n(wind) for wind in self.winds), default=0.0)

    @property
    def snow_n(self) -> float:
        """Snow, straight down, at the level of design. [N]"""
        plan = self.area_m2 * math.cos(math.radians(self.tilt_deg))
        return _SNOW[self.family] * self.snow_plan_pa * plan

    @property
    def low_edge_mm(self) -> float:
        """Its low edge above the ground. [mm]"""
        return max(0.0, self.top_mm - self.rise_mm)

    @property
    def rise_mm(self) -> float:
        """From low edge to high edge. [mm]"""
        return self.slope_mm * math.sin(math.radians(self.tilt_deg))

    @property
    def reach_mm(self) -> float:
        """Depth in plan. [mm]"""
        return self.slope_mm * math.cos(math.radians(self.tilt_deg))

    def across_n(self, wind: Wind) -> float:
        """A wind across the panel, plus presses. [N]"""
        return wind.design_pa * self.area_m2

    def turning_nm(self, wind: Wind, middle_mm: float) -> float:
        """Moment of a wind about a level line so far under the panel's middle; plus turns it back. [N m]

        N (h sin tilt + s), s how far up the slope the wind acts.
        """
        off = wind.along_share * self.slope_mm
        return self.across_n(wind) * (self.level_n(middle_mm) + off) * MM

    def level_n(self, across_n: float) -> float:
        """The level part of a force across the panel. [N]"""
        return across_n * math.sin(math.radians(self.tilt_deg))

    def upright_n(self, across_n: float) -> float:
        """The upright part of a force across the panel. [N]"""
        return across_n * math.cos(math.radians(self.tilt_deg))


@dataclass(frozen=True, slots=True)
class Sides:
    """Sizes and mass of the finished panel."""

    width_mm: float
    slope_mm: float
    mass_kg: float


def panel(site: Site, sides: Sides, wind: WindLoad, snow: SnowLoad) -> Panel:
    """The panel from its sizes and its weather."""
    american = site.family == "ASCE"
    factor = asce.to_allowable(site.wind.edition) if american else en.PARTIAL_FACTOR
    return Panel(
        site.family,
        site.tilt_deg,
        sides.width_mm,
        sides.slope_mm,
        sides.mass_kg,
        winds=tuple(
            Wind(
                force.service_pa if american else force.strength_pa,
                force.service_pa,
                force.along_share,
                force.across_share,
            )
            for force in wind.forces
        ),
        wind_on_post_pa=factor * wind.velocity_pressure_pa,
        snow_plan_pa=snow.plan_pa,
        top_mm=1000 * site.height_m,
    )


def top_check(panel: Panel, top_mm: float) -> Check:
    """The wind is reckoned for the height that the site tells: the panel may not stand higher."""
    return Check(
        "top of the panel no higher than the site says",
        top_mm,
        panel.top_mm + _DUST_MM,
        "mm",
        "geometry: the wind is taken at the site's height",
        "Write the height of the panel's top as site.height, or set it lower.",
        "structure",
    )


@dataclass(frozen=True, slots=True)
class BracketForces:
    """What one bracket bears at the level of design. [N]"""

    up_n: float
    down_n: float
    along_n: float  #: own weight down the slope, no factor: with lifting wind
    along_snow_n: float  #: own weight and snow down the slope, factored
    along_rest_n: float  #: own weight alone down the slope, factored


def bracket_forces(loads: Loads, reaction_n: float, whole: Panel, brackets: int) -> BracketForces:
    """From the largest reaction of the rail, which goes with the worse of pressing and lifting."""
    worst = max(loads.design_down_pa, loads.design_up_pa)
    share = reaction_n / worst if worst else 0.0
    weight = whole.level_n(whole.weight_n)
    snow = whole.level_n(whole.snow_n)
    pressing = PRESSING[loads.family] * weight
    return BracketForces(
        up_n=share * loads.design_up_pa,
        down_n=share * loads.design_down_pa,
        along_n=weight / brackets,
        along_snow_n=(pressing + snow) / brackets,
        along_rest_n=pressing / brackets,
    )
