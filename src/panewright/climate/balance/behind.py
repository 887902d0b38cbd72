"""What lies behind a panel: open ground, or a roof or wall close by.

Open: the back sheds heat to air and wind as the front does, and sees ground and a little sky.

Close to a roof or wall: the back sees that surface, which passes no heat on (a warm, insulated roof: the safe
side) and gives all of it back to the air between. That air is changed by its own rising and by the wind:

    heat carried away = 2 rho c s v (T - Ta) / L
    1.5 v^2 + 24 nu L v / s^2 = 4 g d (T - Ta) / Ta + 0.3 w^2

T is the mean of the air between, s the gap, L and d the panel's length along the slope and its rise. Half a
head is lost where the air enters and one where it leaves; the rest is friction of slow flow between plates.
Wind w presses on one mouth 0.3 of its head more than on the other (common practice, no source). The
coefficient from air to either side is that of still air, or of slow air between plates 50 mm apart, Nu 7.5 on
twice the gap (recalled), where that is larger; that a narrower gap passes heat better is left out. A gap
under 5 mm counts as one of 5 mm: next to no air gets through.
"""

from __future__ import annotations

import math

from panewright.climate.balance.film import (
    GRAVITY_M_S2,
    SLOPE_M,
    carried_w_m2,
    conductivity_w_mk,
    still_w_m2k,
    viscosity_m2_s,
)
from panewright.climate.balance.network import Leak, Path
from panewright.climate.balance.surroundings import STEFAN_W_M2K4, Surroundings, radiated_w_m2
from panewright.units import MM

_LEAST_GAP_M, _SLOW_GAP_M = 0.005, 0.05
_LOST_HEADS = 1.5
_WIND_SHARE = 0.3
_ROOF_EMITS = 0.9  # tiles, felt, render (recalled)
_AIR_J_M3K = 352.8 * 1007.0  # density times temperature at one atmosphere, times specific heat [J/m3]


def open_leak(back: int, emits: float, around: Surroundings) -> Leak:
    """The back of a panel that stands free."""
    facing = 180 - around.tilt_deg

    def flux_w_m2(back_k: float) -> float:
        carried = carried_w_m2(back_k, around.air_k, facing, around.wind_m_s, share=around.air_share)
        return carried + radiated_w_m2(back_k, emits, facing, around)

    return Leak(back, flux_w_m2)


def gap_m(around: Surroundings) -> float:
    """Between panel and roof, as it is reckoned with. [m]"""
    return max(_LEAST_GAP_M, (around.gap_mm or 0.0) * MM)


def roof_ways(back: int, emits: float, around: Surroundings) -> tuple[tuple[Path, ...], tuple[Leak, ...]]:
    """From the back to the air between and to the roof, and out; two nodes more: roof, then air."""
    roof, air = back + 1, back + 2
    facing = 180 - around.tilt_deg
    exchange = STEFAN_W_M2K4 / (1 / emits + 1 / _ROOF_EMITS - 1)

    def from_back(face_k: float, air_k: float) -> float:
        return _inside_w_m2k(face_k - air_k, air_k, facing, around.air_share) * (face_k - air_k)

    def from_roof(face_k: float, air_k: float) -> float:
        return _inside_w_m2k(face_k - air_k, air_k, around.tilt_deg, around.air_share) * (face_k - air_k)

    paths = (
        Path(back, roof, lambda a, b: exchange * (a**4 - b**4)),
        Path(back, air, from_back),
        Path(roof, air, from_roof),
    )
    return paths, (Leak(air, lambda between_k: changed_w_m2(between_k, around)),)


def changed_w_m2(between_k: float, around: Surroundings) -> float:
    """Heat that the changing air carries out of the gap, for each square metre of panel. [W/m2]"""
    over_k, between_m = between_k - around.air_k, gap_m(around)
    rise_m = max(SLOPE_M * math.sin(math.radians(around.tilt_deg)), between_m)
    driven = 4 * GRAVITY_M_S2 * rise_m * abs(over_k) / around.air_k + _WIND_SHARE * around.wind_m_s**2
    friction = 24 * viscosity_m2_s(around.air_k, around.air_share) * SLOPE_M / between_m**2
    speed_m_s = 2 * driven / (friction + math.sqrt(friction**2 + 4 * _LOST_HEADS * driven))
    return 2 * _AIR_J_M3K * around.air_share / around.air_k * between_m * speed_m_s / SLOPE_M * over_k


def _inside_w_m2k(over_k: float, air_k: float, facing_deg: float, share: float) -> float:
    slow = 7.5 * conductivity_w_mk(air_k) / (2 * _SLOW_GAP_M)
    return max(slow, still_w_m2k(over_k, air_k, facing_deg, share=share))
