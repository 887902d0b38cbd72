"""How hot and how cold the cells, the pane and the frame become.

In the sun a panel runs above the air by its irradiance over its heat loss:

    T = Ta + G / (u0 + u1 v)   open on both sides [F]
    T = Ta + k G               close to a roof or a wall [R]

Calm air and the record heat give the hottest pane and frame; a breeze of 1 m/s, as in the test of nominal
cell temperature, the hottest cell at work. On a clear calm night the pane loses heat to the sky and
cools below the air; 5 K is taken: roofs were measured at that difference [N] (common practice otherwise).

[F] D. Faiman, Prog. Photovolt. 16, 2008, p. 307: u0 25.0 W/m2K, u1 6.84 W s/m3K.
[R] E. Skoplaki, J. Palyvos, Renewable Energy 34, 2009, p. 23, table of Ross coefficients.
[N] Radiation cooling of buildings at night (abstract read): roof 5 degC under an air of 10 degC.
[G] ISO 6946 (recalled): a closed air space of 10 mm has 0.15 m2K/W.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Mounting, Site

Encapsulation = Literal["silicone pour", "film", "air gap"]

_U0, _U1 = 25.0, 6.84
_ROSS_STILL = {"roof-parallel": 0.0563, "wall": 0.0538}  # not, and poorly, ventilated [R]
_ROSS_USUAL = {"roof-parallel": 0.0342, "wall": 0.0455}  # poorly, and half, ventilated [R]
_FULL_SUN = 1000.0
_BREEZE_M_S = 1.0
_MILD_AIR_C = 25.0
_SKY_K = 5.0
_AIR_GAP_M2K_W = 0.15


@dataclass(frozen=True, slots=True)
class Temperatures:
    """What the parts of a panel live through."""

    hot_cell_c: float  #: record heat, full sun, 1 m/s: what the string's voltage is held against
    running_cell_c: float  #: usual sunny hour: 1000 W/m2, 25 degC air or the record if lower, 1 m/s
    hot_glass_c: float  #: record heat, full sun, no wind; cells bonded to it are as hot
    hot_frame_c: float  #: the most the frame reaches: as hot as the pane
    hot_air_c: float  #: the least the frame may have while the pane is hottest
    cold_c: float  #: pane, frame and cells on a clear night at the record cold
    build_c: float  #: when pane and frame were joined
    reckoning: tuple[Reckoning, ...]


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


def temperatures(
    site: Site, encapsulation: Encapsulation = "silicone pour", build_c: float = 20.0
) -> Temperatures:
    """What cells, pane and frame live through at a site."""
    hot = _in_the_sun(site.mounting, site.record_heat_c, calm=True)
    usual_air = min(_MILD_AIR_C, site.record_heat_c)
    usual = _in_the_sun(site.mounting, usual_air, calm=False)
    breezy = _in_the_sun(site.mounting, site.record_heat_c, calm=False)
    held_back = _air_gap_factor() if encapsulation == "air gap" else 1.0
    hot_cell = site.record_heat_c + held_back * (breezy - site.record_heat_c)
    running = usual_air + held_back * (usual - usual_air)
    cold = site.record_cold_c - _SKY_K
    steps = (
        Reckoning("record heat of the air", site.record_heat_c, "degC"),
        Reckoning("hottest pane and frame, 1000 W/m² and no wind", hot, "degC"),
        Reckoning("hottest cell at work, 1000 W/m², 1 m/s", hot_cell, "degC"),
        Reckoning(f"usual cell, 1000 W/m², {usual_air:g} °C air, 1 m/s", running, "degC"),
        Reckoning("coldest, 5 K under the record cold on a clear night", cold, "degC"),
        Reckoning("pane and frame joined at", build_c, "degC"),
    )
    return Temperatures(hot_cell, running, hot, hot, site.record_heat_c, cold, build_c, steps)


def _in_the_sun(mounting: Mounting, air_c: float, *, calm: bool) -> float:
    if mounting in ("free-standing", "pole"):
        return faiman_c(_FULL_SUN, air_c, 0.0 if calm else _BREEZE_M_S)
    ross = (_ROSS_STILL if calm else _ROSS_USUAL)[mounting]
    return ross_c(_FULL_SUN, air_c, ross)


def _air_gap_factor() -> float:
    """How much hotter a cell runs that has air between itself and the pane. [-]

    Half of the loss leaves through each face; that of the front also has to cross the air space [G].
    """
    face = _U0 / 2
    front = 1 / (1 / face + _AIR_GAP_M2K_W)
    return _U0 / (face + front)
