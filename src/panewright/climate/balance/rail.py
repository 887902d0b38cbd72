"""A rail in the sun or under the night sky, held to the pane by its bead.

A leg of the rail faces the sun; that leg and one more shed heat, the upright's outer side and the seat's
under side. Close to a roof the under side sheds nothing. The bead brings heat from the pane, for each metre
k bite / glue line. Balance for a square metre of the sunlit leg:

    a G + k (bite / glue line) / leg (T_pane - T) = heat to air, sky and ground

Nobody asks which finish and which size the rail has. Bare and dark metal, legs of 20 and of 50 mm are all
reckoned, the bead as broad as it may be; the hottest and the coldest count.

Finishes (recalled from tables of radiation properties): bare weathered aluminium takes in 0.4 of the sun and
emits 0.1; dark anodised or painted 0.9 and 0.85. Filled structural silicone conducts 0.35 W/mK (recalled).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.climate.balance.film import carried_w_m2
from panewright.climate.balance.network import Leak, Network, settled_k
from panewright.climate.balance.surroundings import Surroundings, radiated_w_m2
from panewright.units import KELVIN, MM

_BEAD_W_MK = 0.35 * 3.0  # bite at most three glue lines
_LEGS_MM = (20.0, 50.0)


@dataclass(frozen=True, slots=True)
class Finish:
    """A metal's face."""

    takes: float  #: of the sunlight [-]
    emits: float  #: in the infrared [-]


FINISHES = (Finish(0.4, 0.1), Finish(0.9, 0.85))  #: bare; dark


def hottest_rail_c(pane_c: float, around: Surroundings) -> float:
    """The most a rail reaches beside a pane of that heat. [degC]"""
    return max(_rails_c(pane_c, around))


def coldest_rail_c(pane_c: float, around: Surroundings) -> float:
    """The least a rail falls to beside a pane of that heat. [degC]"""
    return min(_rails_c(pane_c, around))


def _rails_c(pane_c: float, around: Surroundings) -> Iterator[float]:
    for finish in FINISHES:
        for leg_mm in _LEGS_MM:
            yield rail_c(pane_c, around, finish, leg_mm)


def rail_c(pane_c: float, around: Surroundings, finish: Finish, leg_mm: float) -> float:
    """Temperature of one rail. [degC]"""
    leg_m, air_k = leg_mm * MM, around.air_k
    sides = (around.tilt_deg, 180 - around.tilt_deg) if around.gap_mm is None else (around.tilt_deg,)

    def shed_w_m2(rail_k: float) -> float:
        return sum(
            carried_w_m2(rail_k, air_k, facing, around.wind_m_s, long_m=leg_m, share=around.air_share)
            + radiated_w_m2(rail_k, finish.emits, facing, around)
            for facing in sides
        ) - _BEAD_W_MK / leg_m * (pane_c + KELVIN - rail_k)

    (found,) = settled_k(Network((finish.takes * around.sun_w_m2,), (), (Leak(0, shed_w_m2),)), air_k + 1.0)
    return found - KELVIN
