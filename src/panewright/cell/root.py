"""The root of a rising function between two bounds, for whole arrays at once.

Newton's steps, and a halving of the bracket wherever a step would leave it, would not be a number, or
where the steps have stopped to pay. The bracket always holds the root, so nothing is ever lost.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Rising = Callable[[Array], tuple[Array, Array]]  #: x -> value and slope, value rising with x

_ROUNDS = 200  # far more than 64 halvings of any bracket
_PATIENCE = 12  # Newton's steps before every second step is a halving
_CLOSE = 1e-12  # a Newton step this small, relative, is the last: it errs by about its square
_DUST = 1e-15  # of the bracket: steps below this are rounding


def root(rising: Rising, low: Array, high: Array, start: Array) -> Array:
    """Where a rising function is zero, for each element; `low` and `high` must lie on its two sides.

    >>> two = root(lambda x: (x * x - 2, 2 * x), np.array(0.0), np.array(9.0), np.array(3.0)) ** 2
    >>> round(float(two), 14)
    2.0
    """
    x = np.clip(start, low, high)
    dust = _DUST * np.maximum(np.abs(low), np.abs(high))
    with np.errstate(all="ignore"):
        for turn in range(_ROUNDS):
            value, slope = rising(x)
            low = np.where(value < 0, x, low)
            high = np.where(value > 0, x, high)
            step = np.where(value == 0, 0.0, value / slope)
            new = x - step
            newton = (new >= low) & (new <= high)
            small = np.abs(step) <= _CLOSE * np.abs(x) + dust
            if turn >= _PATIENCE and turn % 2:
                newton &= small
            middle = 0.5 * (low + high)
            new = np.where(newton, new, middle)
            done = newton & small
            done |= (middle <= low) | (middle >= high) | (value == 0) | np.isnan(value)
            x = new
            if bool(np.all(done)):
                break
    return np.asarray(x, dtype=np.float64)
