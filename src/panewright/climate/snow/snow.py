"""Snow on a panel: balanced, or below a higher roof. What piles up at the low edge: see `drift`.

Codes give snow on the level ground it covers. On a pane tilted by a, one square metre of glass lies over
cos a of plan, and of the weight on it cos a acts across the pane and sin a along it:

    across = s cos(a)^2,   along = s sin(a) cos(a)

[A] ASCE 7-10 and 7-16 chapter 7 (recalled): pf = 0.7 Ce Ct Is pg, ps = Cs pf; the least snow on low slopes
    7.3.4. The panel is unheated, with open air below (Ct 1.2), partly sheltered (Ce 1.0). Free to
    slide it counts as slippery; behind a lip as any other surface. A single pitch has no unbalanced case.
[E] EN 1991-1-3 5.2, 5.3 (read): s = mu1 Ce Ct sk, Ce 1, Ct 1; no less than 0.8 behind a lip (5.3.2, memory).
    For places up to 1500 m above the sea (1.1, read). A single pitch has no drifted case of its own (5.3.2).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site
from panewright.climate.snow.higher_roof import asce_more, en_whole
from panewright.units import PSF_PA

STRENGTH_FACTOR = {"ASCE": 1.6, "EN": 1.5}  #: of snow: ASCE 7 2.3.2, EN 1990 table A1.2(B)
_IMPORTANCE = {"I": 0.8, "II": 1.0, "III": 1.1, "IV": 1.2}
_LOW_SLOPE_DEG = 15.0
_TWENTY_PSF_PA = 20 * PSF_PA
_EXPOSURE, _THERMAL = 1.0, 1.2  # Ce of partly sheltered ground, Ct of open air structures
_MOST_ALTITUDE_M = 1500.0  # [E] 1.1


@dataclass(frozen=True, slots=True)
class SnowLoad:
    """Snow on the panel, service level (ASCE nominal, EN characteristic) and strength level."""

    plan_pa: float  #: on the plan area
    normal_pa: float  #: across the pane, on the pane's own area
    along_pa: float  #: down the slope, on the pane's own area
    strength_normal_pa: float
    reckoning: tuple[Reckoning, ...]
    checks: tuple[Check, ...]
    flat_pa: float = 0.0  #: on a flat roof there: pf of ASCE, 0.8 sk of EN

    def __hash__(self) -> int:
        """Of its pressures: they tell most snows apart."""
        return hash((self.plan_pa, self.normal_pa, self.along_pa))


def asce_flat_pa(ground_pa: float, exposure: float, thermal: float, importance: float) -> float:
    """pf. [Pa]  [A] 7.3.

    >>> round(asce_flat_pa(1500, 0.9, 1.2, 1.0))
    1134
    """
    return 0.7 * exposure * thermal * importance * ground_pa


def asce_slope_factor(tilt_deg: float, thermal: float, *, slippery: bool = True) -> float:
    """Cs: how much snow a slope keeps. [-]  [A] figure 7.4-1.

    >>> round(asce_slope_factor(30, 1.2), 4), round(asce_slope_factor(30, 1.0), 4)
    (0.7273, 0.6154)
    """
    warm, cool, cold = (5.0, 10.0, 15.0) if slippery else (30.0, 37.5, 45.0)
    start = warm if thermal <= 1.0 else cool if thermal <= 1.1 else cold
    return min(1.0, max(0.0, (70 - tilt_deg) / (70 - start)))


def en_shape_factor(tilt_deg: float, *, free_to_slide: bool = True) -> float:
    """mu1 of a single pitch; no less than 0.8 where something keeps the snow from sliding. [-]  [E] 5.3.2.

    >>> round(en_shape_factor(45), 6), en_shape_factor(45, free_to_slide=False)
    (0.4, 0.8)
    """
    return 0.8 * min(1.0, max(0.0, (60 - tilt_deg) / 30)) if free_to_slide else 0.8


def across(plan_pa: float, tilt_deg: float) -> float:
    """The part of a plan load that acts across the pane. [Pa]  Statics."""
    return plan_pa * math.cos(math.radians(tilt_deg)) ** 2


def snow_pressure(site: Site, *, free_to_slide: bool = True) -> SnowLoad:
    """Snow on the panel of a site by its own family of codes.

    A rail that stands above the pane at its low edge keeps snow from sliding off.
    """
    asce = site.family == "ASCE"
    flat, plan, steps = (_asce_plan if asce else _en_plan)(site, free_to_slide)
    if site.upper_roof_m > 0 and site.ground_snow_pa > 0:
        plan, more = _below_a_roof(site, flat, plan)
        steps += more
    tilt = math.radians(site.tilt_deg)
    normal = across(plan, site.tilt_deg)
    steps += (Reckoning(f"snow across the pane, cos² of {site.tilt_deg:g} degrees", normal, "Pa"),)
    return SnowLoad(
        plan_pa=plan,
        normal_pa=normal,
        along_pa=plan * math.sin(tilt) * math.cos(tilt),
        strength_normal_pa=STRENGTH_FACTOR[site.family] * normal,
        reckoning=steps,
        checks=() if asce or site.ground_snow_pa <= 0 else (_altitude(site),),
        flat_pa=flat,
    )


def _below_a_roof(site: Site, flat_pa: float, plan_pa: float) -> tuple[float, tuple[Reckoning, ...]]:
    """Snow on plan with what a higher roof adds. [Pa]"""
    if site.family == "ASCE":
        more, steps = asce_more(site, flat_pa, plan_pa)
        whole = plan_pa + more
    else:
        whole, steps = en_whole(site)
        whole = max(whole, plan_pa)
    return whole, (*steps, Reckoning("snow on plan below the higher roof", whole, "Pa"))


def _altitude(site: Site) -> Check:
    return Check(
        "altitude within the snow rules",
        site.altitude_m,
        _MOST_ALTITUDE_M,
        "m",
        "EN 1991-1-3 1.1",
        "Let the national annex or an engineer say what snow does so high up.",
        "climate",
    )


def _asce_plan(site: Site, free_to_slide: bool) -> tuple[float, float, tuple[Reckoning, ...]]:
    """Flat snow, snow on plan [Pa], and the steps to them."""
    # The 7-22 map has the importance in it. The order states a nominal value, so 0.7 is never taken.
    in_map = site.wind.edition == "ASCE 7-22"
    importance = 1.0 if in_map else _IMPORTANCE[site.wind.risk_category or "II"]
    flat = asce_flat_pa(site.ground_snow_pa, _EXPOSURE, _THERMAL, importance)
    slope = asce_slope_factor(site.tilt_deg, _THERMAL, slippery=free_to_slide)
    low = site.tilt_deg < _LOW_SLOPE_DEG
    least = importance * min(site.ground_snow_pa, _TWENTY_PSF_PA) if low else 0.0
    plan = max(slope * flat, least)
    steps = (
        Reckoning("ground snow pg", site.ground_snow_pa, "Pa"),
        Reckoning("Ce, partly sheltered", _EXPOSURE, "-"),
        Reckoning("Ct, open air below", _THERMAL, "-"),
        Reckoning("Is, importance", importance, "-"),
        Reckoning("flat snow pf = 0.7 Ce Ct Is pg", flat, "Pa"),
        Reckoning("Cs, slippery slope" if free_to_slide else "Cs, a lip holds the snow", slope, "-"),
        Reckoning("least snow on a low slope", least, "Pa"),
        Reckoning("snow on plan", plan, "Pa"),
    )
    return flat, plan, steps


def _en_plan(site: Site, free_to_slide: bool) -> tuple[float, float, tuple[Reckoning, ...]]:
    """Snow on a flat roof, snow on plan [Pa], and the steps to them."""
    shape = en_shape_factor(site.tilt_deg, free_to_slide=free_to_slide)
    plan = shape * site.ground_snow_pa
    steps = (
        Reckoning("ground snow sk", site.ground_snow_pa, "Pa"),
        Reckoning("Ce and Ct", 1.0, "-"),
        Reckoning("mu1, free to shed" if free_to_slide else "mu1, a lip holds the snow", shape, "-"),
        Reckoning("snow on plan s = mu1 Ce Ct sk", plan, "Pa"),
    )
    return en_shape_factor(0.0) * site.ground_snow_pa, plan, steps
