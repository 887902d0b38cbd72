"""A forward junction's law as a start and as steps, without a branch: for one cell, or for eight abreast.

    I0 (exp(Vd / nVth) - 1) + Vd / Rsh + G Vd (1 - Vd / Vbr)^-m = c,   c >= 0

The last term is held from its top on, -Vbr / (m - 1). The exponential, given what the straight paths leave to
it, is a start; steps of third order [H] settle it, mostly the first or the second.

[H] E. Halley's step: x - 2 f f' / (2 f'^2 - f f'').
"""

from __future__ import annotations

from math import exp, inf, log

SETTLED = 1e-3  #: of nVth: what a third-order step then leaves is 1e-10 of nVth
SMALL = 1e-2  #: of the voltage, where that is small
ROUNDS = 24
_UP, _DOWN = 8.0, 0.9  # of nVth, and of the voltage: no step is longer
_TINY = 1e-8  # of I0: there the logarithm is straight


def start_v(c: float, per_i0: float, n: float, gsh: float, g: float, per_vbr: float, m: float) -> float:
    """Near a forward voltage: the diode alone, given twice what the straight paths leave to it. [V]"""
    share = c * per_i0
    tiny, straight = n * share, c / gsh if gsh > 0 else inf
    most = min(n * log(1.0 + share), straight)
    first = _left_v(c, per_i0, n, gsh + g * (1.0 + m * most * per_vbr), most)
    volt = _left_v(c, per_i0, n, gsh + g * (1.0 + m * first * per_vbr), first)
    return min(volt, most) if share > _TINY else min(tiny, straight)


def _left_v(c: float, per_i0: float, n: float, siemens: float, volt: float) -> float:
    """The diode's voltage with what a conductance at a voltage leaves to it, a quarter at least. [V]"""
    return n * log(1.0 + min(max(c - siemens * volt, 0.25 * c), c) * per_i0)


def nearer(
    volt: float,
    c: float,
    i0: float,
    n: float,
    per_n: float,
    gsh: float,
    g: float,
    vbr: float,
    per_vbr: float,
    m: float,
    top: float,
) -> tuple[float, float, float, float]:
    """A step nearer: the voltage it leads to, the step, the slope g = dc/dVd there, its own slope.

    `per_` are reciprocals, made once; `top` is that of the breakdown term over Vbr. [V, V, S, S/V]
    """
    rising, share = i0 * exp(volt * per_n), max(volt * per_vbr, top)
    left = 1.0 - share
    broken, bent, per_left = g * exp(-m * log(left)), max(1.0 + (m - 1.0) * share, 0.0), 1.0 / left
    value = rising - i0 + volt * gsh + share * vbr * broken - c
    rising *= per_n
    straight = gsh + broken * bent * per_left
    slope = rising + straight
    falling = m * broken * (1.0 + bent) * per_vbr * per_left * per_left if share > top else 0.0
    bend, per_slope = rising * per_n + falling, 1.0 / slope
    newton = value * per_slope
    step = newton / (1.0 - 0.5 * min(max(newton * bend * per_slope, -1.0), 1.0))
    step = min(max(step, -_UP * n), _DOWN * volt)
    # what the last step still changes; of the rest, nothing that tells
    return volt - step, step, slope - bend * step, bend - rising * per_n * per_n * step
