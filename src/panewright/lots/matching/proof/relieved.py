"""A string of which bypass diodes carry the current past substrings: the others count, those do not.

While no substring is below nothing, its cells carry no less than the string's current, for a diode that waits
leaks a little beside them; so every cell counts with what it gives at that current, below nothing too. Else
one substring at least gives nothing, and of the others each cell counts with no less than nothing. One of
both is true of every string, so the larger of both bounds it. Pieces under the diode are paid for.

A cell that is nearly dark leaves no doubt: wherever it sits, its diode carries most of the current. So a
string without such cells is as above; with them, so many substrings cost at least what their diodes take,
and none of the others has such a cell.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.enclosure.bypass import Bypass
from panewright.lots.matching.proof.fills import fills_of
from panewright.lots.matching.proof.sets import NEVER, Best, Room, dearest

Mask = NDArray[np.bool_]


class Spared(NamedTuple):
    """Cells of the substrings that count, and of those that do not."""

    counts: tuple[int, ...]
    past: tuple[int, ...]
    deep: bool = False  #: every one of those holds a cell that leaves its diode most of the current


def spared_of(network: Network) -> tuple[Spared, ...]:
    """All ways in which substrings may be carried past while another counts."""
    found: set[Spared] = set()
    for string in network.strings:
        cells = [len(part.cells) for part in string.substrings]
        for k, part in enumerate(string.substrings):
            if part.bypass is not None and len(cells) > 1:
                found.add(Spared((*cells[:k], *cells[k + 1 :]), (cells[k],)))
        if all(isinstance(part.bypass, Bypass) for part in string.substrings):
            found |= _deep(cells)
    return tuple(sorted(found))


def _deep(cells: list[int]) -> set[Spared]:
    """Of a string's substrings any number but all."""
    every = range(len(cells))
    return {
        Spared(tuple(cells[k] for k in every if k not in past), tuple(cells[k] for k in past), True)
        for number in every[1:]
        for past in combinations(every, number)
    }


@dataclass(frozen=True, slots=True)
class Relieved:
    """Room in the substrings that count, and under the diodes that carry the current past."""

    counts: Room
    past: Room
    deep: int  #: substrings that cost what a diode takes

    @classmethod
    def of(cls, spared: Spared, room: Room) -> Relieved:
        """Both parts of a string's room."""
        deep = len(spared.past) if spared.deep else 0
        return cls(_part(room, spared.counts), _part(room, spared.past), deep)

    def dearest(self, values: Array, prices: Array, sunk: Mask) -> Best:
        """For every row of values: the dearest pieces that count, and the cheapest under the diodes.

        `sunk` (rows, pieces) never count; where the diodes need not take anything, none is under them.
        """
        best, under = dearest(np.where(sunk, NEVER, values), self.counts), -prices[None]
        if sunk.any() and not self.deep:
            under = np.where(sunk, NEVER, under)
        past = dearest(under, self.past)
        return Best(best.worth + past.worth, np.minimum(best.taken + past.taken, 1.0))

    def most(self, piece_w: Array, sunk: Mask) -> Array:
        """Most watts of every row, but for what diodes and wiring take. [W]"""
        return dearest(np.where(sunk, NEVER, piece_w), self.counts).worth


def _part(room: Room, substrings: tuple[int, ...]) -> Room:
    """The room of some substrings of a string."""
    fills = fills_of(room.size[~room.shut], room.sizes, (substrings,))
    return replace(room, length=sum(substrings), fills=fills)
