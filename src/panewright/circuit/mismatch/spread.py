"""How the cells of a lot differ, and lots drawn at random.

Four things vary from cell to cell, each with a standard deviation told as a share:

- light: the light current IL, which moves Isc and Imp;
- voltage: a shift of the junction's law along the voltage, as a share of Voc **at equal light**. It is
  made by the saturation current: I0 exp(-shift / nVth);
- series: the series resistance; - shunt: the shunt resistance.

Light itself moves Voc a little, by nVth dIL / IL. A lot measured by its Isc and Voc, or by its Imp and Vmp,
is turned into light and shift by `lot_by_ends` and `lot_by_work`, with what both have in common.

Light and shift are drawn from a normal law, no light below zero; resistances from a log-normal law with the
cell's own figure as the mean, so that none is ever below zero. A correlation of resistances is that of
their logarithms.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from math import inf, sqrt

import numpy as np

from panewright.cell.curve import voltage_v
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.mismatch.own_power import slopes_of

# every vector and matrix here is in the order light, voltage, series, shunt
Correlation = tuple[tuple[float, ...], ...]
_APART: Correlation = tuple(tuple(float(row == column) for column in range(4)) for row in range(4))
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Spread:
    """Standard deviations within a lot, each as a share, and what they have in common."""

    light: float = 0.0  #: of the light current
    voltage: float = 0.0  #: shift of the curve along the voltage at equal light, of Voc
    series: float = 0.0  #: of the series resistance
    shunt: float = 0.0  #: of the shunt resistance
    correlation: Correlation = _APART  #: rows and columns: light, voltage, series, shunt

    def __post_init__(self) -> None:
        if not all(0 <= share < inf for share in self.shares):
            raise ValueError(f"a standard deviation is a share of 0 or more, got {self.shares}")
        kin = np.array(self.correlation, dtype=float)
        if kin.shape != (4, 4) or not np.allclose(kin, kin.T) or not np.allclose(np.diag(kin), 1.0):
            raise ValueError(f"a correlation is 4 by 4, alike both ways, 1 with itself; got {kin.tolist()}")
        if np.linalg.eigvalsh(kin).min() < -_ROUNDING:
            raise ValueError(f"no lot can have all of these correlations at once: {kin.tolist()}")

    @property
    def shares(self) -> tuple[float, ...]:
        """The four standard deviations. [-]"""
        return (self.light, self.voltage, self.series, self.shunt)

    @property
    def covariance(self) -> Array:
        """Of light, voltage, series and shunt, all as shares. [-]"""
        return np.asarray(np.outer(self.shares, self.shares) * np.array(self.correlation))


def lot_by_ends(diode: Diode, isc: float, voc: float, correlation: float = 0.0) -> Spread:
    """The spread of a lot measured by Isc and Voc: their standard deviations as shares.

    >>> cell = Diode(8.55, 2.3e-9, 0.02826, 0.0042, 60.0)
    >>> lot = lot_by_ends(cell, isc=0.01, voc=0.005)
    >>> round(lot.light, 5), round(lot.voltage, 5)
    (0.01, 0.00502)
    """
    moves = slopes_of(diode)
    return _lot((moves.isc[:2], moves.voc[:2]), isc, voc, correlation)


def lot_by_work(diode: Diode, imp: float, vmp: float, correlation: float = 0.0) -> Spread:
    """The spread of a lot measured by the current and voltage of each cell's own maximum power."""
    moves = slopes_of(diode)
    return _lot((moves.imp[:2], moves.vmp[:2]), imp, vmp, correlation)


def _lot(moves: tuple[tuple[float, ...], ...], current: float, voltage: float, correlation: float) -> Spread:
    """Light and shift behind two measured figures which they move so much."""
    measured = np.array([[current**2, correlation * current * voltage], [0.0, voltage**2]])
    measured[1, 0] = measured[0, 1]
    back = np.linalg.inv(np.array(moves))
    behind = back @ measured @ back.T
    light, shift = (sqrt(max(behind[k, k], 0.0)) for k in range(2))
    common = behind[0, 1] / (light * shift) if light * shift > 0 else 0.0
    kin = np.eye(4)
    kin[0, 1] = kin[1, 0] = np.clip(common, -1.0, 1.0)
    return Spread(light, shift, correlation=tuple(map(tuple, kin.tolist())))


def drawn(cells: Diodes, spread: Spread, trials: int, dice: np.random.Generator) -> Diodes:
    """So many lots of these cells, each varied about its own figures: arrays of (trials, cells)."""
    odds = dice.standard_normal((trials, cells.light_a.size, 4)) @ _root(np.array(spread.correlation))
    return moved(cells, spread, odds)


def moved(cells: Diodes, spread: Spread, odds: Array) -> Diodes:
    """Cells moved by so many standard deviations; the last axis of `odds` is light to shunt."""
    light, shift, series, shunt = (odds[..., k] * share for k, share in enumerate(spread.shares))
    volt = voltage_v(cells, np.zeros(cells.light_a.shape)) * shift
    shape = np.broadcast_shapes(cells.light_a.shape, light.shape)
    every = {each.name: np.broadcast_to(getattr(cells, each.name), shape) for each in fields(cells)}
    return replace(
        Diodes(**every),
        light_a=np.maximum(cells.light_a * (1 + light), 0.0),
        saturation_a=cells.saturation_a * np.exp(-volt / cells.ideality_v),
        series_ohm=cells.series_ohm * _log_normal(series, spread.series),
        shunt_ohm=cells.shunt_ohm * _log_normal(shunt, spread.shunt),
    )


def _log_normal(deviation: Array, share: float) -> Array:
    """A factor about one which is never below zero, with the mean 1 and this standard deviation. [-]"""
    if share == 0:
        return np.ones_like(deviation)
    width = sqrt(np.log1p(share**2))
    return np.exp(deviation / share * width - width**2 / 2)


def _root(correlation: Array) -> Array:
    """A matrix which times itself is the correlation; there is one also where some rows depend on others."""
    size, axes = np.linalg.eigh(correlation)
    return np.asarray(axes * np.sqrt(np.maximum(size, 0.0)) @ axes.T)
