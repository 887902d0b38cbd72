"""How air takes heat from a face: by its own rising, and by wind beside it.

Still air. The plate is taken upright with the part of gravity along it, and level with the part across it,
and the larger of both coefficients counts [R]:

    upright            Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492 / Pr)^(9/16))^(8/27))^2           [C]
    level, hot side up or cold side down      Nu = 0.54 Ra^(1/4), or 0.15 Ra^(1/3) where larger     [L]
    level, hot side down or cold side up      Nu = 0.27 Ra^(1/4)                                    [M]

with Ra = g |dT| L^3 Pr / (T nu^2), air at the mean of face and air. L is 1 m along the slope; level, a
quarter of that, area over rim of a square. Other sizes change little: turbulent air forgets L.

Wind adds 3.0 v to that. Beside collectors outdoors 2.8 + 3.0 v was measured up to 5 m/s, radiation taken out
[W]; its 2.8 is the rising of those days, which is reckoned by itself here. Other measurements outdoors gave
5.7 + 3.8 v [M] and 6.5 + 3.3 v [S]: more, so these panels are rather too hot than too cool.

Thin air on high ground takes less. Its weight goes with the pressure of the standard atmosphere [I]; Ra goes
with the square of it, the wind's part with its power 0.8, as of turbulent air beside a plate.

[C] S. W. Churchill, H. H. S. Chu, Int. J. Heat Mass Transfer 18, 1975, p. 1323 (recalled).
[I] ISO 2533:1975, standard atmosphere: p / p0 = (1 - 2.25577e-5 h)^5.2559 (recalled).
[L] J. R. Lloyd, W. R. Moran, J. Heat Transfer 96, 1974, p. 443 (recalled).
[M] W. H. McAdams, Heat Transmission, 3rd ed., 1954: level plates hot side down; wind (recalled).
[R] G. D. Raithby, K. G. T. Hollands, Handbook of Heat Transfer, 3rd ed., 1998, ch. 4 (recalled).
[S] S. Sharples, P. S. Charlesworth, Sol. Energy 62, 1998, p. 69 (recalled).
[W] J. H. Watmuff, W. W. S. Charters, D. Proctor, COMPLES 2, 1977, p. 56 (recalled; the figures read in
    a later note on them).
[A] Air: tables of F. P. Incropera and others, Fundamentals of Heat and Mass Transfer (recalled); as powers of
    the temperature they are met within 2 % from 200 to 400 K.
"""

from __future__ import annotations

import math

GRAVITY_M_S2 = 9.81
PRANDTL = 0.71  #: of air, 200 to 400 K within 4 % [A]
_BY_WEIGHT = 0.8  # of turbulent air beside a plate: Nu ~ Re^0.8
_BY_WIND = 3.0  # W/m2K for each m/s [W]
SLOPE_M = 1.0  #: a panel along its slope
_UPRIGHT = 0.387 / (1 + (0.492 / PRANDTL) ** (9 / 16)) ** (8 / 27)  # [C]


def conductivity_w_mk(air_k: float) -> float:
    """Of air. [W/mK]  [A]"""
    return 0.0263 * math.pow(air_k / 300, 0.86)


def air_share(altitude_m: float) -> float:
    """Weight of a cubic metre of air there over that at sea level, at the same heat. [-]  [I]

    >>> round(air_share(0.0), 3), round(air_share(2000.0), 3)
    (1.0, 0.785)
    """
    return math.pow(1 - 2.25577e-5 * altitude_m, 5.2559)


def viscosity_m2_s(air_k: float, share: float = 1.0) -> float:
    """Kinematic, of air at sea level, or so much lighter. [m2/s]  [A]"""
    return 15.89e-6 * math.pow(air_k / 300, 1.77) / share


def rayleigh(over_k: float, air_k: float, long_m: float, share: float = 1.0) -> float:
    """How strongly warm air rises along such a length. [-]"""
    return GRAVITY_M_S2 * abs(over_k) * long_m**3 * PRANDTL / (air_k * viscosity_m2_s(air_k, share) ** 2)


def still_w_m2k(
    over_k: float, air_k: float, facing_deg: float, long_m: float = SLOPE_M, *, share: float = 1.0
) -> float:
    """Coefficient of a face so much above still air; `facing_deg` 0 looks up, 180 down. [W/m2K]

    `share` is the air's weight over that at sea level.

    >>> [round(still_w_m2k(30.0, 293.15, facing), 2) for facing in (0.0, 90.0, 180.0)]
    [5.44, 4.36, 2.28]
    """
    mean_k = air_k + over_k / 2
    conducts = conductivity_w_mk(mean_k)
    turn = math.radians(facing_deg)
    along, across = math.sin(turn), math.cos(turn)
    whole = rayleigh(over_k, mean_k, long_m, share)
    upright = (0.825 + _UPRIGHT * math.pow(whole * along, 1 / 6)) ** 2 * conducts / long_m
    short_m = long_m / 4
    level_ra = whole * abs(across) / 64
    rises = over_k * across >= 0
    quarter = math.sqrt(math.sqrt(level_ra))
    level = max(0.54 * quarter, 0.15 * math.cbrt(level_ra)) if rises else 0.27 * quarter
    return float(max(upright, level * conducts / short_m))


def carried_w_m2(
    face_k: float,
    air_k: float,
    facing_deg: float,
    wind_m_s: float,
    *,
    long_m: float = SLOPE_M,
    share: float = 1.0,
) -> float:
    """Heat that air takes from a face; `share` is the air's weight over that at sea level. [W/m2]"""
    over_k = face_k - air_k
    by_wind = _BY_WIND * wind_m_s * math.pow(share, _BY_WEIGHT)
    return (still_w_m2k(over_k, air_k, facing_deg, long_m, share=share) + by_wind) * over_k
