"""Small drifts: a mean that forgets, and a sum that remembers.

EWMA (NIST/SEMATECH e-Handbook, 6.3.2.4, recalled): z = lambda x + (1 - lambda) z before; its scatter is that
of single values times the root of lambda / (2 - lambda) (1 - (1 - lambda)^2t). CUSUM in its table form
(6.3.2.3, recalled): S = max(0, S before + x - target - k) to either side; a signal at h. With k half the
shift that matters and h four to five standard deviations a shift of one is found in about ten panels, where
a plain chart takes 44.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from panewright.bench.chart.limits import WIDE, Limits

LAMBDA = 0.2  #: usual for shifts of one standard deviation
SLACK, DECIDES = 0.5, 5.0  #: k and h of a CUSUM, in standard deviations


@dataclass(frozen=True, slots=True)
class Smoothed:
    """A value of the forgetting mean, and what it may be off on good panels."""

    value: float
    sigma: float

    def off(self, centre: float) -> float:
        """Standard deviations of its own from the middle."""
        return (self.value - centre) / self.sigma


def smoothed(values: Sequence[float], by: Limits, weight: float = LAMBDA) -> tuple[Smoothed, ...]:
    """The forgetting mean after each value, begun at the middle."""
    if not 0 < weight <= 1:
        raise ValueError(f"a weight lies over 0 and up to 1, got {weight}")
    mean, found = by.centre, []
    for turn, value in enumerate(values, 1):
        mean = weight * value + (1 - weight) * mean
        grown = 1 - (1 - weight) ** (2 * turn)
        found.append(Smoothed(mean, by.sigma * sqrt(weight / (2 - weight) * grown)))
    return tuple(found)


def settled_limits(by: Limits, weight: float = LAMBDA) -> tuple[float, float]:
    """Limits of the forgetting mean after many values."""
    wide = WIDE * by.sigma * sqrt(weight / (2 - weight))
    return by.centre - wide, by.centre + wide


@dataclass(frozen=True, slots=True)
class Summed:
    """The sums to either side after one value, in its unit."""

    over: float
    under: float


def summed(values: Sequence[float], target: float, slack: float) -> tuple[Summed, ...]:
    """The two sums after each value; `slack` is k."""
    over, under, found = 0.0, 0.0, []
    for value in values:
        over = max(0.0, over + value - target - slack)
        under = max(0.0, under + target - value - slack)
        found.append(Summed(over, under))
    return tuple(found)


def began(sums: Sequence[Summed]) -> int | None:
    """Since which place, from 0, the greater of the last sums has grown; None where both are nothing."""
    last = sums[-1] if sums else Summed(0.0, 0.0)
    if last.over == last.under == 0:
        return None
    side = [each.over if last.over >= last.under else each.under for each in sums]
    zeros = [place for place, each in enumerate(side) if each == 0]
    return zeros[-1] + 1 if zeros else 0
