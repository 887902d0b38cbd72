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
from math import inf, log

from panewright.check import Check
from panewright.climate.site import RAILS_MM, Family, Site, Size, Wind
from panewright.climate.snow.snow import snow_pressure
from panewright.climate.wind.load import wind_pressures
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.holding import Sides
from panewright.structure.loads import hardest_pane_loads
from panewright.structure.panes.choice import prove_pane
from panewright.structure.rails.seat import mass_kg_m2
from panewright.units import MM

MOST_M_S = 100.0
_NEAR_M_S, _MOST_TRIES = 0.01, 60
_FIRST_M_S = 25.0  # tried first
_USUAL, _LEAST = 1.5, 0.05  # power of the speed with which a pane's use grows, and below which none is seen
_POWERS = 6  # tries by powers until one half way
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

    `known_m_s` is a speed it is known to bear. Found to a hundredth, from below. What loads a pane in a
    calm does so in every wind: a calm is asked for only where the first wind is too much.
    """
    low, high = _Tried(known_m_s, _used(pane, site, known_m_s, sides) if known_m_s else 0.0), None
    if low.used > 1:
        return 0.0
    tried = [low]
    while len(tried) < _MOST_TRIES and (high is None or high.speed_m_s - low.speed_m_s > _NEAR_M_S):
        speed = _next_m_s(tried, low, high)
        tried.append(now := _Tried(speed, _used(pane, site, speed, sides)))
        if now.used > 1:
            calm = high is None and low.speed_m_s == 0  # not asked so far: whoever bears a wind bears it
            if calm and _used(pane, site, 0.0, sides) > 1:
                return 0.0
            high = now
        elif speed >= MOST_M_S:
            return MOST_M_S
        else:
            low = now
    return low.speed_m_s


@dataclass(frozen=True, slots=True)
class _Tried:
    """A wind speed, and the use of the rule nearest to its limit."""

    speed_m_s: float
    used: float


def _next_m_s(tried: list[_Tried], low: _Tried, high: _Tried | None) -> float:
    """Where the use, a power of the speed, meets 1, kept between what holds and what does not. [m/s]

    Now and then half way, or half as far again while nothing failed, should the power mislead.
    """
    floor = low.speed_m_s + 0.4 * _NEAR_M_S
    wanted = _full_m_s(tried)
    if wanted is None or len(tried) % _POWERS == 0:
        wanted = (
            max(1.5 * low.speed_m_s, _FIRST_M_S) if high is None else (low.speed_m_s + high.speed_m_s) / 2
        )
    return max(floor, min(wanted, MOST_M_S if high is None else high.speed_m_s - 0.4 * _NEAR_M_S))


def _full_m_s(tried: list[_Tried]) -> float | None:
    """Where the power law of the last two speeds meets full use; of one alone by a usual power. [m/s]"""
    told = [each for each in tried if each.speed_m_s > 0 and 0 < each.used < inf][-2:]
    if not told:
        return None
    last, power = told[-1], _USUAL
    if len(told) == 2 and told[0].speed_m_s != last.speed_m_s:
        power = log(last.used / told[0].used) / log(last.speed_m_s / told[0].speed_m_s)
    return last.speed_m_s * (1 / last.used) ** (1 / power) if power > _LEAST else None


def _used(pane: Pane, site: Site, speed_m_s: float, sides: Sides) -> float:
    """Use of the rule that is nearest to its limit, or past it; endless where one has no limit. [-]"""
    return max(check.utilisation for check in _checks(pane, site, speed_m_s, sides))


def _checks(pane: Pane, site: Site, speed_m_s: float, sides: Sides) -> tuple[Check, ...]:
    blown = replace(site, wind=replace(site.wind, speed_m_s=speed_m_s), ground_snow_pa=0.0)
    snow = snow_pressure(blown, free_to_slide=False)
    size = Size(pane.long_mm * pane.short_mm * MM**2, pane.long_mm + RAILS_MM)
    loads = hardest_pane_loads(blown, wind_pressures(blown, size), snow, mass_kg_m2(pane.sheet))
    return prove_pane(pane, site.family, loads, sides).checks
