"""A substring at the current of its string: its cells, and what lies beside them.

A bypass diode takes a part of the current. With j its own forward current and t = 1 (t = -1 for a diode the
wrong way round) the cells carry I - t j, and their voltage is the diode's drop:

    t Vc(I - t j) + nVb ln(1 + j / I0b) + j Rb = 0.

Vc falls with current, so the left side rises with j and has one root. Below, it is at the diode's leakage
-I0b, or where the cells would carry more than their own leak lets pass; above, at the j that lets the cells
idle. Each step straightens the cells' part only and keeps the diode's law whole, which is one more
single-diode equation; so it is good from leakage to full current. A bridge is the same with a straight law.
"""

from __future__ import annotations

from math import expm1, inf, log, log1p

from panewright.circuit.solver.facts import BACKWARD, CAP, LIMIT, SERIES, SHADED, UPRIGHT
from panewright.circuit.solver.hand import Work
from panewright.circuit.solver.junction import forward, omega, reverse
from panewright.circuit.solver.sheet import BRIDGE, BYPASS, NONE, TURNED, Cells, Sheet

_LEAKS = 40.0  # this many nVb against it a diode leaks its whole saturation current, to 1e-17
_CLOSE = 1e-9  # of the current: a last step
_STEP_V = 1e-4  # and what it may move the cells' voltage: it errs by the square
_LAST, _LAST_V = 0.1, 2e-4  # of r, how much it may change; what the step may move the voltage
LEFT = 1e-12  #: of the current what may be left
HAIR = 1e-10  #: of a diode's current over its leakage: moves its drop by as much of nVth
_DIGITS = 2e-15  # of the current
_DEEP_V = -1.5
_ROUNDS, _PATIENCE = 300, 8


def cells_at(sheet: Sheet, cells: Cells, k: int, own: float, work: Work) -> tuple[float, float, float]:
    """Voltage of the cells of a substring with their joints, r = -dV/dI, and dr/dI. [V, ohm, ohm/A]"""
    volt, ohm, bend = -own * sheet.joints_ohm[k], sheet.joints_ohm[k], 0.0
    light, signs, counts, series = cells.light, cells.sign, cells.amount, cells.series
    volts, ohms, bends = work.junction_v, work.junction_ohm, work.bend
    for c in range(sheet.first_cell[k], sheet.first_cell[k + 1]):
        sign, count = signs[c], counts[c]
        v, g, curved = _junction(cells, c, light[c] - sign * own)
        each = 1.0 / g if g > 0 else inf
        volts[c], ohms[c], bends[c] = v, each, curved
        volt += count * (sign * v - own * series[c])
        ohm += count * (each + series[c])
        if each < inf:
            bend += count * sign * curved * each * each * each
    work.own_a[k] = own
    return volt, ohm, bend if ohm < inf else 0.0


def _junction(cells: Cells, c: int, need: float) -> tuple[float, float, float]:
    """A cell's junction voltage where it swallows so much, its slope, and the slope of that. [V, S, S/V]"""
    i0, n, per_n = cells.saturation[c], cells.ideality[c], cells.per_ideality[c]
    gsh, g, vbr, m = cells.shunt[c], cells.breakdown[c], cells.breakdown_v[c], cells.exponent[c]
    if need < 0:
        return reverse(-need, i0, n, per_n, gsh, g, vbr, m)
    per_i0, per_vbr = cells.per_saturation[c], cells.per_breakdown[c]
    return forward(need, i0, per_i0, n, per_n, gsh, g, vbr, per_vbr, m)


