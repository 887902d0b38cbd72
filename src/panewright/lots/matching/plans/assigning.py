"""Pieces dealt anew to strings that stay at their currents: an assignment, solved exactly, again and again.

While each string keeps its current, what a piece gives in it is a number from a table, so the best deal is an
assignment of pieces to seats. Then every string finds its best current, and all are dealt again, until
nothing more is gained. Strings side by side are dealt as if each were alone; those of like voltage then
go together. After that whole strings may be exchanged.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.vectors import Stands, Vectors, stand, summed

_TURNS = 40
_GAIN = 1e-7  # watts
_NEVER = -1e6
_NEAR = 60  # pieces
_STRINGS, _EXCHANGES = 60, 40  # strings of so small a lot, and exchanges of them

Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Places:
    """Where pieces of a deal lie: for every place its string and which pieces may go there."""

    string: Whole  #: counted through all panels
    open_to: Mask  #: (places, pieces)
    shape: tuple[int, ...]  #: of the deal
    flat: Whole  #: where in the deal each place is

    @classmethod
    def of(cls, rules: Rules, strings: Whole) -> Places | None:
        """The places of a deal; None where a string does not go in."""
        found: list[tuple[int, int, Mask]] = []
        length = strings.shape[2]
        for g, row in enumerate(strings.reshape(-1, length)):
            chosen = row[row >= 0]
            seated = rules.seated(g % strings.shape[1], chosen)
            if seated is None:
                return None
            found += _of_string(rules, g, seated, row)
        string, flat, open_to = zip(*found, strict=True)
        return cls(np.array(string), np.array(open_to), strings.shape, np.array(flat))


def _of_string(rules: Rules, group: int, seated: list[list[int]], row: Whole) -> list[tuple[int, int, Mask]]:
    """Places of one string: of each substring so many that a leaky piece may take, and sound ones."""
    first = sum(map(len, rules.seats.strings[: group % len(rules.seats.strings)]))
    found = []
    for k, held in enumerate(seated):
        leaky = rules.most_leaky
        within = rules.seats.substrings[first + k]
        for piece in sorted(held, key=lambda p: -rules.leaks[p]):
            like = (rules.size == rules.size[piece]) & (rules.largest >= rules.seats.driven[first + k])
            if rules.size[piece] > 1:
                same = (rules.leaks == rules.leaks[piece]) & (rules.size[piece] <= within)
                like &= same | (np.arange(rules.size.size) == piece)
                leaky -= int(rules.leaks[piece])
            elif leaky > 0:
                leaky -= 1
            else:
                like &= rules.leaks == 0
            at = group * row.size + int(np.flatnonzero(row == piece)[0])
            found.append((group, at, like))
    return found


def apart(vectors: Vectors) -> Vectors:
    """Strings side by side as if each were alone, with its share of what the leads take."""
    return replace(vectors, strings=1, lead_ohm=vectors.lead_ohm * vectors.strings)


def reassigned(vectors: Vectors, rules: Rules, strings: Whole, currents: Array | None = None) -> Whole:
    """A deal dealt anew until no string gives more; `currents` to begin with, of all strings."""
    places = Places.of(rules, strings) if len(strings) else None
    if places is None:
        return strings
    alone = apart(vectors)
    best, now = strings, _stands(alone, strings)
    power = float(now.power_w.sum())
    current = now.string_a[:, 0] if currents is None else currents
    for turn in range(_TURNS):
        dealt = _dealt(alone, places, current)
        if dealt is None:
            break
        found = _stands(alone, dealt)
        gained = float(found.power_w.sum()) - power
        if gained <= _GAIN and (turn or currents is None):
            break
        best, power, current = dealt, power + gained, found.string_a[:, 0]
    return together(alone, best)


def _stands(alone: Vectors, strings: Whole) -> Stands:
    return stand(alone, summed(alone, strings.reshape(-1, 1, strings.shape[2])))


def _dealt(alone: Vectors, places: Places, current: Array) -> Whole | None:
    """The best deal of all pieces at these currents of the strings."""
    from scipy.optimize import linear_sum_assignment

    watts = alone.at(current)[:, :-1] * current[:, None]
    try:
        place, piece = linear_sum_assignment(-np.where(places.open_to, watts[places.string], _NEVER))
    except ValueError:
        return None
    if not places.open_to[place, piece].all():
        return None
    flat = np.full(int(np.prod(places.shape)), -1, dtype=np.int64)
    flat[places.flat[place]] = piece
    return flat.reshape(places.shape)


def together(alone: Vectors, strings: Whole) -> Whole:
    """Strings of like voltage side by side; series panels stay as they are."""
    panels, count, length = strings.shape
    if count == 1:
        return strings
    found = _stands(alone, strings)
    volt = found.power_w / found.string_a[:, 0]
    order = np.argsort(-volt, kind="stable")
    return np.asarray(strings.reshape(-1, length)[order].reshape(panels, count, length))


Worth = Callable[[Whole, Array], Array]  #: places of panels and their watts; what they are worth


def _watts(_places: Whole, watts: Array) -> Array:
    return watts


def regrouped(vectors: Vectors, strings: Whole, worth: Worth = _watts) -> Whole:
    """Whole strings exchanged between panels, the best exchange first, as long as that pays."""
    panels, count, length = strings.shape
    if count == 1 or panels < 2 or panels * count > _STRINGS:
        return strings
    rows, sums = strings.reshape(-1, length).copy(), summed(vectors, strings.reshape(-1, length))
    one, other = np.triu_indices(panels * count, 1)
    apart_too = one // count != other // count
    one, other = one[apart_too], other[apart_too]
    places = np.arange(panels * count).reshape(panels, count)
    for _ in range(_EXCHANGES):
        now = worth(np.arange(panels), stand(vectors, sums[places]).power_w)
        gain = -now[one // count] - now[other // count]
        for here, there in ((one, other), (other, one)):
            tried = places[here // count].copy()
            tried[np.arange(here.size), here % count] = there
            gain += worth(here // count, stand(vectors, sums[tried]).power_w)
        best = int(gain.argmax())
        if gain[best] <= _GAIN:
            break
        pair = [int(one[best]), int(other[best])]
        rows[pair], sums[pair] = rows[pair[::-1]], sums[pair[::-1]]
    return rows.reshape(panels, count, length)


def currents_of(vectors: Vectors, strings: Whole) -> Array:
    """The best current of every string of a deal by itself, string after string. [A]"""
    return np.asarray(_stands(apart(vectors), strings).string_a[:, 0])


def near(rules: Rules, strings: Whole, current: Array) -> Mask:
    """For every string the pieces of those that work at like currents, and all that is left over."""
    rows = strings.reshape(-1, strings.shape[2])
    order = np.argsort(-current, kind="stable")
    reach = max(1, -(-_NEAR // rows.shape[1]))
    left = np.ones(rules.size.size, dtype=bool)
    left[rows[rows >= 0]] = False
    table = np.tile(left, (len(rows), 1))
    for place, string in enumerate(order.tolist()):
        beside = rows[order[max(0, place - reach) : place + reach + 1]]
        table[string, beside[beside >= 0]] = True
    return table
