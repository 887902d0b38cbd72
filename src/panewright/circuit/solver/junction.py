"""The junction voltage at which a cell swallows a given current.

    I0 (exp(Vd / nVth) - 1) + Vd / Rsh + G Vd (1 - Vd / Vbr)^-m = c

- c > 0, forward. The exponential, given what the straight paths leave to it, is a start; steps of third
  order [H] settle it, mostly the first or the second.
- c < 0, reverse. With y = -ln(1 - Vd / Vbr) the logarithm of the current is nearly straight in ln y, from
  the shunt's part (slope 1) to the breakdown's (slope m y): Newton's steps in these never leave the range
  of the law. Far from breakdown a third-order step in Vd itself does. Without a breakdown term the current
  is convex in Vd and Newton's steps come down from the right.
- What has not settled after a fixed number of steps is halved between bounds, which cannot fail. Without any
  reverse path (no shunt, G = 0) no more than I0 flows: beyond, Vd is minus infinity.

With the voltage come the slope g = dc/dVd and its own slope. The diode's part of g is convex and rises, the
breakdown's is convex and falls (as long as Vd < 2 |Vbr| / (m - 1), far above any forward voltage), so g is
convex: between two voltages it is nowhere above its greater end, and nowhere below both end tangents.

[H] E. Halley's step: x - 2 f f' / (2 f'^2 - f f'').
"""

from __future__ import annotations

from math import exp, expm1, inf, log, log1p

_SETTLED = 5e-4  # of nVth: what a third-order step then leaves is 1e-11 of nVth
_SMALL = 1e-2  # of the voltage, where that is small
_SETTLED_LOG = 1e-8  # of the logarithm of the current: the next step would be its square
_TINY = 1e-8  # of I0: there the logarithm is straight
_SHALLOW, _SETTLED_REVERSE = 0.5, 1e-3  # of the breakdown voltage; of the voltage or nVth
_ROUNDS, _HALVINGS = 24, 2000
_STEEPEST = 3.0


def reverse(
    need: float, i0: float, n: float, gsh: float, g: float, vbr: float, m: float
) -> tuple[float, float, float]:
    """Junction voltage, slope and its slope, of a cell that must pass more than its light. [V, S, S/V]"""
    if g == 0:
        return _described(_leaking_v(need, i0, n, gsh), i0, n, gsh, g, vbr, m)
    straight = need / (gsh + g)
    if straight < _SHALLOW * -vbr:
        return _shallow(need, straight, i0, n, gsh, g, vbr, m)
    return _described(_breaking_v(need, i0, n, gsh, g, vbr, m), i0, n, gsh, g, vbr, m)


def _shallow(
    need: float, back: float, i0: float, n: float, gsh: float, g: float, vbr: float, m: float
) -> tuple[float, float, float]:
    """Reverse junction voltage far from breakdown, and the slopes there. [V, S, S/V]"""
    per_end = -1.0 / vbr
    for _ in range(_ROUNDS):
        grow = i0 * exp(-back / n) if back < 40.0 * n else 0.0
        share = back * per_end
        left = 1.0 - share
        broken, bent = g * exp(-m * log(left)), 1.0 + (m - 1.0) * share
        rising = grow / n
        slope = gsh + broken * bent / left + rising
        bend = m * broken * (1.0 + bent) * per_end / (left * left)
        newton = (back * (gsh + broken) + i0 - grow - need) / slope
        step = newton / (1.0 - 0.5 * newton * (bend - rising / n) / slope)
        if not abs(step) < 0.5 * back:
            break
        back -= step
        if abs(step) <= _SETTLED_REVERSE * min(back, n):
            slope += (rising / n - bend) * step
            return -back, slope, rising / n - bend
    return _described(_breaking_v(need, i0, n, gsh, g, vbr, m), i0, n, gsh, g, vbr, m)


def _described(
    volt: float, i0: float, n: float, gsh: float, g: float, vbr: float, m: float
) -> tuple[float, float, float]:
    """A junction voltage with the slopes there. [V, S, S/V]"""
    if volt == -inf:
        return volt, 0.0, 0.0
    rising = i0 / n * exp(volt / n)
    if g == 0:
        return volt, rising + gsh, rising / n
    share = volt / vbr
    left = 1.0 - share
    broken, bent = g * exp(-m * log(left)) / left, 1.0 + (m - 1.0) * share
    return volt, rising + gsh + broken * bent, rising / n + m * broken * (1.0 + bent) / (vbr * left)


def _forward_start_v(c: float, per_i0: float, n: float, gsh: float, g: float) -> float:
    """Near a forward voltage: the diode alone, given twice what the straight paths leave to it. [V]"""
    if c * per_i0 < _TINY:
        return min(n * c * per_i0, c / gsh if gsh > 0 else inf)
    most = n * log(1.0 + c * per_i0)
    if gsh * most > c:
        most = c / gsh
    volt = most
    for _ in range(2):
        left_over = max(c - (gsh + g) * volt, 0.25 * c)
        volt = min(n * log(1.0 + left_over * per_i0), most)
    return volt if volt > 0 else most


