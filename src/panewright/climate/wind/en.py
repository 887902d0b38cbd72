"""Peak velocity pressure of the wind by EN 1991-1-4: 10 min mean speeds, terrain categories 0 to IV.

    qp = (1 + 7 Iv) rho vm^2 / 2,   vm = cr vb,   cr = kr ln(z / z0),   Iv = 1 / ln(z / z0)

Recommended values; a national annex may say otherwise. c_dir and c_season 1, rho 1.25 kg/m3, up to 200 m. On
a hill vm = cr c0 vb and Iv = 1 / (c0 ln(z / z0)), see `hill`. The basic speed returns every 50 years.

[E] EN 1991-1-4:2005+A1 sections 4.2 to 4.5 (formulas and z0 of 0, I, II read; z0 of III, IV and z_min
    recalled); 4.2 note 4 for other return periods (K 0.2, n 0.5, recalled).
"""

from __future__ import annotations

import math

from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site, Wind
from panewright.climate.wind.hill import orography_factor, standing

AIR_KG_M3 = 1.25
PARTIAL_FACTOR = 1.5  #: of variable actions, EN 1990 table A1.2(B)
MOST_HEIGHT_M = 200.0

# Roughness length z0 and least height z_min of each terrain category. [m]
_TERRAIN = {"0": (0.003, 1.0), "I": (0.01, 1.0), "II": (0.05, 2.0), "III": (0.3, 5.0), "IV": (1.0, 10.0)}


def probability_factor(years: float) -> float:
    """c_prob: a speed of this return period over the 50-year speed. [-]  [E] 4.2 note 4.

    >>> round(probability_factor(50), 6), round(probability_factor(10), 3)
    (1.0, 0.902)
    """

    def rarity(each_year: float) -> float:
        return 1 - 0.2 * math.log(-math.log(1 - each_year))

    if years <= 1:
        raise ValueError(f"a return period is longer than one year, got {years}")
    return math.sqrt(rarity(1 / years) / rarity(0.02))


def mean_speed_m_s(basic_m_s: float, terrain: str, height_m: float) -> float:
    """vm at a height over a kind of ground. [m/s]  [E] 4.3."""
    z0, log_z = _roughness(terrain, height_m)
    return float(0.19 * (z0 / 0.05) ** 0.07 * log_z * basic_m_s)


def turbulence(terrain: str, height_m: float) -> float:
    """Iv at a height, turbulence factor 1. [-]  [E] 4.4."""
    return 1 / _roughness(terrain, height_m)[1]


def peak_pressure_pa(basic_m_s: float, terrain: str, height_m: float, *, c0: float = 1.0) -> float:
    """qp, on flat ground unless c0 says otherwise. [Pa]  [E] 4.5.

    >>> round(peak_pressure_pa(27, "I", 3.5))
    989
    """
    mean = c0 * mean_speed_m_s(basic_m_s, terrain, height_m)
    return (1 + 7 * turbulence(terrain, height_m) / c0) * 0.5 * AIR_KG_M3 * mean**2


def basic_speed(wind: Wind, mean_m_s: float) -> Reckoning:
    """The 50-year basic speed, from the 10 min mean as stated or converted. [m/s]

    A milder return period is raised to 50 years; a rarer one is kept as the greater care it asks for.
    """
    years = wind.return_years
    if years is None or years >= 50:
        how = "as stated" if wind.kind == "10 min mean" else "converted"
        return Reckoning(f"basic wind speed vb, 10 min mean, {how}", mean_m_s, "m/s")
    speed = mean_m_s / probability_factor(years)
    return Reckoning(f"basic wind speed vb raised from {years:g} to 50 years", speed, "m/s")


def peak_reckoning(site: Site, mean_m_s: float) -> tuple[float, tuple[Reckoning, ...]]:
    """qp of a site [Pa] and the steps to it, from the 10 min mean as stated or converted."""
    terrain = site.wind.ground
    basic = basic_speed(site.wind, mean_m_s)
    c0 = orography_factor(site.hill, site.height_m)
    mean = c0 * mean_speed_m_s(basic.value, terrain, site.height_m)
    pressure = peak_pressure_pa(basic.value, terrain, site.height_m, c0=c0)
    return pressure, (
        basic,
        Reckoning("c_dir and c_season", 1.0, "-"),
        Reckoning(f"c0, {standing(site.hill)}", c0, "-"),
        Reckoning(f"mean speed vm, terrain {terrain} at {site.height_m:g} m", mean, "m/s"),
        Reckoning("turbulence Iv", turbulence(terrain, site.height_m) / c0, "-"),
        Reckoning("peak velocity pressure qp = (1 + 7 Iv) ρ vm² / 2", pressure, "Pa"),
    )


def _roughness(terrain: str, height_m: float) -> tuple[float, float]:
    """z0 [m] and ln(z / z0), z no less than the category's least height."""
    if terrain not in _TERRAIN:
        raise ValueError(f"EN 1991-1-4 knows the terrains {', '.join(_TERRAIN)}, got {terrain!r}")
    z0, least = _TERRAIN[terrain]
    return z0, math.log(max(height_m, least) / z0)
