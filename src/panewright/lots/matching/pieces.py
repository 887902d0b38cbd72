"""What is dealt: a loose cell, or a string that is soldered already and stays together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.lots.matching.asked import Asked
from panewright.lots.matching.backward import largest_borne
from panewright.lots.matching.seats import Seats
from panewright.lots.standing.standing import Standing

Whole = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Pieces:
    """Pieces of a lot; element k of every array is of piece k, cells are counted as the lot counts them."""

    members: tuple[tuple[int, ...], ...]  #: cells of each, from the minus end
    cells: Diodes  #: of the whole lot
    power_w: NDArray[np.float64]  #: of every cell by itself
    leaky: NDArray[np.bool_]  #: of every cell
    most_cells: Whole  #: of every cell: the largest substring it may sit in

    @classmethod
    def of(cls, lot: Standing, asked: Asked) -> Pieces:
        """Loose cells and soldered strings of a lot, with what the limits say to each cell."""
        place = {mark: k for k, mark in enumerate(lot.marks)}
        joined = tuple(tuple(_at(place, mark) for mark in string) for string in asked.soldered)
        taken = [k for string in joined for k in string]
        if len(set(taken)) != len(taken) or not all(joined):
            raise ValueError("a soldered string has a cell or more, and no cell is in two of them")
        loose = sorted(set(range(len(lot.marks))) - set(taken))
        longest = max(Seats.of(asked.network).driven)
        most = np.full(len(lot.marks), longest, dtype=np.int64)
        if asked.limits.reverse is not None:
            most = largest_borne(asked.limits.reverse, lot.cells, longest)
        leaky = np.asarray(lot.cells.shunt_ohm < asked.limits.leaky_ohm)
        return cls((*joined, *((k,) for k in loose)), lot.cells, lot.power_w, leaky, most)

    @property
    def count(self) -> int:
        """How many pieces there are."""
        return len(self.members)

    @property
    def size(self) -> Whole:
        """Cells of each piece."""
        return np.array([len(each) for each in self.members], dtype=np.int64)

    def summed(self, table: Array) -> Array:
        """A table with a column for each cell, summed to one for each piece."""
        order = np.array([k for each in self.members for k in each])
        starts = np.concatenate([[0], np.cumsum(self.size)[:-1]])
        return np.asarray(np.add.reduceat(table[:, order], starts, axis=1))

    @property
    def leaks(self) -> Whole:
        """Leaky cells of each piece."""
        return np.array([sum(self.leaky[k] for k in each) for each in self.members], dtype=np.int64)

    @property
    def own_w(self) -> NDArray[np.float64]:
        """Watts of each piece's cells, each by itself: what a piece is worth."""
        return np.array([sum(self.power_w[k] for k in each) for each in self.members])

    @property
    def largest(self) -> Whole:
        """The largest substring that each piece may sit in."""
        return np.array([min(self.most_cells[k] for k in each) for each in self.members], dtype=np.int64)


def _at(place: dict[str, int], mark: str) -> int:
    if mark not in place:
        raise ValueError(f"a soldered string names cell {mark}, which is not in the lot")
    return place[mark]
