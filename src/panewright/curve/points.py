"""Isc, Voc and maximum power read from a measured curve, without any model of the cell.

Isc is where a straight line through the points near zero volts meets zero volts; Voc where one through the
points near zero current meets zero current. More points average the scatter out, but a line through a bent
curve errs: the number of points is the one at which both together are least, the bend being what a
parabola through the same points says otherwise. Power is a polynomial in the voltage, of fourth order at
most, through the points from 80 to 112 % of the voltage of most power (the usual practice, after ASTM E948
and E1036; memory), or through fewer nearer to it where that errs less. Where the points end short of the
place sought, the value is extrapolated and says so; where they end far short, there is none.

Each standard error holds the scatter, the bend and the stated gains. The scatter is the stated one, or else
what the points differ by from a cubic through their neighbours, of which the middle one is taken.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.curve.measured import Measured

Places = NDArray[np.intp]

_NEAR = 0.2  # of the whole span: points that may count for a straight line
_FAR = 0.3  # of the whole span: further than this no line is prolonged
_WINDOWS = (
    (0.80, 1.12),
    (0.86, 1.08),
    (0.91, 1.05),
    (0.95, 1.03),
)  # of Vmp: points that count for the power's peak
_BY_CHANCE = 0.5  # of a window's own error: what it may differ from another and say nothing
_ORDER = 4
_EVERY = 20


@dataclass(frozen=True, slots=True)
class Read:
    """A value read from a curve."""

    value: float
    sigma: float  #: one standard error
    extrapolated: bool = False  #: the place lies outside the points


@dataclass(frozen=True, slots=True)
class PointsRead:
    """The key points of a measured curve; None where the curve does not reach near enough."""

    isc_a: Read | None
    voc_v: Read | None
    imp_a: Read | None
    vmp_v: Read | None
    power_w: Read | None

    @property
    def fill_factor(self) -> float | None:
        """Pmp over Isc Voc, where all three are known."""
        if self.isc_a is None or self.voc_v is None or self.power_w is None:
            return None
        return self.power_w.value / (self.isc_a.value * self.voc_v.value)


def read_points(measured: Measured) -> PointsRead:
    """The key points of a lit curve, in its own light and heat.

    >>> curve = Measured((0.0, 0.1, 0.2, 0.3, 0.35, 0.4, 0.45), (2.0, 2.0, 2.0, 1.9, 1.7, 1.2, 0.4), 1000, 25)
    >>> points = read_points(curve)
    >>> round(points.isc_a.value, 2), round(points.voc_v.value, 2), points.voc_v.extrapolated
    (2.0, 0.48, True)
    """
    v, i, own = measured.volts, measured.amperes, measured.accuracy
    if measured.irradiance_w_m2 == 0:
        return PointsRead(None, None, None, None, None)
    steep = _steepness(v, i)
    sigma = _scatter_a(measured, steep)
    peak = _peak(v, i, sigma)
    isc = _crossing((v, i, np.zeros_like(v), sigma), float(np.max(np.abs(v))))
    most = float(np.max(np.abs(i[v > -0.5 * max(v.max(), 0.0)]), initial=0.0))
    voc = _crossing((i, v, sigma, np.zeros_like(v)), most)
    imp, vmp, power = peak if peak else (None, None, None)
    both = float(np.hypot(own.current_gain, own.voltage_gain))
    return PointsRead(
        _with_gain(isc, own.current_gain),
        _with_gain(voc, own.voltage_gain),
        _with_gain(imp, own.current_gain),
        _with_gain(vmp, own.voltage_gain),
        _with_gain(power, both),
    )


def greatest_power(measured: Measured) -> Read | None:
    """Pmp alone, without the stated gains: quickly, for a curve that is read many times."""
    v, i = measured.volts, measured.amperes
    peak = _peak(v, i, _scatter_a(measured, _steepness(v, i)))
    return peak[2] if peak else None


def _with_gain(read: Read | None, gain: float) -> Read | None:
    if read is None or read.value <= 0:
        return None
    return Read(read.value, float(np.hypot(read.sigma, gain * read.value)), read.extrapolated)


def _steepness(v: Array, i: Array) -> Array:
    """-dI/dV at each point, from its neighbours. [S]"""
    return np.maximum(-np.gradient(i, v), 0.0) if v.size > 1 else np.zeros(1)


def _scatter_a(measured: Measured, steep: Array) -> Array:
    """Scatter of each point's current; stated, or seen in the points themselves. [A]"""
    if measured.accuracy.scatters:
        return measured.scatter_a(steep)
    return np.asarray(seen_scatter_a(measured.volts, measured.amperes) / np.sqrt(measured.counts))


