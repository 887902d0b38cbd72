"""What a fit to a measured curve says, and how far a diode lies from one."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.three_points import THERMAL_25_V
from panewright.curve.equation import Optimum
from panewright.curve.measured import Measured
from panewright.curve.spread import Estimate, Runs
from panewright.units import KELVIN


@dataclass(frozen=True, slots=True)
class Fit:
    """A diode fitted to a curve."""

    optimum: Optimum  #: which of the two optima the figures are
    diode: Diode  #: of one cell, in the light and heat of the curve
    cells: int  #: equal cells in series
    irradiance_w_m2: float
    cell_c: float
    rmse_exact_a: float  #: of these figures, the current solved at each voltage
    rmse_implicit_a: float  #: of these figures, the measured current on both sides
    figures: tuple[
        Estimate, ...
    ]  #: of one cell: light, ln saturation, ideality, series, shunt conductance ...
    correlations: tuple[tuple[float, ...], ...]  #: in the order of the figures
    ends: tuple[Estimate, ...]  #: isc_a, voc_v, power_w of the whole curve; empty in the dark
    runs: Runs
    starts: int  #: from how many places the fit was sought
    reached: int  #: how many of them ended in this optimum
    unique: bool  #: those that came as low agree in every figure
    said: tuple[str, ...]  #: what to know about it, in sentences

    @property
    def ideality(self) -> float:
        """n of one cell, with nVth = n k T / q. [-]"""
        return self.diode.ideality_v / THERMAL_25_V * (25 + KELVIN) / (self.cell_c + KELVIN)

    @property
    def whole(self) -> Diode:
        """The string taken as one diode: its nVth and resistances are those of all cells together."""
        cell, n = self.diode, self.cells
        return replace(
            cell,
            ideality_v=cell.ideality_v * n,
            series_ohm=cell.series_ohm * n,
            shunt_ohm=cell.shunt_ohm * n,
            breakdown_siemens=cell.breakdown_siemens / n,
            breakdown_v=cell.breakdown_v * n,
        )

    @property
    def unseen(self) -> tuple[str, ...]:
        """Names of the figures whose error is as large as themselves: the points do not tell them."""
        return tuple(entry.name for entry in self.figures if entry.sigma >= 0.99 * abs(entry.value) > 0)

    @property
    def points(self) -> KeyPoints:
        """Isc, Voc and maximum power of the whole curve."""
        return key_points(self.whole)


def rmse_a(measured: Measured, diode: Diode, cells: int = 1, optimum: Optimum = "exact") -> float:
    """Root of the mean square misfit of a diode of one cell to a curve. [A]

    In 'exact' the current is solved at each voltage; in 'implicit' the measured one is on both sides.
    """
    volts, amperes = measured.volts / cells, measured.amperes
    if optimum == "exact":
        left = current_a(diode, volts) - amperes
    else:
        left = diode.light_a - swallowed_a(diode, volts + amperes * diode.series_ohm)[0] - amperes
    return float(np.sqrt(np.average(left**2, weights=measured.counts)))
