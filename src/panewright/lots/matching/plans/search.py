"""Pieces exchanged, between panels and with what is left, as long as it pays."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.vectors import Stands, Vectors, stand, summed

Allowed = Callable[[int, Whole], bool]  #: whether these pieces may fill the string of this number

_MANY, _REACH = 4000, 3  # pieces of a large lot; panels that count as near by
_LISTED = 90  # exchanges looked at, the most promising first
_TRIED = 6
_FEW, _MORE = 600, 16  # of so few pieces so many times as many
_SEVERAL = 1200  # of more pieces than this several exchanges are made from one list
_LEAST = 1e-9


@dataclass(frozen=True, slots=True)
class Goal:
    """What watts are worth to each panel, and what is kept by leaving a piece over.

    `panel` takes the places of panels and their watts, and gives their worth; it is concave in the watts.
    """

    panel: Callable[[Whole, Array], Array]
    left: Array  #: of every piece


class Table:
    """A deal that is being bettered: panels by strings by pieces, and everything known of it."""

    def __init__(self, vectors: Vectors, strings: Whole, kinds: Whole, allowed: Allowed) -> None:
        self.vectors, self.strings, self.kinds, self.allowed = vectors, strings.copy(), kinds, allowed
        panels, count, length = strings.shape
        self.group = np.full(len(vectors.piece_v), -1)
        self.group[strings.reshape(-1)] = np.repeat(np.arange(panels * count), length)
        self.group[-1] = -1
        self.sums = summed(vectors, self.strings)
        found = stand(vectors, self.sums)
        self.power, self.amps, self.worth = found.power_w.copy(), found.string_a.copy(), found.worth_a.copy()
        self.volt = vectors.at(self.amps.reshape(-1))  # (strings, pieces)

    @property
    def panel(self) -> Whole:
        """The panel of every piece, -1 for what is left."""
        return np.where(self.group < 0, -1, self.group // self.strings.shape[1])

    def near(self, panel: int) -> Whole:
        """Pieces to exchange with: all; in a large lot those of panels near by and what is left."""
        if self.group.size <= _MANY:
            return np.arange(self.group.size)
        apart = np.abs(self.panel - panel)
        return np.flatnonzero((self.group < 0) | (apart <= _REACH))

    def exchanged(self, one: int, other: int) -> tuple[Whole, Array, Stands] | None:
        """Panels touched by an exchange, their sums, how they would stand; None where that is not allowed."""
        each, ends = self.strings.shape[1], [self.group[one], self.group[other]]
        panels = np.unique([g // each for g in ends if g >= 0])
        sums, strings = self.sums[panels].copy(), self.strings[panels].copy()
        for group, out, into in ((ends[0], one, other), (ends[1], other, one)):
            if group >= 0:
                p, s = int(np.searchsorted(panels, group // each)), group % each
                strings[p, s][strings[p, s] == out] = into
                sums[p, s] += self.vectors.piece_v[into] - self.vectors.piece_v[out]
                if self.kinds[one] != self.kinds[other] and not self.allowed(s, _there(strings[p, s])):
                    return None
        return panels, sums, stand(self.vectors, sums)

    def exchange(self, one: int, other: int, done: tuple[Whole, Array, Stands]) -> None:
        """Make an exchange that was tried."""
        panels, sums, found = done
        each = self.strings.shape[1]
        for group, out, into in ((self.group[one], one, other), (self.group[other], other, one)):
            if group >= 0:
                row = self.strings[group // each, group % each]
                row[row == out] = into
        self.group[[one, other]] = self.group[[other, one]]
        self.sums[panels], self.power[panels] = sums, found.power_w
        self.amps[panels], self.worth[panels] = found.string_a, found.worth_a
        rows = (panels[:, None] * each + np.arange(each)).reshape(-1)
        self.volt[rows] = self.vectors.at(found.string_a.reshape(-1))


def bettered(table: Table, goal: Goal, sizes: Whole, rounds: int) -> int:
    """Exchanges panel after panel until none pays, or so many rounds are done; how many were made."""
    made = 0
    for _ in range(rounds):
        before = made
        for panel in range(len(table.strings)):
            while done := _some(table, goal, sizes, panel):
                made += done
                if made - before > 40 * len(table.strings):
                    break
        if made == before:
            break
    return made


def _some(table: Table, goal: Goal, sizes: Whole, panel: int) -> int:
    """The best exchange of one panel's pieces, if one pays; of many pieces several that share none."""
    mine, others = _there(table.strings[panel]), table.near(panel)
    gain = _gains(table, goal, panel, (mine, others))
    gain[sizes[mine][:, None] != sizes[others][None]] = -np.inf
    flat, more = gain.reshape(-1), _MORE if table.group.size <= _FEW else 1
    order = np.argpartition(-flat, min(more * _LISTED, flat.size - 1))[: more * _LISTED]
    failed, moved = 0, set[int]()
    for place in order[np.argsort(-flat[order], kind="stable")].tolist():
        if not flat[place] > _LEAST or failed >= more * _TRIED:
            break
        one, other = int(mine[place // others.size]), int(others[place % others.size])
        done = None if {one, other} & moved else table.exchanged(one, other)
        if done is None:
            continue
        if _pays(table, goal, one, other, done) > _LEAST:
            table.exchange(one, other, done)
            moved |= {one, other}
            if table.group.size <= _SEVERAL:
                break
        else:
            failed += 1
    return len(moved) // 2


def _pays(table: Table, goal: Goal, one: int, other: int, done: tuple[Whole, Array, Stands]) -> float:
    panels, _, found = done
    gain = goal.panel(panels, found.power_w).sum() - goal.panel(panels, table.power[panels]).sum()
    if table.group[other] < 0:
        gain += goal.left[one] - goal.left[other]
    return float(gain)


def _gains(table: Table, goal: Goal, panel: int, ends: tuple[Whole, Whole]) -> Array:
    """What every exchange would bring, by slopes: (pieces of the panel, other pieces)."""
    mine, others = ends
    group, weight = table.group, table.worth.reshape(-1)
    own, away = group[mine], np.maximum(group[others], 0)
    here = weight[own][:, None] * (table.volt[own[:, None], others] - table.volt[own, mine][:, None])
    there = weight[away] * (table.volt[away, mine[:, None]] - table.volt[away, others])
    gain = _counted(table, goal, panel, (mine, others, here, there))
    gain[own[:, None] == group[others]] = -np.inf
    return gain


def _counted(table: Table, goal: Goal, panel: int, moved: tuple[Whole, Whole, Array, Array]) -> Array:
    """Worth of watts gained here and there, and of what is left in exchange."""
    mine, others, here, there = moved
    power, at = table.power, np.full(1, panel)
    place = table.panel[others]
    panels = np.maximum(place, 0)
    gain = goal.panel(at, power[panel] + here) - goal.panel(at, power[at])
    other = goal.panel(panels, power[panels] + there) - goal.panel(panels, power[panels])
    left = goal.left[mine][:, None] - goal.left[others]
    apart = gain + np.where(place < 0, left, other)
    both = goal.panel(at, power[panel] + here + there) - goal.panel(at, power[at])
    return np.asarray(np.where(place == panel, both, apart))


def _there(strings: Whole) -> Whole:
    """The pieces in some strings, short ones not filled up."""
    flat = strings.reshape(-1)
    return flat[flat >= 0]
