"""A junction driven backward, towards breakdown: a start and steps, without a branch, like `forward`.

With b = -Vd, E = -Vbr and y = -ln(1 - b / E) the current that passes is

    F(y) = b (1 / Rsh + G exp(m y)) + I0 (1 - exp(-b / nVth)),   b = E (1 - exp(-y)).

Its logarithm is nearly straight in ln y, from the shunt's part (slope 1) to the breakdown's (slope m y), so
steps of third order [H] in these never leave the range of the law and settle it mostly in the second.

[H] E. Halley's step, see `forward`.
"""

from __future__ import annotations

from math import exp, log

SETTLED_LOG = 2e-4  #: of ln y: what a third-order step then leaves is 1e-11 of the current
_STEEPEST, _HIGHEST = 3.0, 700.0
_SHORT, _SMALL = 1e-5, 1e-3  # y, and b / nVth, below which 1 less an exponential would lose digits
_END = 1.0 - 1e-12


def start_y(need: float, gsh: float, g: float, end: float, m: float) -> float:
    """Below the answer and near it: the straight paths alone, or the breakdown alone."""
    straight = need / ((gsh + g) * end)
    pole = 1.0 - exp(min(log(g * end / need) / m, _HIGHEST))
    share = min(straight, pole if pole > 0 else _END, _END)
    return max(-log(1.0 - share), share)


def nearer_y(
    y: float, need: float, i0: float, per_n: float, gsh: float, g: float, end: float, m: float
) -> tuple[float, float, float, float, float]:
    """A step nearer: the y it leads to, the step in ln y, the voltage, the slope dc/dVd there, its own slope.

    [1, 1, V, S, S/V]
    """
    left = exp(-y)
    back = end * (y * (1.0 - y * (0.5 - y / 6.0)) if y < _SHORT else 1.0 - left)
    width, x = end * left, back * per_n  # width is db/dy
    broken, grow = g * exp(min(m * y, _HIGHEST)), i0 * exp(-x)
    leak = i0 * x * (1.0 - x * (0.5 - x * (1.0 / 6.0 - x / 24.0))) if x < _SMALL else i0 - grow
    passed = back * (gsh + broken) + leak
    straight = width * (gsh + broken + grow * per_n)
    rising, falling = m * back * broken, width * width * grow * per_n * per_n
    once = straight + rising  # dF/dy
    twice = 2.0 * m * width * broken + m * rising - straight - falling
    per = 1.0 / passed
    tilt = y * once * per
    bow = 1.0 + (y * twice / once - tilt) if once > 0 else 1.0
    step = log(passed / need) / tilt
    step /= min(max(1.0 - 0.5 * step * bow, 0.5), 2.0)
    step = min(max(step, -_STEEPEST), _STEEPEST)
    new = y * exp(-step)
    gone, per_width = new - y, 1.0 / width
    grown = 1.0 + gone  # of 1/width, to first order; the voltage to fourth
    volt = -(back + width * gone * (1.0 - gone * (0.5 - gone / 6.0)))
    slope = (once + twice * gone) * per_width * grown
    return new, step, volt, slope, -(twice + once) * per_width * per_width
