"""Wind, snow and own weight together, as the pane, the frame and the bead each have to bear them.

ASCE: service loads for everything (allowable stress design, [A] 2.4.1). EN: factored loads for strength,
characteristic combinations for movement ([E] 6.10 and 6.14). The pane's edges may see more wind than its
middle (`WindLoad.edge_up`): the worst of all combinations, which rails, bead and brackets are held against,
is taken with that, the pane's own loads without. Pressures act across the pane; own weight gives its part
across the tilt. Loads of different length in one combination: ASTM E1300 weighs each part by its own
duration, so the parts go along; for what knows only one duration, the combination has the one that tires
glass as much, sum q t^(1/16). Where the low edge stands in the snow, the snow of every combination is the
balanced one and what piles up over the edge, its full height over the whole pane. EN 16612 takes the factor
of the shortest load in the combination, and asks for every combination, that of own weight alone among them
([G], recalled).

[A] ASCE 7-10 and 7-16 section 2.4.1 (recalled). [E] EN 1990 6.4.3, 6.5.3 and tables A1.1, A1.2(B) (recalled).
[G] durations: wind 3 s, snow 30 d (ASTM E1300); wind gust 5 s, snow 3 weeks, own weight 50 years (EN 16612).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from panewright.climate.site import Family, Site
from panewright.climate.snow.drift import Drift, pile_up
from panewright.climate.snow.snow import SnowLoad
from panewright.climate.wind.load import WindLoad
from panewright.glass.load import PaneLoad
from panewright.units import GRAVITY_M_S2

_DAY = 86400.0
_FATIGUE = 16  # exponent of static fatigue
_DURATION = {
    "ASCE": {"wind": 3.0, "snow": 30 * _DAY, "own weight": 30 * _DAY},
    "EN": {"wind": 5.0, "snow": 21 * _DAY, "own weight": 50 * 365.25 * _DAY},
}
_GRAVITY_FACTOR, _VARIABLE_FACTOR = 1.35, 1.5  # [E]
_PSI_WIND = 0.6  # [E]
_HIGH_GROUND_M = 1000.0

Kind = Literal["wind", "snow", "own weight"]


@dataclass(frozen=True, slots=True)
class Case:
    """One combination of loads: what presses (plus) or lifts (minus), at which level."""

    name: str
    pressure_pa: float
    duration_s: float
    factored: bool
    kinds: tuple[Kind, ...]
    parts: tuple[tuple[Kind, float], ...] = ()  #: (kind, Pa) of a pressing combination
    weight_along_pa: float = 0.0  #: own weight down the slope, by the same factors
    snow_along_pa: float = 0.0  #: snow down the slope


@dataclass(frozen=True, slots=True)
class Loads:
    """All that acts across one pane, and the worst of it each way; figures but the cases' are positive."""

    family: Family
    cases: tuple[Case, ...]
    pane_loads: tuple[PaneLoad, ...]
    down_pa: float  #: worst at service level on the pane's edges: for movement, and for ASCE strength
    up_pa: float
    design_down_pa: float  #: worst at the level the family holds strengths against
    design_up_pa: float
    suction_pa: float  #: wind alone at service level, own weight not counted: for the bead
    along_pa: float = 0.0  #: own weight and snow down the slope, at service level: for the setting blocks
    drift: Drift | None = None  #: what piles up at the low edge, where the panel's length was told
    weight_along_pa: float = 0.0  #: the part of `along_pa` that is own weight

    def __hash__(self) -> int:
        """Of the worst pressures: they tell most loads apart."""
        return hash((self.family, self.down_pa, self.up_pa, self.design_down_pa, self.along_pa))

    @property
    def strength_cases(self) -> tuple[Case, ...]:
        """Combinations at the level the family holds strengths against."""
        return tuple(case for case in self.cases if case.factored == (self.family == "EN"))


@lru_cache(maxsize=512)
def combine(
    site: Site, wind: WindLoad, snow: SnowLoad, mass_kg_m2: float, slope_mm: float | None = None
) -> Loads:
    """All combinations of the site's family for a panel of this mass on each square metre.

    With its length down the slope also what piles up at its low edge. Kept, for a pane's strength, its cells
    and its rails each ask for the loads on the same sheet.
    """
    drift = None if slope_mm is None else pile_up(site, snow, slope_mm)
    if drift is None:
        return _together(site, wind, snow, mass_kg_m2)
    return replace(_together(site, wind, _with_drift(snow, drift), mass_kg_m2), drift=drift)


