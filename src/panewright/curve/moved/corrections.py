"""Procedures 1, 2 and 4 of IEC 60891: one curve, and figures that say how the panel follows light and heat.

Procedure 1, alike in 2009 and 2021 (recalled), alpha in A/K and beta in V/K:

    I2 = I1 + Isc1 (G2 / G1 - 1) + alpha (T2 - T1)
    V2 = V1 - Rs (I2 - I1) - kappa I2 (T2 - T1) + beta (T2 - T1)

Procedure 2 of 2021 (recalled), alpha and beta as shares, f of `Coefficients.fall`:

    I2 = I1 G2 / G1 (1 + alpha (T2 - 25)) / (1 + alpha (T1 - 25))
    V2 = V1 - (Rs + kappa (T1 - 25)) (I2 - I1) - kappa I2 (T2 - T1)
       + Voc ([beta f2 (T2 - 25) + 1 / f2] - [beta f1 (T1 - 25) + 1 / f1])

Voc is that at STC; the measured Voc1 = Voc [beta f1 (T1 - 25) + 1 / f1] gives it, so no label is needed. The
form of 2009 (seen in a public routine) has Voc1 (beta (T2 - T1) + a ln(G2 / G1)) in that place.

Procedure 4 needs no coefficient measured. For one diode, dV/dT at a fixed current is (V + I Rs - Ns e) / T,
with e the gap and what the saturation current adds, times the ideality. All crystalline cells lie near e =
1.232 V (recalled from the work of Hishikawa and others behind the edition of 2021). So, T in kelvin,

    I2 = I1 + Isc1 (G2 / G1 - 1) + alpha (T2 - T1)
    V2 = V1 - Rs (I2 - I1) + (T2 / T1 - 1) (V1 + Rs I1 - Ns e)

This form is derived here from one diode; the letter of the standard was not read.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from math import log

import numpy as np

from panewright.cell.root import Array
from panewright.check import Check
from panewright.curve.measured import Measured
from panewright.curve.moved.coefficients import STC_C, Coefficient, Coefficients, Series
from panewright.curve.moved.moved import (
    STC,
    Moved,
    Procedure,
    Target,
    light_moved,
    moved,
    must_be_lit,
    reaches_open,
)
from panewright.curve.points import PointsRead, Read, read_points
from panewright.errors import CurveError, Problem
from panewright.units import KELVIN

GAP_V = Coefficient(
    1.232, 0.02, "recalled"
)  #: e of a crystalline cell; scatter by common practice, no source
Place = Callable[[Array, Array], tuple[Array, Array]]  #: voltages and currents to where they lie then

_FLAT = 0.3  # of the greatest voltage: where the curve falls by its shunt alone
KNOWN_TIMES = 1.2  #: past the lights in which f(G) was measured


@dataclass(frozen=True, slots=True)
class OneDiode:
    """What procedure 4 asks: how many cells in series, and what can be read from the curve itself."""

    cells: int
    series_ohm: Coefficient
    alpha_per_k: Coefficient
    gap_v: Coefficient = GAP_V

    def __post_init__(self) -> None:
        if self.cells < 1:
            raise ValueError(f"a panel has a cell or more, got {self.cells}")


@dataclass(frozen=True, slots=True)
class Logarithmic:
    """What procedure 2 of 2009 asks besides alpha and beta."""

    a: float  #: share of Voc for each e-fold of light
    series: Series


def move_1(measured: Measured, by: Coefficients, target: Target = STC) -> Moved:
    """By procedure 1: for light moved by no more than a fifth."""
    must_be_lit(measured)
    g, warmer = target.irradiance_w_m2 / measured.irradiance_w_m2, target.cell_c - measured.cell_c
    rise = isc_a(measured) * (g - 1) + by.alpha_a_k * warmer

    def place(v: Array, i: Array) -> tuple[Array, Array]:
        drift = (by.beta_v_k - by.first.kappa_ohm_k.value * (i + rise)) * warmer
        return v - by.first.ohm.value * rise + drift, i + rise

    return _made(measured, place, (target, "1"), (light_moved(measured, target),))


def move_2(
    measured: Measured, by: Coefficients, target: Target = STC, voc_stc_v: float | None = None
) -> Moved:
    """By procedure 2 of 2021: for any light, as far as f(G) was measured.

    `voc_stc_v` is Voc at STC where it is known; else the curve itself tells it.
    """
    must_be_lit(measured)
    t1, t2 = measured.cell_c, target.cell_c
    ohm, kappa = by.second.ohm.value, by.second.kappa_ohm_k.value
    before, after = (_open_share(by, *at) for at in _both(measured, target))
    times = target.irradiance_w_m2 / measured.irradiance_w_m2 * _warmth(by, t2) / _warmth(by, t1)
    rise = (voc_stc_v or voc_v(measured) / before) * (after - before)

    def place(v: Array, i: Array) -> tuple[Array, Array]:
        drop = (ohm + kappa * (t1 - STC_C)) * (times - 1) * i
        return v - drop - kappa * times * i * (t2 - t1) + rise, times * i

    known = light_known(by, measured.irradiance_w_m2, target.irradiance_w_m2)
    return _made(measured, place, (target, "2"), (known,))


def move_2_of_2009(
    measured: Measured, by: Coefficients, logarithmic: Logarithmic, target: Target = STC
) -> Moved:
    """By procedure 2 as it was in 2009: to read old reports by."""
    must_be_lit(measured)
    g, warmer = target.irradiance_w_m2 / measured.irradiance_w_m2, target.cell_c - measured.cell_c
    ohm, kappa = logarithmic.series.ohm.value, logarithmic.series.kappa_ohm_k.value
    times = (1 + by.alpha_per_k.value * warmer) * g
    rise = voc_v(measured) * (by.beta_per_k.value * warmer + logarithmic.a * log(g))

    def place(v: Array, i: Array) -> tuple[Array, Array]:
        return v + rise - ohm * (times - 1) * i - kappa * times * i * warmer, times * i

    return _made(measured, place, (target, "2 of 2009"), ())


def move_4(measured: Measured, by: OneDiode, target: Target = STC) -> Moved:
    """By procedure 4: crystalline cells, no coefficient measured."""
    must_be_lit(measured)
    g, warmer = target.irradiance_w_m2 / measured.irradiance_w_m2, target.cell_c - measured.cell_c
    isc, ohm = isc_a(measured), by.series_ohm.value
    rise = isc * (g - 1) + by.alpha_per_k.value * isc * g * warmer

    def place(v: Array, i: Array) -> tuple[Array, Array]:
        inner = v + ohm * i - by.cells * by.gap_v.value
        return v - ohm * rise + warmer / (measured.cell_c + KELVIN) * inner, i + rise

    return _made(measured, place, (target, "4"), ())


def _made(measured: Measured, place: Place, at: tuple[Target, Procedure], checks: tuple[Check, ...]) -> Moved:
    """All points at their new places, and the short circuit beside them."""
    target, procedure = at
    curve = moved(measured, *place(measured.volts, measured.amperes), target)
    return Moved(curve, procedure, (*checks, reaches_open(curve)), _short(measured, place))


def _short(measured: Measured, place: Place) -> Read | None:
    """The measured short circuit moved, and brought back to zero volts along the shunt's slope."""
    own = ends(measured).isc_a
    if own is None:
        return None
    at_v, at_a = (float(each[0]) for each in place(np.zeros(1), np.array([own.value])))
    v, i = measured.volts, measured.amperes
    flat = v <= _FLAT * v.max()
    aside = v[flat] - v[flat].mean() if np.any(flat) else np.zeros(0)
    leak_s = max(-float(aside @ i[flat] / (aside @ aside)), 0.0) if np.any(aside) else 0.0
    sigma = float(np.hypot(own.sigma * at_a / own.value, at_v * leak_s))
    return Read(at_a + at_v * leak_s, sigma, own.extrapolated)


