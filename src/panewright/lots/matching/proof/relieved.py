"""A string of which a bypass diode carries the current past a substring: the others count, that one does not.

While no substring is below nothing, its cells carry no less than the string's current, for a diode that waits
leaks a little beside them; so every cell counts with what it gives at that current, below nothing too. Else
one substring at least gives nothing, and of the others each cell counts with no less than nothing. One of
both is true of every string, so the larger of both bounds it. Pieces under the diode are paid for.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.proof.fills import fills_of
from panewright.lots.matching.proof.sets import Best, Room, dearest

Spared = tuple[tuple[int, ...], int]  #: cells of the substrings that count, and of the one that does not


def spared_of(network: Network) -> tuple[Spared, ...]:
    """All ways in which one substring may be carried past while another counts."""
    found: set[Spared] = set()
    for string in network.strings:
        cells = [len(part.cells) for part in string.substrings]
        for k, part in enumerate(string.substrings):
            if part.bypass is not None and len(cells) > 1:
                found.add(((*cells[:k], *cells[k + 1 :]), cells[k]))
    return tuple(sorted(found))


@dataclass(frozen=True, slots=True)
class Relieved:
    """Room in the substrings that count, and under the diode that carries the current past."""

    counts: Room
    past: Room

    @classmethod
    def of(cls, spared: Spared, room: Room) -> Relieved:
        """Both parts of a string's room."""
        counts, past = spared
        return cls(_part(room, counts), _part(room, (past,)))

    def dearest(self, values: Array, prices: Array) -> Best:
        """For every row of values: the dearest pieces that count, and the cheapest under the diode."""
        best, under = dearest(values, self.counts), dearest(-prices[None], self.past)
        return Best(best.worth + under.worth, np.minimum(best.taken + under.taken, 1.0))

    def most(self, piece_w: Array) -> Array:
        """Most watts of every row. [W]"""
        return dearest(piece_w, self.counts).worth


def _part(room: Room, substrings: tuple[int, ...]) -> Room:
    """The room of some substrings of a string."""
    fills = fills_of(room.size[~room.shut], room.sizes, (substrings,))
    return replace(room, length=sum(substrings), fills=fills)
