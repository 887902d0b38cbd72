"""What the panel hands on to its mounting: wind across it, its own weight, snow, and how they act together.

Level of design: what the family holds strengths against. ASCE: service level, 0.6 W, D and S of ASCE 7 2.4.1.
EN: factored, 1.35 G, 1.5 Q, and 0.9 G against lifting (EN 1990 tables A1.2(A), A1.2(B), recalled). How the
wind takes hold of the whole panel, and how far off its middle, is told by `climate/wind/load.py`.

A bracket also holds its rail sideways: the pane's edge lies off the rail's shear centre, so the rail would
move out (structure/space/space_frame.py). That push is the larger of a pane that does not hold the rail and
one on its elastic bead. It is added to what slides down the slope as if both went one way: where long rails
lie level they do.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.site import Family, Site
from panewright.climate.snow.drift import Drift
from panewright.climate.snow.snow import SnowLoad
from panewright.climate.wind import asce, en
from panewright.climate.wind.load import WindLoad
from panewright.structure.loads import Kind, Loads
from panewright.structure.space.bounds import SideFigures
from panewright.units import GRAVITY_M_S2, MM

#: own weight where it holds down (ASCE 7 2.4.1; EN 1990 A1.2(A)) and where it presses (A1.2(B))
HOLDING: dict[Family, float] = {"ASCE": 0.6, "EN": 0.9}
PRESSING: dict[Family, float] = {"ASCE": 1.0, "EN": 1.35}
_DUST_MM = 1.0  # heights are rounded to whole millimetres
_SNOW: dict[Family, float] = {"ASCE": 1.0, "EN": 1.5}
_UPRIGHT = 1e-9  # cosine of a tilt on which no snow lies


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
    drift_n: float = 0.0  #: snow piled up over the low edge, straight down, at the level of design
    drift_off_mm: float = 0.0  #: its middle, down the slope from the panel's
    deep_mm: float = 0.0  #: of the frame, square to the pane

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
    def drift_nm(self) -> float:
        """Moment of the piled-up snow about a level line under the panel's middle. [N m]"""
        return self.upright_n(self.drift_n) * self.drift_off_mm * MM

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

    @property
    def runs_up(self) -> bool:
        """Whether its long rails run up the slope."""
        return self.slope_mm >= self.width_mm

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

    def bearing(self, brackets: int, fixed: int) -> float:
        """How many of all brackets bear what goes down the slope.

        Those that hold along their rail where the long rails run up the slope; where they lie level the
        pane stands on the low one, and its half of the brackets is taken to bear all.
        """
        return fixed if self.runs_up else brackets / 2


@dataclass(frozen=True, slots=True)
class Sides:
    """Sizes and mass of the finished panel."""

    width_mm: float
    slope_mm: float
    mass_kg: float
    deep_mm: float = 0.0  #: of the frame, square to the pane


def panel(site: Site, sides: Sides, wind: WindLoad, snow: SnowLoad, *, drift: Drift | None = None) -> Panel:
    """The panel from its sizes and its weather, with the snow that piles up over its low edge."""
    american = site.family == "ASCE"
    piled_n, off_mm = (0.0, 0.0) if drift is None else _piled(site, sides, drift)
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
        drift_n=piled_n,
        drift_off_mm=off_mm,
        deep_mm=sides.deep_mm,
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


def _piled(site: Site, sides: Sides, drift: Drift) -> tuple[float, float]:
    """Weight of a triangle of snow over the low edge [N], and how far below the panel's middle it lies [mm].

    A panel that does not come out of the snow bears its full height everywhere.
    """
    cosine = math.cos(math.radians(site.tilt_deg))
    if cosine < _UPRIGHT or drift.drift_mm <= 0:
        return 0.0, 0.0
    share = 1.0 if drift.drift_mm >= sides.slope_mm else 0.5
    full = _SNOW[site.family] * drift.drift_pa / cosine  # on the pane's own area, straight down
    weight = share * full * drift.drift_mm * sides.width_mm * MM**2
    return weight, sides.slope_mm / 2 - drift.drift_mm / 3


@dataclass(frozen=True, slots=True)
class BracketForces:
    """What one bracket bears at the level of design. [N]"""

    up_n: float
    down_n: float
    along_n: float  #: own weight down the slope, no factor: with lifting wind
    along_snow_n: float  #: own weight and snow down the slope, factored
    along_rest_n: float  #: own weight alone down the slope, factored
    sideways_up_n: float = 0.0  #: off the rail, which would move sideways, lifted
    sideways_down_n: float = 0.0  #: the same, pressed
    sideways_snow_n: float = 0.0  #: the same, by own weight and snow
    sideways_rest_n: float = 0.0  #: the same, by own weight alone
    down_rest_n: float = 0.0  #: by own weight alone

    @property
    def pushed_up_n(self) -> float:
        """Along the support while the wind lifts. [N]"""
        return self.along_n + self.sideways_up_n

    @property
    def pushed_down_n(self) -> float:
        """Along the support while the wind presses, snow lying. [N]"""
        return self.along_snow_n + self.sideways_down_n

    @property
    def pushed_snow_n(self) -> float:
        """Along the support by own weight and snow. [N]"""
        return self.along_snow_n + self.sideways_snow_n

    @property
    def pushed_rest_n(self) -> float:
        """Along the support by own weight alone, for years. [N]"""
        return self.along_rest_n + self.sideways_rest_n


def bracket_forces(
    loads: Loads, per_pa: SideFigures, whole: Panel, brackets: int, *, fixed: int | None = None
) -> BracketForces:
    """From what the long rail hands on under 1 Pa, on so many brackets, so many of them not slotted."""
    bearing = whole.bearing(brackets, brackets if fixed is None else fixed)
    across, sideways = per_pa.bracket.across_n, per_pa.handed.sideways_n
    weight = whole.level_n(whole.weight_n) / bearing
    snow = whole.level_n(whole.snow_n + whole.drift_n) / bearing
    rest, lying = _most_pa(loads, {"own weight"}), _most_pa(loads, {"own weight", "snow"})
    pressing = PRESSING[loads.family] * weight
    return BracketForces(
        up_n=across * loads.design_up_pa,
        down_n=across * loads.design_down_pa,
        along_n=weight,
        along_snow_n=pressing + snow,
        along_rest_n=pressing,
        sideways_up_n=sideways * loads.design_up_pa,
        sideways_down_n=sideways * loads.design_down_pa,
        sideways_snow_n=sideways * lying,
        sideways_rest_n=sideways * rest,
        down_rest_n=across * rest,
    )


def _most_pa(loads: Loads, kinds: set[Kind]) -> float:
    """The most that presses of these kinds alone, at the level of design. [Pa]"""
    factored = any(case.factored for case in loads.cases)
    lying = (case for case in loads.cases if case.factored == factored and kinds.issuperset(case.kinds))
    return max((case.pressure_pa for case in lying), default=0.0)
