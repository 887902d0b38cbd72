"""Snow that piles up before a panel's low edge and reaches over it, and the pull on the lip that holds it.

Before the edge lies the snow of the ground or of the flat roof that the panel stands on. Two things raise it,
each taken alone, as both books do: what slides off the panel, and what the wind drops behind it.

ASCE [A]: of the panel's flat snow 0.4 slides (7.9, slippery, steeper than 1/4 in 12); a pile is four times as
    long as it is high (7.7). The wind makes no drift at a thing less than 15 ft long (7.8).
EN [E]: of the panel's snow half slides (5.3.6, past 15 degrees); a pile is twice
    as long as it is high. Behind a thing of height h the wind heaps mu2 = gamma h / sk, 0.8 to 2.0 (6.2).

The wind heaps no more than the panel's own height (mu2 = gamma h / sk is just that), so blown snow reaches
its top edge and never buries it; only lying and slid snow can.

Where that stands higher than the low edge, the pane's lowest strip lies under so much snow more: a triangle,
full at the edge and nothing where the pane leaves the snow. It is laid on the balanced snow, whose room it
partly takes: too much, never too little. For the pane's own proof its full height counts over the whole pane.

A low edge that the order does not state follows from the height of the panel's top above the ground.

Down the slope nothing is taken off by friction (EN 6.4): all that lies on the pane pulls at the lip.

[A] ASCE 7-16 7.7 to 7.9 (recalled). [E] EN 1991-1-3 6.2, 6.4 (read in a public calculation), 5.3.6 (recalled;
    that half of the snow slides, read).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site
from panewright.climate.snow.snow import STRENGTH_FACTOR, SnowLoad
from panewright.climate.snow.snow_weight import EN_SNOW_N_M3, snow_weight_n_m3

_SLIDES = {"ASCE": (0.4, math.degrees(math.atan(1 / 48))), "EN": (0.5, 15.0)}  # share, past this tilt
_PILE_LONG = {"ASCE": 4.0, "EN": 2.0}  # length of a pile over its height
_LEAST_DRIFT, _MOST_DRIFT = 0.8, 2.0


@dataclass(frozen=True, slots=True)
class Drift:
    """What piles up at the low edge, across the pane; a triangle from the low edge up."""

    depth_mm: float  #: of the snow before the low edge
    drift_pa: float  #: service level, across the pane at its low edge; nothing where the edge stands clear
    drift_mm: float  #: up the slope, from the low edge to where the pane leaves the snow
    along_pa: float  #: service level, down the slope, the triangle spread over the whole pane
    strength_drift_pa: float
    lip_n_m: float  #: service level, down the slope on each metre of the low rail's lip
    strength_lip_n_m: float
    reckoning: tuple[Reckoning, ...]
    checks: tuple[Check, ...]


def pile_up(site: Site, snow: SnowLoad, slope_mm: float) -> Drift:
    """Snow over the low edge of a panel so long down the slope, and its pull on the lip."""
    if not site.in_the_open or site.ground_snow_pa <= 0:
        return _drift(site, snow, slope_mm, (0.0, 0.0), ())
    heights_mm, steps = _before_the_edge(site, snow, slope_mm)
    return _drift(site, snow, slope_mm, heights_mm, steps)


def _before_the_edge(
    site: Site, snow: SnowLoad, slope_mm: float
) -> tuple[tuple[float, float], tuple[Reckoning, ...]]:
    """How high lying and slid snow, and blown snow, stand before the low edge, and the steps to it. [mm]"""
    weight = snow_weight_n_m3(site.family, site.ground_snow_pa)
    lying = 1000 * site.ground_snow_pa / weight
    slid = lying + _slid_mm(site, snow, slope_mm, weight)
    blown = _blown_mm(site, slope_mm) if site.family == "EN" else 0.0
    steps = [
        Reckoning("weight of lying snow", weight, "N/m3"),
        Reckoning("snow lying before the low edge", lying, "mm"),
        Reckoning("the same with what slides off the panel", slid, "mm"),
    ]
    if site.family == "EN":
        steps.append(Reckoning("the same blown behind the panel, μ2 = γ h / sk, 0.8 to 2.0", blown, "mm"))
    return (slid, blown), tuple(steps)


def _slid_mm(site: Site, snow: SnowLoad, slope_mm: float, weight_n_m3: float) -> float:
    """Height of the pile that slides off: a triangle of the family's shape. [mm]"""
    share, from_deg = _SLIDES[site.family]
    if site.tilt_deg <= from_deg:
        return 0.0
    plan_m = slope_mm / 1000 * math.cos(math.radians(site.tilt_deg))
    upon = snow.flat_pa if site.family == "ASCE" else snow.plan_pa
    area_m2 = share * upon * plan_m / weight_n_m3
    return 1000 * math.sqrt(2 * area_m2 / _PILE_LONG[site.family])


