"""Few cells: every way to fill a panel is reckoned exactly, and the best that share no cell are chosen.

The order of cells within a substring changes nothing, nor do like substrings or like strings that change
places: such ways are reckoned once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import comb

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.asked import Aim, BestRemainder, MostWatts
from panewright.lots.matching.deal import Rules, cells_of, exact_w
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.plans.sorting import by_string, packed

MOST = 40_000  #: ways to fill a panel
_PIECES = 24  #: more are not tried this way
_WORK = 3.0  #: of the choice among all ways, in CP-SAT's own measure
_FINE = 1e7
_TIE = 10**9
_TWO, _BITS = 2, 62  # panels of so few pieces: all pairs of sets are looked at


def few(rules: Rules) -> bool:
    """Whether every way may be tried."""
    ways, left = 1, rules.pieces.count
    if not 0 < left <= _PIECES or int(rules.size.max()) > max(rules.seats.substrings):
        return False
    for room in rules.seats.substrings:
        count = max(1, room // int(rules.size.min()))
        ways, left = ways * comb(left, min(count, left)), left - min(count, left)
        if ways > 400 * MOST:
            return False
    every = range(rules.pieces.count)
    return sum(1 for _, _ in zip(ways_among(rules, (), every), range(MOST + 1), strict=False)) <= MOST


Held = tuple[tuple[int, ...], ...]


def ways_among(rules: Rules, held: Held, among: Sequence[int]) -> Iterator[Held]:
    """Every way to fill the substrings that are left with some of these pieces; whole panels only."""
    k = len(held)
    if k == len(rules.seats.substrings):
        yield held
        return
    taken = {p for each in held for p in each}
    free = [p for p in among if p not in taken and rules.largest[p] >= rules.seats.driven[k]]
    for chosen in _fills(rules, free, k):
        if _first_of_alike(rules, (*held, chosen)):
            yield from ways_among(rules, (*held, chosen), among)


def _fills(rules: Rules, free: list[int], substring: int) -> Iterator[tuple[int, ...]]:
    """Sets of pieces that fill a substring."""
    room, reach = rules.seats.substrings[substring], [1]
    for p in reversed(free):  # what the pieces from each on can fill, a bit for each number of seats
        reach.append(reach[-1] | reach[-1] << int(rules.size[p]))
    yield from _filling(rules, free, reach[::-1], (), 0, room)


def _filling(
    rules: Rules, free: list[int], reach: list[int], chosen: tuple[int, ...], first: int, left: int
) -> Iterator[tuple[int, ...]]:
    """These pieces with others from the first on; where what is left cannot be filled nothing is tried."""
    leaks = sum(int(rules.leaks[p]) for p in chosen)
    if leaks and leaks > rules.most_leaky:
        return
    if not left:
        yield chosen
    for k in range(first, len(free) if left else first):
        rest = left - int(rules.size[free[k]])
        if rest >= 0 and reach[k + 1] >> rest & 1:
            yield from _filling(rules, free, reach, (*chosen, free[k]), k + 1, rest)


def _first_of_alike(rules: Rules, held: Held) -> bool:
    """Whether like substrings, and like strings, stand in rising order."""
    last, strings = len(held) - 1, rules.seats.string_of_substring
    sizes = list(zip(rules.seats.substrings, rules.seats.driven, strict=True))
    if last and strings[last] == strings[last - 1] and sizes[last] == sizes[last - 1]:
        return held[last - 1] < held[last]
    if last and strings[last] != strings[last - 1] and len(set(rules.seats.strings)) == 1:
        return held[last - len(rules.seats.strings[0])] < held[last]
    return True


@dataclass(frozen=True, slots=True)
class Ways:
    """Every set of pieces that makes a panel, in its best way: exact watts, and what it uses up."""

    strings: Whole
    power_w: Array
    used_w: Array
    sets: tuple[frozenset[int], ...]


def every_way(rules: Rules, network: Network) -> Ways:
    """All panels that can be made, reckoned exactly."""
    return reckoned_ways(rules, network, list(ways_among(rules, (), range(rules.pieces.count))))


def reckoned_ways(rules: Rules, network: Network, ways: list[Held]) -> Ways:
    """Ways to fill a panel reckoned exactly; of the same pieces the best."""
    made = [by_string(rules, held) for held in ways]
    strings = packed(made, rules)
    power = exact_w(network, rules.pieces.cells, cells_of(rules, strings))
    best: dict[frozenset[int], int] = {}
    for k, held in enumerate(ways):
        key = frozenset(p for each in held for p in each)
        if key not in best or power[k] > power[best[key]]:
            best[key] = k
    places, own = list(best.values()), rules.pieces.own_w
    used = np.array([sum(own[p] for p in sorted(key)) for key in best])
    return Ways(strings[places], power[places], used, tuple(best))


def best_of(ways: Ways, aim: Aim, panels: int) -> tuple[list[int], bool]:
    """The panels, none sharing a piece, that serve the aim best; and whether the work allowed settles it."""
    from ortools.sat.python import cp_model

    if panels <= _TWO and max(map(max, ways.sets), default=0) < _BITS:
        return _best_two(_worth(ways, aim), ways.sets, panels), True
    model = cp_model.CpModel()
    taken = [model.new_bool_var("") for _ in ways.sets]
    for piece in sorted({p for each in ways.sets for p in each}):
        model.add_at_most_one(t for t, each in zip(taken, ways.sets, strict=True) if piece in each)
    model.add(sum(taken) <= panels)
    worth = _worth(ways, aim)
    model.maximize(sum(int(w) * t for w, t in zip(worth.tolist(), taken, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = _WORK
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return [], False
    chosen = [k for k, each in enumerate(taken) if solver.value(each) and worth[k] > 0]
    return chosen, status == cp_model.OPTIMAL


def _best_two(worth: Whole, sets: Sequence[frozenset[int]], panels: int) -> list[int]:
    """The best one or two sets that share no piece: each in falling order of worth with its best partner."""
    order = [k for k in np.argsort(-worth, kind="stable").tolist() if worth[k] > 0]
    masks = np.array([sum(1 << p for p in sets[k]) for k in order], dtype=np.int64)
    sorted_worth, found = worth[order].tolist(), order[:panels][:1]
    best = sorted_worth[0] if found else 0
    for k, mine in enumerate(sorted_worth if panels > 1 else []):
        if 2 * mine <= best:
            break
        free = (masks[k + 1 :] & masks[k]) == 0
        at = int(free.argmax()) if free.any() else -1
        if at >= 0 and mine + sorted_worth[k + 1 + at] > best:
            best, found = mine + sorted_worth[k + 1 + at], [order[k], order[k + 1 + at]]
    return found


def _worth(ways: Ways, aim: Aim) -> Whole:
    """What a panel adds, in whole numbers."""
    if isinstance(aim, MostWatts):
        return np.asarray(np.round(ways.power_w * _FINE), dtype=np.int64)
    earned = Steps.of(aim).earned(ways.power_w)
    if isinstance(aim, BestRemainder):
        most = int(np.ceil(ways.used_w.max(initial=0.0) * _FINE)) + 1
        spared = most * (aim.panels + 1) - np.round(ways.used_w * _FINE).astype(np.int64)
        return np.asarray(earned * spared)
    tie = np.round(ways.power_w / max(float(ways.power_w.sum()), 1e-300) * _TIE).astype(np.int64)
    return np.asarray(earned * _TIE * 2 + np.where(earned > 0, tie, 0))  # of equal money the more watts
