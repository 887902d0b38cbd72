"""The greatest power of a panel, with a proof that none higher was overlooked; and every other maximum.

Shade and bypass diodes give a power curve several humps, and a search by slope alone may climb the wrong
one. The walk is cut into pieces. A piece whose climb keeps one sign, or whose bound (see `bound`) is not
above the best power found, is done with. The others are cut: where the slope turns over, at the likely top,
else where the left part's bound comes down to the best, else in the middle. When no piece is left, no point
beats the best by more than one part in two million.
"""

from __future__ import annotations

from math import inf, log, sqrt

from panewright.circuit.solver.bound import NARROW, bound_w, end_of
from panewright.circuit.solver.facts import series_ohm
from panewright.circuit.solver.hand import Hand
from panewright.circuit.solver.sheet import Cells, Sheet
from panewright.circuit.solver.string import FAR
from panewright.circuit.solver.walk import EDGE, START, Pool, begin, recall, stand

HAIR = 5e-7  #: of the power: no overlooked hump can be higher by more
_FINE = 1e-4  # of the walk: humps narrower than this are looked for only where they may be the highest
_LEVEL_W, _ASIDE = 1e-7, 0.2  # of the power, of the piece
_BOX, _LAST_DIGITS = 0.05, 1e-13
_POLISH, _MODEL_STEPS, _PATIENCE = 4, 5, 24
_SPARE = 70  # points kept for the last steps to a top
TOO_MANY = "a power curve of more pieces than any panel's"

Top = tuple[float, float, float]  #: place on the walk, current, voltage


def greatest(sheet: Sheet, cells: Cells, level: float, hand: Hand, pool: Pool) -> int:
    """The point of greatest power: its number in the pool.

    The point itself is found to about `level` of its current or voltage, its power to the square of that.
    """
    n = begin(sheet, cells, hand, pool)
    best = 0
    for i in range(1, n):
        if pool.volt[i] * pool.current[i] > pool.volt[best] * pool.current[best]:
            best = i
    first, (best, n) = n, _polished(sheet, cells, best, n, level, hand, pool)
    depth = _stacked(sheet, first, n, pool)
    turn = 0
    while depth > 0:
        if n >= len(pool.at) - _SPARE:
            raise ArithmeticError(TOO_MANY)
        depth -= 1
        i, j = pool.low[depth], pool.high[depth]
        top_w = max(pool.volt[best] * pool.current[best], 0.0)
        high = bound_w(sheet, cells, i, j, pool)
        if not high > top_w * (1.0 + HAIR) or _narrow(sheet, cells, i, j, pool):
            continue
        at = cut(sheet, cells, i, j, top_w, turn, pool)
        recall(i, j, at, hand, pool)
        stand(sheet, cells, at, n, hand, pool)
        if pool.volt[n] * pool.current[n] > pool.volt[best] * pool.current[best]:
            best = n
        pool.low[depth], pool.high[depth], pool.low[depth + 1], pool.high[depth + 1] = i, n, n, j
        depth, n, turn = depth + 2, n + 1, turn + 1
    return _polished(sheet, cells, best, n, level, hand, pool)[0]


def _stacked(sheet: Sheet, first: int, n: int, pool: Pool) -> int:
    """All pieces between neighbouring points on the stack; how many. Points from `first` on are unsorted."""
    order = pool.order
    for i in range(n):
        place = i
        while place > 0 and i >= first and pool.at[order[place - 1]] >= pool.at[i]:
            order[place] = order[place - 1]
            place -= 1
        order[place] = i
    depth = 0
    if len(sheet.alike) == 1:
        pool.low[0], pool.high[0], pool.low[1], pool.high[1] = order[n - 1], EDGE, START, order[0]
        depth = 2
    for k in range(n - 1):
        pool.low[depth], pool.high[depth] = order[k], order[k + 1]
        depth += 1
    return depth


def _polished(
    sheet: Sheet, cells: Cells, best: int, n: int, level: float, hand: Hand, pool: Pool
) -> tuple[int, int]:
    """The best point brought to the very top of its hump, as long as it gains; and how many points."""
    for _ in range(_POLISH):
        at = step(sheet, cells, best, pool)
        if not abs(at - pool.at[best]) > level * abs(pool.at[best]) or at <= 0:
            break
        recall(best, best, at, hand, pool)
        stand(sheet, cells, at, n, hand, pool)
        new_w, best_w = pool.volt[n] * pool.current[n], pool.volt[best] * pool.current[best]
        flatter = abs(pool.climb[n]) < abs(pool.climb[best])  # at the very top, where power no longer tells
        gains = new_w > best_w or (flatter and new_w > best_w * (1.0 - _LAST_DIGITS))
        best, n = (n if gains else best), n + 1
        if not gains:
            break
    return best, n


def step(sheet: Sheet, cells: Cells, i: int, pool: Pool) -> float:
    """Where the power is likely greatest, as seen from one point; that point itself where it does not tell.

    By current: the string is taken for one diode behind its resistances R, with the slope r and the bend r'
    found. Its knee then lies (r - R) / r' above, and V - I r = 0 is solved for it. By voltage: Newton's step.
    """
    at, climb, fall = pool.at[i], pool.climb[i], pool.fall[i]
    if not fall < 0 or not abs(climb) < inf:
        return at
    newton = at - climb / fall
    if len(sheet.alike) > 1:
        return newton
    series = series_ohm(sheet, cells, 0)
    junctions = pool.ohm[i] - series
    if not junctions > 0 or not pool.bend[i] > 0:
        return newton
    knee = junctions / pool.bend[i]
    if abs(newton - at) <= FAR * knee:
        return newton
    thermal, left = junctions * knee, knee
    for _ in range(_MODEL_STEPS):
        here = at + knee - left
        volt = pool.volt[i] - series * (here - at) + thermal * log(left / knee)
        rise = volt - here * (series + thermal / left)
        drop = 2.0 * (series + thermal / left) + here * thermal / (left * left)
        left = max(left - rise / drop, 0.1 * left)
    return at + knee - left


