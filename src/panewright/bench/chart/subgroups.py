"""Several samples at a time, such as joints peeled from one panel: charts of their means and their scatter.

Mean and standard deviation (NIST/SEMATECH e-Handbook, 6.3.2.1, recalled): with c4 the bias of the standard
deviation of n, limits of the mean are 3 s / (c4 sqrt n) away, those of s are s (1 +- 3 sqrt(1 - c4^2) / c4).
Groups may be of unlike size; their variances are pooled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, lgamma, sqrt

import numpy as np

from panewright.bench.chart.limits import WIDE, must_be_values
from panewright.errors import BenchError, Problem


def c4(count: int) -> float:
    """Mean standard deviation of so many over the true one.

    >>> round(c4(5), 4)
    0.94
    """
    return sqrt(2 / (count - 1)) * exp(lgamma(count / 2) - lgamma((count - 1) / 2))


@dataclass(frozen=True, slots=True)
class GroupLimits:
    """Middle of the means, and the scatter within a group."""

    centre: float
    sigma: float  #: of single samples within a group, bias taken out
    groups: int

    def mean_off(self, group: Sequence[float]) -> float:
        """Standard deviations of a mean of so many from the middle."""
        return (float(np.mean(group)) - self.centre) * sqrt(len(group)) / self.sigma

    def mean_limits(self, count: int) -> tuple[float, float]:
        """Of the mean of so many samples."""
        wide = WIDE * self.sigma / sqrt(count)
        return self.centre - wide, self.centre + wide

    def scatter_limits(self, count: int) -> tuple[float, float]:
        """Of the standard deviation of so many samples."""
        bias = c4(count)
        wide = WIDE * self.sigma * sqrt(1 - bias**2)
        return max(0.0, bias * self.sigma - wide), bias * self.sigma + wide

    @property
    def least(self) -> float:
        """Three standard deviations of single samples under the middle: hardly one is weaker."""
        return self.centre - WIDE * self.sigma


def group_limits(groups: Sequence[Sequence[float]]) -> GroupLimits:
    """From good groups; `BenchError` where they tell no scatter.

    Equal groups: the mean of their standard deviations over c4. Unequal ones: each weighed by what it tells.
    """
    must_be_groups(groups)
    deviations = [float(np.std(group, ddof=1)) for group in groups]
    weights = [c4(len(group)) ** 2 / (1 - c4(len(group)) ** 2) for group in groups]
    known = [deviation / c4(len(group)) for deviation, group in zip(deviations, groups, strict=True)]
    sigma = float(np.average(known, weights=weights))
    if sigma == 0:
        reason = "The samples of each group are alike: the balance's last digit hides their scatter."
        raise BenchError([Problem(reason, "Read one digit more.", key="chart")])
    samples = np.concatenate([np.asarray(group, dtype=float) for group in groups])
    return GroupLimits(float(samples.mean()), sigma, len(groups))


def must_be_groups(groups: Sequence[Sequence[float]], least: int = 2) -> None:
    """Enough groups, each of two samples or more; `BenchError` where not."""
    if len(groups) < least:
        reason = f"A chart of groups begins with {least} groups or more, not {len(groups)}."
        raise BenchError([Problem(reason, "Peel samples of another panel.", key="chart")])
    for group in groups:
        must_be_values(group)
