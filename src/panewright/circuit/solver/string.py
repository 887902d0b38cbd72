"""A string at a current, and the current of a string held at a voltage.

A string's voltage falls with its current. At the greatest light current of its cells no cell is above 0 V,
so neither is the string; at no current, or at that which idles its turned cells, it is at or above 0 V.
Outside these the bracket is carried on, doubling, as far as cells without a way back let pass. With a
blocking diode no more than its leakage comes back, and its law is kept whole in each step while the rest of
the string is drawn straight.
"""

from __future__ import annotations

from math import inf, log

from panewright.circuit.solver.facts import brightest_a, least_a, series_ohm
from panewright.circuit.solver.hand import Hand, Work
from panewright.circuit.solver.junction import omega
from panewright.circuit.solver.sheet import Cells, Column, Sheet
from panewright.circuit.solver.substring import diode_v, is_last, past_straight_a, substring_at

MOST_A = 1e9  #: no current beyond this is looked for
GRAIN = 1e-12  #: of a current: where that leaves the voltage open, Kirchhoff's law tells it
FAR = 1e-3  #: of the way to a knee: nearer, the difference of two long ways would lose digits
_CLOSE = 1e-7  # of the greatest current: a last step is of third order and errs by far less
_STEP_V = 1e-4  # and what it moves the voltage
_LEAST_A = 1e-3
_DIGITS = 1e-15  # of a current: a step so short leads nowhere
_NARROW = 1e-14  # of a current: no bracket is made smaller
_NEARER = 1e-3  # of the way to a blocking diode's leakage that a step leaves
_LEFT = 1e-10  # of the greatest current, what a last step may leave
_ROUNDS, _PATIENCE = 400, 10


def string_at(
    sheet: Sheet, cells: Cells, s: int, current: float, guess_a: Column, settle: bool, work: Work
) -> tuple[float, float, float]:
    """Voltage of a string at its current, r = -dV/dI, and dr/dI. [V, ohm, ohm/A]

    `guess_a` holds for every substring a current of what lies beside it, 0 where nothing is known. With
    `settle` the cells stand at the very currents that were found.
    """
    volt, ohm, bend = -current * sheet.tail_ohm[s], sheet.tail_ohm[s], 0.0
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        v, r, curved = substring_at(sheet, cells, k, current, guess_a[k], settle, work)
        volt, ohm, bend = volt + v, ohm + r, bend + curved
    if sheet.blocking[s] == 0:
        return volt, ohm, bend
    leak, n, own = sheet.blocking_a[s], sheet.blocking_v[s], sheet.blocking_ohm[s]
    over = current + leak
    if over <= 0:
        return inf, inf, 0.0
    return volt - diode_v(leak, n, own, current), ohm + n / over + own, bend - n / (over * over)


def string_a(
    sheet: Sheet, cells: Cells, s: int, volt: float, settle: bool, hand: Hand
) -> tuple[float, float, float]:
    """Current of a string at a voltage, its -dV/dI there, and the slope of that. [A, ohm, ohm/A]

    The search begins at the hand's `near_a`. With `settle` every part is looked at once more at the very
    current that was found; without, they stand as they did a last step before it.
    """
    upright, turned, cap = brightest_a(sheet, cells, s)
    floor, fixed = least_a(sheet, cells, s), series_ohm(sheet, cells, s)
    span = max(upright + turned, _LEAST_A)
    low, high, low_sure, high_sure = max(-turned, floor), min(upright, cap), False, False
    high = max(high, low)
    current = min(max(hand.near_a[s], low), high)
    for turn in range(_ROUNDS):
        got, ohm, bend = _look(sheet, cells, s, current, floor, settle, hand)
        if got > volt:
            low, low_sure = current, True
        elif got < volt:
            high, high_sure = current, True
        else:
            break
        new = _aimed_a(sheet, s, current, (got, ohm, bend), volt, (floor, high, high_sure))
        step = new - current
        lost = abs(step) <= _DIGITS * abs(current) and abs(got - volt) > _STEP_V  # in the last digits
        third_order = not settle and sheet.blocking[s] == 0 and not lost and low <= new <= high
        if third_order and is_last(step, (ohm, bend), ohm - fixed, _LEFT * span):
            return new, ohm + bend * step, bend
        blocked = sheet.blocking[s] == 1 and new == floor  # to the last digit
        if blocked or (not lost and abs(step) <= min(_CLOSE * span, _STEP_V / ohm)):
            current = floor if blocked else min(max(new, low), high)
            if settle or blocked:
                _, ohm, bend = _look(sheet, cells, s, current, -inf, settle, hand)
            break
        if lost:
            new = inf if got > volt else -inf
        halves = turn >= _PATIENCE and turn % 2 == 1
        ends = (low, high, low_sure, high_sure)
        new, low, high, span = _within(new, current, ends, (floor, cap), span, halves)
        narrow = low_sure and high_sure and high - low <= _NARROW * max(abs(high), abs(low))
        if narrow or new == current:
            break
        _remember(sheet, s, new - current, hand.work, hand.guess_a)
        current = new
    return current, ohm, bend


