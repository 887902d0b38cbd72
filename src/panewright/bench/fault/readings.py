"""What was read of a panel, as points with their errors, and what is uncertain about all of them at once.

What scatters from point to point stands beside each point. What is common to all points, such as the light
that was read two per cent too high, moves the whole curve: each such thing has a standard deviation and is
let free.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array

_LEAST = (
    1e-4  #: of Voc and Isc: no reading is surer, so that a point on an axis counts for what was read of it
)


@dataclass(frozen=True, slots=True)
class Common:
    """Standard deviations of what moves the whole curve; 0 where it is known."""

    light: float = 0.02  #: irradiance, as a share
    heat_k: float = 2.0  #: temperature of the cells
    voltage: float = 0.0  #: gain of the voltmeter, as a share
    current: float = 0.0  #: gain of the ammeter, as a share
    voc: float = 0.0  #: how well the panel's own Voc is foretold, as a share
    series: float = 0.0  #: how well its own resistance is foretold, as a share of Voc / Isc
    shunt: float = 0.0  #: how well what all its cells leak is foretold, in e-foldings


AS_BUILT = Common(light=0.0224, voc=0.005, series=0.003, shunt=0.7)
"""Of a real panel, whose cells and joints are known by what went in, not by measurement.

Isc to 1 %, beside light read to 2 %; Voc to half a per cent; resistance to three thousandths of Voc / Isc;
the cells' shunts, which a nameplate does not tell, to twofold (common practice, no source). Without these a
panel of a slightly poorer lot would be called faulty.
"""


@dataclass(frozen=True, slots=True)
class Points:
    """Voltages and currents with the standard deviation of each: arrays (points,)."""

    voltage_v: Array
    current_a: Array
    voltage_error_v: Array
    current_error_a: Array
    irradiance_w_m2: float  #: as it was read
    cell_c: float  #: as it was read
    common: Common = Common()

    def __post_init__(self) -> None:
        arrays = (self.voltage_v, self.current_a, self.voltage_error_v, self.current_error_a)
        if len({each.shape for each in arrays}) != 1 or self.voltage_v.ndim != 1 or not self.voltage_v.size:
            raise ValueError("every point has a voltage, a current and the error of both")
        if not all(np.all(np.isfinite(each)) for each in arrays):
            raise ValueError("readings and their errors are finite numbers")
        if min(self.voltage_error_v.min(), self.current_error_a.min()) < 0:
            raise ValueError("the error of a reading is zero or more")

    def only(self, kept: NDArray[np.bool_]) -> Points:
        """Those readings alone, one yes or no for each."""
        return replace(
            self,
            voltage_v=self.voltage_v[kept],
            current_a=self.current_a[kept],
            voltage_error_v=self.voltage_error_v[kept],
            current_error_a=self.current_error_a[kept],
        )

    def floored(self) -> Points:
        """With errors of a ten-thousandth of the greatest readings at least."""
        volt = np.maximum(self.voltage_error_v, _LEAST * np.abs(self.voltage_v).max() + 1e-9)
        amp = np.maximum(self.current_error_a, _LEAST * np.abs(self.current_a).max() + 1e-9)
        return Points(
            self.voltage_v, self.current_a, volt, amp, self.irradiance_w_m2, self.cell_c, self.common
        )
