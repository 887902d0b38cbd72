"""The fewest metres of bar as an integer programme over cutting patterns, solved by HiGHS.

    minimise  sum of bar length times number of bars
    so that   every piece is cut at least as often as wanted

With every full pattern at hand the answer is the best there is; with generated ones the linear
programme still gives a true lower bound [GG], and the answer is proven where it meets it.

[GG] see `panewright.cutting.patterns`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cutting.patterns import Pattern, dearest_pattern, full_patterns

FULL_LIMIT = 2500  #: all full patterns are listed up to this number; the programme stays quick
_SECONDS = 5.0  # for the integer programme; small orders need some milliseconds

#: a bar length [mm] and what is cut from it
Column = tuple[float, Pattern]


@dataclass(frozen=True, slots=True)
class Wanted:
    """Sizes with their cut, largest first, how many of each, and length and room of each stock. [mm]"""

    sizes: tuple[float, ...]
    counts: tuple[int, ...]
    stocks: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """Bars by pattern, the lower bound of the length bought, and whether nothing shorter exists."""

    bars: tuple[tuple[Column, int], ...]
    bound_mm: float
    proven: bool


def solve(wanted: Wanted, start: Sequence[Column]) -> Answer:
    """The shortest total length of bars; `start` is some plan that works."""
    listed = _all_columns(wanted)
    if listed is not None:
        return _integer(wanted, listed, bound=None)
    columns, relaxed = _generated(wanted, list(dict.fromkeys(start)))
    return _integer(wanted, columns, bound=_rounded_up(relaxed, wanted))


def _all_columns(wanted: Wanted) -> list[Column] | None:
    columns: list[Column] = []
    for bar, room in wanted.stocks:
        patterns = full_patterns(wanted.sizes, wanted.counts, room, FULL_LIMIT)
        if patterns is None:
            return None
        columns += [(bar, pattern) for pattern in patterns if any(pattern)]
    return columns if len(columns) <= FULL_LIMIT else None


def _rounded_up(relaxed: float, wanted: Wanted) -> float:
    """With one bar length the total is a whole number of bars."""
    if len(wanted.stocks) > 1:
        return relaxed
    bar = wanted.stocks[0][0]
    return math.ceil(relaxed / bar - 1e-6) * bar


def _generated(wanted: Wanted, columns: list[Column]) -> tuple[list[Column], float]:
    """Columns until none would pay, and the length the linear programme needs, [GG]."""
    from scipy.optimize import linprog

    while True:
        matrix = np.array([pattern for _, pattern in columns], dtype=float).T
        lengths = np.array([bar for bar, _ in columns])
        solved = linprog(lengths, A_ub=-matrix, b_ub=-np.array(wanted.counts, dtype=float), method="highs")
        worth = [max(0.0, -float(price)) for price in solved.ineqlin.marginals]
        fresh = [column for column in _paying(wanted, worth) if column not in columns]
        if not fresh:
            return columns, float(solved.fun or 0.0)
        columns += fresh


def _paying(wanted: Wanted, worth: Sequence[float]) -> list[Column]:
    """For each bar length the pattern whose pieces are worth more than the bar, if any."""
    found = []
    for bar, room in wanted.stocks:
        value, pattern = dearest_pattern(wanted.sizes, wanted.counts, room, worth)
        if value > bar * (1 + 1e-9):
            found.append((bar, pattern))
    return found


def _integer(wanted: Wanted, columns: Sequence[Column], bound: float | None) -> Answer:
    """The integer programme over given columns; without a bound its own one counts."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    matrix = np.array([pattern for _, pattern in columns], dtype=float).T
    lengths = np.array([bar for bar, _ in columns])
    solved = milp(
        lengths,
        constraints=LinearConstraint(matrix, lb=np.array(wanted.counts, dtype=float)),
        bounds=Bounds(0, float(sum(wanted.counts))),
        integrality=np.ones(len(columns), dtype=int),
        options={"time_limit": _SECONDS},
    )
    if solved.x is None:
        return Answer((), bound or 0.0, proven=False)
    times = [round(float(value)) for value in solved.x]
    bars = tuple((column, count) for column, count in zip(columns, times, strict=True) if count)
    bought = sum(bar * count for (bar, _), count in bars)
    least = float(solved.mip_dual_bound) if bound is None else bound
    least = _rounded_up(least, wanted) if bound is None else least
    return Answer(bars, min(least, bought), proven=bought <= least * (1 + 1e-9))
