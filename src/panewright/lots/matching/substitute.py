"""This cell broke at the bench: every cell that is left is tried in its place, by the exact circuit."""

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
from panewright.lots.matching.plans.scoring import price


@dataclass(frozen=True, slots=True)
class Substitute:
    """A cell that could take the place, what the panel then gives, and what that costs."""

    mark: str
    power_w: float
    change_w: float  #: against the panel as it was matched
    change_price: Decimal | None  #: where there are price steps


def substitute(matched: Matched, panel: int, place: CellAt) -> tuple[Substitute, ...]:
    """Cells that are left, loose and allowed there, the best first; panels are counted from 0."""
    seat = _seat(matched, panel, place)
    cells = _loose(matched)
    cells = cells[fitting(matched, panel, seat, cells)]
    watts = with_others_w(matched, panel, seat, cells)
    order = np.argsort(-watts, kind="stable")
    return tuple(_told(matched, panel, int(cells[k]), float(watts[k])) for k in order.tolist())


def _seat(matched: Matched, panel: int, place: CellAt) -> int:
    if not 0 <= panel < len(matched.panels):
        raise ValueError(f"no panel {panel} here; panels are 0 to {len(matched.panels) - 1}")
    return matched.rules.seats.seat(place)


def _loose(matched: Matched) -> Whole:
    """Cells that are left and not part of a soldered string."""
    left = set(matched.left)
    joined = {mark for string in matched.asked.soldered for mark in string}
    return np.array([k for k, mark in enumerate(matched.lot.marks) if mark in left - joined], dtype=np.int64)


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


def _told(matched: Matched, panel: int, cell: int, watts: float) -> Substitute:
    before = matched.panels[panel]
    after = price(matched.asked.aim, watts)
    change = None if after is None or before.price is None else after - before.price
    return Substitute(matched.lot.marks[cell], watts, watts - float(matched.made.power_w[panel]), change)
