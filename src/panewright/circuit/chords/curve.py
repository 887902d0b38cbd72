"""Curves of points joined: voltages add at one current, currents add at one voltage.

A curve rises in voltage and falls in current. Of two curves that are joined every point of either is a
point of the sum, but for those nearer together than half the finer of the two curves' own steps there:
so the sum is as fine as the finer of them, however many are joined. No step is finer than a nine hundredth
of the way, so that every curve has room.
"""

from __future__ import annotations

from panewright.circuit.solver.sheet import Column

_NEAR = 0.5  # of the finer step
_SLIGHT = 1e-12
MOST_STEPS = 900.0  #: from no current to short circuit, or from short to open circuit


def add_volts(grid: Column, count: int, volt: Column, amp: Column, first: int, end: int, out: Column) -> None:
    """Add the voltage of a curve at falling currents; beyond its ends the last chord goes on. [V]"""
    j = first
    for q in range(count):
        current = grid[q]
        while j < end - 2 and amp[j + 1] > current:
            j += 1
        out[q] += volt[j] + (volt[j + 1] - volt[j]) * (current - amp[j]) / (amp[j + 1] - amp[j])


def in_series(
    av: Column, ai: Column, na: int, bv: Column, bi: Column, nb: int, volt: Column, amp: Column
) -> int:
    """Two curves of `na` and `nb` points in series; how many points the sum has. [V, A]"""
    a, b, count = 0, 0, 0
    least = max(amp_at(av, ai, na, 0.0), amp_at(bv, bi, nb, 0.0)) / MOST_STEPS
    while a < na or b < nb:
        of_a = b >= nb or (a < na and ai[a] >= bi[b])
        current = ai[a] if of_a else bi[b]
        ja, jb = _left(a, na), _left(b, nb)
        fine = max(least, _NEAR * min(ai[ja] - ai[ja + 1], bi[jb] - bi[jb + 1]))
        last = a + b == na + nb - 1
        if count == 0 or last or amp[count - 1] - current >= fine:
            amp[count] = current
            volt[count] = _between(ai, av, ja, current) + _between(bi, bv, jb, current)
            if count == 0 or amp[count - 1] - current > _SLIGHT * abs(amp[0]):
                count += 1
        a, b = (a + 1, b) if of_a else (a, b + 1)
    return count


def abreast(
    av: Column, ai: Column, na: int, bv: Column, bi: Column, nb: int, volt: Column, amp: Column
) -> int:
    """Two curves side by side; how many points the sum has. [V, A]"""
    a, b, count = 0, 0, 0
    least = max(volt_at(av, ai, na, 0.0), volt_at(bv, bi, nb, 0.0)) / MOST_STEPS
    while a < na or b < nb:
        of_a = b >= nb or (a < na and av[a] <= bv[b])
        at = av[a] if of_a else bv[b]
        ja, jb = _left(a, na), _left(b, nb)
        fine = max(least, _NEAR * min(av[ja + 1] - av[ja], bv[jb + 1] - bv[jb]))
        last = a + b == na + nb - 1
        if count == 0 or last or at - volt[count - 1] >= fine:
            volt[count] = at
            amp[count] = _between(av, ai, ja, at) + _between(bv, bi, jb, at)
            if count == 0 or at - volt[count - 1] > _SLIGHT * abs(av[na - 1]):
                count += 1
        a, b = (a + 1, b) if of_a else (a, b + 1)
    return count


def _left(at: int, count: int) -> int:
    """Left end of the chord that ends where a curve stands."""
    return min(max(at - 1, 0), count - 2)


def _between(x: Column, y: Column, j: int, at: float) -> float:
    return y[j] + (y[j + 1] - y[j]) * (at - x[j]) / (x[j + 1] - x[j])


def amp_at(volt: Column, amp: Column, count: int, at: float) -> float:
    """Current at a voltage. [A]"""
    low, high = 0, count - 2
    while low < high:
        middle = (low + high + 1) // 2
        if volt[middle] <= at:
            low = middle
        else:
            high = middle - 1
    return _between(volt, amp, low, at)


def chord_at(amp: Column, count: int, at: float) -> int:
    """Left end of the chord on which a current lies."""
    low, high = 0, count - 2
    while low < high:
        middle = (low + high + 1) // 2
        if amp[middle] >= at:
            low = middle
        else:
            high = middle - 1
    return low


def volt_at(volt: Column, amp: Column, count: int, at: float) -> float:
    """Voltage at a current. [V]"""
    return _between(amp, volt, chord_at(amp, count, at), at)


def peak(volt: Column, amp: Column, count: int) -> tuple[float, float]:
    """Voltage and current of the greatest power, nothing where there is none. [V, A]

    Along a chord power is a parabola, so its top is known.
    """
    best_w, best_v, best_a = 0.0, 0.0, 0.0
    for j in range(count - 1):
        v, i, dv, di = volt[j], amp[j], volt[j + 1] - volt[j], amp[j + 1] - amp[j]
        if volt[j + 1] <= 0.0 or i <= 0.0:
            continue
        bend = 2.0 * dv * di
        t = -(v * di + i * dv) / bend if bend < 0.0 else 1.0
        t = min(max(t, 0.0), 1.0)
        watts = (v + t * dv) * (i + t * di)
        if watts > best_w:
            best_w, best_v, best_a = watts, v + t * dv, i + t * di
    return best_v, best_a