def seen_scatter_a(v: Array, i: Array) -> float:
    """Scatter of the currents, from each point against the curve through its neighbours. [A]"""
    beside = (-2, -1, 1, 2) if v.size >= 9 else (-1, 1)
    reach = beside[-1]
    if v.size < 2 * reach + 2:
        return 0.0
    at = np.arange(reach, v.size - reach)
    share = np.ones((len(beside), at.size))
    for k, one in enumerate(beside):  # Lagrange's weights: the parabola or cubic through the neighbours
        for other in beside:
            if other != one:
                share[k] *= (v[at] - v[at + other]) / (v[at + one] - v[at + other])
    off = i[at] - sum(share[k] * i[at + one] for k, one in enumerate(beside))
    alone = np.abs(off) / np.sqrt(1 + (share**2).sum(axis=0))
    return float(1.4826 * np.median(alone))


Peak = tuple[
    float, float, float, float
]  #: place, height, and the standard errors of the height and of the place
Points = tuple[Array, Array, Array, Array]  #: x, y, and the scatter of each


def _crossing(points: Points, span: float) -> Read | None:
    """The value of y where x is zero, by the longest straight line that is straight."""
    x = points[0]
    order = np.argsort(np.abs(x), kind="stable")
    outside = not x.min() <= 0 <= x.max()
    if np.ptp(x) == 0 or (outside and float(np.abs(x[order[0]])) > _FAR * span):
        return None
    most = min(max(int(np.sum(np.abs(x) <= _NEAR * span)), 3), x.size)
    lines = [_at_zero(points, order[:k], 1) for k in _counts(min(3, x.size), most)]
    wide = order[: max(most, min(5, x.size))]
    bent, unsure = _at_zero(points, wide, min(3, wide.size - 1))
    judged = [(value, float(np.hypot(error, max(abs(value - bent), 0.5 * unsure)))) for value, error in lines]
    straight = [line for line in judged if abs(line[0] - bent) <= unsure]  # as straight as can be told
    if straight:
        return Read(*straight[-1], outside)
    return Read(*min([*judged, _beside(points, wide)], key=lambda line: line[1]), outside)


def _beside(points: Points, wide: Places) -> tuple[float, float]:
    """Between the two points on either side of the axis; the bend between them as the nearest points bend."""
    x, y, x_scatter, y_scatter = points
    low, high = np.flatnonzero(x <= 0), np.flatnonzero(x >= 0)
    if low.size == 0 or high.size == 0 or wide.size < 5:
        return 0.0, math.inf
    ends = np.array([low[np.argmax(x[low])], high[np.argmin(x[high])]])
    apart = float(np.ptp(x[ends]))
    share = np.array([1.0, 0.0]) if apart == 0 else np.abs(x[ends])[::-1] / apart
    sigma = np.hypot(y_scatter, x_scatter * _slope(x[wide], y[wide]))[ends]
    bend = _bend(x[wide[:5]], y[wide[:5]])
    return float(share @ y[ends]), float(np.hypot(np.linalg.norm(share * sigma), np.prod(x[ends]) * bend))


def _bend(x: Array, y: Array) -> float:
    """The square term of a parabola through some points; nothing where they lie too close to tell."""
    scale = float(np.max(np.abs(x))) or 1.0
    return float((np.linalg.pinv(np.vander(x / scale, 3), rcond=1e-9) @ y)[0]) / scale**2


