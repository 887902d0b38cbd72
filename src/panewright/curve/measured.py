"""A measured current-voltage curve, in the light and heat it was measured in.

Generator signs: a lit cell has positive current up to its open-circuit voltage. An error of measurement
has two parts that act differently. What scatters from point to point averages out in a fit; what is common
to all points, the gain of a meter, does not, and moves the whole curve. Every figure is one standard
deviation; zero says that nothing was stated.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields
from itertools import pairwise

import numpy as np

from panewright.cell.root import Array


@dataclass(frozen=True, slots=True)
class Accuracy:
    """One standard deviation of each thing measured; 0 where nothing is stated."""

    voltage_v: float = 0.0  #: scatter of each voltage
    current_a: float = 0.0  #: scatter of each current
    current_share: float = 0.0  #: scatter of each current in proportion to it
    voltage_gain: float = 0.0  #: common to all voltages, as a share
    current_gain: float = 0.0  #: common to all currents, as a share
    irradiance_w_m2: float = 0.0
    cell_c: float = 0.0

    def __post_init__(self) -> None:
        figures = [getattr(self, entry.name) for entry in fields(self)]
        if not all(0 <= figure < np.inf for figure in figures):
            raise ValueError(f"an uncertainty is zero or more, got {self}")

    @property
    def scatters(self) -> bool:
        """Whether any scatter is stated."""
        return max(self.voltage_v, self.current_a, self.current_share) > 0


@dataclass(frozen=True, slots=True)
class Measured:
    """A clean curve: voltage rising, current positive where the cell gives power."""

    voltage_v: tuple[float, ...]
    current_a: tuple[float, ...]
    irradiance_w_m2: float  #: 0 for a dark curve
    cell_c: float
    accuracy: Accuracy = field(default_factory=Accuracy)
    repeats: tuple[int, ...] = ()  #: readings that each point is the mean of; empty for one each

    def __post_init__(self) -> None:
        if len(self.voltage_v) != len(self.current_a) or not self.voltage_v:
            raise ValueError(
                f"{len(self.voltage_v)} voltages and {len(self.current_a)} currents are no curve"
            )
        if not np.all(np.isfinite([*self.voltage_v, *self.current_a])):
            raise ValueError(
                "every voltage and current of a curve is a finite number; clean the readings first"
            )
        if any(later <= earlier for earlier, later in pairwise(self.voltage_v)):
            raise ValueError("the voltages of a curve rise from point to point; clean the readings first")
        if not (0 <= self.irradiance_w_m2 < np.inf and -273.15 < self.cell_c < np.inf):
            raise ValueError(f"light is 0 W/m2 or more and heat above 0 K, got {self}")
        if self.repeats and (len(self.repeats) != len(self.voltage_v) or min(self.repeats) < 1):
            raise ValueError("every point is the mean of one reading or more")

    @property
    def volts(self) -> Array:
        """The voltages. [V]"""
        return np.asarray(self.voltage_v, dtype=float)

    @property
    def amperes(self) -> Array:
        """The currents. [A]"""
        return np.asarray(self.current_a, dtype=float)

    @property
    def counts(self) -> Array:
        """Readings behind each point."""
        return np.asarray(self.repeats or (1,) * len(self.voltage_v), dtype=float)

    def scatter_a(self, slope_s: Array) -> Array:
        """Standard deviation of each point as if all of it were in the current, by the curve's slope. [A]"""
        own, volts = self.accuracy, self.accuracy.voltage_v
        square = own.current_a**2 + (own.current_share * self.amperes) ** 2 + (volts * slope_s) ** 2
        return np.asarray(np.sqrt(square / self.counts))
