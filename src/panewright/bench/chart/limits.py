"""What a run of good panels is like: its middle, its scatter, and the limits that follow.

Individuals and moving range (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, seen as reprinted):
the scatter is the mean of the ranges between neighbours over 1.128, so that a slow drift does not widen its
own limits. Outside three of it lies one good panel in 370. Limits from few panels are loose: twenty are
usual.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite

import numpy as np

from panewright.errors import BenchError, Problem

D2 = 1.128  #: mean range of two over their standard deviation, as tabled
D4 = 3.267  #: upper limit of a range of two over the mean range, as tabled
WIDE = 3.0  #: standard deviations from the middle to a limit
LEAST = 2
ENOUGH = 20  #: values for limits that hold; common practice


@dataclass(frozen=True, slots=True)
class Limits:
    """Middle and limits of a chart."""

    centre: float
    sigma: float  #: of single values
    count: int  #: values behind it

    @property
    def low(self) -> float:
        """Three standard deviations under the middle."""
        return self.centre - WIDE * self.sigma

    @property
    def high(self) -> float:
        """Three standard deviations over the middle."""
        return self.centre + WIDE * self.sigma

    @property
    def range_mean(self) -> float:
        """Mean range between neighbours."""
        return self.sigma * D2

    @property
    def range_high(self) -> float:
        """Upper limit of a range between neighbours."""
        return D4 * self.range_mean

    def off(self, value: float) -> float:
        """Standard deviations from the middle, over it positive."""
        return (value - self.centre) / self.sigma


def limits(values: Sequence[float]) -> Limits:
    """From single values in the order they were made; `BenchError` where they tell no scatter.

    >>> made = limits([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
    >>> round(made.low, 2), round(made.centre, 2), round(made.high, 2)
    (45.82, 50.81, 55.8)
    """
    must_be_values(values)
    scatter = float(np.abs(np.diff(values)).mean()) / D2
    if scatter == 0:
        reason = f"All {len(values)} values are alike: the meter's last digit hides their scatter."
        raise BenchError([Problem(reason, "Read one digit more, or more panels.", key="chart")])
    return Limits(float(np.mean(values)), scatter, len(values))


def must_be_values(values: Sequence[float], least: int = LEAST) -> None:
    """Enough of them, every one a number; `BenchError` where not."""
    problems = []
    if len(values) < least:
        reason = f"A chart begins with {least} values or more, not {len(values)}."
        problems.append(Problem(reason, "Chart the first panels, and come back.", key="chart"))
    for place, value in enumerate(values, 1):
        if not isfinite(value):
            cure = "Leave it out, or read it again."
            problems.append(Problem(f"Value {place} is no number.", cure, key="chart", value=f"{value:g}"))
    if problems:
        raise BenchError(problems)