def _turns(i: int, j: int, pool: Pool) -> bool:
    return j != EDGE and i != START and pool.climb[i] > 0 and pool.climb[j] <= 0


def _narrow(sheet: Sheet, cells: Cells, i: int, j: int, pool: Pool) -> bool:
    right = end_of(sheet, cells, j, pool)
    return i != START and right - pool.at[i] <= NARROW * abs(right)


def cut(sheet: Sheet, cells: Cells, i: int, j: int, best_w: float, turn: int, pool: Pool) -> float:
    """Where to look next in a piece; after some turns every other time in the middle, come what may."""
    if i == START:
        return 0.0
    left, right = pool.at[i], end_of(sheet, cells, j, pool)
    width, middle = right - left, 0.5 * (left + right)
    if turn > _PATIENCE and turn % 2 == 1:
        return middle
    if j != EDGE:  # an end at the very top: what is left is to prove the rest of the piece
        level = _LEVEL_W * best_w
        if abs(pool.climb[i]) * width < level:
            return left + _ASIDE * width
        if abs(pool.climb[j]) * width < level:
            return right - _ASIDE * width
    if _turns(i, j, pool):
        return _turning(sheet, cells, i, j, pool)
    if len(sheet.alike) == 1 and pool.volt[i] > 0:
        end = best_w / pool.volt[i] / sheet.alike[0]
        if left + _BOX * width < end < right - _BOX * width:
            return end
    return middle


def _turning(sheet: Sheet, cells: Cells, i: int, j: int, pool: Pool) -> float:
    """Where in a piece the power likely turns over."""
    left, right = pool.at[i], pool.at[j]
    width = right - left
    near, far = (i, j) if _reach(i, pool) <= _reach(j, pool) else (j, i)
    if _reach(near, pool) < 0.5 * width:
        top = step(sheet, cells, near, pool)
        if left < top < right:
            return top
    if pool.climb[far] > -inf and pool.climb[near] > -inf and pool.volt[j] > -inf:
        rise = 3.0 * (pool.volt[j] * pool.current[j] - pool.volt[i] * pool.current[i]) / width
        theta = rise - pool.climb[i] - pool.climb[j]
        gamma = sqrt(theta * theta - pool.climb[i] * pool.climb[j])
        over = pool.climb[i] - pool.climb[j] + 2.0 * gamma
        top = right - width * (gamma - pool.climb[j] - theta) / over
        if left < top < right:
            return top
    return 0.5 * (left + right)


def _reach(i: int, pool: Pool) -> float:
    """How far a point's Newton step goes."""
    return abs(pool.climb[i] / pool.fall[i]) if pool.fall[i] < 0 and abs(pool.climb[i]) < inf else inf


def all_humps(sheet: Sheet, cells: Cells, level: float, hand: Hand, pool: Pool) -> list[Top]:
    """The top of every hump that is wider than a ten-thousandth of the walk.

    Pieces are taken one by one from the first places; points within one are of no use to the next.
    """
    first = n = begin(sheet, cells, hand, pool)
    tops: list[Top] = []
    best_w = 0.0
    for i in range(n):
        best_w = max(best_w, pool.volt[i] * pool.current[i])
    depth, turn = _stacked(sheet, n, n, pool), 0
    whole = depth
    span = end_of(sheet, cells, EDGE, pool) if len(sheet.alike) == 1 else pool.at[n - 1]
    while depth > 0:
        if depth == whole:
            n, whole = first, whole - 1
        if n >= len(pool.at) - _SPARE:
            raise ArithmeticError(TOO_MANY)
        depth -= 1
        i, j = pool.low[depth], pool.high[depth]
        high, width = bound_w(sheet, cells, i, j, pool), end_of(sheet, cells, j, pool) - pool.at[i]
        goes_on = high > 0 and (width > _FINE * span or high > best_w * (1.0 + HAIR))
        if not goes_on or _narrow(sheet, cells, i, j, pool):
            if _turns(i, j, pool):
                top, n = _top(sheet, cells, i, j, n, level, hand, pool)
                tops.append((float(pool.at[top]), float(pool.current[top]), float(pool.volt[top])))
            continue
        at = cut(sheet, cells, i, j, best_w, turn, pool)
        recall(i, j, at, hand, pool)
        stand(sheet, cells, at, n, hand, pool)
        best_w = max(best_w, pool.volt[n] * pool.current[n])
        pool.low[depth], pool.high[depth], pool.low[depth + 1], pool.high[depth + 1] = i, n, n, j
        depth, n, turn = depth + 2, n + 1, turn + 1
    return tops


def _top(
    sheet: Sheet, cells: Cells, i: int, j: int, n: int, level: float, hand: Hand, pool: Pool
) -> tuple[int, int]:
    """The top of a piece in which the power turns over, closed in on from both sides; and how many points."""
    for turn in range(60):
        at = _turning(sheet, cells, i, j, pool) if turn % 4 < 3 else 0.5 * (pool.at[i] + pool.at[j])
        gone = min(at - pool.at[i], pool.at[j] - at)
        if gone <= level * abs(at):
            break
        recall(i, j, at, hand, pool)
        stand(sheet, cells, at, n, hand, pool)
        if pool.climb[n] > 0:
            i = n
        else:
            j = n
        n += 1
    higher = pool.volt[i] * pool.current[i] > pool.volt[j] * pool.current[j]
    return (i if higher else j), n
