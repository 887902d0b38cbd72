"""How likely a pane is to break from the flaws in its surface: the glass failure prediction model.

Each bit of the tension face counts with the seventh power of its stress, turned to the value that would do
the same harm in 60 s, and weighed for how evenly it is pulled both ways:

    P = 1 - exp(-B),  B = k * integral of (c s60)^7 dA,  s60 = s (duration/60 s)^(1/16)

The integral is dimensionless on the load path: a function of Q and of the ratio of the sides alone. So one
search along one path gives the load for any pane.

[B] W. L. Beason, J. R. Morgan, J. Struct. Eng. 110 (1984) 197: flaws and the biaxial factor c.
[E] ASTM E1300, appendix on the failure prediction model: m, k, E, nu (recalled, not seen).
"""

from __future__ import annotations

from functools import lru_cache
from math import comb, exp, gamma, log

import numpy as np

from panewright.glass.plate.basis import Array, half_gauss
from panewright.glass.plate.faces import Faces, Tables, tables
from panewright.glass.plate.path import LoadPath

M = 7  #: exponent of the flaws, [E]
K = 2.86e-53  #: flaws of weathered glass [N^-7 m^12]; it belongs to the 60 s stress, [E]
FATIGUE = 16  #: exponent of static fatigue, [E]
REFERENCE_S = 60.0
_POINTS = 56
_ANGLES = half_gauss(10)


def biaxial(ratio: Array) -> Array:
    """c^7 for a ratio of the principal stresses, smaller over larger. [-]

    [B]: mean over all directions in which the flaw is pulled open. Positive ratios have a closed form.

    >>> [round(float(c) ** (1 / 7), 5) for c in biaxial(np.array([1.0, 0.0, -1.0]))]
    [1.0, 0.79987, 0.7593]
    """
    ratio = np.asarray(ratio, dtype=np.float64)
    out: Array = np.polynomial.polynomial.polyval(np.clip(ratio, 0.0, 1.0), _ALL_PULLED)
    pressed = ratio < 0
    if pressed.any():
        out[pressed] = _partly_pressed(ratio[pressed])
    return out


def _mean_power(k: int) -> float:
    """2/pi times the integral of cos^(2(7-k)) sin^(2k) over a quarter turn, with the binomial in front."""
    beta = gamma(M - k + 0.5) * gamma(k + 0.5) / gamma(M + 1.0)
    return comb(M, k) * beta / float(np.pi)


_ALL_PULLED = np.array([_mean_power(k) for k in range(M + 1)])


def _partly_pressed(ratio: Array) -> Array:
    """The same where one principal stress presses: only directions that are pulled count."""
    widest = np.arctan(np.sqrt(-1 / ratio))
    at, weight = _ANGLES
    angle = widest[:, None] * np.concatenate(((1 - at) / 2, (1 + at) / 2))
    opened: Array = np.cos(angle) ** 2 + ratio[:, None] * np.sin(angle) ** 2
    mean = np.maximum(opened, 0.0) ** M @ np.concatenate((weight, weight)) / 4
    return np.asarray(2 / np.pi * widest * mean)


@lru_cache(maxsize=32)
def _gauss_tables(aspect: float, counts: tuple[int, int]) -> Tables:
    at, _ = half_gauss(_POINTS)
    return tables(aspect, counts, at, at)


def flaw_integral(faces: Faces) -> float:
    """Integral of (c s)^7 over the tension face, areas in b^2, stress in E t^2/b^2. [-]"""
    large, small = faces.principal(_gauss_tables(faces.aspect, faces.counts))
    pulled = np.maximum(large, 0.0)
    ratio = np.where(pulled > 0, small / np.where(pulled > 0, large, 1.0), 1.0)
    _, weight = half_gauss(_POINTS)
    return float(weight @ (pulled**M * biaxial(ratio)) @ weight) * faces.aspect / 4


def load_for_integral(path: LoadPath, wanted: float) -> float:
    """Q at which the flaw integral reaches a value, or the path's limit where it does not. [-]

    Newton's chord in logarithms: the integral grows about as Q^7 at first and more slowly later, never
    falls; a step past the limit stops there.
    """
    target, top = log(wanted), log(path.limit)
    x = _small_load_guess(path, target, top)
    y, slope = log(flaw_integral(path.faces(exp(x)))) - target, 6.0
    for _ in range(40):
        step = float(np.clip(-y / slope, -1.5, 1.5))
        x_next = min(x + step, top)
        if abs(x_next - x) < 1e-10:
            break
        y_next = log(flaw_integral(path.faces(exp(x_next)))) - target
        slope = min(max((y_next - y) / (x_next - x), 2.0), 9.0)
        x, y = x_next, y_next
    return exp(x)


def _small_load_guess(path: LoadPath, target: float, top: float) -> float:
    """ln Q from the small-load law, integral as Q^7. [-]"""
    small = 1e-2
    first = log(flaw_integral(path.faces(small)))
    return min(log(small) + (target - first) / M, top)
