"""Six figures of a cell about its kind, all zero for the kind itself.

    light      ln of the light current over the kind's
    voltage    shift of the junction's law along the voltage at equal light, as a share of the junction's Voc
    ideality   ln of the ideality over the kind's; it turns the law about its open circuit
    series, shunt, leak   ln of series resistance, shunt and breakdown conductance over the kind's

With V* = x ln(IL / I0) of the kind, a cell has I0 = IL* exp(-V* (1 + voltage) / x): so Isc, Voc and the shape
of the curve hang on a figure each, nearly, and what one reading sees does not spoil another.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.model import CellModel
from panewright.cell.root import Array

LIGHT, VOLTAGE, IDEALITY, SERIES, SHUNT, LEAK = range(6)
COUNT = 6
_TRACE = 1e-4  # a kind without series resistance or shunt gets this trace: ohm and siemens by 1 V / Isc


@dataclass(frozen=True, slots=True)
class Kin:
    """A kind of cell as the middle of a lot."""

    model: CellModel  #: with a trace of series resistance and shunt where the kind has none

    @classmethod
    def of(cls, model: CellModel) -> Kin:
        """The kind, fit for logarithms."""
        stc = model.stc
        if not stc.light_a > 0:
            raise ValueError(f"a kind of cell frees some current in full sun, got {stc}")
        trace = _TRACE / stc.light_a
        firm = replace(
            stc,
            series_ohm=max(stc.series_ohm, trace),
            shunt_ohm=min(stc.shunt_ohm, 1 / (_TRACE * stc.light_a)),
        )
        return cls(replace(model, stc=firm))

    @property
    def stc(self) -> Diode:
        """The kind's diode at STC."""
        return self.model.stc

    @property
    def junction_v(self) -> float:
        """V*, the junction's open-circuit voltage. [V]"""
        return self.stc.ideality_v * float(np.log(self.stc.light_a / self.stc.saturation_a))


def cells_of(theta: Array, kin: Kin) -> Diodes:
    """The cells at STC that have these figures (n, 6)."""
    stc = kin.stc
    x = stc.ideality_v * np.exp(theta[:, IDEALITY])
    one = np.ones(len(theta))
    return Diodes(
        light_a=stc.light_a * np.exp(theta[:, LIGHT]),
        saturation_a=stc.light_a * np.exp(-kin.junction_v * (1 + theta[:, VOLTAGE]) / x),
        ideality_v=x,
        series_ohm=stc.series_ohm * np.exp(theta[:, SERIES]),
        shunt_ohm=stc.shunt_ohm * np.exp(theta[:, SHUNT]),
        breakdown_siemens=stc.breakdown_siemens * np.exp(theta[:, LEAK]),
        breakdown_v=stc.breakdown_v * one,
        breakdown_exponent=stc.breakdown_exponent * one,
    )


def in_theta(by_log: Array, theta: Array, kin: Kin) -> Array:
    """Slopes (n, 6) by the logarithms of IL, I0, x, Rs, Rsh, G become slopes by the six figures."""
    steep = kin.junction_v / (kin.stc.ideality_v * np.exp(theta[:, IDEALITY]))
    saturation = by_log[:, VOLTAGE]
    slopes = by_log.copy()
    slopes[:, VOLTAGE] = -saturation * steep
    slopes[:, IDEALITY] += saturation * steep * (1 + theta[:, VOLTAGE])
    return slopes