def _counts(least: int, most: int) -> list[int]:
    """How many points a line may go through: every number to twenty, then each a tenth more, and the most."""
    some = list(range(least, min(most, _EVERY) + 1))
    while some[-1] < most:
        some.append(min(some[-1] + max(some[-1] // 10, 1), most))
    return some


def _at_zero(points: Points, chosen: Places, degree: int) -> tuple[float, float]:
    """Value at zero of a polynomial through some points, and its standard error."""
    x, y, x_scatter, y_scatter = (column[chosen] for column in points)
    sigma = np.hypot(y_scatter, x_scatter * _slope(x, y))
    return _polynomial(x, y, sigma, degree)


def _slope(x: Array, y: Array) -> float:
    """Slope of the plain straight line."""
    off = x - x.mean()
    return float(off @ y / (off @ off)) if np.any(off) else 0.0


def _polynomial(x: Array, y: Array, sigma: Array, order: int) -> tuple[float, float]:
    """Value at zero of a polynomial through some points, and its standard error."""
    scale = float(np.max(np.abs(x))) or 1.0
    columns = np.vander(x / scale, order + 1, increasing=True)
    weight = 1 / np.maximum(sigma, max(float(sigma.max()) * 1e-3, 1e-150))
    inverse = np.linalg.pinv(columns * weight[:, None], rcond=1e-12)[0]
    return float(inverse @ (y * weight)), float(np.sqrt(np.sum((inverse * weight * sigma) ** 2)))


def _peak(v: Array, i: Array, sigma: Array) -> tuple[Read, Read, Read] | None:
    """Imp, Vmp and the greatest power, from the polynomial through the points around it."""
    power = v * i
    top = int(np.argmax(power))
    if power[top] <= 0 or top in (0, v.size - 1):
        return None
    at, value, error, place = _least_erring(v / v[top] - 1, power, v * sigma, top)
    vmp = float(v[top]) * (1 + at)
    imp, share = value / vmp, place / (1 + at)
    return Read(imp, float(np.hypot(error / vmp, imp * share))), Read(vmp, vmp * share), Read(value, error)


def _least_erring(x: Array, power: Array, sigma: Array, top: int) -> tuple[float, float, float, float]:
    """The peak through the window that errs least: wide ones scatter less, narrow ones bend less.

    What a window bends is how far it lies from narrower ones, over what these scatter themselves.
    """
    peaks: list[Peak] = []
    for below, above in _WINDOWS:
        chosen = (x >= below - 1) & (x <= above - 1)
        chosen[max(top - 2, 0) : top + 3] = True
        part = x[chosen], power[chosen], sigma[chosen]
        order = max(2, min(_ORDER, int(np.sum(chosen)) - 1))
        peak = _best_power(*part, order)
        if not peaks or peak != peaks[-1]:
            peaks.append(peak)
    if len(peaks) == 1:  # no narrower one: a lower order says what it bends
        peaks.append((*_best_power(*part, max(order - 1, 2))[:2], 0.0, 0.0))
        return _judged(peaks, 0)
    return min((_judged(peaks, k) for k in range(len(peaks))), key=lambda peak: peak[2])


def _judged(peaks: list[Peak], k: int) -> Peak:
    """A peak with what it bends added to what it scatters, in height and in place."""
    at, top, error, place = peaks[k]
    beside = peaks[k + 1 :] or peaks[k - 1 : k]
    height = max(max(abs(top - other[1]) - _BY_CHANCE * other[2], 0.0) for other in beside)
    aside = max(max(abs(at - other[0]) - _BY_CHANCE * other[3], 0.0) for other in beside)
    return at, top, float(np.hypot(error, height)), float(np.hypot(place, aside))


def _best_power(x: Array, power: Array, sigma: Array, order: int) -> tuple[float, float, float, float]:
    """Place and height of a polynomial's peak, and the standard errors of the height and of the place."""
    width = float(np.max(np.abs(x)))
    weight = 1 / np.maximum(sigma, max(float(sigma.max()) * 1e-3, 1e-150))
    inverse = np.linalg.pinv(np.vander(x / width, order + 1) * weight[:, None], rcond=1e-12) * weight
    curve = inverse @ power
    fine = np.linspace(x.min() / width, x.max() / width, 2001)
    k = int(np.clip(np.argmax(np.polyval(curve, fine)), 1, 1999))
    at = _refined(curve, float(fine[k]), float(fine[1] - fine[0]))
    error = float(np.sqrt(np.sum((np.vander([at], order + 1)[0] @ inverse * sigma) ** 2)))
    lean = np.append(np.vander([at], order)[0] * np.arange(order, 0, -1), 0.0) @ inverse
    bend = abs(float(np.polyval(np.polyder(curve, 2), at)))
    place = float(np.sqrt(np.sum((lean * sigma) ** 2))) / max(bend, 1e-300)
    return at * width, float(np.polyval(curve, at)), error, place * width


def _refined(curve: Array, at: float, step: float) -> float:
    """One step to where the slope is zero, no longer than the grid's own."""
    slope, bend = float(np.polyval(np.polyder(curve), at)), float(np.polyval(np.polyder(curve, 2), at))
    return at - float(np.clip(slope / bend, -step, step)) if bend < 0 else at
