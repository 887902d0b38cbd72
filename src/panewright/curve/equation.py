"""The single diode's current and its slopes in every parameter, in the curve's own scale.

Voltages are counted in the greatest forward voltage of the curve and currents in its greatest current, so
all figures are near one. The saturation current is written as what the diode swallows at that voltage,

    I0 = J exp(-1 / x),   D(Vd) = J (exp((Vd - 1) / x) - exp(-1 / x)) + G Vd + Gb Vd (1 - Vd / Vbr)^-m,

and J, x, Gb and m by their logarithms: I0 itself moves over decades with a little change of x, J does not.
The breakdown voltage lies past the lowest voltage of the curve, Vbr = lowest (1 + exp b).

Two answers to 'which current does the model give at a measured voltage V?'

exact       I solves I = IL - D(V + I Rs);
implicit    I = IL - D(V + Im Rs) with the measured current Im on the right-hand side.

Both have the same sensitivity but for a factor: dI = (dIL - dD - D' I dRs) / (1 + Rs D') if exact, and the
same with Im and without the divisor if implicit. That divisor is why the two optima differ: the implicit
objective counts the points near open circuit, where Rs D' is large, the more.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.curve.measured import Measured

Optimum = Literal["exact", "implicit"]

LIGHT, DIODE, IDEALITY, SERIES, SHUNT, BREAKDOWN, DEPTH, EXPONENT = range(8)  #: places in theta
PLAIN, WITH_BREAKDOWN = 5, 8  #: lengths of theta

_NOTHING = 1e-14  # conductance that carries less than rounding

_LEAST = np.array([0.0, -40.0, np.log(1 / 150), 0.0, 0.0, -60.0, -8.0, 0.0])
_MOST = np.array([1e3, 10.0, np.log(2.0), 5.0, 50.0, 5.0, 2.5, np.log(12.0)])


@dataclass(frozen=True, slots=True)
class Frame:
    """A curve in its own scale, per cell."""

    volts: Array
    amperes: Array
    unit_v: float
    unit_a: float

    @property
    def lowest(self) -> float:
        """The lowest voltage, in its own scale, as a figure below zero."""
        return min(float(self.volts.min()), -1e-3)

    def diode(self, theta: Array) -> Diode:
        """The diode of some parameters, in the curve's own scale."""
        x = float(np.exp(theta[IDEALITY]))
        plain = Diode(
            light_a=float(max(theta[LIGHT], 0.0)),
            saturation_a=float(np.exp(theta[DIODE] - 1 / x)),
            ideality_v=x,
            series_ohm=float(max(theta[SERIES], 0.0)),
            shunt_ohm=float(1 / theta[SHUNT]) if theta[SHUNT] > _NOTHING else float("inf"),
        )
        if theta.size == PLAIN:
            return plain
        return replace(
            plain,
            breakdown_siemens=float(np.exp(theta[BREAKDOWN])),
            breakdown_v=self.lowest * float(1 + np.exp(theta[DEPTH])),
            breakdown_exponent=float(np.exp(theta[EXPONENT])),
        )

    def in_volts(self, diode: Diode) -> Diode:
        """A diode of this scale in volts and amperes."""
        ohm = self.unit_v / self.unit_a
        plain = Diode(
            diode.light_a * self.unit_a,
            diode.saturation_a * self.unit_a,
            diode.ideality_v * self.unit_v,
            diode.series_ohm * ohm,
            diode.shunt_ohm * ohm,
        )
        if diode.breakdown_siemens == 0:
            return plain
        return replace(
            plain,
            breakdown_siemens=diode.breakdown_siemens / ohm,
            breakdown_v=diode.breakdown_v * self.unit_v,
            breakdown_exponent=diode.breakdown_exponent,
        )


def frame_of(measured: Measured, cells: int) -> Frame:
    """The curve of one of some equal cells in series, in its own scale."""
    unit_v, unit_a = float(measured.volts.max()) / cells, float(np.abs(_forward(measured)).max())
    return Frame(measured.volts / cells / unit_v, measured.amperes / unit_a, unit_v, unit_a)


def _forward(measured: Measured) -> Array:
    """The currents from a little below zero volts up; in reverse they may be many times as large."""
    return np.asarray(measured.amperes[measured.volts > -0.5 * measured.volts.max()])


def bounds(size: int) -> tuple[Array, Array]:
    """Least and most of each parameter."""
    return _LEAST[:size].copy(), _MOST[:size].copy()


def model(frame: Frame, theta: Array, optimum: Optimum) -> Array:
    """Current that the model gives at each measured voltage."""
    diode = frame.diode(theta)
    with np.errstate(all="ignore"):
        if optimum == "exact":
            return current_a(diode, frame.volts)
        swallowed, _ = swallowed_a(diode, frame.volts + frame.amperes * diode.series_ohm)
        return np.asarray(np.nan_to_num(diode.light_a - swallowed, nan=1e9, posinf=1e9, neginf=-1e9))


def slopes(frame: Frame, theta: Array, optimum: Optimum) -> Array:
    """Slope of each current in each parameter, a row for each point."""
    diode = frame.diode(theta)
    current = model(frame, theta, optimum) if optimum == "exact" else frame.amperes
    vd = frame.volts + current * diode.series_ohm
    with np.errstate(all="ignore"):
        columns = _swallowed_slopes(frame, diode, vd, theta.size)
        _, steep = swallowed_a(diode, vd)
        columns[:, SERIES] = -steep * current
        if optimum == "exact":
            columns /= (1 + diode.series_ohm * steep)[:, None]
    return np.asarray(np.nan_to_num(columns, nan=0.0, posinf=1e9, neginf=-1e9))


def stretch(frame: Frame, theta: Array) -> Array:
    """1 + Rs D' at each point: how many times as large as the exact residual the implicit one is."""
    diode = frame.diode(theta)
    vd = frame.volts + model(frame, theta, "exact") * diode.series_ohm
    return np.asarray(1 + diode.series_ohm * swallowed_a(diode, vd)[1])


def steepness(frame: Frame, theta: Array) -> Array:
    """-dI/dV of one cell at each point."""
    diode = frame.diode(theta)
    vd = frame.volts + model(frame, theta, "exact") * diode.series_ohm
    steep = swallowed_a(diode, vd)[1]
    return np.asarray(steep / (1 + diode.series_ohm * steep))


def _swallowed_slopes(frame: Frame, diode: Diode, vd: Array, size: int) -> Array:
    """Slopes at a fixed junction voltage: minus those of D, and one for the light."""
    x, saturation = diode.ideality_v, diode.saturation_a
    grown = saturation * np.exp(vd / x)
    columns = np.zeros((vd.size, size))
    columns[:, LIGHT] = 1.0
    columns[:, DIODE] = -(grown - saturation)
    columns[:, IDEALITY] = (vd - 1) / x * grown + saturation / x
    columns[:, SHUNT] = -vd
    if size == WITH_BREAKDOWN:
        vd = np.minimum(vd, diode.breakdown_top_v)
        left = 1 - vd / diode.breakdown_v
        broken = diode.breakdown_siemens * vd * left**-diode.breakdown_exponent
        past = diode.breakdown_v - frame.lowest
        columns[:, BREAKDOWN] = -broken
        columns[:, DEPTH] = broken * diode.breakdown_exponent / left * vd / diode.breakdown_v**2 * past
        columns[:, EXPONENT] = diode.breakdown_exponent * broken * np.log(left)
    return columns
