"""Rise above the air by one coefficient: measured figures that stand beside the heat balance.

    T = Ta + G / (u0 + u1 v)   open on both sides [F]
    T = Ta + k G               close to a roof or a wall [R]

[F] D. Faiman, Prog. Photovolt. 16, 2008, p. 307: u0 25.0 W/m2K, u1 6.84 W s/m3K.
[R] E. Skoplaki, J. Palyvos, Renewable Energy 34, 2009, p. 23, table of Ross coefficients.
"""

from __future__ import annotations

_U0, _U1 = 25.0, 6.84


def faiman_c(sun_w_m2: float, air_c: float, wind_m_s: float) -> float:
    """Temperature of a panel open on both sides. [degC]  [F]

    >>> faiman_c(1000, 35, 0)
    75.0
    """
    return air_c + sun_w_m2 / (_U0 + _U1 * wind_m_s)


def ross_c(sun_w_m2: float, air_c: float, ross_k_m2_w: float) -> float:
    """Temperature of a panel with a Ross coefficient. [degC]  [R]"""
    return air_c + ross_k_m2_w * sun_w_m2


def noct_ross(noct_c: float) -> float:
    """Ross coefficient that goes with a nominal operating cell temperature. [K m2/W]

    800 W/m2, 20 degC air, 1 m/s, open rack, by definition.
    """
    return (noct_c - 20) / 800
