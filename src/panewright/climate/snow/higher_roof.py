"""Snow on a panel below a higher roof: what slides down from it, and what the wind drops behind its wall.

ASCE [A]: of the upper roof's flat snow 0.4 slides, spread over 15 ft (7.9). The drift behind its wall is
    0.43 lu^(1/3) (pg + 10)^(1/4) - 1.5 ft high (7.7.1; lu, the upper roof's depth, 20 ft at least), no higher
    than the wall above the snow that lies there. Each alone lies on the balanced snow.
EN [E]: (mu_s + mu_w) sk in place of the balanced snow. mu_s = 0.8 b / ls of the upper roof's depth b, taken
    as steeper than 15 degrees; mu_w = gamma h / sk within 0.8 and 4; h the height of the wall, ls = 2 h
    within 5 and 15 m. The lower roof's own length, which may make mu_w less, is not asked.

All is taken at the wall, where it lies deepest, and on the whole panel: too much, never too little. The shock
of falling snow is in neither rule.

[A] ASCE 7-16 7.7.1 and 7.9 (recalled). [E] EN 1991-1-3 5.3.6 (mu_s read, the rest recalled).
"""

from __future__ import annotations

import math

from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site
from panewright.climate.snow.snow_weight import EN_SNOW_N_M3, snow_weight_n_m3
from panewright.units import PSF_PA

_FOOT_M = 0.3048
_SPREAD_M = 15 * _FOOT_M
_LEAST_FETCH_M = 20 * _FOOT_M
_SLIDES = 0.4
_LEAST_BLOWN, _MOST_BLOWN = 0.8, 4.0


def drift_height_m(fetch_m: float, ground_pa: float) -> float:
    """hd behind a wall. [m]  [A] 7.7.1.

    >>> round(drift_height_m(100 * 0.3048, 30 * PSF_PA) / 0.3048, 2)
    3.52
    """
    fetch_ft = max(fetch_m, _LEAST_FETCH_M) / _FOOT_M
    height_ft = 0.43 * math.cbrt(fetch_ft) * math.pow(ground_pa / PSF_PA + 10, 0.25) - 1.5
    return max(0.0, height_ft) * _FOOT_M


def asce_more(site: Site, flat_pa: float, lying_pa: float) -> tuple[float, tuple[Reckoning, ...]]:
    """What lies on the balanced snow, on plan. [Pa]"""
    weight = snow_weight_n_m3("ASCE", site.ground_snow_pa)
    slid = _SLIDES * flat_pa * site.upper_roof_m / _SPREAD_M
    room_m = max(0.0, site.upper_drop_m - lying_pa / weight)
    blown = weight * min(drift_height_m(site.upper_roof_m, site.ground_snow_pa), room_m)
    return max(slid, blown), (
        Reckoning("more by what slides from the higher roof, 0.4 pf W over 15 ft", slid, "Pa"),
        Reckoning("more by the drift behind its wall, γ hd", blown, "Pa"),
    )


def en_whole(site: Site) -> tuple[float, tuple[Reckoning, ...]]:
    """What lies in place of the balanced snow, on plan. [Pa]"""
    length_m = min(max(2 * site.upper_drop_m, 5.0), 15.0)
    slid = 0.8 * site.upper_roof_m / length_m
    shape = EN_SNOW_N_M3 * site.upper_drop_m / site.ground_snow_pa
    blown = min(max(shape, _LEAST_BLOWN), _MOST_BLOWN)
    return (slid + blown) * site.ground_snow_pa, (
        Reckoning("μs, what slides from the higher roof, 0.8 b / ls", slid, "-"),
        Reckoning("μw, what the wind drops behind its wall, γ h / sk", blown, "-"),
    )