@lru_cache(maxsize=64)
def _together(site: Site, wind: WindLoad, snow: SnowLoad, mass_kg_m2: float) -> Loads:
    """All combinations, the pile at the low edge in the snow.

    Kept apart: where nothing piles up, panels of every length have the same.
    """
    tilt, whole = math.radians(site.tilt_deg), mass_kg_m2 * GRAVITY_M_S2
    across, along = whole * math.cos(tilt), whole * math.sin(tilt)
    plain = _cases(site, wind, snow, across)
    service, strength = (_along(site, (wind, snow), along, cases) for cases in plain)
    even = wind.edge_down == wind.edge_up == 1.0  # the edges see no more wind than the middle
    edges = plain if even else _cases(site, _at_edges(wind), snow, across)
    down, up, design_down, design_up = _on_the_edges(*edges)
    cases = service + strength
    return Loads(
        site.family,
        cases,
        _pane_loads(site.family, cases),
        down,
        up,
        design_down,
        design_up,
        wind.edge_up * wind.up_pa,
        snow.along_pa + along,
        weight_along_pa=along,
    )


def hardest_pane_loads(site: Site, wind: WindLoad, snow: SnowLoad, mass_kg_m2: float) -> tuple[PaneLoad, ...]:
    """Of the loads across the pane, as `combine` has them, those nearest to a limit: for many winds.

    Of loads that a rule book takes alike that is the largest. Those of ASCE have parts of several durations:
    all of them.
    """
    across = mass_kg_m2 * GRAVITY_M_S2 * math.cos(math.radians(site.tilt_deg))
    service, strength = _cases(site, wind, snow, across)
    cases = service + strength
    return _pane_loads(site.family, cases if site.family == "ASCE" else _hardest(cases))


def _hardest(cases: tuple[Case, ...]) -> tuple[Case, ...]:
    kinds: dict[tuple[bool, float], Case] = {}
    for case in cases:
        kind = case.factored, case.duration_s
        if kind not in kinds or abs(case.pressure_pa) > abs(kinds[kind].pressure_pa):
            kinds[kind] = case
    return tuple(kinds.values())


def _pane_loads(family: Family, cases: tuple[Case, ...]) -> tuple[PaneLoad, ...]:
    return tuple(_pane_load(family, case) for case in cases if case.pressure_pa != 0)


def _combined(site: Site, wind: WindLoad, snow: SnowLoad, weight_pa: float, factored: bool) -> Iterator[Case]:
    if site.family == "ASCE":
        return _asce(wind, snow, weight_pa)
    return _en(site, wind, snow, weight_pa, factored)


def _along(
    site: Site, loads: tuple[WindLoad, SnowLoad], weight_pa: float, cases: tuple[Case, ...]
) -> tuple[Case, ...]:
    """The cases with what each sends down the slope: the same combinations of those parts, in still air.

    A case that lifts has the panel's whole weight down the slope; the less of it does no good there.
    """
    if not cases:
        return ()
    wind, snow = loads
    calm, factored = replace(wind, down_pa=0.0, up_pa=0.0), cases[0].factored
    slid = replace(snow, normal_pa=snow.along_pa)
    twins = _combined(site, calm, slid, weight_pa, factored)
    told = []
    for case, twin in zip(cases, twins, strict=True):
        parts = dict(twin.parts)
        own = parts.get("own weight", weight_pa)
        told.append(replace(case, weight_along_pa=own, snow_along_pa=parts.get("snow", 0.0)))
    return tuple(told)


def _cases(
    site: Site, wind: WindLoad, snow: SnowLoad, weight_pa: float
) -> tuple[tuple[Case, ...], tuple[Case, ...]]:
    """Combinations at service level, and those at strength level where the family asks for them."""
    service = tuple(_combined(site, wind, snow, weight_pa, False))
    return service, () if site.family == "ASCE" else tuple(_combined(site, wind, snow, weight_pa, True))


def _at_edges(wind: WindLoad) -> WindLoad:
    """The wind on strips along the edges, which may see more of it than the pane's middle."""
    return replace(wind, down_pa=wind.edge_down * wind.down_pa, up_pa=wind.edge_up * wind.up_pa)


def _on_the_edges(service: tuple[Case, ...], strength: tuple[Case, ...]) -> tuple[float, float, float, float]:
    """Worst pressure down and up at service level, and at design level, as rails and bead see it. [Pa]"""
    return *_worst(service), *_worst(strength or service)


