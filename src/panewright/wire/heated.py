"""How warm a conductor gets under a current, and what it loses then.

Heat made goes as the square of the current, heat given off as the rise above the air. At its ampacity in
air of 30 degC a conductor is as hot as its insulation bears; at a share x of that it is x^2 of that rise
above the air round it. True for currents that last for some minutes and more. Where the family has no
ampacity for a size, the whole rise is taken.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.wire.laid import Laid
from panewright.wire.rules import bundled_a, round_it_c
from panewright.wire.sizes import Size

TABLE_C = 30.0  #: air of both families' tables
LONGEST_YEAR_H = 8784.0


@dataclass(frozen=True, slots=True, eq=False)
class Flow:
    """A year's currents in a run."""

    amps: tuple[float, ...] | NDArray[np.float64]  #: by hour, or one rms current
    hours_each: float = 1.0  #: that each stands for
    air_c: float = 25.0  #: round the run while current flows

    def __post_init__(self) -> None:
        amps = np.asarray(self.amps, dtype=float)
        if amps.ndim != 1 or not len(amps) or not ((amps >= 0) & (amps < np.inf)).all():
            raise ValueError("a year's currents are one number or more, each of 0 A or more")
        if not 0 < self.hours_each * len(self.amps) <= LONGEST_YEAR_H:
            raise ValueError(f"a year has up to 8784 hours, got {self.hours_each * len(self.amps):g}")


def _rise_k(size: Size, laid: Laid) -> tuple[float, float]:
    """Rise that does not depend on current, and rise for each square ampere. [K, K/A2]"""
    ampacity, most_k = bundled_a(size, laid), laid.insulation_c - TABLE_C
    return (most_k, 0.0) if not ampacity else (0.0, most_k / ampacity**2)


def conductor_c(size: Size, laid: Laid, amps: float, air_c: float | None = None) -> float:
    """Temperature of a conductor under a lasting current, in the hottest air or in the air given. [degC]

    >>> from panewright.wire.sizes import GAUGES
    >>> conductor_c(GAUGES[4], Laid("NEC", "air", 30.0), 40.0)
    90.0
    """
    still, per_a2 = _rise_k(size, laid)
    return (round_it_c(laid) if air_c is None else air_c) + still + per_a2 * amps**2


def year_kwh(size: Size, laid: Laid, one_way_m: float, flow: Flow) -> float:
    """Energy that both conductors of a run lose in a year, each hour at its own heat. [kWh]"""
    amps = np.asarray(flow.amps)
    still, per_a2 = _rise_k(size, laid)
    warmth = 1 + size.per_k * (flow.air_c + still - 20.0 + per_a2 * amps**2)
    watts = 2 * one_way_m * size.ohm_per_m * amps**2 * warmth
    return float(watts.sum() * flow.hours_each / 1000)