def substring_at(
    sheet: Sheet, cells: Cells, k: int, current: float, guess: float, settle: bool, work: Work
) -> tuple[float, float, float]:
    """Voltage of a whole substring, its -dV/dI, and the slope of that. [V, ohm, ohm/A]

    `guess` is a current of what lies beside that is near the answer, 0 where nothing is known. With `settle`
    the cells are looked at once more at the very current that was found.
    """
    kind = sheet.kind[k]
    if kind == NONE:
        volt, ohm, bend = cells_at(sheet, cells, k, current, work)
        work.branch_a[k], work.branch_share[k], work.part_v[k], work.part_ohm[k] = 0.0, 0.0, volt, ohm
        return volt, ohm, bend
    t = -1.0 if kind == TURNED else 1.0
    leak = 0.0 if kind == BRIDGE else -sheet.beside_a[k]
    low, high, spilled, cap = _bounds(sheet, cells, k, current, t, leak)
    stopped = t < 0 and current + leak > cap  # more than the cells pass, and the turned diode blocks the rest
    through = min(max(guess, low), high) if guess > 0 and not stopped else leak
    volt, ohm, bend = cells_at(sheet, cells, k, current - t * through, work)
    if kind != BRIDGE and through == leak and t * volt > _LEAKS * sheet.beside_v[k]:
        work.branch_a[k], work.branch_share[k], work.part_v[k], work.part_ohm[k] = leak, 0.0, volt, ohm
        return volt, ohm, bend
    if through == leak and kind == BYPASS and not volt > _DEEP_V:  # there nothing is straight
        through = min(max(spilled, low), high)
        volt, ohm, bend = cells_at(sheet, cells, k, current - t * through, work)
    through, inner = _divided(
        sheet, cells, k, (current, t, leak), (low, high, through), (volt, ohm, bend), settle, work
    )
    return _both(sheet, k, t, through, inner, work)


def _divided(
    sheet: Sheet,
    cells: Cells,
    k: int,
    asked: tuple[float, float, float],
    fence: tuple[float, float, float],
    inner: tuple[float, float, float],
    settle: bool,
    work: Work,
) -> tuple[float, tuple[float, float, float]]:
    """What flows beside the cells, and how they stand; first at the last of the `fence`, as `inner`. [A]"""
    (current, t, leak), (low, high, through), (volt, ohm, bend) = asked, fence, inner
    least = low
    close, fixed = _CLOSE * (abs(current) - leak), cells.parts[k][SERIES]
    for turn in range(_ROUNDS):
        value = t * volt + _drop_v(sheet, k, through)
        if value < 0:
            low = through
        else:
            high = through
        new = _straightened(sheet, k, t, through, (volt, ohm, bend))
        step = new - through
        if not settle and low <= new <= high and is_last(step, (ohm, bend), ohm - fixed, LEFT * abs(current)):
            back = t * step
            return new, (volt + back * (ohm - 0.5 * bend * back), ohm - bend * back, bend)
        small = abs(step) <= min(close, _STEP_V / ohm)
        if small:
            new = min(max(new, low), high)
        elif not low <= new <= high or (turn >= _PATIENCE and turn % 2 == 1):
            new = 0.5 * (low + high)
        middle = 0.5 * (low + high)  # where it is one of both, no number lies between them any more
        near = high - low <= HAIR * (low - leak) + _DIGITS * abs(current)
        if value == 0 or near or not low < middle < high:
            if t < 0 and low == least:  # the cells are at their cap: does the turned diode only leak there?
                edge = cells_at(sheet, cells, k, current - t * low, work)
                if t * edge[0] > _LEAKS * sheet.beside_v[k]:
                    return low, edge
            break
        through = new
        volt, ohm, bend = cells_at(sheet, cells, k, current - t * through, work)
        if small:
            break
    return through, (volt, ohm, bend)


def is_last(step: float, slopes: tuple[float, float], junctions_ohm: float, least: float) -> bool:
    """Whether a step of third order, in current, leaves less than `least` and need not be looked at.

    `slopes` are r and dr/dI, `junctions_ohm` what of r changes with current. What is left is taken from one
    junction's law; where several junctions' bends outweigh each other, the step's own volts keep it small.
    [A, ohm, ohm/A, ohm, A]
    """
    ohm, bend = slopes
    way = bend * step  # how much r changes on the way, and its junctions' part by the share of a knee gone
    short = abs(step) * ohm <= _LAST_V and abs(way) <= _LAST * ohm and junctions_ohm > 0
    return short and abs(step) * way * way <= least * junctions_ohm * junctions_ohm


