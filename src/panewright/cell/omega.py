"""The number w with w + ln w = z: a diode in series with a resistance, solved without a search.

From ln w = z - w: above 1 w is near z - ln z, far below 0 near exp(z). Each step of [F] makes the error its
fourth power, so two from either start reach the last digit.

[F] F. Fritsch, R. Shafer, W. Crowley, Solution of the transcendental equation w exp(w) = x, Comm. ACM 16,
    1973, p. 123.
"""

from __future__ import annotations

import numpy as np

from panewright.cell.root import Array

_TINY = -40.0  # below, w is exp(z) to the last digit
_STEPS = 2


def omega(z: Array) -> Array:
    """Wright's omega of real numbers, minus infinity allowed.

    >>> omega(np.array([1.0, -np.inf])).tolist()
    [1.0, 0.0]
    """
    with np.errstate(all="ignore"):
        middling = np.exp((2 * z - 2) / 5)  # 1 at z = 1 with the true slope of 1/2 near enough
        w = np.where(z > 1.5, z - np.log(np.maximum(z, 1.0)), np.where(z < -1.0, np.exp(z), middling))
        for _ in range(_STEPS + 1):
            rest, one = z - w - np.log(w), w + 1
            q = 2 * one * (one + 2 / 3 * rest)
            w = np.where(z > _TINY, w * (1 + rest / one * (q - rest) / (q - 2 * rest)), np.exp(z))
        return np.asarray(w)
