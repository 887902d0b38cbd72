"""How much wind a pane of this size bears: its safe wind speed, by each family of codes for itself.

The highest speed at which every rule of the pane holds under wind and own weight; snow is proved apart. For
the order's own family the ground is the order's; the other family is asked for its usual open ground, because
grounds and speeds of the two do not translate. Rails, brackets, bead, bolts and cells have limits of their
own. The pane is held on the sides that the order names. Of laminated glass only its own plies are looked at:
how a thicker sheet of two plies is made up is not told by its thickness.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from math import isfinite, sqrt

from panewright.check import Check
from panewright.climate.site import RAILS_MM, Family, Site, Size, Wind
from panewright.climate.snow.snow import snow_pressure
from panewright.climate.wind.load import wind_pressures
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.holding import Sides
from panewright.structure.loads import combine
from panewright.structure.panes.choice import prove_pane
from panewright.structure.rails.seat import mass_kg_m2
from panewright.units import MM

MOST_M_S = 100.0
_NEAR_M_S, _STEPS = 0.1, 30
_ASKED: dict[Family, Wind] = {  # what the other family is asked for
    "EN": Wind(0.0, "10 min mean", "EN 1991-1-4", return_years=50.0, ground="II"),
    "ASCE": Wind(0.0, "3 s gust", "ASCE 7-16", risk_category="II", ground="C"),
}


@dataclass(frozen=True, slots=True)
class SafeWind:
    """Safe speeds of one family against the thickness of the sheet."""

    family: Family
    wind: Wind  #: kind, edition and ground that the speeds are of
    thickness_mm: tuple[float, ...]  #: thinnest it may be, as proved
    speed_m_s: tuple[float, ...]
    covered: bool = True  #: whether the family's glass rules know this kind of glass at all


def calm(site: Site) -> Site:
    """The site without its snow, as safe speeds are asked for."""
    return replace(site, ground_snow_pa=0.0)


def both_families(site: Site) -> tuple[Site, Site]:
    """The site in its own family, and the same place read by the other one on its usual ground."""
    other: Family = "ASCE" if site.family == "EN" else "EN"
    bare = calm(site)
    zone = None if bare.mounting == "flat roof" else bare.zone  # each family has its own usual zone there
    return bare, replace(bare, family=other, wind=_ASKED[other], zone=zone)


def safe_wind(pane: Pane, site: Site, sheets: Iterable[Sheet], sides: Sides = "four sides") -> SafeWind:
    """Speeds for this kind of glass in every thickness of the sheets and its own."""
    alike = () if pane.sheet.plies else (sheet for sheet in sheets if sheet.plies is None)
    by_thickness = {sheet.thickness_mm: sheet.nominal_mm for sheet in alike}
    by_thickness[pane.sheet.thickness_mm] = pane.sheet.nominal_mm
    covered, speeds = _covered(pane, site, sides), [0.0]
    for thick in sorted(by_thickness):  # a thicker pane bears at least what a thinner one does
        made = _as_thick(pane, thick, by_thickness[thick])
        speeds.append(safe_speed_m_s(made, site, speeds[-1], sides=sides) if covered else 0.0)
    return SafeWind(site.family, site.wind, tuple(sorted(by_thickness)), tuple(speeds[1:]), covered)


def _covered(pane: Pane, site: Site, sides: Sides) -> bool:
    """Whether the rule book has a limit for such glass, calm and under its own weight alone."""
    return all(check.covered for check in _checks(pane, site, 0.0, sides) if "strength" in check.rule)


def _as_thick(pane: Pane, thickness_mm: float, nominal_mm: float) -> Pane:
    return replace(pane, sheet=replace(pane.sheet, thickness_mm=thickness_mm, nominal_mm=nominal_mm))


@lru_cache(maxsize=256)
def safe_speed_m_s(pane: Pane, site: Site, known_m_s: float = 0.0, *, sides: Sides = "four sides") -> float:
    """Highest wind speed at which the pane keeps every rule; 0 where it keeps them at none. [m/s]

    `known_m_s` is a speed it is known to bear. Found to a tenth: chords in the square of the speed, to which
    the pressure is proportional, and halvings where a chord would creep.
    """
    low, below = known_m_s, _used(pane, site, known_m_s, sides)
    if below > 1:
        return 0.0
    high = min(MOST_M_S, max(2 * low, 20.0))
    above = _used(pane, site, high, sides)
    while above <= 1 and high < MOST_M_S:
        low, below, high = high, above, min(MOST_M_S, 1.5 * high)
        above = _used(pane, site, high, sides)
    if above <= 1:
        return MOST_M_S
    for step in range(_STEPS):
        if high - low < _NEAR_M_S:
            break
        middle = _between((low, below), (high, above), chord=step % 3 < 2)
        used = _used(pane, site, middle, sides)
        if used <= 1:
            low, below = middle, used
        else:
            high, above = middle, used
    return low


def _between(low: tuple[float, float], high: tuple[float, float], *, chord: bool) -> float:
    """Where the chord meets full use, kept off its ends; half way where there is no chord. [m/s]"""
    (slow, below), (fast, above) = low, high
    share = (1 - below) / (above - below) if chord and isfinite(above) else 0.5
    share = min(max(share, 0.02), 0.98)
    return sqrt(slow**2 + share * (fast**2 - slow**2))


def _used(pane: Pane, site: Site, speed_m_s: float, sides: Sides) -> float:
    """Use of the rule that is nearest to its limit, or past it; endless where one has no limit. [-]"""
    return max(check.utilisation for check in _checks(pane, site, speed_m_s, sides))


def _checks(pane: Pane, site: Site, speed_m_s: float, sides: Sides) -> tuple[Check, ...]:
    blown = replace(site, wind=replace(site.wind, speed_m_s=speed_m_s), ground_snow_pa=0.0)
    snow = snow_pressure(blown, free_to_slide=False)
    size = Size(pane.long_mm * pane.short_mm * MM**2, pane.long_mm + RAILS_MM)
    loads = combine(blown, wind_pressures(blown, size), snow, mass_kg_m2(pane.sheet))
    return prove_pane(pane, site.family, _hardest(site.family, loads.pane_loads), sides).checks


def _hardest(family: Family, loads: tuple[PaneLoad, ...]) -> tuple[PaneLoad, ...]:
    """Of loads that a rule book takes alike the largest: the others are never nearer to a limit."""
    if family == "ASCE":  # its loads have parts of several durations
        return loads
    kinds: dict[tuple[bool, float], PaneLoad] = {}
    for load in loads:
        kind = load.factored, load.duration_s
        if kind not in kinds or load.pressure_pa > kinds[kind].pressure_pa:
            kinds[kind] = load
    return tuple(kinds.values())
