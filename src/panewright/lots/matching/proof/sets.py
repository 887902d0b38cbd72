"""The dearest pieces that fill a string, where every piece has a value: the step that all bounds rest on."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.matching.pieces import Pieces
from panewright.lots.matching.proof.fills import Fill, fills_of
from panewright.lots.matching.seats import Seats

NEVER = -1e18


@dataclass(frozen=True, slots=True)
class Room:
    """What one string holds: so many cells, and of some kinds of piece no more than so many cells."""

    length: int
    size: NDArray[np.int64]  #: of every piece
    leaky: NDArray[np.bool_]  #: pieces that count against the leaky
    most_leaky: int  #: leaky pieces in a string
    shut: NDArray[np.bool_]  #: pieces that may sit nowhere
    short: NDArray[np.bool_]  #: pieces that may not sit everywhere
    most_short: int  #: such pieces in a string
    fills: tuple[Fill, ...] = field(default=())  #: ways to fill a string; none where there are too many

    @property
    def sizes(self) -> NDArray[np.int64]:
        """Sizes that there are, as fills count them."""
        return np.unique(self.size)

    @classmethod
    def of(cls, pieces: Pieces, seats: Seats, most_leaky: int) -> Room:
        """The room of the string that holds most of each kind."""
        size, largest, leaks = pieces.size, pieces.largest, pieces.leaks
        driven, longest = (
            np.array(seats.driven),
            int(largest.max(initial=0, where=largest < max(seats.driven))),
        )
        open_seats = np.where(driven <= longest, seats.substrings, 0)
        for_short = np.bincount(seats.string_of_substring, open_seats)
        return cls(
            seats.length,
            size,
            leaks > 0,
            max(map(len, seats.strings)) * most_leaky,
            (largest < driven.min()) | (leaks > _within(seats, size, most_leaky)),
            largest < driven.max(),
            int(for_short.max()),
            fills_of(size[largest >= driven.min()], np.unique(size), seats.strings),
        )


def _within(seats: Seats, size: NDArray[np.int64], most_leaky: int) -> NDArray[np.int64]:
    """Leaky cells that a piece may have: one substring's, or those of all that it reaches over."""
    return most_leaky * np.ceil(size / min(seats.substrings)).astype(np.int64)


@dataclass(frozen=True, slots=True)
class Best:
    """For every row of values: the sum of the dearest full set, and how much of each piece is in it."""

    worth: Array
    taken: Array


def dearest(values: Array, room: Room) -> Best:
    """The dearest set that fills a string, for every row of values (rows, pieces).

    So many pieces of each size as one of the fills has. Where fills are too many: as if a piece could be
    taken in part, which is worth no less. Where two kinds are limited, each is kept alone, and the better
    bound counts.
    """
    best = _fullest(np.where(room.shut, NEVER, values), room)
    for kind, most in ((room.leaky, room.most_leaky), (room.short, room.most_short)):
        if kind.any():
            kept = _thinned(np.where(room.shut, NEVER, values), kind, most)
            other = _fullest(kept, room)
            less = other.worth < best.worth
            best = Best(
                np.where(less, other.worth, best.worth), np.where(less[:, None], other.taken, best.taken)
            )
    return best


def _thinned(values: Array, kind: NDArray[np.bool_], most: int) -> Array:
    """Only the dearest `most` pieces of a kind are left in every row."""
    columns = np.flatnonzero(kind)
    if columns.size <= most:
        return values
    kept = values.copy()
    order = np.argpartition(-values[:, columns], most, axis=1)[:, most:] if most else None
    dropped = columns[order] if order is not None else np.tile(columns, (len(values), 1))
    np.put_along_axis(kept, dropped, NEVER, axis=1)
    return kept


def _fullest(values: Array, room: Room) -> Best:
    sizes = np.unique(room.size)
    if sizes.size == 1:
        return _counted(values, room.length // int(sizes[0]))
    return _by_fill(values, room) if room.fills else _filled(values, room)


def _counted(values: Array, count: int) -> Best:
    """Exactly so many pieces."""
    taken = np.zeros_like(values)
    if count > values.shape[1]:
        return Best(np.full(len(values), NEVER), taken)
    at = np.argpartition(-values, count - 1, axis=1)[:, :count]
    np.put_along_axis(taken, at, 1.0, axis=1)
    return Best(np.take_along_axis(values, at, axis=1).sum(axis=1), taken)


def _by_fill(values: Array, room: Room) -> Best:
    """The best of all fills, each with its dearest pieces of every size."""
    counts = np.array(room.fills)
    worth = np.zeros((len(values), len(counts)))
    orders = []
    for s, size in enumerate(room.sizes.tolist()):
        mine = np.flatnonzero(room.size == size)
        order = mine[np.argsort(-values[:, mine], axis=1, kind="stable")[:, : int(counts[:, s].max())]]
        sums = np.cumsum(np.take_along_axis(values, order, axis=1), axis=1)
        worth += np.hstack([np.zeros((len(values), 1)), sums])[:, counts[:, s]]
        orders.append(order)
    best, taken = worth.argmax(axis=1), np.zeros_like(values)
    for s, order in enumerate(orders):
        within = np.arange(order.shape[1]) < counts[best, s][:, None]
        np.put_along_axis(taken, order, within.astype(float), axis=1)
    return Best(worth.max(axis=1), taken)


def _filled(values: Array, room: Room) -> Best:
    """Pieces by their value for a cell until the string is full, the last one in part."""
    density = values / room.size
    order = np.argsort(-density, axis=1, kind="stable")
    size = room.size[order]
    before = np.cumsum(size, axis=1) - size
    share = np.clip((room.length - before) / size, 0.0, 1.0)
    taken = np.zeros_like(values)
    np.put_along_axis(taken, order, share, axis=1)
    return Best((taken * np.where(taken > 0, values, 0.0)).sum(axis=1), taken)