def _both(
    sheet: Sheet, k: int, t: float, through: float, inner: tuple[float, float, float], work: Work
) -> tuple[float, float, float]:
    """The cells and what lies beside them as one. [V, ohm, ohm/A]"""
    volt, ohm, bend = inner
    if sheet.kind[k] == BRIDGE:
        drop, drop_ohm, gains = through * sheet.beside_ohm[k], sheet.beside_ohm[k], 0.0
    else:
        n, over = sheet.beside_v[k], max(through + sheet.beside_a[k], 0.0)
        drop = _drop_v(sheet, k, through)
        drop_ohm = n / over + sheet.beside_ohm[k] if over > 0 else inf
        gains = n * over / (n + sheet.beside_ohm[k] * over) ** 3  # -(dr/dj) / r^3, sound down to leakage
    if drop_ohm < ohm:  # the flatter law magnifies the last digit less
        volt = -t * drop
    conductance = (0.0 if ohm == inf else 1.0 / ohm) + (0.0 if drop_ohm == inf else 1.0 / drop_ohm)
    both = 1.0 / conductance if conductance > 0 else inf
    # 1/r is the sum of both conductances, and each moves with its own share of the current
    cells_part = 0.0 if ohm == inf else bend / (ohm * ohm * ohm)
    work.branch_a[k], work.part_v[k], work.part_ohm[k] = through, volt, both
    work.branch_share[k] = t if ohm == inf else t * ohm / (ohm + drop_ohm)
    return volt, both, both * both * both * (cells_part - t * gains) if both < inf else 0.0


def _drop_v(sheet: Sheet, k: int, through: float) -> float:
    """Drop over what lies beside, at its forward current. [V]"""
    if sheet.kind[k] == BRIDGE:
        return through * sheet.beside_ohm[k]
    return diode_v(sheet.beside_a[k], sheet.beside_v[k], sheet.beside_ohm[k], through)


def diode_v(saturation: float, n: float, ohm: float, current: float) -> float:
    """Drop of a diode at its forward current; minus infinity at its leakage and beyond. [V]"""
    share = current / saturation
    return n * log1p(share) + current * ohm if share > -1.0 else -inf


def _straightened(sheet: Sheet, k: int, t: float, through: float, inner: tuple[float, float, float]) -> float:
    """Branch current past cells drawn as a straight line through one point of theirs, then bent. [A]"""
    volt, ohm, bend = inner
    lift, total = ohm * through - t * volt, ohm + sheet.beside_ohm[k]
    if not total < inf or not abs(lift) < inf:
        return inf
    if sheet.kind[k] == BRIDGE:
        new, drop_ohm = lift / total, 0.0
    else:
        leak, n = sheet.beside_a[k], sheet.beside_v[k]
        new = past_straight_a(leak, n, lift, total)
        drop_ohm = n / (new + leak) if new + leak > 0 else inf
    step = new - through
    more = 0.5 * t * bend * step * step / (total + drop_ohm)
    return new + more if abs(more) < 0.5 * abs(step) and new + more > -sheet.beside_a[k] else new


def past_straight_a(leak: float, n: float, lift_v: float, total_ohm: float) -> float:
    """Current of a diode whose drop and a resistance together bear a voltage; its own ohms are in both. [A]

    From n y + R I0 (exp(y) - 1) = V: the current I0 exp(y) is n / R times Wright's omega, however steep R is.
    """
    if total_ohm <= 0:
        return leak * expm1(min(lift_v / n, 700.0))
    share = total_ohm * leak / n
    return n / total_ohm * omega(lift_v / n + share + log(share)) - leak


def _bounds(
    sheet: Sheet, cells: Cells, k: int, current: float, t: float, leak: float
) -> tuple[float, float, float, float]:
    """Branch currents between which the root lies, the spill over the dimmest cell, the cells' cap. [A]"""
    facts = cells.parts[k]
    upright, cap = facts[UPRIGHT], facts[CAP]
    low = min(0.0, current - upright) if sheet.kind[k] == BRIDGE else leak
    if t < 0:
        return low, max(min(upright, cap) - current, 0.0), 0.0, cap
    high = max(current + facts[BACKWARD], 0.0)
    low = min(max(low, current - cap), high)
    return low, high, max(current - facts[SHADED], current - facts[LIMIT], 0.0), cap
