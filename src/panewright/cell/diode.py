"""A cell's electrical law in one condition of light and heat.

    I = IL - I0 (exp(Vd / nVth) - 1) - Vd / Rsh - G Vd (1 - Vd / Vbr)^-m,   Vd = V + I Rs

The last term is Bishop's breakdown with a conductance G of its own, so that a cell with an infinite
shunt still breaks down. Out to the breakdown voltage and no further: there the law ends.

[B] J. W. Bishop, Computer simulation of the effects of electrical mismatches in photovoltaic cell
    interconnection circuits, Solar Cells 25, 1988, p. 73.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite


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


_FINITE = (
    "light_a",
    "saturation_a",
    "ideality_v",
    "series_ohm",
    "breakdown_siemens",
    "breakdown_v",
    "breakdown_exponent",
)
