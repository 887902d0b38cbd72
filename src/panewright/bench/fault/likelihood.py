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

How much more all cells leak than foretold has a log-normal distribution: its x is a logarithm, and the
currents that it takes grow with its exponential.
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


Met = tuple[NDArray[np.intp], Array]  #: a node, of all curves in a row, and the part of the way to it


@dataclass(frozen=True, slots=True)
class Moving:
    """Curves with the ways to move them that are not known; the cells' leak, if it is one, comes last."""

    curves: Curves
    moved_v: Array  #: (curves, nodes, ways but the leak)
    grown: Array  #: (ways but the leak,)
    sigma: Array  #: (ways,)
    leaks: bool

    @classmethod
    def of(cls, curves: Curves, sigma: Array) -> Moving:
        """By ways of such standard deviations."""
        free = np.flatnonzero(sigma[:-1] > 0)
        return cls(
            curves,
            np.ascontiguousarray(curves.moved_v[..., free]),
            curves.grown[free],
            sigma[sigma > 0],
            bool(sigma[-1] > 0),
        )

    def at(self, shift: Array) -> tuple[Array, Array]:
        """Voltages and currents of the nodes. [V, A]"""
        straight = shift[:, : self.grown.size]
        volts = self.curves.voltage_v + _along(self.moved_v, straight)
        amps = self.curves.current_a * (1 + straight @ self.grown)[:, None]
        return volts, amps + self.curves.leaking_a(shift[:, -1:]) if self.leaks else amps

    def slopes(self, met: Met, along: tuple[Array, Array], shift: Array) -> Array:
        """How distances change with each way; `along` are the volts and amperes of the stretch met."""
        (at, part), (dv, di) = met, along
        flat = self.moved_v.reshape(self.curves.voltage_v.size, self.grown.size)
        behind = flat.take(at - 1, axis=0)
        moved_v = behind + part[..., None] * (flat.take(at, axis=0) - behind)
        amps = _between(self.curves.current_a, met)
        slopes = (dv * amps)[..., None] * self.grown - di[..., None] * moved_v
        if not self.leaks:
            return np.asarray(slopes)
        leaked = _between(self.curves.leaking_slope_a(shift[:, -1:]), met)
        return np.concatenate([slopes, (dv * leaked)[..., None]], axis=-1)


def _between(nodes: Array, met: Met) -> Array:
    at, part = met
    behind = nodes.take(at - 1)
    return np.asarray(behind + part * (nodes.take(at) - behind))


def likelihood(curves: Curves, points: Points) -> Likelihood:
    """Log likelihood of the points on each curve, up to a constant that is the same for all."""
    points, sigma = points.floored(), deviations(points.common)
    moving = Moving.of(curves, sigma)
    shift = np.zeros((curves.voltage_v.shape[0], moving.sigma.size))
    log = np.zeros(curves.voltage_v.shape[0])
    for _ in range(_ROUNDS):
        off, slopes = _residuals(moving, points, shift)
        log, best = _integrated(off - _along(slopes, shift), slopes, moving.sigma)
        shift = _followed(moving, shift, best)
    moved = np.zeros((shift.shape[0], sigma.size))
    moved[:, sigma > 0] = shift
    return Likelihood(log, moved)


def distances(curves: Curves, points: Points) -> tuple[Array, Array]:
    """Every point's distance from every curve, and the middle scatter about it (1 at least), both in
    standard deviations: (curves, points), (curves,).

    The curve is moved as most of the points ask: by least squares without those beyond four times the middle
    scatter, again and again, so that a wild reading does not pull the curve to itself.
    """
    points = points.floored()
    moving = Moving.of(curves, deviations(points.common))
    shift = np.zeros((curves.voltage_v.shape[0], moving.sigma.size))
    for _ in range(_ROBUST_ROUNDS):
        off, slopes = _residuals(moving, points, shift)
        kept = np.abs(off) <= _KEPT * _scatter(off)[:, None]
        away = off - _along(slopes, shift)
        _, best = _integrated(away * kept, slopes * kept[..., None], moving.sigma)
        shift = _followed(moving, shift, best)
    off, _ = _residuals(moving, points, shift)
    return np.abs(off), _scatter(off)


def _along(slopes: Array, shift: Array) -> Array:
    return np.asarray((slopes @ shift[..., None])[..., 0])


def _followed(moving: Moving, shift: Array, best: Array) -> Array:
    """Where the common errors are sought next.

    What leaks grows with the exponential of its error. A step up is taken as far as so much more leak is: a
    straight one would pass it by a long way.
    """
    if moving.leaks:
        step = best[:, -1] - shift[:, -1]
        best[:, -1] = shift[:, -1] + np.where(step > 0, np.log1p(np.maximum(step, 0.0)), step)
    return np.clip(best, -_FARTHEST * moving.sigma, _FARTHEST * moving.sigma)


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


def _residuals(moving: Moving, points: Points, shift: Array) -> tuple[Array, Array]:
    """Distance of every point from every moved curve, and how it changes with each way to move."""
    volts, amps = moving.at(shift)
    sv, si = points.voltage_error_v, points.current_error_a
    at = _met(volts, amps, points)
    v, i = volts.take(at - 1), amps.take(at - 1)
    dv, di = volts.take(at) - v, amps.take(at) - i
    asked = points.current_a / si - points.voltage_v / sv
    part = np.clip((asked - (i / si - v / sv)) / np.maximum(di / si - dv / sv, 1e-300), -3.0, 4.0)
    length = np.hypot(di * sv, dv * si) + 1e-300
    off = (di * (points.voltage_v - v - part * dv) - dv * (points.current_a - i - part * di)) / length
    return off, moving.slopes((at, part), (dv / length, di / length), shift)


def _met(volts: Array, amps: Array, points: Points) -> NDArray[np.intp]:
    """Of every curve the node behind the place that a point's line meets, (curves, points), by halving.

    Nodes are numbered through all curves.
    """
    sv, si = points.voltage_error_v, points.current_error_a
    asked = points.current_a / si - points.voltage_v / sv
    begin = np.arange(volts.shape[0])[:, None] * volts.shape[1]
    low = np.zeros((volts.shape[0], asked.size), dtype=np.intp)
    high = np.full_like(low, volts.shape[1] - 1)
    while np.any(high - low > 1):
        middle = (low + high) // 2
        at = begin + middle
        before = amps.take(at) / si - volts.take(at) / sv < asked
        low, high = np.where(before, middle, low), np.where(before, high, middle)
    return np.asarray(
        begin + np.maximum(high, 1)
    )  # a reading before the first node lies beyond its first stretch