def _with_drift(snow: SnowLoad, drift: Drift) -> SnowLoad:
    """The balanced snow and what lies over the low edge."""
    return replace(
        snow,
        normal_pa=snow.normal_pa + drift.drift_pa,
        along_pa=snow.along_pa + drift.along_pa,
        strength_normal_pa=snow.strength_normal_pa + drift.strength_drift_pa,
    )


def equal_duration_s(parts: tuple[tuple[float, float], ...]) -> float:
    """Duration at which the sum of loads (Pa, s) tires glass as much as its parts do. [s]

    >>> round(equal_duration_s(((500, 3.0), (500, 3.0))), 6)
    3.0
    """
    acting = [part for part in parts if part[0] > 0]
    if len(acting) <= 1:  # to the last digit, with no root in between
        return max(duration for _, duration in acting or parts)
    total = sum(pressure for pressure, _ in acting)
    mean = sum(pressure * duration ** (1 / _FATIGUE) for pressure, duration in acting) / total
    return float(mean**_FATIGUE)


def _asce(wind: WindLoad, snow: SnowLoad, weight_pa: float) -> Iterator[Case]:
    """[A]: the wind is already at allowable level (0.6 W, or W of 2005)."""
    yield _press("ASCE", "own weight", dead=weight_pa)
    yield _press("ASCE", "own weight and snow", dead=weight_pa, snow=snow.normal_pa)
    yield _press("ASCE", "own weight and wind gust", dead=weight_pa, wind=wind.down_pa)
    name = "own weight, 3/4 snow and 3/4 wind gust"
    yield _press("ASCE", name, dead=weight_pa, snow=0.75 * snow.normal_pa, wind=0.75 * wind.down_pa)
    yield _lift(
        "ASCE", "wind gust lifting, less 0.6 own weight", wind.up_pa - 0.6 * weight_pa, factored=False
    )


def _en(site: Site, wind: WindLoad, snow: SnowLoad, weight_pa: float, factored: bool) -> Iterator[Case]:
    """[E]: factored for strength, characteristic for movement."""
    own, other = (_GRAVITY_FACTOR, _VARIABLE_FACTOR) if factored else (1.0, 1.0)
    level = ", factored" if factored else ""
    psi_snow = 0.7 if site.altitude_m > _HIGH_GROUND_M else 0.5
    dead, press, flakes = own * weight_pa, other * wind.down_pa, other * snow.normal_pa

    def case(name: str, snow_pa: float, wind_pa: float) -> Case:
        return _press("EN", name + level, dead=dead, snow=snow_pa, wind=wind_pa, factored=factored)

    yield case("own weight", 0.0, 0.0)
    yield case("own weight and snow", flakes, 0.0)
    yield case("own weight and wind gust", 0.0, press)
    yield case(f"own weight, snow and {_PSI_WIND:g} wind gust", flakes, _PSI_WIND * press)
    yield case(f"own weight, wind gust and {psi_snow:g} snow", psi_snow * flakes, press)
    yield _lift("EN", f"wind gust lifting, less own weight{level}", other * wind.up_pa - weight_pa, factored)


def _press(
    family: Family, name: str, dead: float, snow: float = 0.0, wind: float = 0.0, factored: bool = False
) -> Case:
    pressures: dict[Kind, float] = {"own weight": dead, "snow": snow, "wind": wind}
    acting = tuple((kind, pa) for kind, pa in pressures.items() if pa > 0 or kind == "own weight")
    durations = tuple(_DURATION[family][kind] for kind, _ in acting)
    lasting = min(durations)
    if family == "ASCE":
        lasting = equal_duration_s(tuple((pa, _DURATION[family][kind]) for kind, pa in acting))
    kinds = tuple(kind for kind, _ in acting)
    return Case(name, dead + snow + wind, lasting, factored, kinds, acting)


def _lift(family: Family, name: str, up_pa: float, factored: bool) -> Case:
    return Case(name, -max(0.0, up_pa), _DURATION[family]["wind"], factored, ("wind",))


def _worst(cases: tuple[Case, ...]) -> tuple[float, float]:
    """Largest pressure down and largest up. [Pa]"""
    down = max(case.pressure_pa for case in cases)
    return max(0.0, down), max(0.0, -min(case.pressure_pa for case in cases))


def _pane_load(family: Family, case: Case) -> PaneLoad:
    """A case as the glass room takes it: size and kind, either face."""
    kind = case.kinds[0] if len(case.kinds) == 1 else "combined"
    parts = tuple(
        PaneLoad(part, pa, _DURATION[family][part], part, case.factored) for part, pa in case.parts if pa > 0
    )
    return PaneLoad(case.name, abs(case.pressure_pa), case.duration_s, kind, case.factored, parts)
