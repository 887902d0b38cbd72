"""How well a fit knows what it says: standard errors, correlations and runs of residuals.

With J the slopes, W the weights and V the variances of the points, the parameters of a weighted fit have

    C = A^-1 J' W V W J A^-1,   A = J' W J.

In the implicit objective each point's error enters enlarged by 1 + Rs D', and V with it. The scatter is
taken from the exact residuals and the degrees of freedom that are left, and widened by Student's t, so
that one standard error holds 68 % with few points too; with none left it must be stated with the curve.
Gains are common to all points; they move the figures in a known way and are added at the end.

Residuals of a law that fits change sign as coins fall. Long runs of one sign say that the law does not
have the curve's shape, however small the residuals are [W].

[W] A. Wald, J. Wolfowitz, On a test whether two samples are from the same population, Annals of
    Mathematical Statistics 11, 1940, p. 147.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr, stdtrit

from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.curve.equation import DEPTH, DIODE, EXPONENT, IDEALITY, LIGHT, SERIES, SHUNT, Frame
from panewright.curve.measured import Accuracy

FIGURES = (
    "light_a",
    "ln_saturation",
    "ideality_v",
    "series_ohm",
    "shunt_siemens",
    "breakdown_siemens",
    "breakdown_v",
    "breakdown_exponent",
)

_BLIND = 1e-9  # singular values below this, of the greatest, are directions the points do not see


@dataclass(frozen=True, slots=True)
class Estimate:
    """A figure and its standard error; infinite where the points do not tell."""

    name: str
    value: float
    sigma: float
    at_bound: bool = False  #: the fit pressed against a bound: zero, or the end of the search


@dataclass(frozen=True, slots=True)
class Runs:
    """Runs of residuals of one sign along the curve, against what chance makes."""

    count: int
    expected: float
    sigma: float

    @property
    def deviation(self) -> float:
        """Standard deviations away from chance; well below zero where the law leaves a pattern."""
        return (self.count - self.expected) / self.sigma if self.sigma > 0 else 0.0


def student(freedom: int) -> float:
    """By how much one standard error widens to hold 68 % when the scatter itself is estimated."""
    return float(stdtrit(freedom, ndtr(1.0)))


def covariance(slopes: Array, weight: Array, variance: Array) -> Array:
    """Covariance of the parameters; infinite variance where the points do not see one."""
    if not np.all(np.isfinite(variance)):
        return np.diag(np.full(slopes.shape[1], np.inf))
    size = np.sqrt((weight[:, None] * slopes**2).sum(axis=0))
    dead = size <= 1e-150
    size = np.where(dead, 1.0, size)
    left, singular, right = np.linalg.svd(np.sqrt(weight)[:, None] * slopes / size, full_matrices=False)
    seen = singular > _BLIND * singular.max(initial=0.0)
    inverse = (right[seen].T / singular[seen]) @ left[:, seen].T * np.sqrt(weight * variance)
    found = inverse @ inverse.T / np.outer(size, size)
    blind = (np.abs(right[~seen]) > 1e-6).any(axis=0) | dead
    if singular.size < slopes.shape[1]:  # fewer points than parameters
        blind[:] = True
    found[blind, :] = found[:, blind] = 0.0
    found[blind, blind] = np.inf
    return np.asarray(found)


def to_figures(frame: Frame, theta: Array) -> Array:
    """Slopes of the figures in volts and amperes in the parameters."""
    ohm, diode = frame.unit_v / frame.unit_a, frame.diode(theta)
    matrix = np.zeros((theta.size, theta.size))
    matrix[LIGHT, LIGHT] = frame.unit_a
    matrix[DIODE, [DIODE, IDEALITY]] = 1.0, 1 / diode.ideality_v
    matrix[IDEALITY, IDEALITY] = frame.unit_v * diode.ideality_v
    matrix[SERIES, SERIES], matrix[SHUNT, SHUNT] = ohm, 1 / ohm
    if theta.size > DEPTH:
        matrix[5, 5] = diode.breakdown_siemens / ohm
        matrix[DEPTH, DEPTH] = (diode.breakdown_v - frame.lowest) * frame.unit_v
        matrix[EXPONENT, EXPONENT] = diode.breakdown_exponent
    return matrix


def figures_of(diode: Diode, size: int) -> Array:
    """The figures of a diode in the order of `FIGURES`."""
    plain = [diode.light_a, float(np.log(diode.saturation_a)), diode.ideality_v, diode.series_ohm]
    broken = [diode.breakdown_siemens, diode.breakdown_v, diode.breakdown_exponent]
    return np.array([*plain, 1 / diode.shunt_ohm, *broken])[:size]


def by_gain(diode: Diode, size: int, accuracy: Accuracy) -> Array:
    """Covariance of the figures from what is common to all points."""
    value = figures_of(diode, size)
    current = np.array([1, 1, 0, -1, 1, 1, 0, 0])[:size] * value
    current[DIODE] = 1.0
    voltage = np.array([0, 0, 1, 1, -1, -1, 1, 0])[:size] * value
    return np.asarray(
        accuracy.current_gain**2 * np.outer(current, current)
        + accuracy.voltage_gain**2 * np.outer(voltage, voltage)
    )


def correlations(covariance: Array) -> tuple[tuple[float, ...], ...]:
    """Correlation of each pair; zero with a figure that the points do not see."""
    sigma = np.sqrt(np.diag(covariance))
    with np.errstate(all="ignore"):
        share = np.nan_to_num(covariance / np.outer(sigma, sigma), nan=0.0, posinf=0.0, neginf=0.0)
    np.fill_diagonal(share, 1.0)
    return tuple(tuple(float(entry) for entry in row) for row in np.clip(share, -1, 1))


def runs(residuals: Array) -> Runs:
    """Runs of one sign, [W]."""
    signs = np.sign(residuals[residuals != 0])
    above, below = int(np.sum(signs > 0)), int(np.sum(signs < 0))
    total = above + below
    count = 1 + int(np.sum(signs[1:] != signs[:-1])) if total else 0
    if total < 2:
        return Runs(count, float(count), 0.0)
    expected = 1 + 2 * above * below / total
    variance = (expected - 1) * (expected - 2) / (total - 1)
    return Runs(count, expected, float(np.sqrt(max(variance, 0.0))))
