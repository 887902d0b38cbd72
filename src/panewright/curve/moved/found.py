"""Coefficients found from several curves of one panel, the way the standard describes (recalled).

alpha and beta are the slopes of Isc and Voc over temperature, in one light. B1 and B2 are what Voc does over
light at one temperature. A series resistance is the one with which curves of several lights, moved to the
brightest, have one Pmp; kappa the one with which curves of several temperatures, moved to the coolest, have
one.

Each standard uncertainty holds what the reading of every curve leaves open, and how far the curves stay from
the law: a straight line, a parabola, one Pmp.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import minimize_scalar

from panewright.cell.root import Array
from panewright.curve.measured import Measured
from panewright.curve.moved.coefficients import STC_C, STC_W_M2, Coefficient, Coefficients, Series, Whence
from panewright.curve.moved.corrections import ends, isc_a, move_1, move_2, voc_v
from panewright.curve.moved.families import Curves, Families, families
from panewright.curve.moved.moved import Moved, Target
from panewright.curve.points import Read, greatest_power
from panewright.curve.spread import student
from panewright.errors import CurveError, Problem

Move = Callable[[Measured, Coefficients, Target], Moved]
_LEAST, _MOST = -0.3, 0.6  # of Voc / Isc: where a series resistance is sought


@dataclass(frozen=True, slots=True)
class Line:
    """Coefficients of a polynomial, lowest order first, with their standard uncertainties."""

    value: Array
    sigma: Array


def coefficients(curves: Curves, whence: Whence = "measured curves") -> Coefficients:
    """All coefficients of one panel from its curves; `CurveError` where they do not span enough."""
    found = families(curves)
    lights = [each.irradiance_w_m2 for each in found.over_light]
    isc, voc = _isc_over_heat(found), _voc_over_heat(found)
    b1, b2 = _falls(found, voc, whence)
    none = Coefficient(0.0, 0.0, whence)
    start = Coefficients(
        isc_a=float(isc.value[0]),
        voc_v=float(voc.value[0]),
        alpha_per_k=_share(isc, whence),
        beta_per_k=_share(voc, whence),
        first=Series(none, none),
        second=Series(none, none),
        b1=b1,
        b2=b2,
        light_w_m2=(min(lights), max(lights)),
    )
    first = _series(found, start, move_1, lambda by, own: replace(by, first=own))
    second = _series(found, start, move_2, lambda by, own: replace(by, second=own))
    return replace(start, first=first, second=second)


def _share(line: Line, whence: Whence) -> Coefficient:
    """A slope as a share of the value at 25 degC."""
    return Coefficient(float(line.value[1] / line.value[0]), float(line.sigma[1] / line.value[0]), whence)


def _line(x: Array, y: Array, sigma: Array, order: int) -> Line:
    """A polynomial through some points: from their own errors, and from what they leave over."""
    columns = np.vander(x, order + 1, increasing=True)
    inverse = np.linalg.pinv(columns)
    value = inverse @ y
    freedom = y.size - order - 1
    left = y - columns @ value
    over = student(freedom) * np.sqrt(float(left @ left) / freedom) if freedom > 0 else 0.0
    return Line(value, np.sqrt((inverse**2) @ (sigma**2 + over**2)))


def _isc_over_heat(found: Families) -> Line:
    """Isc in full sun at 25 degC, and its slope. [A, A/K]"""
    curves = found.over_heat
    light = STC_W_M2 / np.array([each.irradiance_w_m2 for each in curves])
    value = light * np.array([isc_a(each) for each in curves])
    return _line(_warm(curves), value, light * _sigma(curves, "isc_a"), 1)


def _voc_over_heat(found: Families) -> Line:
    """Voc in full sun at 25 degC, and its slope; from another light as Voc goes over light. [V, V/K]"""
    curves = found.over_heat
    line = _line(_warm(curves), np.array([voc_v(each) for each in curves]), _sigma(curves, "voc_v"), 1)
    over = _voc_over_light(found, float(line.value[1]))
    own = float(np.mean(_dim(curves)))
    lacking = float(over.value[0] - np.polynomial.polynomial.polyval(own, over.value))
    return replace(line, value=line.value + np.array([lacking, 0.0]))


def _voc_over_light(found: Families, slope_v_k: float) -> Line:
    """Voc at 25 degC as a parabola of ln(1000 / G). [V]"""
    curves = found.over_light
    volts = np.array([voc_v(each) for each in curves]) - slope_v_k * _warm(curves)
    return _line(_dim(curves), volts, _sigma(curves, "voc_v"), 2)


def _falls(found: Families, voc: Line, whence: Whence) -> tuple[Coefficient, Coefficient]:
    """B1 and B2, from f at each light: Voc1 / Voc = beta f (T - 25) + 1 / f."""
    curves, slope = found.over_light, float(voc.value[1])
    full = float(_voc_over_light(found, slope).value[0])
    share, sigma = np.array([voc_v(each) for each in curves]) / full, _sigma(curves, "voc_v") / full
    fall = 2 / (share + np.sqrt(share**2 - 4 * slope / full * _warm(curves)))
    x = _dim(curves)
    columns = np.column_stack([x, x**2])
    inverse = np.linalg.pinv(columns)
    value = inverse @ (fall - 1)
    spread = np.sqrt(inverse**2 @ (fall**2 * sigma) ** 2)
    b1, b2 = (Coefficient(float(value[k]), float(spread[k]), whence) for k in (0, 1))
    return b1, b2


def _series(
    found: Families, start: Coefficients, move: Move, set_: Callable[[Coefficients, Series], Coefficients]
) -> Series:
    """Rs from the lights, then kappa from the temperatures; twice, for they hardly touch each other."""
    size, whence = start.voc_v / start.isc_a, start.b1.whence
    own = Series(Coefficient(0.0, 0.0, whence), Coefficient(0.0, 0.0, whence))
    for _ in range(2):
        still = own

        def by_ohm(ohm: float, still: Series = still) -> Coefficients:
            return set_(start, replace(still, ohm=Coefficient(ohm, 0.0, whence)))

        own = replace(own, ohm=_least(found.over_light, by_ohm, move, (size, whence)))
        then = own

        def by_kappa(kappa: float, then: Series = then) -> Coefficients:
            return set_(start, replace(then, kappa_ohm_k=Coefficient(kappa, 0.0, whence)))

        own = replace(own, kappa_ohm_k=_least(found.over_heat, by_kappa, move, (size / 100, whence)))
    return own


def _least(
    curves: tuple[Measured, ...], by: Callable[[float], Coefficients], move: Move, scale: tuple[float, Whence]
) -> Coefficient:
    """The figure with which all curves, moved to the first, have one Pmp; and what it may be off."""
    target = Target(curves[0].irradiance_w_m2, curves[0].cell_c)
    size, whence = scale

    def powers(figure: float) -> Array:
        there = by(figure)
        return np.array(
            [_pmp(curves[0]).value, *(_pmp(move(one, there, target).curve).value for one in curves[1:])]
        )

    span = (_LEAST * size, _MOST * size)
    tried = minimize_scalar(
        lambda figure: float(np.var(powers(figure))),
        bounds=span,
        method="bounded",
        options={"xatol": 1e-5 * size},
    )
    figure, step = float(tried.x), 1e-3 * size
    slope = float(powers(figure + step)[-1] - powers(figure - step)[-1]) / (2 * step)
    read = float(np.hypot(_pmp(curves[0]).sigma, _pmp(curves[-1]).sigma))
    apart = float(np.std(powers(figure), ddof=1))
    return Coefficient(figure, float(np.hypot(read, apart)) / abs(slope), whence)


def _pmp(curve: Measured) -> Read:
    power = greatest_power(curve)
    if power is None:
        reason = "A curve does not reach over its point of most power."
        raise CurveError([Problem(reason, "Sweep from zero volts past open circuit.")])
    return power


def _warm(curves: Curves) -> Array:
    return np.array([each.cell_c - STC_C for each in curves])


def _dim(curves: Curves) -> Array:
    """ln(1000 / G) of each."""
    return np.log([STC_W_M2 / each.irradiance_w_m2 for each in curves])


def _sigma(curves: Curves, name: str) -> Array:
    return np.array([getattr(ends(each), name).sigma for each in curves])
