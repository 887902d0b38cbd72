"""Round numbers for an axis: steps of 1, 2 or 5 times a power of ten."""

from __future__ import annotations

import math
from itertools import pairwise


def nice_step(span: float, at_most: int) -> float:
    """The smallest step of 1, 2 or 5 times a power of ten that cuts a span into at most so many parts.

    >>> nice_step(23.0, 6), nice_step(9.8, 5), nice_step(0.07, 4)
    (5.0, 2.0, 0.02)
    """
    if not (math.isfinite(span) and span > 0 and at_most >= 1):
        raise ValueError(f"an axis needs a span above 0 and one part at least, got {span} and {at_most}")
    power = math.floor(math.log10(span / at_most))
    for leading, exponent in ((1, power), (2, power), (5, power), (1, power + 1), (2, power + 1)):
        step = float(f"{leading}e{exponent}")  # exact to the last bit, unlike leading * 10.0 ** exponent
        if step * at_most >= span * (1 - 1e-9):
            return step
    raise AssertionError("a step twice a tenfold always reaches")


def ticks(start: float, end: float, at_most: int = 6) -> tuple[float, ...]:
    """Round values from the one at or before the start to the one at or past the end.

    >>> ticks(0, 21.4)
    (0.0, 5.0, 10.0, 15.0, 20.0, 25.0)
    """
    step = nice_step(end - start, at_most)
    first, last = math.floor(start / step + 1e-9), math.ceil(end / step - 1e-9)
    return tuple(round(n * step, 12) + 0.0 for n in range(first, last + 1))


def tick_words(values: tuple[float, ...]) -> tuple[str, ...]:
    """Every value with the decimals that the step needs, thousands parted by a thin space.

    >>> tick_words((0.0, 0.5, 1.0)), tick_words((-20.0, 0.0, 2000.0))
    (('0', '0.5', '1.0'), ('−20', '0', '2\\u2009000'))
    """
    steps = [abs(b - a) for a, b in pairwise(values)] or [1.0]
    decimals = max(0, -math.floor(math.log10(min(steps)) + 1e-9))
    return tuple(_words(value, decimals) for value in values)


def _words(value: float, decimals: int) -> str:
    if value == 0:
        return "0"
    return f"{value:,.{decimals}f}".replace(",", "\u2009").replace("-", "−")
