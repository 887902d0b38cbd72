"""How likely readings are on a curve, with everything that moves the whole curve let free.

A point lies off a curve by its distance in standard deviations, both of voltage and of current: the place
on the curve where it was read is not known. (On a straight curve this is exact, whatever the points'
spacing, if no place along the curve, measured in standard deviations, is likelier than another.) The
distance is taken where the line through the point along which both errors grow alike meets the curve: a
falling curve it meets once.

What moves the whole curve has a normal distribution each. Near the best fit distances are straight in them,
so they are integrated exactly there: with residuals r0 + A x and prior deviations s,

    ln L = -(r0.r0 - y.M^-1 y) / 2 - ln(det M) / 2 - sum ln s,    M = A'A + diag(1 / s^2),   y = -A' r0

(a Gaussian integral). A few rounds bring x to the best fit.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.bench.fault.foretold import Curves, deviations
from panewright.bench.fault.readings import Points
from panewright.cell.root import Array

_ROUNDS = 3
_ROBUST_ROUNDS = 6
_KEPT = 4.0  #: times the middle scatter: what lies farther moves no curve
_MIDDLE = 1.4826  #: standard deviation of a normal distribution over its median distance, recalled
_FARTHEST = 6.0  #: standard deviations: no common error is followed further


@dataclass(frozen=True, slots=True)
class Likelihood:
    """Of each curve: arrays (curves,), and what the common errors came out as (curves, ways)."""

    log: Array
    moved: Array


def likelihood(curves: Curves, points: Points) -> Likelihood:
    """Log likelihood of the points on each curve, up to a constant that is the same for all."""
    points = points.floored()
    sigma = deviations(points.common)
    free = np.flatnonzero(sigma > 0)
    shift = np.zeros((curves.voltage_v.shape[0], sigma.size))
    log = np.zeros(curves.voltage_v.shape[0])
    for _ in range(_ROUNDS):
        off, slopes = _residuals(curves, points, shift)
        away, slopes = off - (slopes @ shift[..., None])[..., 0], slopes[..., free]
        log, best = _integrated(away, slopes, sigma[free])
        shift[:, free] = np.clip(best, -_FARTHEST * sigma[free], _FARTHEST * sigma[free])
    return Likelihood(log, shift)


def distances(curves: Curves, points: Points) -> tuple[Array, Array]:
    """Every point's distance from every curve, and the middle scatter about it (1 at least), both in
    standard deviations: (curves, points), (curves,).

    The curve is moved as most of the points ask: by least squares without those beyond four times the middle
    scatter, again and again, so that a wild reading does not pull the curve to itself.
    """
    points = points.floored()
    sigma = deviations(points.common)
    free = np.flatnonzero(sigma > 0)
    shift = np.zeros((curves.voltage_v.shape[0], sigma.size))
    for _ in range(_ROBUST_ROUNDS):
        off, slopes = _residuals(curves, points, shift)
        kept = np.abs(off) <= _KEPT * _scatter(off)[:, None]
        away, slopes = off - (slopes @ shift[..., None])[..., 0], slopes[..., free]
        _, best = _integrated(away * kept, slopes * kept[..., None], sigma[free])
        shift[:, free] = np.clip(best, -_FARTHEST * sigma[free], _FARTHEST * sigma[free])
    off, _ = _residuals(curves, points, shift)
    return np.abs(off), _scatter(off)


def _scatter(off: Array) -> Array:
    return np.asarray(np.maximum(_MIDDLE * np.median(np.abs(off), axis=1), 1.0))


def _integrated(away: Array, slopes: Array, sigma: Array) -> tuple[Array, Array]:
    """The integral over all common errors, and where it is greatest."""
    across = slopes.transpose(0, 2, 1)
    matrix = across @ slopes + np.diag(sigma**-2.0)
    right = -(across @ away[..., None])[..., 0]
    best = np.linalg.solve(matrix, right[..., None])[..., 0]
    square = (away**2).sum(axis=1) - (right * best).sum(axis=1)
    log = -0.5 * (square + np.linalg.slogdet(matrix)[1]) - np.log(sigma).sum()
    return np.asarray(log), np.asarray(best)


def _residuals(curves: Curves, points: Points, shift: Array) -> tuple[Array, Array]:
    """Distance of every point from every moved curve, and how it changes with each way to move."""
    volts = curves.voltage_v + (curves.moved_v @ shift[..., None])[..., 0]
    growth = 1 + shift @ curves.grown
    amps = curves.current_a * growth[:, None]
    sv, si = points.voltage_error_v, points.current_error_a
    j = _met(volts, amps, points)
    e = np.arange(volts.shape[0])[:, None]
    dv, di = volts[e, j] - volts[e, j - 1], amps[e, j] - amps[e, j - 1]
    asked = points.current_a / si - points.voltage_v / sv
    here = amps[e, j - 1] / si - volts[e, j - 1] / sv
    part = np.clip((asked - here) / np.maximum(di / si - dv / sv, 1e-300), -3.0, 4.0)
    met_v, met_i = volts[e, j - 1] + part * dv, amps[e, j - 1] + part * di
    length = np.hypot(di * sv, dv * si) + 1e-300
    off = (di * (points.voltage_v - met_v) - dv * (points.current_a - met_i)) / length
    part = part[..., None]
    moved_v = (1 - part) * curves.moved_v[e, j - 1] + part * curves.moved_v[e, j]
    moved_i = (met_i / growth[:, None])[..., None] * curves.grown
    slopes = (dv[..., None] * moved_i - di[..., None] * moved_v) / length[..., None]
    return off, slopes


def _met(volts: Array, amps: Array, points: Points) -> NDArray[np.intp]:
    """Of every curve the node behind the place that a point's line meets, (curves, points), by halving."""
    sv, si = points.voltage_error_v, points.current_error_a
    asked = points.current_a / si - points.voltage_v / sv
    e = np.arange(volts.shape[0])[:, None]
    low = np.zeros((volts.shape[0], asked.size), dtype=np.intp)
    high = np.full_like(low, volts.shape[1] - 1)
    while np.any(high - low > 1):
        middle = (low + high) // 2
        before = amps[e, middle] / si - volts[e, middle] / sv < asked
        low, high = np.where(before, middle, low), np.where(before, high, middle)
    return np.asarray(np.maximum(high, 1))  # a reading before the first node lies beyond its first stretch
