"""The highest point of a function that may have several humps and steps.

A first even row of points finds the highest hump that is not narrower than its spacing; further rows close in
round the best point so far. Ends of the range count. Nothing is asked of the function but a value.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from panewright.cell.root import Array

_FIRST, _AGAIN = 49, 17  #: points of the first row and of every later one


def highest(height: Callable[[Array], Array], low: float, high: float, fine: float = 1e-8) -> float:
    """Where a function is highest between two ends, to a share `fine` of the range.

    >>> round(highest(lambda x: x * np.exp(-x), 0.0, 9.0), 5)
    1.0
    """
    left, right, points = low, high, _FIRST
    while True:
        row = np.linspace(left, right, points)
        with np.errstate(all="ignore"):
            values = height(row)
        best = int(np.argmax(np.where(np.isfinite(values), values, -np.inf)))
        if right - left <= fine * (high - low):
            return float(row[best])
        left, right, points = float(row[max(best - 1, 0)]), float(row[min(best + 1, points - 1)]), _AGAIN