def _blown_mm(site: Site, slope_mm: float) -> float:
    """Height of what the wind heaps behind the panel. [mm]  [E] 6.2."""
    shape = EN_SNOW_N_M3 * _top_mm(site, slope_mm) / 1000 / site.ground_snow_pa
    held = min(max(shape, _LEAST_DRIFT), _MOST_DRIFT)
    return 1000 * held * site.ground_snow_pa / EN_SNOW_N_M3


def _low_edge_mm(site: Site, slope_mm: float) -> float:
    """The low edge above what the panel stands on: as stated, or as its height over the ground leaves it."""
    if site.lower_edge_mm is not None:
        return site.lower_edge_mm
    return max(0.0, 1000 * site.height_m - _rise_mm(site, slope_mm))


def _rise_mm(site: Site, slope_mm: float) -> float:
    return slope_mm * math.sin(math.radians(site.tilt_deg))


def _top_mm(site: Site, slope_mm: float) -> float:
    return _low_edge_mm(site, slope_mm) + _rise_mm(site, slope_mm)


def _drift(
    site: Site,
    snow: SnowLoad,
    slope_mm: float,
    heights_mm: tuple[float, float],
    steps: tuple[Reckoning, ...],
) -> Drift:
    slid_mm, depth_mm = heights_mm[0], max(heights_mm)
    sine, cosine = math.sin(math.radians(site.tilt_deg)), math.cos(math.radians(site.tilt_deg))
    low_mm = _low_edge_mm(site, slope_mm)
    over_mm = max(0.0, depth_mm - low_mm)
    plan = snow_weight_n_m3(site.family, site.ground_snow_pa) * over_mm / 1000
    up_mm = _up_the_slope_mm(over_mm, sine, slope_mm)
    along = plan * sine * cosine * up_mm / slope_mm / 2
    lip = (snow.along_pa + along) * slope_mm / 1000
    factor = STRENGTH_FACTOR[site.family]
    more = plan * cosine**2
    return Drift(
        depth_mm=depth_mm,
        drift_pa=more,
        drift_mm=up_mm,
        along_pa=along,
        strength_drift_pa=factor * more,
        lip_n_m=lip,
        strength_lip_n_m=factor * lip,
        reckoning=(*steps, *(_over_steps(low_mm, more, up_mm) if steps else ()), _pull(lip)),
        checks=(_buried(site, slope_mm, slid_mm),) if steps else (),
    )


def _up_the_slope_mm(over_mm: float, sine: float, slope_mm: float) -> float:
    """Where a level of snow so high over the low edge leaves the pane. [mm]"""
    if over_mm >= slope_mm * sine:
        return slope_mm if over_mm > 0 else 0.0
    return over_mm / sine


def _over_steps(low_mm: float, more_pa: float, up_mm: float) -> tuple[Reckoning, ...]:
    return (
        Reckoning("low edge above the ground or the roof below", low_mm, "mm"),
        Reckoning("more snow across the pane at its low edge", more_pa, "Pa"),
        Reckoning("up the slope to where the pane leaves it", up_mm, "mm"),
    )


def _pull(lip_n_m: float) -> Reckoning:
    return Reckoning("snow pulling on the lip of the low rail, no friction", lip_n_m, "N/m")


def _buried(site: Site, slope_mm: float, slid_mm: float) -> Check:
    """Blown snow is left out: the wind heaps it behind the panel, no higher than the panel itself."""
    return Check(
        "snow below the panel's top edge",
        slid_mm,
        _top_mm(site, slope_mm),
        "mm",
        "a panel buried whole is outside every rule for its snow",
        "Raise the panel out of the snow, or tilt it more steeply.",
        "climate",
    )
