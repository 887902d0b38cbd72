"""A cell's electrical law in one condition of light and heat.

    I = IL - I0 (exp(Vd / nVth) - 1) - Vd / Rsh - G Vd (1 - Vd / Vbr)^-m,   Vd = V + I Rs

The last term is Bishop's breakdown with a conductance G of its own, so that a cell with an infinite
shunt still breaks down. Out to the breakdown voltage and no further: there the law ends. Forward, the term
is at its greatest at -Vbr / (m - 1), most often at some volts, and is held there: beyond, the formula would
fall, which no junction does.

[B] J. W. Bishop, Computer simulation of the effects of electrical mismatches in photovoltaic cell
    interconnection circuits, Solar Cells 25, 1988, p. 73.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite

import numpy as np
from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True, slots=True)
class Diode:
    """The five figures of a single diode, and the three of its breakdown."""

    light_a: float  #: IL
    saturation_a: float  #: I0
    ideality_v: float  #: n k T / q, of this one cell
    series_ohm: float  #: Rs, 0 allowed
    shunt_ohm: float  #: Rsh, infinite allowed
    breakdown_siemens: float = 0.0  #: G; 0 switches the breakdown term off
    breakdown_v: float = -18.0  #: Vbr, negative
    breakdown_exponent: float = 3.4  #: m

    def __post_init__(self) -> None:
        if not (self.light_a >= 0 and self.saturation_a > 0 and self.ideality_v > 0):
            raise ValueError(f"a cell has light >= 0, saturation and ideality > 0, got {self}")
        if not (self.series_ohm >= 0 and self.shunt_ohm > 0 and self.breakdown_siemens >= 0):
            raise ValueError(f"a cell has series >= 0, shunt > 0, breakdown conductance >= 0, got {self}")
        if not (self.breakdown_v < 0 < self.breakdown_exponent):
            raise ValueError(f"breakdown lies at a negative voltage with a positive exponent, got {self}")
        if not all(isfinite(getattr(self, name)) for name in _FINITE):
            raise ValueError(f"of a cell's figures only the shunt may be infinite, got {self}")

    @property
    def breakdown_top_v(self) -> float:
        """Forward voltage from which on the breakdown term stays what it is. [V]"""
        return float(top_v(self.breakdown_v, self.breakdown_exponent))

    def part(self, share: float) -> Diode:
        """A share of the cell's area by itself: currents and conductances go with it, Rs against it."""
        return replace(
            self,
            light_a=self.light_a * share,
            saturation_a=self.saturation_a * share,
            series_ohm=self.series_ohm / share,
            shunt_ohm=self.shunt_ohm / share,
            breakdown_siemens=self.breakdown_siemens * share,
        )


def top_v(breakdown_v: ArrayLike, exponent: ArrayLike) -> NDArray[np.float64]:
    """Where Bishop's term is greatest in forward direction, infinity for an exponent up to 1. [V]"""
    over = np.maximum(np.asarray(exponent, dtype=float) - 1.0, 0.0)
    with np.errstate(divide="ignore"):
        return np.asarray(-np.asarray(breakdown_v, dtype=float) / over)


_FINITE = (
    "light_a",
    "saturation_a",
    "ideality_v",
    "series_ohm",
    "breakdown_siemens",
    "breakdown_v",
    "breakdown_exponent",
)
