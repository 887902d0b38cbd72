"""Velocity pressure of the wind by ASCE 7: 3 s gust speeds, exposures B, C, D.

    q = 0.613 Kz Kzt Kd Ke V^2   [Pa, m/s]

ASCE 7-05 maps a 50-year gust: its pressure is a service (allowable) pressure, 1.6 times that is the
strength level. ASCE 7-10 and later map 300 to 3000 years by risk category: their pressure is at strength
level, 0.6 times that is the allowable level. True up to the gradient height; Kzt, see `hill`.

[A05] ASCE 7-05 section 6.5, [A10] ASCE 7-10 and [A16] ASCE 7-16 sections 26.7 to 26.10, [A22] ASCE 7-22
      section 26.10. The power law of 7-05 to 7-16 was read in public texts; that of 7-22 and Ke are recalled.
[C]   ASCE 7-10 commentary C26.5: V_T = V_50 (0.36 + 0.1 ln(12 T)) outside hurricane country, recalled.
"""

from __future__ import annotations

import math

from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Edition, Site, Wind
from panewright.climate.wind.hill import standing, topographic_factor
from panewright.climate.wind.speed import as_gust

FOOT_M = 0.3048
LEAST_HEIGHT_M = 15 * FOOT_M  #: the profile is flat below 15 ft
CLADDING_B_HEIGHT_M = 30 * FOOT_M  #: in exposure B cladding takes no less than the value at 30 ft
DIRECTIONALITY = 0.85  #: Kd of buildings and solid panels, table 26.6-1

# Gradient height [m] and exponent alpha of each exposure, and the factor in front of the power law.
_LAW_TO_2016 = (2.01, {"B": (365.76, 7.0), "C": (274.32, 9.5), "D": (213.36, 11.5)})
_LAW_2022 = (
    2.41,
    {"B": (3280 * FOOT_M, 7.5), "C": (2460 * FOOT_M, 9.8), "D": (1935 * FOOT_M, 11.5)},
)
_MAPPED_YEARS = {"I": 300.0, "II": 700.0, "III": 1700.0, "IV": 3000.0}
_IMPORTANCE_2005 = {"I": 0.87, "II": 1.0, "III": 1.15, "IV": 1.15}


def exposure_coefficient(edition: Edition, ground: str, height_m: float) -> float:
    """Kz or Kh: how much wind the ground leaves at a height. [-]  [A16] table 26.10-1, note 1.

    >>> round(exposure_coefficient("ASCE 7-16", "C", 9.144), 4)
    0.9823
    """
    factor, law = _LAW_2022 if edition == "ASCE 7-22" else _LAW_TO_2016
    if ground not in law:
        raise ValueError(f"ASCE 7 knows the exposures B, C and D, got {ground!r}")
    gradient_m, alpha = law[ground]
    height_m = min(max(height_m, LEAST_HEIGHT_M), gradient_m)
    return float(factor * (height_m / gradient_m) ** (2 / alpha))


def elevation_factor(edition: Edition, altitude_m: float) -> float:
    """Ke: thinner air on high ground. [-]  [A16] table 26.9-1; 1 in the editions before 2016."""
    if edition in ("ASCE 7-05", "ASCE 7-10"):
        return 1.0
    return math.exp(-0.000119 * altitude_m)


def velocity_pressure_pa(
    speed_m_s: float, kz: float, ke: float = 1.0, kd: float = DIRECTIONALITY, *, kzt: float = 1.0
) -> float:
    """q, on flat ground unless Kzt says otherwise. [Pa]  [A16] 26.10.2.

    >>> round(velocity_pressure_pa(44.704, kz=1.0, kd=1.0), 1)
    1225.0
    """
    return 0.613 * kz * kzt * kd * ke * speed_m_s**2


def return_factor(years: float) -> float:
    """A gust of this return period over the 50-year gust. [-]  [C]

    >>> round(return_factor(50), 3), round(return_factor(700), 3)
    (1.0, 1.264)
    """
    return 0.36 + 0.1 * math.log(12 * years)


def design_speed(wind: Wind, gust_m_s: float | None = None) -> Reckoning:
    """The speed the edition's map would show, from the gust as stated or converted. [m/s]

    A milder return period than the edition asks for is raised to it [C]; a rarer one is kept.
    """
    gust_m_s = wind.speed_m_s if gust_m_s is None else gust_m_s
    how = "as stated" if wind.kind == "3 s gust" else "converted"
    asked = 50.0 if wind.edition == "ASCE 7-05" else _MAPPED_YEARS[wind.risk_category or "II"]
    stated = wind.return_years
    if wind.edition != "ASCE 7-05" and wind.risk_category is not None:
        stated = None  # the risk category says what the mapped speed means
    if stated is None or stated >= asked:
        return Reckoning(f"3 s gust, {wind.edition}, {how}", gust_m_s, "m/s")
    speed = gust_m_s * return_factor(asked) / return_factor(stated)
    return Reckoning(f"3 s gust raised from {stated:g} to {asked:g} years", speed, "m/s")


def to_allowable(edition: Edition) -> float:
    """Factor from the edition's own pressure to the allowable level. [-]  2.4.1 of each edition."""
    return 1.0 if edition == "ASCE 7-05" else 0.6


def to_strength(edition: Edition) -> float:
    """Factor from the edition's own pressure to the strength level. [-]  2.3.2 of each edition."""
    return 1.6 if edition == "ASCE 7-05" else 1.0


def velocity_reckoning(site: Site, *, cladding: bool) -> tuple[float, tuple[Reckoning, ...]]:
    """q of a site [Pa] and the steps to it; cladding rules hold for panels on a building."""
    wind = site.wind
    raised = cladding and wind.ground == "B"
    height_m = max(site.height_m, CLADDING_B_HEIGHT_M) if raised else site.height_m
    gust, converted = as_gust(wind)
    speed = design_speed(wind, gust)
    kz = exposure_coefficient(wind.edition, wind.ground, height_m)
    ke = elevation_factor(wind.edition, site.altitude_m)
    importance = _IMPORTANCE_2005[wind.risk_category or "II"] if wind.edition == "ASCE 7-05" else 1.0
    kzt = topographic_factor(site.hill, wind.ground, site.height_m)
    pressure = velocity_pressure_pa(speed.value, kz, ke, kzt=kzt) * importance
    steps = [
        *converted,
        speed,
        Reckoning(f"Kz, exposure {wind.ground} at {max(height_m, LEAST_HEIGHT_M):.4g} m", kz, "-"),
        Reckoning(f"Kzt, {standing(site.hill)}", kzt, "-"),
        Reckoning("Kd, directionality", DIRECTIONALITY, "-"),
        Reckoning(f"Ke, ground {site.altitude_m:g} m above the sea", ke, "-"),
    ]
    if wind.edition == "ASCE 7-05":
        steps.append(Reckoning("I, importance", importance, "-"))
    steps.append(Reckoning("velocity pressure q = 0.613 Kz Kzt Kd Ke V²", pressure, "Pa"))
    return pressure, tuple(steps)