def _look(
    sheet: Sheet, cells: Cells, s: int, current: float, floor: float, settle: bool, hand: Hand
) -> tuple[float, float, float]:
    """A string at a current, kept for the next search; at the least it carries its voltage is without end."""
    got, ohm, bend = string_at(sheet, cells, s, current, hand.guess_a, settle, hand.work)
    _remember(sheet, s, 0.0, hand.work, hand.guess_a)
    if current <= floor:
        got = inf
    seen = hand.seen[s]
    seen[0], seen[1], seen[2], seen[3] = current, got, ohm, bend
    return got, ohm, bend


def _aimed_a(
    sheet: Sheet,
    s: int,
    current: float,
    state: tuple[float, float, float],
    volt: float,
    known: tuple[float, float, bool],
) -> float:
    """Current to look at next; `known` are the least, the bracket's upper end, and whether that is sure. [A]

    The least itself where a blocking diode blocks to the last digit.
    """
    floor, high, high_sure = known
    if state[0] == inf:  # at the least current nothing is told
        if floor == -inf:
            return inf
        return 0.5 * (floor + min(high, 0.0)) if high_sure else max(min(high, 0.0), 0.5 * floor)
    new = _next_a(sheet, s, current, state, volt)
    if sheet.blocking[s] == 0 or new > floor:
        return new
    if current - floor <= GRAIN * -floor:
        return floor
    # a straight line leads nowhere: go there by great steps
    return 0.0 if current > 0 else floor + _NEARER * (current - floor)


def _within(
    new: float,
    current: float,
    ends: tuple[float, float, bool, bool],
    limits: tuple[float, float],
    span: float,
    halves: bool,
) -> tuple[float, float, float, float]:
    """The next place to look, kept inside what is known, and the bracket with the step to carry it on by.

    `ends` are the bracket's and whether each is sure; one that is not, and was looked at, is carried on
    as far as the `limits`. Where there is nothing beyond, the next place is the one looked at.
    """
    low, high, low_sure, high_sure = ends
    if not low_sure and new <= low:
        if current <= low:
            if low <= max(limits[0], -MOST_A):
                return current, low, high, span
            low, span = max(low - span, limits[0]), 2.0 * span
        return max(new, low), low, high, span
    if not high_sure and new >= high:
        if current >= high:
            if high >= min(limits[1], MOST_A):
                return current, low, high, span
            high, span = min(high + span, limits[1]), 2.0 * span
        return min(new, high), low, high, span
    return (0.5 * (low + high) if halves or not low < new < high else new), low, high, span


def foresee(sheet: Sheet, cells: Cells, s: int, volt: float, hand: Hand) -> None:
    """Set where the search for a string's current at a voltage begins, as seen from where it was last.

    With the slope r and bend r' found there the string is taken for one diode behind its resistances R. Its
    knee lies k = (r - R) / r' above, and over a step x

        V(x) = V - R x + (r - R) k ln(1 - x / k),

    whose inverse is Wright's omega. Near by, and where the string bends the other way, a parabola serves.
    """
    current, got, ohm, bend = hand.seen[s][0], hand.seen[s][1], hand.seen[s][2], hand.seen[s][3]
    if not 0 < ohm < inf or not abs(got) < inf:
        return
    newton = (got - volt) / ohm
    junctions, new = ohm - series_ohm(sheet, cells, s), current + newton
    if junctions > 0 and bend > 0 and sheet.blocking[s] == 0:
        knee, straight = junctions / bend, max(ohm - junctions, 1e-9)
        if abs(newton) > FAR * knee:
            share = junctions / straight
            left = share * omega((volt - got) / (junctions * knee) + 1.0 / share - log(share))
            new = current + knee * (1.0 - left)
    hand.near_a[s] = new
    _remember(sheet, s, new - current, hand.work, hand.guess_a)


def _remember(sheet: Sheet, s: int, change: float, work: Work, guess_a: Column) -> None:
    """Guess how what lies beside will stand in the next look, after a change of the string's current."""
    for k in range(sheet.first_part[s], sheet.first_part[s + 1]):
        now = work.branch_a[k]
        guess_a[k] = max(now + change * work.branch_share[k], 0.1 * max(now, 0.0))


def _next_a(sheet: Sheet, s: int, current: float, state: tuple[float, float, float], volt: float) -> float:
    """Current at which a string has a voltage, as seen from one state of it. [A]

    A parabola, since V falls by r dI + r' dI^2 / 2; or straight beside the blocking diode.
    """
    got, ohm, bend = state
    if not got > -inf or not ohm < inf:
        return -inf if got < volt else inf
    if sheet.blocking[s] == 1:
        leak, n, own = sheet.blocking_a[s], sheet.blocking_v[s], sheet.blocking_ohm[s]
        rest = ohm - n / (current + leak) - own
        lift = rest * current + got + diode_v(leak, n, own, current) - volt
        return past_straight_a(leak, n, lift, max(rest + own, 1e-12))
    step = (got - volt) / ohm
    curved = 1.0 + 0.5 * step * bend / ohm
    return current + step / curved if curved > 0.5 else current + step
