"""Two exchanges at once: each would lose by itself, both together gain what one of them cannot.

Between two panels, or a panel and what is left over, the exchanges that cost least are reckoned one by one.
What two of them do together is nearly the sum; the pairs that promise most are then tried as they are.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.search import Goal, Table
from panewright.lots.matching.vectors import stand

_SINGLE, _PAIRS = 240, 12  # exchanges that are paired, pairs that are tried
_PANELS, _BESIDE = 12, 2  # of more panels only those near by are paired
_LEFT = -1
_LEAST = 1e-7


def coupled(table: Table, goal: Goal, sizes: Whole, most: int) -> int:
    """Pairs of exchanges, as long as they pay and no more than so many; how many were made."""
    made = 0
    while made < most:
        before = made
        for one, other in _ends(table, goal):
            while made < most and _pair(table, goal, sizes, (one, other)):
                made += 1
        if made == before:
            break
    return made


def _ends(table: Table, goal: Goal) -> Iterator[tuple[int, int]]:
    """Panels to exchange between; with what is left over where leaving it has a worth."""
    panels = len(table.strings)
    reach = panels if panels <= _PANELS else _BESIDE
    for one in range(panels):
        for other in range(one + 1, min(panels, one + reach + 1)):
            yield one, other
        if goal.left.any():
            yield one, _LEFT


def _pair(table: Table, goal: Goal, sizes: Whole, ends: tuple[int, int]) -> bool:
    """Make the pair of exchanges that gains most, if one does."""
    out, into = _singles(table, goal, sizes, ends)
    if out.size < 2:
        return False
    moved = _moved(table, ends, out, into)
    gain = _together(table, goal, ends, (out, into, *moved))
    flat = gain.reshape(-1)
    order = np.argpartition(-flat, min(_PAIRS, flat.size - 1))[:_PAIRS]
    for place in order[np.argsort(-flat[order], kind="stable")].tolist():
        if not flat[place] > _LEAST:
            return False
        first, second = divmod(place, out.size)
        if _made(table, goal, (int(out[first]), int(into[first])), (int(out[second]), int(into[second]))):
            return True
    return False


def _singles(table: Table, goal: Goal, sizes: Whole, ends: tuple[int, int]) -> tuple[Whole, Whole]:
    """Exchanges that cost least by the slopes: pieces that leave the first end, and that come in."""
    mine = _held(table, ends[0])
    others = np.flatnonzero(table.group[:-1] < 0) if ends[1] == _LEFT else _held(table, ends[1])
    group, weight = table.group, table.worth.reshape(-1)
    own, away = group[mine], np.maximum(group[others], 0)
    cost = weight[own][:, None] * (table.volt[own[:, None], others] - table.volt[own, mine][:, None])
    if ends[1] == _LEFT:
        cost = cost + goal.left[mine][:, None] - goal.left[others]
    else:
        cost = cost + weight[away] * (table.volt[away, mine[:, None]] - table.volt[away, others])
    cost[sizes[mine][:, None] != sizes[others][None]] = -np.inf
    flat = cost.reshape(-1)
    best = np.argsort(-flat, kind="stable")[:_SINGLE]
    best = best[np.isfinite(flat[best])]
    return mine[best // max(1, others.size)], others[best % max(1, others.size)]


def _held(table: Table, panel: int) -> Whole:
    flat: Whole = table.strings[panel].reshape(-1)
    return np.asarray(flat[flat >= 0])


def _moved(table: Table, ends: tuple[int, int], out: Whole, into: Whole) -> tuple[Array, Array]:
    """What each exchange does to the watts of both ends. [W]"""
    each, more = table.strings.shape[1], table.vectors.piece_v[into] - table.vectors.piece_v[out]
    found = []
    for end, piece, sign in ((ends[0], out, 1.0), (ends[1], into, -1.0)):
        if end == _LEFT:
            found.append(np.zeros(out.size))
            continue
        sums = np.repeat(table.sums[end][None], out.size, axis=0)
        sums[np.arange(out.size), table.group[piece] % each] += sign * more
        found.append(stand(table.vectors, sums).power_w - table.power[end])
    return found[0], found[1]


def _together(
    table: Table, goal: Goal, ends: tuple[int, int], singles: tuple[Whole, Whole, Array, Array]
) -> Array:
    """What two exchanges would gain if their effects were added; never for two of one piece."""
    out, into, here, there = singles
    gain = np.zeros((out.size, out.size))
    for end, moved in ((ends[0], here), (ends[1], there)):
        if end != _LEFT:
            at, now = np.full(1, end), table.power[end : end + 1]
            both = (now + moved[:, None] + moved).reshape(-1)
            gain += (goal.panel(np.full(both.size, end), both) - goal.panel(at, now)).reshape(gain.shape)
    if ends[1] == _LEFT:
        left = goal.left[out] - goal.left[into]
        gain += left[:, None] + left
    shared = (out[:, None] == out) | (into[:, None] == into)
    return np.where(shared | np.tri(out.size, dtype=bool), -np.inf, gain)


def _made(table: Table, goal: Goal, first: tuple[int, int], second: tuple[int, int]) -> bool:
    """Make both exchanges; undo them where they do not pay after all, or are not allowed."""
    before, done = _worth(table, goal), list[tuple[int, int]]()
    for one, other in (first, second):
        found = table.exchanged(one, other)
        if found is None:
            break
        table.exchange(one, other, found)
        done.append((one, other))
    if len(done) == 2 and _worth(table, goal) > before + _LEAST:
        return True
    for one, other in reversed(done):
        found = table.exchanged(other, one)
        if found is None:
            raise RuntimeError("what was so before is allowed")
        table.exchange(other, one, found)
    return False


def _worth(table: Table, goal: Goal) -> float:
    panels = np.arange(len(table.strings))
    return float(goal.panel(panels, table.power).sum() + goal.left[table.group < 0].sum())
