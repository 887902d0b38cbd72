"""Two cells of different panels change places: what that brings to both, tried exactly."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.place import CellAt
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.substitute import fitting

_MOST = 400  #: cells of other panels that are tried: those whose own Imp is nearest


@dataclass(frozen=True, slots=True)
class Across:
    """The best exchange of a seated cell with one of another panel; panels from 0."""

    panel: int
    place: CellAt
    mark: str
    here_w: float  #: change of the panel where it sits
    there_w: float  #: change of the other
    earned: int  #: change of what both earn: panels, or money in hundredths; 0 of most watts

    @property
    def both_w(self) -> float:
        """Of both together. [W]"""
        return self.here_w + self.there_w


def across(matched: Matched, panel: int, seat: int) -> Across | None:
    """That exchange; None where no other panel's cell may take the seat."""
    tried = [found for found in _pairs(matched, panel, seat) if found is not None]
    return max(tried, key=lambda each: (each.earned, each.both_w), default=None)


def _pairs(matched: Matched, panel: int, seat: int) -> list[Across]:
    """Every exchange that is allowed, with its watts."""
    near = _near(matched, panel, seat)
    if not near:
        return []
    seats, before = matched.made.seats, matched.made.power_w
    cell = seats[panel, seat]
    here = np.repeat(seats[panel][None], len(near), axis=0)
    here[:, seat] = [seats[p, s] for p, s in near]
    there = np.array([seats[p] for p, _ in near])
    there[np.arange(len(near)), [s for _, s in near]] = cell
    watts = _watts(matched, here), _watts(matched, there)
    earned = Steps.of(matched.asked.aim).earned
    gains = (
        earned(watts[0]) + earned(watts[1]) - earned(before[[p for p, _ in near]]) - earned(before[[panel]])
    )
    found = []
    for k, (p, s) in enumerate(near):
        place, mark = matched.rules.seats.place(s), matched.lot.marks[seats[p, s]]
        changes = float(watts[0][k] - before[panel]), float(watts[1][k] - before[p])
        found.append(Across(p, place, mark, *changes, int(gains[k])))
    return found


def _watts(matched: Matched, rows: Whole) -> Array:
    return exact_w(matched.asked.network, matched.lot.cells, rows)


def _near(matched: Matched, panel: int, seat: int) -> list[tuple[int, int]]:
    """Seats of other panels whose loose cells may change places with this one, the nearest in Imp first."""
    seats, lot = matched.made.seats, matched.lot
    joined = {mark for string in matched.asked.soldered for mark in string}
    cell = int(seats[panel, seat])
    if lot.marks[cell] in joined:
        return []
    others = [
        (p, s)
        for p in range(len(seats))
        for s in range(seats.shape[1])
        if p != panel and lot.marks[seats[p, s]] not in joined
    ]
    others.sort(key=lambda at: abs(float(lot.imp_a[seats[at]] - lot.imp_a[cell])))
    return [at for at in others[:_MOST] if _allowed(matched, (panel, seat), at)]


def _allowed(matched: Matched, one: tuple[int, int], other: tuple[int, int]) -> bool:
    seats = matched.made.seats
    return bool(
        fitting(matched, *one, np.array([seats[other]]))[0]
        and fitting(matched, *other, np.array([seats[one]]))[0]
    )
