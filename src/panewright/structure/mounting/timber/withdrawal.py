"""Pull along a screw out of the side grain of timber.

    W = 1800 G^1.5 D^0.75   lag screws,   W = 2850 G^2 D   wood screws   [lbf for each inch of thread, inch]
    f_ax = 0.52 d^-0.5 l_ef^-0.1 rho^0.8,   F = n^0.9 f_ax d l_ef k_d   [N/mm2, mm, kg/m3]

A through bolt is held by its washer on the far side.

[N] NDS 2018 12.2.1, 12.2.2 (formula of lag screws and its table 12.2A read; wood screws read), 12.1.4
    penetration; table 11.3.3 C_M 0.7 for wood that is wet in use; table 2.3.2 C_D (recalled); Fc
    perpendicular 3.10 for washers.
[E] EN 1995-1-1:2004+A1 8.7.2 (formula read; limits recalled): (4) screws of 6 to 12 mm; others go by (5),
    with a withdrawal strength that the screw's maker has tested, which is not known here;
    8.5.2 and 10.4.3 (washers, a worked example read); kmod table 3.1, gamma_M 1.3 (recalled).
"""

from __future__ import annotations

from typing import Literal

from panewright.frame.support.timber import Timber
from panewright.frame.support.wood_screw import WoodScrew
from panewright.units import INCH_MM, POUND_FORCE_N

Lasting = Literal["wind", "snow", "own weight"]

C_D: dict[Lasting, float] = {"wind": 1.6, "snow": 1.15, "own weight": 0.9}  #: [N]
K_MOD_DRY: dict[Lasting, float] = {
    "wind": 0.9,
    "snow": 0.9,
    "own weight": 0.6,
}  #: [E] short, short, permanent
K_MOD_WET: dict[Lasting, float] = {"wind": 0.7, "snow": 0.7, "own weight": 0.5}  #: [E] service class 3
C_M_WET, C_M_WET_ACROSS = 0.7, 0.67  #: [N]
GAMMA_M = 1.3  #: [E]
_EN_THIN_MM, _EN_THICK_MM = 6.0, 12.0  # [E]


def asce_factor(lasting: Lasting, wet: bool) -> float:
    """C_D and C_M of fasteners. [-]  [N]"""
    return C_D[lasting] * (C_M_WET if wet else 1.0)


def en_factor(lasting: Lasting, wet: bool) -> float:
    """kmod / gamma_M. [-]  [E]"""
    return (K_MOD_WET if wet else K_MOD_DRY)[lasting] / GAMMA_M


def lag_n_mm(gravity: float, diameter_mm: float) -> float:
    """Reference withdrawal of a lag screw for each millimetre of thread. [N/mm]  [N] 12.2-1

    >>> round(lag_n_mm(0.50, 0.375 * 25.4) * 25.4 / POUND_FORCE_N)
    305
    """
    return float(1800 * gravity**1.5 * (diameter_mm / INCH_MM) ** 0.75 * POUND_FORCE_N / INCH_MM)


def wood_screw_n_mm(gravity: float, diameter_mm: float) -> float:
    """Reference withdrawal of a wood screw for each millimetre of thread. [N/mm]  [N] 12.2-2

    >>> round(wood_screw_n_mm(0.45, 0.190 * 25.4) * 25.4 / POUND_FORCE_N, 1)
    109.7
    """
    return 2850 * gravity**2 * (diameter_mm / INCH_MM) * POUND_FORCE_N / INCH_MM


def thread_in_wood_mm(screw: WoodScrew, in_wood_mm: float) -> float:
    """Thread that holds: no more of it than lies in the wood, its tip not counted. [mm]"""
    return max(0.0, min(screw.thread_mm, in_wood_mm) - screw.tip_mm)


def asce_withdrawal_n(screw: WoodScrew, timber: Timber, in_wood_mm: float) -> float:
    """Reference withdrawal of one screw, no factor in it. [N]  [N]"""
    law = wood_screw_n_mm if screw.kind == "wood screw" else lag_n_mm
    return law(timber.gravity, screw.diameter_mm) * thread_in_wood_mm(screw, in_wood_mm)


def en_covers(diameter_mm: float) -> bool:
    """Whether the closed formula holds for such a screw.  [E] 8.7.2(4)"""
    return _EN_THIN_MM <= diameter_mm <= _EN_THICK_MM


def en_withdrawal_n(diameter_mm: float, thread_mm: float, density_kg_m3: float) -> float:
    """F_ax,Rk of one screw at right angles to the grain. [N]  [E] 8.38

    >>> round(en_withdrawal_n(8.0, 64.0, 350.0))
    6735
    """
    if thread_mm <= 0:
        return 0.0
    strength = 0.52 * diameter_mm**-0.5 * thread_mm**-0.1 * density_kg_m3**0.8
    return float(strength * diameter_mm * thread_mm * min(diameter_mm / 8, 1.0))


def washer_area_mm2(washer_mm: float, hole_mm: float) -> float:
    """Of a round washer on wood, its hole taken out. [mm2]"""
    return 0.785398163397448 * (washer_mm**2 - hole_mm**2)


def en_washer_n(washer_mm: float, hole_mm: float, across_mpa: float) -> float:
    """What a washer bears on timber, characteristic. [N]  [E] 10.4.3: 3 fc,90 on its area

    >>> round(en_washer_n(48.0, 13.0, 2.5), -2)
    12600.0
    """
    return 3 * across_mpa * washer_area_mm2(washer_mm, hole_mm)
