"""What the pieces of one bar can be worth, for every length of bar at once.

A table by dynamic programming [GG]: the most that pieces within a length are worth, with one bundle of pieces
more in each line. Forwards and backwards together they tell, for each piece, the dearest way that holds it:
many ways from one table, and for bars of every length. Worths are whole numbers of a small share, so that
sums are exact; lengths too, and where those are too fine for a table they are rounded to a grid: up for ways
that surely fit, down for a worth that surely none exceeds.

[GG] see `panewright.cutting.bars.patterns`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.cutting.bars.column import Pattern

SHARE = 2.0**-28  #: worths are whole numbers of this
CELLS = 16_000_000  #: of a table, at most
COARSE = 4_000_000  #: of one whose lengths are rounded

Whole = NDArray[Any]


@dataclass(frozen=True, slots=True)
class Pieces:
    """Sizes to be cut, how many of each at most, and what one is worth."""

    sizes: tuple[int, ...]
    most: tuple[int, ...]
    worth: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Bundle:
    """Some pieces of one size, taken together or not at all; length in cells, worth in shares."""

    place: int
    count: int
    length: int
    worth: int


def fits(pattern: Pattern, sizes: Sequence[int], room: int) -> bool:
    """Whether these pieces come from one bar."""
    return sum(size * count for size, count in zip(sizes, pattern, strict=True)) <= room


@dataclass(frozen=True, slots=True)
class Way:
    """How to cut a bar, and what that is worth."""

    worth: float
    pattern: Pattern


@dataclass(frozen=True, slots=True)
class _Join:
    """A line with the cells that lie before and behind it, and what all that is worth in shares."""

    row: int
    before: int
    behind: int
    worth: int


def bundles(pieces: Pieces, lengths: Sequence[int], cells: int) -> tuple[Bundle, ...]:
    """Pieces by ones, twos, fours and a rest, so that every number of them can be made up."""
    return tuple(_bundles(pieces, lengths, cells))


def _bundles(pieces: Pieces, lengths: Sequence[int], cells: int) -> Iterator[Bundle]:
    for place, (length, worth) in enumerate(zip(lengths, pieces.worth, strict=True)):
        shares = math.ceil(worth / SHARE)
        if shares <= 0 or length > cells:
            continue
        left, count = min(pieces.most[place], cells // max(1, length)), 1
        while left > 0:
            count = min(count, left)
            yield Bundle(place, count, count * length, count * shares)
            left, count = left - count, 2 * count


def _kind(lines: Sequence[Bundle], cells: int) -> type[np.int32] | type[np.int64]:
    """Half-width numbers where nothing in the table can exceed them."""
    rate = max((line.worth / max(1, line.length) for line in lines), default=0.0)
    short = sum(line.worth for line in lines) < 2**30 or (
        rate * cells < 2**30 and all(line.length for line in lines)
    )
    return np.int32 if short else np.int64


class Table:
    """All lengths up to `room`; `exact`, or rounded `up` for what surely fits, or down."""

    def __init__(self, pieces: Pieces, room: int, up: bool = True) -> None:
        self.pieces, self.room = pieces, room
        step = math.gcd(*pieces.sizes)
        numbers = (min(most, room // size) for size, most in zip(pieces.sizes, pieces.most, strict=True))
        rows = sum(max(1, number).bit_length() for number in numbers) + 1
        self.exact = (room // step + 1) * rows <= CELLS
        self.grid = step if self.exact else -(-room * rows // COARSE)
        lengths = [-(-size // self.grid) if up else size // self.grid for size in pieces.sizes]
        self.cells = room // self.grid
        self.lines = bundles(pieces, lengths, self.cells)
        self._fill()

    def _fill(self) -> None:
        kind = _kind(self.lines, self.cells)
        self.forward: Whole = np.zeros((len(self.lines) + 1, self.cells + 1), kind)
        for row, line in enumerate(self.lines):
            before, after = self.forward[row], self.forward[row + 1]
            after[: line.length] = before[: line.length]
            np.add(before[: self.cells + 1 - line.length], kind(line.worth), out=after[line.length :])
            np.maximum(after[line.length :], before[line.length :], out=after[line.length :])

    def most(self, room: int) -> float:
        """No way to cut a bar with so much room is worth more."""
        return float(self.forward[-1, room // self.grid]) * SHARE

    def ways(self, rooms: Sequence[int], asked: Sequence[float]) -> list[list[Way]]:
        """For each room the dearest ways worth more than is asked of it, the dearest first.

        For every piece the dearest way that holds it; none for a piece that a dearer way of these holds.
        """
        cells = [
            room // self.grid if least < math.inf else -1 for room, least in zip(rooms, asked, strict=True)
        ]
        seen, taken = self._joined(cells)
        worthy = [
            sorted(
                (join for join in joined if join.worth * SHARE > least),
                key=lambda join: (-join.worth, join.row),
            )
            for joined, least in zip(seen, asked, strict=True)
        ]
        patterns = self._read([join for joins in worthy for join in joins], taken)
        ends = accumulate(map(len, worthy))
        return [
            list(self._apart(joins, patterns[end - len(joins) : end]))
            for joins, end in zip(worthy, ends, strict=True)
        ]

    def _joined(self, cells: Sequence[int]) -> tuple[list[list[_Join]], NDArray[np.bool_]]:
        """For each room and line the best of what lies before and behind it; where a line behind is taken."""
        joins: list[list[_Join]] = [[] for _ in cells]
        taken = np.zeros((len(self.lines), self.cells + 1), np.bool_)
        back = np.zeros(self.cells + 1, self.forward.dtype)
        for row in range(len(self.lines) - 1, -1, -1):
            line, before = self.lines[row], self.forward[row]
            for joined, have in zip(joins, cells, strict=True):
                left = have - line.length
                if left >= 0:
                    sums = before[: left + 1] + back[left::-1]
                    at = int(sums.argmax())
                    joined.append(_Join(row, at, left - at, int(sums[at]) + line.worth))
            added = back[: self.cells + 1 - line.length] + back.dtype.type(line.worth)
            np.greater(added, back[line.length :], out=taken[row, line.length :])
            np.maximum(added, back[line.length :], out=back[line.length :])
        return joins, taken

    def _read(self, joins: Sequence[_Join], taken: NDArray[np.bool_]) -> Whole:
        """The pieces of joins, both ways from their lines; all joins at once, a row each."""
        rows = np.array([join.row for join in joins], np.int64)
        before = np.array([join.before for join in joins], np.int64)
        behind = np.array([join.behind for join in joins], np.int64)
        found = np.zeros((len(self.pieces.sizes), len(joins)), np.int64)
        for number, join in enumerate(joins):
            found[self.lines[join.row].place, number] = self.lines[join.row].count
        for row in range(len(self.lines) - 1, -1, -1):
            line = self.lines[row]
            take = (rows > row) & (self.forward[row + 1, before] != self.forward[row, before])
            before -= take * line.length
            found[line.place] += take * line.count
        for row, line in enumerate(self.lines):
            take = (rows < row) & taken[row, behind]
            behind -= take * line.length
            found[line.place] += take * line.count
        return found.T

    def _apart(self, joins: Sequence[_Join], patterns: Whole) -> Iterator[Way]:
        """Ways that are not of the same few pieces."""
        held = np.zeros(len(self.pieces.sizes), np.bool_)
        for join, pattern in zip(joins, patterns, strict=True):
            if not held[self.lines[join.row].place]:
                held |= pattern > 0
                yield Way(join.worth * SHARE, tuple(pattern.tolist()))
