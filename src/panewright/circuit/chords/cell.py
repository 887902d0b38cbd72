"""One cell by points of its curve, none of which is searched for.

A junction's voltage tells its current outright, so the points are chosen by what the diode in it swallows: a
ladder of shares f of a current, evenly apart in ln f,

    Vd = nVth ln(f Iref / I0),   I = IL - (f Iref - I0) - Vd (Gsh + G (1 - Vd / Vbr)^-m),   V = Vd - I Rs,

where neither a logarithm nor a power is left to be taken at a point. Between two points the diode lies above
its chord by up to nVth h^2 / 8, h being their distance in ln f; each point is lifted by two thirds of that,
so that a chord errs to both sides. In reverse the points go evenly in ln (1 - Vd / Vbr).
"""

from __future__ import annotations

from math import exp, log

from panewright.circuit.solver.sheet import Column

_FINE, _LOW, _HIGH = 0.15, 0.6, 0.2  # distances in ln f
_FIRST, _LOWS, _FINES, _HIGHS = 1e-6, 16, 24, 14
_BEND = log(_FIRST) + _LOW * _LOWS
LADDER = (
    *(log(_FIRST) + _LOW * k for k in range(_LOWS)),
    *(_BEND + _FINE * k for k in range(_FINES)),
    *(_BEND + _FINE * _FINES + _HIGH * k for k in range(1, _HIGHS)),
)  #: ln f, from 1e-6 to 7: fine where a cell at its best is, from 0.015 to 0.5
SHARES = tuple(exp(each) for each in LADDER)
LIFT = tuple(
    (LADDER[min(k + 1, len(LADDER) - 1)] - LADDER[max(k - 1, 0)]) ** 2 / 48 for k in range(len(LADDER))
)  #: of nVth: h^2 / 12
BACK = 64  #: points in reverse, at most
FRONT = len(LADDER) + 1 + 16  #: and forward, with the one at no junction voltage and those beyond the ladder
POINTS = BACK + FRONT
_FAR = 0.4  # distance in ln f beyond the ladder
FAR_RATIO = exp(_FAR)
_STEP = 0.05  # of ln (1 - Vd / Vbr)
_NEVER_V = -1e4  # where a cell without a way back is driven


def cell_points(
    light: float,
    log_i0: float,
    n: float,
    rs: float,
    gsh: float,
    g: float,
    vbr: float,
    m: float,
    most_a: float,
    least_a: float,
    volt: Column,
    amp: Column,
) -> tuple[int, int]:
    """Points of a cell from the current `most_a` down to `least_a`; the first and the end of them.

    `volt` and `amp` have room for POINTS. The points rise in voltage and fall in current. [V, A]
    """
    first = back_points(light, rs, gsh, g, vbr, m, most_a, volt, amp)
    at, i0, reference = BACK, exp(log_i0), max(light, 0.02 * most_a)
    volt[at], amp[at] = -light * rs, light
    at += 1
    above = log(reference) - log_i0
    for k in range(len(LADDER)):
        vd = n * (above + LADDER[k])
        if vd <= 0.0:
            continue
        s = vd / vbr
        leak = vd * (gsh + g * (1.0 + m * s * (1.0 + 0.5 * (m + 1.0) * s)))
        current = light - (SHARES[k] * reference - i0) - leak
        volt[at], amp[at] = vd + n * LIFT[k] - current * rs, current
        at += 1
        if current < least_a:
            return first, at
    return first, far_points(light, n, rs, gsh + g, least_a, vd, reference * SHARES[-1], volt, amp, at)


def far_points(
    light: float,
    n: float,
    rs: float,
    leak_s: float,
    least_a: float,
    vd: float,
    swallowed: float,
    volt: Column,
    amp: Column,
    at: int,
) -> int:
    """Points beyond the ladder, where a dim cell is charged by brighter ones; the end of the points."""
    while amp[at - 1] > least_a and at < POINTS:
        vd, swallowed = vd + n * _FAR, swallowed * FAR_RATIO
        current = light - swallowed - vd * leak_s
        volt[at], amp[at] = vd - current * rs, current
        at += 1
    return at


def back_points(
    light: float,
    rs: float,
    gsh: float,
    g: float,
    vbr: float,
    m: float,
    most_a: float,
    volt: Column,
    amp: Column,
) -> int:
    """Points of a cell that passes more than its light, the greatest current first; number of the first."""
    need, at = most_a - light, BACK
    if need <= 0.0:
        return at
    if g <= 0.0:
        vd = -need / gsh if gsh > 0.0 else _NEVER_V
        volt[at - 1], amp[at - 1] = max(vd, _NEVER_V) - most_a * rs, most_a
        return at - 1
    left, power, fall, rise = 1.0, 1.0, exp(-_STEP), exp(m * _STEP)
    while at > 0:
        left, power, at = left * fall, power * rise, at - 1
        vd = vbr * (1.0 - left)
        current = light - vd * (gsh + g * power)
        volt[at], amp[at] = vd - current * rs, current
        if current >= most_a:
            break
    return at