def light_known(by: Coefficients, *lights_w_m2: float) -> Check:
    """Whether f(G) was measured in the lights it is asked for."""
    low, high = by.light_w_m2
    return Check(
        rule="light within what procedure 2 was measured for",
        demand=max(max(low / light, light / high) for light in lights_w_m2),
        limit=KNOWN_TIMES,
        unit="times past it",
        source="common practice: a fifth past the lights of f(G)",
        cure="Measure B1 and B2 in that light too, or measure in more sun.",
        room="curve",
    )


def _both(measured: Measured, target: Target) -> tuple[tuple[float, float], tuple[float, float]]:
    return (measured.irradiance_w_m2, measured.cell_c), (target.irradiance_w_m2, target.cell_c)


def _open_share(by: Coefficients, irradiance_w_m2: float, cell_c: float) -> float:
    """Voc there as a share of Voc at STC."""
    fall = by.fall(irradiance_w_m2)
    return by.beta_per_k.value * fall * (cell_c - STC_C) + 1 / fall


def _warmth(by: Coefficients, cell_c: float) -> float:
    return 1 + by.alpha_per_k.value * (cell_c - STC_C)


@lru_cache(maxsize=64)
def ends(measured: Measured) -> PointsRead:
    """The curve's own points; kept, for one curve is moved many times."""
    return read_points(measured)


def isc_a(measured: Measured) -> float:
    """Isc as read from the curve; `CurveError` where it ends too far from it. [A]"""
    return _there(ends(measured).isc_a, "short circuit", "Begin the sweep at zero volts.")


def voc_v(measured: Measured) -> float:
    """Voc as read from the curve; `CurveError` where it ends too far from it. [V]"""
    return _there(ends(measured).voc_v, "open circuit", "Sweep past open circuit.")


def _there(read: Read | None, what: str, cure: str) -> float:
    if read is None:
        raise CurveError([Problem(f"The curve ends too far from {what} to be moved.", cure)])
    return read.value
