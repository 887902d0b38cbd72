"""Panels lifted to what is asked of each: pieces dealt in parts by a linear programme, then made whole.

While every string keeps its current, what a piece gives in it is a number from a table. So the deal by which
the panel that is furthest below what is asked of it gives most is a linear programme; strings side by side
are held to one voltage. Its answer has few pieces in parts, for it has few rows besides those of single
pieces; these are put where they mostly are. Then every string finds its own current, and all begins again.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.matching.assigning import Places, near
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.vectors import Stands, Vectors, stand, summed

_TURNS = 5
_ALL = 20_000  # places times pieces: more, and only pieces near by are looked at
_WHOLE = 1 - 1e-6
_AMPLE = 3e-4  # of what is asked: so much above it is enough
_DEAR = 1e3  # a watt short outweighs what is left over
_LITTLE = 1e-3  # watts above what is asked of all, beside the least of them


@dataclass(frozen=True, slots=True)
class Wish:
    """What is asked of each panel, and what leaving each piece over is worth."""

    need_w: Array
    left: Array | None = None  #: None: nothing


@dataclass(frozen=True, slots=True)
class Bays:
    """Places of one string that are open to the same pieces, as one; and which pieces may come."""

    string: Whole
    count: Whole
    bay: Whole  #: of every place
    at: Whole  #: of every open pair its bay
    piece: Whole  #: and its piece

    @classmethod
    def of(cls, places: Places, beside: NDArray[np.bool_] | None) -> Bays:
        """Places of a deal brought together; `beside` (strings, pieces) are looked at, None for all."""
        key = np.column_stack([places.string, np.packbits(places.open_to, axis=1)])
        _, first, bay, count = np.unique(
            key, axis=0, return_index=True, return_inverse=True, return_counts=True
        )
        string = places.string[first]
        open_to = places.open_to[first]
        if beside is not None:
            open_to = open_to & beside[string]
        at, piece = np.nonzero(open_to)
        return cls(string, count, bay.reshape(-1), at, piece)


def lifted(vectors: Vectors, rules: Rules, strings: Whole, wish: Wish) -> Whole:
    """A deal in which the panel furthest below what is asked is as strong as can be, as far as is seen."""
    places = Places.of(rules, strings) if len(strings) else None
    if places is None:
        return strings
    best, now = strings, stand(vectors, summed(vectors, strings))
    short = _short(now, wish)
    for _ in range(_TURNS):
        beside = None
        if places.string.size * rules.size.size > _ALL * strings.shape[2]:
            beside = near(rules, best, now.string_a.reshape(-1))
        dealt = _dealt(vectors, places, Bays.of(places, beside), now, wish)
        if dealt is None:
            break
        now = stand(vectors, summed(vectors, dealt))
        again = _short(now, wish)
        if again >= short - 1e-7:
            break
        best, short = dealt, again
    return best


def _short(now: Stands, wish: Wish) -> float:
    """How many watts the worst panel is short, or has to spare."""
    return float((wish.need_w - now.power_w).max())


def _dealt(vectors: Vectors, places: Places, bays: Bays, now: Stands, wish: Wish) -> Whole | None:
    """The deal in parts at these currents of the strings, made whole."""
    from scipy.optimize import linprog

    gain, rows, limit, same, equal = _programme(vectors, bays, now, wish)
    bounds: list[tuple[float, float]] = [(0.0, np.inf)] * gain.size
    bounds[bays.at.size] = (-np.inf, _AMPLE * float(wish.need_w.mean()))
    found = linprog(-gain, rows, limit, same, equal, bounds, method="highs")
    if found.status != 0 or found.x is None:
        return None
    return _made_whole(places, bays, found.x[: bays.at.size])


def _programme(vectors: Vectors, bays: Bays, now: Stands, wish: Wish):  # type: ignore[no-untyped-def]
    """Gain, rows of what is no more, and rows of what is just so; after the pairs: the least, and volts."""
    from scipy.sparse import coo_matrix, vstack

    amps, per = now.string_a.reshape(-1), now.string_a.shape[1]
    pairs, panels = bays.at.size, len(wish.need_w)
    wide = pairs + 1 + (panels if per > 1 else 0)
    every, string = np.arange(pairs), bays.string[bays.at]
    panel, volt = string // per, vectors.at(amps)[string, bays.piece]
    pieces = int(bays.piece.max()) + 1
    once = coo_matrix((np.ones(pairs), (bays.piece, every)), (pieces, wide))
    taken_v = np.interp(amps, vectors.current_a, vectors.taken_v)
    taken = (taken_v * amps).reshape(-1, per).sum(axis=1) + vectors.lead_ohm * now.string_a.sum(axis=1) ** 2
    data = np.concatenate([-volt * amps[string], np.ones(panels)])
    at = (np.concatenate([panel, np.arange(panels)]), np.concatenate([every, np.full(panels, pairs)]))
    rows = vstack([once, coo_matrix((data, at), (panels, wide))]).tocsr()
    limit = np.concatenate([np.ones(pieces), -(wish.need_w + taken)])
    full = coo_matrix((np.ones(pairs), (bays.at, every)), (bays.count.size, wide))
    same, equal = [full], [bays.count.astype(float)]
    if per > 1:
        every_string = np.arange(amps.size)
        data = np.concatenate([volt, -np.ones(amps.size)])
        at = (
            np.concatenate([string, every_string]),
            np.concatenate([every, pairs + 1 + every_string // per]),
        )
        same.append(coo_matrix((data, at), (amps.size, wide)))
        equal.append(taken_v)
    gain = np.zeros(wide)
    if wish.left is None:
        gain[:pairs] = _LITTLE * volt * amps[string]
        gain[pairs] = 1.0
    else:
        gain[:pairs] = -wish.left[bays.piece]
        gain[pairs] = _DEAR
    return gain, rows, limit, vstack(same).tocsr(), np.concatenate(equal)


def _made_whole(places: Places, bays: Bays, parts: Array) -> Whole | None:
    """Whole pieces stay in their bay; what is in parts goes where most of it is."""
    from scipy.optimize import linear_sum_assignment

    free = [list(each) for each in np.split(np.argsort(bays.bay, kind="stable"), np.cumsum(bays.count)[:-1])]
    flat = np.full(int(np.prod(places.shape)), -1, dtype=np.int64)
    whole = parts >= _WHOLE
    for bay, piece in zip(bays.at[whole].tolist(), bays.piece[whole].tolist(), strict=True):
        flat[places.flat[free[bay].pop()]] = piece
    open_places = np.array([place for each in free for place in each], dtype=np.int64)
    if open_places.size:
        taken = np.zeros(places.open_to.shape[1], dtype=bool)
        taken[bays.piece[whole]] = True
        rest = np.flatnonzero(~taken)
        share = np.zeros((bays.count.size, taken.size))
        share[bays.at, bays.piece] = parts
        worth = share[bays.bay[open_places]][:, rest]
        may = places.open_to[open_places][:, rest]
        try:
            place, piece = linear_sum_assignment(np.where(may, -worth, 1e3))
        except ValueError:
            return None
        if place.size < open_places.size or not may[place, piece].all():
            return None
        flat[places.flat[open_places[place]]] = rest[piece]
    return flat.reshape(places.shape)
