"""A reading typed at the bench, held at once against what was expected in that light and heat."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from panewright.bench.bounds import Bounds, bounds
from panewright.bench.expected import Condition, Expected
from panewright.check import Check


@dataclass(frozen=True, slots=True)
class Judged:
    """A reading with its verdict."""

    value: float
    expected: float  #: in the light and heat of the reading
    low: float | None
    high: float | None
    check: Check

    @property
    def passed(self) -> bool:
        """Whether it is as it should be."""
        return self.check.passed


def judge_reading(expected: Expected, value: float, light: float | None, heat: float | None) -> Judged:
    """One reading, in the reading's unit, in W/m2 and at the cells' temperature; None where not measured.

    A current or a power without its light says nothing: such a check has no limit.
    """
    if not isfinite(value):
        raise ValueError(f"a reading is a number, got {value}")
    if (light is not None and not 0 < light < 2000) or (heat is not None and not -60 < heat < 150):
        raise ValueError(f"light is above 0 W/m2 and heat from -60 to 150 degC, got {light}, {heat}")
    if expected.law is None:
        return _fixed(expected, value)
    found = bounds(expected.law, expected.allowed, Condition(light, heat), expected.at)
    told = light is not None or expected.law.figure == "voc_v"
    return _between(expected, value, found, told)


def _between(expected: Expected, value: float, found: Bounds, told: bool) -> Judged:
    """Off by how much, of how much it may be off on that side."""
    room = found.high - found.value if value > found.value else found.value - found.low
    check = _check(expected, abs(value - found.value), room if told else None)
    return Judged(value, found.value, found.low, found.high, check)


def _fixed(expected: Expected, value: float) -> Judged:
    """A figure that light and heat do not change; one-sided where one bound is none."""
    low, high = expected.low, expected.high
    if low is not None and (high is None or value < expected.value):
        demand, limit = (low, value) if high is None else (expected.value - value, expected.value - low)
    else:
        assert high is not None
        demand, limit = (value, high) if low is None else (value - expected.value, high - expected.value)
    return Judged(value, expected.value, low, high, _check(expected, demand, limit))


def _check(expected: Expected, demand: float, limit: float | None) -> Check:
    return Check(
        rule=f"reading: {expected.what}",
        demand=demand,
        limit=limit,
        unit=expected.unit,
        source=f"the panel's own circuit; bounds by {expected.allowed.source}",
        cure=expected.cure if limit is not None else "Measure the light beside it, and read again.",
        room="bench",
    )