def forward(
    c: float,
    i0: float,
    per_i0: float,
    n: float,
    per_n: float,
    gsh: float,
    g: float,
    vbr: float,
    per_vbr: float,
    m: float,
) -> tuple[float, float, float]:
    """Forward junction voltage, slope and its slope; `per_` are reciprocals, made once. [V, S, S/V]

    >>> figures = (5.0, 1e-9, 1e9, 0.027, 1 / 0.027, 0.05, 0.005, -18.0, -1 / 18, 3.4)
    >>> volt, _, _ = forward(*figures)
    >>> round(1e-9 * expm1(volt / 0.027) + volt * (0.05 + 0.005 * (1 + volt / 18) ** -3.4), 12)
    5.0
    """
    volt = _forward_start_v(c, per_i0, n, gsh, g)
    for _ in range(_ROUNDS):
        rising = i0 * exp(volt * per_n)
        value, rising = rising - i0 + gsh * volt - c, rising * per_n
        falling, bend = 0.0, 0.0
        if g > 0:
            share = volt * per_vbr
            left = 1.0 - share
            broken, bent, per_left = g * exp(-m * log(left)), 1.0 + (m - 1.0) * share, 1.0 / left
            value += volt * broken
            falling = broken * bent * per_left
            bend = m * broken * (1.0 + bent) * per_vbr * per_left * per_left
        slope = rising + gsh + falling
        per_slope = 1.0 / slope
        step = value * per_slope
        step /= 1.0 - 0.5 * min(rising * step * per_n * per_slope, 1.0)
        volt -= step
        if abs(step) <= min(_SETTLED * n, _SMALL * volt):
            rising -= (
                rising * step * per_n
            )  # what the last step still changes; of the rest, nothing that tells
            return volt, rising + gsh + falling, rising * per_n + bend
    return _described(_halved_v(c, 0.0, n * log1p(c / i0), i0, n, gsh, g, vbr, m), i0, n, gsh, g, vbr, m)


def _breaking_v(need: float, i0: float, n: float, gsh: float, g: float, vbr: float, m: float) -> float:
    """Reverse junction voltage of a cell with a breakdown term. [V]"""
    end = -vbr
    straight = need / (gsh + g)
    start = min(straight, end * (1.0 - 1e-12))
    pole = end * (1.0 - (g * end / need) ** (1.0 / m))
    if pole > 0:
        start = min(start, pole)
    y = -log1p(-start / end)
    for _ in range(_ROUNDS):
        left, back = exp(-y), -end * expm1(-y)
        broken = g * left**-m
        value = back * (gsh + broken) - i0 * expm1(-back / n)
        slope = broken * (1.0 + (m - 1.0) * back / end) / left + gsh + i0 / n * exp(-back / n)
        if not 0 < value < inf:
            break
        step = log(value / need) * value / (slope * end * left * y)
        y *= exp(-min(max(step, -_STEEPEST), _STEEPEST))
        if abs(step) <= _SETTLED_LOG:
            return end * expm1(-y)
    return _halved_v(-need, -min(straight * (1.0 + 1e-12), end * (1.0 - 1e-15)), 0.0, i0, n, gsh, g, vbr, m)


def _leaking_v(need: float, i0: float, n: float, gsh: float) -> float:
    """Reverse junction voltage of a cell with a shunt, or with nothing but the diode's own leak. [V]"""
    if gsh == 0:
        return n * log1p(-need / i0) if need < i0 else -inf
    back = max(need / (gsh + i0 / n), (need - i0) / gsh)
    for _ in range(_ROUNDS):
        step = (gsh * back - i0 * expm1(-back / n) - need) / (gsh + i0 / n * exp(-back / n))
        back -= step
        if abs(step) <= _SETTLED * min(n, back):
            return -back
    return _halved_v(-need, -need / gsh * (1.0 + 1e-12), 0.0, i0, n, gsh, 0.0, -1.0, 1.0)


def _halved_v(
    c: float, low: float, high: float, i0: float, n: float, gsh: float, g: float, vbr: float, m: float
) -> float:
    """Junction voltage by halving between two bounds. [V]"""
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if middle <= low or middle >= high:
            break
        value = i0 * expm1(middle / n) + gsh * middle - c
        if g > 0:
            value += g * middle * (1.0 - middle / vbr) ** -m
        if value < 0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def omega(z: float) -> float:
    """Wright's omega of a real number: the w with w + ln w = z.

    Each step, of F. Fritsch, R. Shafer, W. Crowley, Comm. ACM 16, 1973, p. 123, makes the error its fourth
    power.

    >>> omega(1.0), omega(-inf)
    (1.0, 0.0)
    """
    if z < -40.0:  # w is exp(z) to the last digit
        return exp(z) if z > -700.0 else 0.0
    if z > 1.5:
        w = z - log(z)
    elif z < -1.0:
        w = exp(z)
    else:
        w = exp((2.0 * z - 2.0) / 5.0)
    for _ in range(3):
        rest, one = z - w - log(w), w + 1.0
        q = 2.0 * one * (one + 2.0 / 3.0 * rest)
        w *= 1.0 + rest / one * (q - rest) / (q - 2.0 * rest)
    return w
