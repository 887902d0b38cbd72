"""A panel that stands tilted on a flat roof, by ASCE 7-16 and 7-22, 29.4.3.

    p = qh GCrn      GCrn = gamma_p gamma_c gamma_E (GCrn)nom, either way                        (29.4-5, -6)

(GCrn)nom by the figure, over An = 1000 A / max(Lb, 15 ft)^2 in square feet: level to An 1, then straight over
its logarithm; between 5 and 15 degrees straight over the tilt. A is the panel's area. What the order does not
know is taken on the safe side: Lb = min(0.4 sqrt(h W), h, Ws) as h, the panel's top above the ground;
gamma_p 1.2, the most that a parapet does; gamma_E 1.5, as one panel is all edge. gamma_c = max(0.6 + 0.06
Lp [ft], 0.8). Without a size yet: An 1, and the longest panel of the rule.

Roof zones are strips twice the roof's height wide: a low, small roof is all corner, which is the usual one.
The force on the whole is even and stands in the middle, for the rule says nothing else.

[A] ASCE 7-16 29.4.3 and figure 29.4-7: formulas, factors and scope (35 degrees, 6.7 ft long, low edge 2 ft
    and high edge 4 ft over the roof, slope of the roof 7 degrees) read in a public program's text; its
    points read in three, which differ twice: corner to 5 degrees 2.3 or 2.5, knee from 15 degrees at An 500
    or 1000; the larger is taken. That (GCrn)nom presses as much as it lifts, and that panels stay the larger
    of 4 ft and 2 h2 from the roof's edge, is recalled.
"""

from __future__ import annotations

import math

import numpy as np

from panewright.check import Check
from panewright.climate.site import Site, Size, Zone
from panewright.climate.wind.net import Grip, Net, tilt_check, two_ways

FOOT_MM = 304.8
MOST_TILT_DEG = 35.0
MOST_LONG_MM, MOST_LOW_MM, MOST_HIGH_MM = 6.7 * FOOT_MM, 2 * FOOT_MM, 4 * FOOT_MM
PARAPET, EDGE = 1.2, 1.5  #: gamma_p, gamma_E
_SOURCE = "ASCE 7-16 29.4.3"
_LEAST_BUILDING_FT = 15.0
_FROM_DEG, _TO_DEG = 5.0, 15.0
# (An, (GCrn)nom) by zone: up to 5 degrees, and from 15 degrees on.
_FLAT = {"middle": (1.5, 0.35, 0.10), "edge": (2.0, 0.45, 0.15), "corner": (2.5, 0.50, 0.15)}
_STEEP = {"middle": (2.0, 0.56, 0.30), "edge": (2.9, 0.65, 0.40), "corner": (3.5, 0.80, 0.50)}
_FLAT_AREAS, _STEEP_AREAS = (1.0, 500.0, 5000.0), (1.0, 1000.0, 5000.0)
_CURE = "Set it lower, use a shorter panel, or let an engineer find the wind on it."


def nominal_coefficient(tilt_deg: float, zone: Zone, area: float) -> float:
    """(GCrn)nom at a normalized wind area. [-, ft2]  [A]

    >>> nominal_coefficient(5, "middle", 500), nominal_coefficient(20, "corner", 1)
    (0.35, 3.5)
    """
    flat = _over_area(area, _FLAT_AREAS, _FLAT[zone])
    steep = _over_area(area, _STEEP_AREAS, _STEEP[zone])
    return float(np.interp(tilt_deg, (_FROM_DEG, _TO_DEG), (flat, steep)))


def normalized_area_ft2(area_m2: float, height_m: float) -> float:
    """An of so large a panel on a roof so high. [ft2]  [A], Lb as the height.

    >>> round(normalized_area_ft2(0.6, 5.0), 1)
    24.0
    """
    square_feet, height_ft = area_m2 * 1e6 / FOOT_MM**2, height_m * 1000 / FOOT_MM
    return 1000 * square_feet / max(height_ft, _LEAST_BUILDING_FT) ** 2


def chord_factor(long_mm: float) -> float:
    """gamma_c of a panel so long up the slope. [-]  [A]

    >>> round(chord_factor(1000), 4), round(chord_factor(2000), 4)
    (0.8, 0.9937)
    """
    return max(0.6 + 0.06 * long_mm / FOOT_MM, 0.8)


def roof_stand(site: Site, size: Size | None) -> Net:
    """Coefficients of a panel on a flat roof, and the scope of the rule."""
    area = 1.0 if size is None else normalized_area_ft2(size.area_m2, site.height_m)
    long_mm = MOST_LONG_MM if size is None else size.long_mm
    nominal = nominal_coefficient(site.tilt_deg, site.wind_zone, area)
    net = PARAPET * chord_factor(long_mm) * EDGE * nominal
    number = {"middle": 1, "edge": 2, "corner": 3}[site.wind_zone]
    words = (
        f"GCrn = {PARAPET:g} x {chord_factor(long_mm):.3g} x {EDGE:g} x {nominal:.3g} of ASCE 7-16 29.4.3, "
        f"panel standing on a flat roof's zone {number}, An {area:.3g} ft2"
    )
    grips = (Grip("wind onto the face", net, 0.0, 0.0), Grip("wind lifting the panel", -net, 0.0, 0.0))
    ways = two_ways(net, net, "wind onto the face", "wind lifting the panel")
    return Net(ways, words, _scope(site, size), grips)


def _over_area(area: float, areas: tuple[float, ...], values: tuple[float, ...]) -> float:
    return float(np.interp(math.log10(max(area, 1.0)), [math.log10(each) for each in areas], values))


def _scope(site: Site, size: Size | None) -> tuple[Check, ...]:
    """Where the rule ends; what asks for the panel's size only where it is known."""
    low_mm = site.lower_edge_mm or 0.0
    checks = [
        tilt_check(site.tilt_deg, MOST_TILT_DEG, f"{_SOURCE}: 35 degrees"),
        _check("low edge over the flat roof within the wind rule", low_mm, MOST_LOW_MM, "2 ft"),
    ]
    if size is None:
        return (*checks, _clear(site, low_mm))
    high_mm = low_mm + size.long_mm * math.sin(math.radians(site.tilt_deg))
    return (
        *checks,
        _check("high edge over the flat roof within the wind rule", high_mm, MOST_HIGH_MM, "4 ft"),
        _check("length of a panel on a flat roof within the wind rule", size.long_mm, MOST_LONG_MM, "6.7 ft"),
        _clear(site, high_mm),
    )


def _check(rule: str, demand_mm: float, limit_mm: float, words: str) -> Check:
    return Check(rule, demand_mm, limit_mm, "mm", f"{_SOURCE}: {words}", _CURE, "climate")


def _clear(site: Site, high_mm: float) -> Check:
    return Check(
        "panel clear of the flat roof's edges",
        max(2 * high_mm, 4 * FOOT_MM),
        site.roof_edge_mm,
        "mm",
        f"{_SOURCE}: 4 ft or twice the height of the high edge; from memory",
        "Move the panel away from the roof's edges, or set it lower.",
        "climate",
    )
