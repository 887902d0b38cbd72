"""The junction voltage at which a cell swallows a given current.

    I0 (exp(Vd / nVth) - 1) + Vd / Rsh + G Vd (1 - Vd / Vbr)^-m = c

- c > 0, forward: see `forward`.
- c < 0, reverse: see `backward`. Without a breakdown term the current is convex in Vd and Newton's steps
  come down from the right.
- What has not settled after a fixed number of steps is halved between bounds, which cannot fail. Without any
  reverse path (no shunt, G = 0) no more than I0 flows: beyond, Vd is minus infinity.

With the voltage come the slope g = dc/dVd and its own slope. The diode's part of g is convex and rises, the
breakdown's is convex and falls to nothing at the top of its term, so g is convex: between two voltages it is
nowhere above its greater end, and nowhere below both end tangents.
"""

from __future__ import annotations

from math import exp, expm1, inf, log, log1p

from panewright.circuit.solver.backward import SETTLED_LOG, nearer_y, start_y
from panewright.circuit.solver.forward import ROUNDS, SETTLED, SMALL, nearer, start_v

_SETTLED_LEAK = 5e-4  # of nVth or of the voltage
_HALVINGS = 2000


def reverse(
    need: float, i0: float, n: float, per_n: float, gsh: float, g: float, vbr: float, m: float
) -> tuple[float, float, float]:
    """Junction voltage, slope and its slope, of a cell that must pass more than its light. [V, S, S/V]"""
    if g == 0:
        return _described(_leaking_v(need, i0, n, gsh), i0, n, gsh, g, vbr, m)
    y = start_y(need, gsh, g, -vbr, m)
    for _ in range(ROUNDS):
        y, step, volt, slope, bend = nearer_y(y, need, i0, per_n, gsh, g, -vbr, m)
        if abs(step) <= SETTLED_LOG:
            return volt, slope, bend
    lowest = -min(need / (gsh + g) * (1.0 + 1e-12), -vbr * (1.0 - 1e-15))
    return _described(_halved_v(-need, lowest, 0.0, i0, n, gsh, g, vbr, m), i0, n, gsh, g, vbr, m)


def top_share(m: float) -> float:
    """Where the breakdown term has its top in forward direction, over Vbr. [-]"""
    return -1.0 / (m - 1.0) if m > 1.0 else -inf


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
    if share <= top_share(m):
        return volt, rising + gsh, rising / n
    left = 1.0 - share
    broken, bent = g * exp(-m * log(left)) / left, 1.0 + (m - 1.0) * share
    return volt, rising + gsh + broken * bent, rising / n + m * broken * (1.0 + bent) / (vbr * left)


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
    volt, top = start_v(c, per_i0, n, gsh, g, per_vbr, m), top_share(m)
    for _ in range(ROUNDS):
        volt, step, slope, bend = nearer(volt, c, i0, n, per_n, gsh, g, vbr, per_vbr, m, top)
        if abs(step) <= min(SETTLED * n, SMALL * volt):
            return volt, slope, bend
    return _described(_halved_v(c, 0.0, n * log1p(c / i0), i0, n, gsh, g, vbr, m), i0, n, gsh, g, vbr, m)


def _leaking_v(need: float, i0: float, n: float, gsh: float) -> float:
    """Reverse junction voltage of a cell with a shunt, or with nothing but the diode's own leak. [V]"""
    if gsh == 0:
        return n * log1p(-need / i0) if need < i0 else -inf
    back = max(need / (gsh + i0 / n), (need - i0) / gsh)
    for _ in range(ROUNDS):
        step = (gsh * back - i0 * expm1(-back / n) - need) / (gsh + i0 / n * exp(-back / n))
        back -= step
        if abs(step) <= _SETTLED_LEAK * min(n, back):
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
            share = max(middle / vbr, top_share(m))
            value += g * share * vbr * (1.0 - share) ** -m
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
