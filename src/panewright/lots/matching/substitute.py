"""This cell broke at the bench: every cell that is left is tried in its place, by the exact circuit.

The best is the best for the aim: of most watts the panel's watts count. Else cells come first with which the
panel still earns most, and of those the one that is worth least by itself, so that the better ones stay.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.circuit.place import CellAt
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.scoring import Steps, price


@dataclass(frozen=True, slots=True)
class Substitute:
    """A cell that could take the place, what the panel then gives, and what that costs."""

    mark: str
    power_w: float
    change_w: float  #: against the panel as it was matched
    change_price: Decimal | None  #: where there are price steps
    own_w: float  #: of the cell by itself
    left_w: float  #: what the cells left over are then worth, each by itself


def substitute(matched: Matched, panel: int, place: CellAt) -> tuple[Substitute, ...]:
    """Cells that are left, loose and allowed there, the best first; panels are counted from 0."""
    seat = _seat(matched, panel, place)
    cells = _loose(matched)
    cells = cells[fitting(matched, panel, seat, cells)]
    watts = with_others_w(matched, panel, seat, cells)
    order = best_first(matched, cells, watts)
    left_w = float(matched.lot.power_w[_left(matched)].sum())
    return tuple(_told(matched, panel, (int(cells[k]), left_w), float(watts[k])) for k in order.tolist())


def best_first(matched: Matched, cells: Whole, watts: Array) -> Whole:
    """The order of cells for a place, by what the panel gives with each and by what the aim counts."""
    steps = Steps.of(matched.asked.aim)
    earned = steps.earned(watts)
    spent = np.where(earned > 0, matched.lot.power_w[cells], -watts)
    return np.asarray(np.lexsort((-watts, spent, -earned)), dtype=np.int64)


def _seat(matched: Matched, panel: int, place: CellAt) -> int:
    if not 0 <= panel < len(matched.panels):
        raise ValueError(f"no panel {panel} here; panels are 0 to {len(matched.panels) - 1}")
    return matched.rules.seats.seat(place)


def _left(matched: Matched) -> list[int]:
    left = set(matched.left)
    return [k for k, mark in enumerate(matched.lot.marks) if mark in left]


def _loose(matched: Matched) -> Whole:
    """Cells that are left and not part of a soldered string."""
    joined = {mark for string in matched.asked.soldered for mark in string}
    loose = [k for k in _left(matched) if matched.lot.marks[k] not in joined]
    return np.array(loose, dtype=np.int64)


def fitting(matched: Matched, panel: int, seat: int, cells: Whole) -> NDArray[np.bool_]:
    """Whether each cell may sit there beside the others of its substring."""
    rules = matched.rules
    substring = rules.seats.substring_of
    others = [k for k, part in enumerate(substring) if part == substring[seat] and k != seat]
    leaky = rules.pieces.leaky
    beside = int(leaky[matched.made.seats[panel][others]].sum())
    sound = ~leaky[cells] | (beside + 1 <= rules.most_leaky)
    return np.asarray(sound & (rules.pieces.most_cells[cells] >= rules.seats.driven[substring[seat]]))


def with_others_w(matched: Matched, panel: int, seat: int, cells: Whole) -> Array:
    """Exact watts of a panel with each of these cells in one seat. [W]"""
    rows = np.tile(matched.made.seats[panel], (cells.size, 1))
    rows[:, seat] = cells
    return exact_w(matched.asked.network, matched.lot.cells, rows)


def _told(matched: Matched, panel: int, taken: tuple[int, float], watts: float) -> Substitute:
    (cell, left_w), before = taken, matched.panels[panel]
    after = price(matched.asked.aim, watts)
    change = None if after is None or before.price is None else after - before.price
    own_w = float(matched.lot.power_w[cell])
    gained = watts - float(matched.made.power_w[panel])
    return Substitute(matched.lot.marks[cell], watts, gained, change, own_w, left_w - own_w)
