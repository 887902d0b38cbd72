"""What the panel hands on to its mounting: wind across it, its own weight, snow, and how they act together.

Level of design: what the family holds strengths against. ASCE: service level, 0.6 W, D and S of ASCE 7
2.4.1. EN: factored, 1.35 G, 1.5 Q, and 0.9 G against lifting (EN 1990 tables A1.2(A), A1.2(B), recalled).
Wind acts at a place of its own: how far from the middle stands in `WIND_OFF`.

Signs: `down` presses on the face, `up` lifts it; both are positive figures.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.climate import asce, en
from panewright.climate.load import WindLoad
from panewright.climate.site import Family, Site
from panewright.climate.snow import SnowLoad
from panewright.structure.loads import GRAVITY_M_S2, Loads
from panewright.units import MM

#: off the middle along the slope and across it, as shares of the side. ASCE: a free roof whose fuller half is
#: taken over the whole, the other half bare, 1/8 (derived from ASCE 7-16 figure 27.3-4); across 0.2 (figure
#: 29.3-1, recalled). EN: 1/4 of a canopy (EN 1991-1-4 7.3(6)), 1/4 of a signboard (7.4.3(2)), recalled.
WIND_OFF: dict[Family, tuple[float, float]] = {"ASCE": (0.125, 0.20), "EN": (0.25, 0.25)}
#: own weight where it holds down (ASCE 7 2.4.1; EN 1990 A1.2(A)) and where it presses (A1.2(B))
HOLDING: dict[Family, float] = {"ASCE": 0.6, "EN": 0.9}
PRESSING: dict[Family, float] = {"ASCE": 1.0, "EN": 1.35}
_SNOW: dict[Family, float] = {"ASCE": 1.0, "EN": 1.5}


@dataclass(frozen=True, slots=True)
class Panel:
    """The panel as its mounting sees it."""

    family: Family
    tilt_deg: float
    width_mm: float  #: level
    slope_mm: float  #: up the slope
    mass_kg: float
    wind_down_pa: float  #: at the level of design
    wind_up_pa: float
    service_wind_pa: float  #: the worse of both ways, for movement
    wind_on_post_pa: float  #: velocity pressure at the level of design, before a shape's coefficient
    snow_plan_pa: float  #: characteristic

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
        """Wind pressing, across the panel. [N]"""
        return self.wind_down_pa * self.area_m2

    @property
    def up_n(self) -> float:
        """Wind lifting, across the panel. [N]"""
        return self.wind_up_pa * self.area_m2

    @property
    def snow_n(self) -> float:
        """Snow, straight down, at the level of design. [N]"""
        plan = self.area_m2 * math.cos(math.radians(self.tilt_deg))
        return _SNOW[self.family] * self.snow_plan_pa * plan

    @property
    def off_slope_mm(self) -> float:
        """How far up or down the slope the wind acts from the middle. [mm]"""
        return WIND_OFF[self.family][0] * self.slope_mm

    @property
    def off_side_mm(self) -> float:
        """How far to a side the wind acts from the middle. [mm]"""
        return WIND_OFF[self.family][1] * self.width_mm

    @property
    def rise_mm(self) -> float:
        """From low edge to high edge. [mm]"""
        return self.slope_mm * math.sin(math.radians(self.tilt_deg))

    @property
    def reach_mm(self) -> float:
        """Depth in plan. [mm]"""
        return self.slope_mm * math.cos(math.radians(self.tilt_deg))

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
        wind_down_pa=wind.down_pa if american else wind.strength_down_pa,
        wind_up_pa=wind.up_pa if american else wind.strength_up_pa,
        service_wind_pa=max(wind.down_pa, wind.up_pa),
        wind_on_post_pa=factor * wind.velocity_pressure_pa,
        snow_plan_pa=snow.plan_pa,
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
