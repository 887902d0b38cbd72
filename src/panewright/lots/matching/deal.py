"""A deal: which piece is in which string of which panel, set into seats, and the exact watts of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.trials import Trials, most_power
from panewright.lots.matching.pieces import Pieces, Whole
from panewright.lots.matching.seats import Seats

_AT_ONCE = 400_000  # cells solved together, to spare memory


@dataclass(frozen=True, slots=True)
class Rules:
    """What decides where a piece may sit: the seats, and how many leaky cells a substring may hold."""

    pieces: Pieces
    seats: Seats
    most_leaky: int
    size: Whole
    leaks: Whole
    largest: Whole

    @classmethod
    def of(cls, pieces: Pieces, seats: Seats, most_leaky: int) -> Rules:
        """The rules of a lot and a wiring."""
        return cls(pieces, seats, most_leaky, pieces.size, pieces.leaks, pieces.largest)

    @property
    def kinds(self) -> Whole:
        """Pieces of one kind may change places without a question."""
        table = np.stack([self.size, self.leaks, np.minimum(self.largest, max(self.seats.driven))])
        return np.asarray(np.unique(table, axis=1, return_inverse=True)[1], dtype=np.int64).reshape(-1)

    @property
    def anywhere(self) -> NDArray[np.bool_]:
        """Which cells may take any seat: loose, not leaky, and no other cells break them down."""
        pieces = self.pieces
        loose = np.zeros(len(pieces.leaky), dtype=bool)
        loose[[members[0] for members in pieces.members if len(members) == 1]] = True
        return np.asarray(loose & ~pieces.leaky & (pieces.most_cells >= max(self.seats.driven)))

    def open(self) -> Filling:
        """An empty panel."""
        return Filling(self, [[] for _ in self.seats.substrings], list(self.seats.substrings))

    def seated(self, string: int, chosen: Whole) -> list[list[int]] | None:
        """Pieces of one string set into its substrings; None where they do not go in."""
        first = sum(map(len, self.seats.strings[:string]))
        filling = self.open()
        order = sorted(chosen.tolist(), key=lambda k: (self.largest[k], -self.size[k], -self.leaks[k]))
        within = range(first, first + len(self.seats.strings[string]))
        if not all(filling.put(k, within, even=True) for k in order):
            return None
        return [filling.held[k] for k in within]

    def allowed(self, string: int, chosen: Whole) -> bool:
        """Whether these pieces may fill the string."""
        return self.seated(string, chosen) is not None


@dataclass(slots=True)
class Filling:
    """A panel that is being filled: pieces of each substring, and the seats left."""

    rules: Rules
    held: list[list[int]]
    room: list[int]

    def put(self, piece: int, within: range, even: bool = False) -> bool:
        """Set a piece into the first substring that takes it, or that with fewest leaky; if one does."""
        rules = self.rules
        size, leaks = int(rules.size[piece]), int(rules.leaks[piece])
        fits = [
            k
            for k in within
            if self.room[k] >= size
            and rules.seats.driven[k] <= rules.largest[piece]
            and (not leaks or self.leaky(k) + leaks <= rules.most_leaky)
        ]
        if not fits:
            return self._across(piece, size, within)
        place = min(fits, key=lambda k: (self.leaky(k), k)) if even and leaks else fits[0]
        self.held[place].append(piece)
        self.room[place] -= size
        return True

    def leaky(self, substring: int) -> int:
        """Leaky cells of a substring so far."""
        return sum(int(self.rules.leaks[k]) for k in self.held[substring])

    def _across(self, piece: int, size: int, within: range) -> bool:
        """A soldered string over several whole substrings that are still empty."""
        sizes = self.rules.seats.substrings
        for first in within:
            run: list[int] = []
            total = 0
            for k in range(first, within.stop):
                if total >= size or self.held[k] or self.room[k] != sizes[k]:
                    break
                run, total = [*run, k], total + sizes[k]
            if total == size and len(run) > 1 and self._bears(piece, run):
                self.held[run[0]].append(piece)
                for k in run:
                    self.room[k] = 0
                return True
        return False

    def _bears(self, piece: int, run: list[int]) -> bool:
        rules, first = self.rules, 0
        for k in run:
            cells = rules.pieces.members[piece][first : first + rules.seats.substrings[k]]
            first += rules.seats.substrings[k]
            leaky = sum(bool(rules.pieces.leaky[c]) for c in cells)
            weak = any(rules.pieces.most_cells[c] < rules.seats.driven[k] for c in cells)
            if weak or leaky > rules.most_leaky:
                return False
        return True


def cells_of(rules: Rules, strings: Whole) -> Whole:
    """Cells of panels in their seats (panels, seats), from (panels, strings, pieces of a string)."""
    rows = []
    for panel in strings:
        seated = [rules.seated(s, chosen[chosen >= 0]) for s, chosen in enumerate(panel)]
        rows.append(_cells(rules, seated))
    return np.array(rows, dtype=np.int64).reshape(-1, rules.seats.count)


def _cells(rules: Rules, seated: list[list[list[int]] | None]) -> list[int]:
    if any(each is None for each in seated):
        raise ValueError("these pieces do not go into their string")
    return [c for each in seated if each for held in each for k in held for c in rules.pieces.members[k]]


def exact_w(network: Network, cells: Diodes, seats: Whole) -> Array:
    """Greatest power of panels with these cells in their seats, by the exact circuit. [W]"""
    at_once = max(1, _AT_ONCE // max(1, seats.shape[1]))
    parts = [_exact(network, cells, seats[k : k + at_once]) for k in range(0, len(seats), at_once)]
    return np.concatenate([np.zeros(0), *parts])


def _exact(network: Network, cells: Diodes, seats: Whole) -> Array:
    return most_power(chosen(network, cells, seats)).power_w


def chosen(network: Network, cells: Diodes, seats: Whole) -> Trials:
    """Panels with these cells in their seats."""
    return Trials(network, cells.at(seats))


def own_points(pieces: Pieces, network: Network) -> tuple[Array, Array]:
    """Watts and Imp of every piece by itself, a soldered string with its joints. [W, A]"""
    watts, amps = np.zeros(pieces.count), np.zeros(pieces.count)
    part = network.strings[0].substrings[0]
    for size in np.unique(pieces.size).tolist():
        which = np.flatnonzero(pieces.size == size)
        joints = (part.joints_ohm * size)[:size]
        alone = Network((String((Substring((part.cells * size)[:size], joints),)),))
        peaks = most_power(chosen(alone, pieces.cells, np.array([pieces.members[k] for k in which])))
        watts[which], amps[which] = peaks.power_w, peaks.current_a
    return watts, amps
