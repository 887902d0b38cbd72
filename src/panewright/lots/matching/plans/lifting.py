"""Panels lifted to what is asked of each: pieces dealt in parts by a linear programme, then made whole.

While every string keeps its current, what a piece gives in it is a number from a table. So the deal by which
the panel that is furthest below what is asked of it gives most is a linear programme; strings side by side
share a voltage, and pay for what they have more or less. Its answer has few pieces in parts, for it has few
rows besides those of single pieces; these are put where they mostly are. Then every string finds its own
current, and all begins again.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.assigning import Places, near
from panewright.lots.matching.plans.bending import Bends
from panewright.lots.matching.vectors import Stands, Vectors, stand, summed

_TURNS = 5
_ALL = 20_000  # places times pieces: more, and only pieces near by are looked at
_WHOLE = 1 - 1e-6
_AMPLE = 3e-4  # of what is asked: so much above it is enough
_LITTLE = 1e-3  # watts above what is asked of all, beside the least of them


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


def lifted(vectors: Vectors, rules: Rules, strings: Whole, need_w: Array) -> Whole:
    """A deal in which panels are as little short of what is asked of them as is seen."""
    best, now = strings, strings
    short = _short(vectors, strings, need_w) if len(strings) else 0.0
    for _ in range(_TURNS):
        found = dealt_for(vectors, rules, now, need_w)
        if found is None:
            break
        again = _short(vectors, found, need_w)
        if again >= short - 1e-7:
            break
        best, now, short = found, found, again
    return best


def dealt_for(vectors: Vectors, rules: Rules, strings: Whole, need_w: Array) -> Whole | None:
    """All pieces dealt for what is asked at the currents of these strings; None where that is not seen."""
    places = Places.of(rules, strings) if len(strings) else None
    if places is None:
        return None
    sums = summed(vectors, strings)
    now = stand(vectors, sums)
    beside = None
    if places.string.size * rules.size.size > _ALL * strings.shape[2]:
        beside = near(rules, strings, now.string_a.reshape(-1))
    return _dealt(vectors, places, Bays.of(places, beside), (now, sums), need_w)


def _short(vectors: Vectors, strings: Whole, need_w: Array) -> float:
    """How many watts the worst panel is short, or has to spare."""
    return float((need_w - stand(vectors, summed(vectors, strings)).power_w).max())


def _dealt(
    vectors: Vectors, places: Places, bays: Bays, at: tuple[Stands, Array], need_w: Array
) -> Whole | None:
    """The deal in parts at these currents of the strings, made whole."""
    from scipy.optimize import linprog

    lines = (_alone if vectors.strings == 1 else _abreast)(vectors, bays, at, need_w)
    gain = np.zeros(lines.most.size)
    gain[: bays.at.size], gain[bays.at.size] = _LITTLE * lines.watts, 1.0
    bounds = [(0.0, most) for most in lines.most.tolist()]
    bounds[bays.at.size] = (-np.inf, bounds[bays.at.size][1])
    found = linprog(-gain, lines.rows, lines.limit, lines.same, lines.equal, bounds, method="highs")
    if found.status != 0 or found.x is None:
        return None
    return _made_whole(places, bays, found.x[: bays.at.size])


@dataclass(frozen=True, slots=True)
class Lines:
    """The programme: columns are pairs of bay and piece, the least panel, then what strings need besides."""

    watts: Array  #: of every pair at its string's current
    rows: Any  #: of what is no more than `limit`
    limit: Array
    same: Any  #: of what is just `equal`
    equal: Array
    most: Array  #: of every column


def _alone(vectors: Vectors, bays: Bays, at: tuple[Stands, Array], need_w: Array) -> Lines:
    """Panels of one string: watts at its current."""
    amps = at[0].string_a[:, 0]
    pairs, panels, string = bays.at.size, np.arange(need_w.size), bays.string[bays.at]
    watts = vectors.at(amps)[string, bays.piece] * amps[string]
    taken = np.interp(amps, vectors.current_a, vectors.taken_v) * amps + vectors.lead_ohm * amps**2
    table = (
        np.concatenate([-watts, np.ones(panels.size)]),
        (np.concatenate([string, panels]), np.append(np.arange(pairs), np.full(panels.size, pairs))),
    )
    return _lines(bays, watts, (table, need_w + taken), None, np.array([_AMPLE * need_w.mean()]))


def _abreast(vectors: Vectors, bays: Bays, at: tuple[Stands, Array], need_w: Array) -> Lines:
    """Panels of several strings: each has its panel's volts, and some more or fewer at a price.

    Columns besides: volts of panels; steps of volts that strings have more, then less. At the panel's voltage
    a string gives its current and what the steps change of it.
    """
    now, sums = at
    amps, per, panels = now.string_a.reshape(-1), now.string_a.shape[1], need_w.size
    bends = Bends.of(vectors, sums.reshape(amps.size, -1), amps)
    pairs, string, every = bays.at.size, bays.string[bays.at], np.arange(amps.size)
    volt = vectors.at(amps)[string, bays.piece]
    total, steps = now.string_a.sum(axis=1), bends.step_v.size
    usual = bends.volt_v.reshape(panels, per).mean(axis=1) - 2 * vectors.lead_ohm * total
    each, panel = np.repeat(every, bends.step_v.shape[1]), np.arange(panels)
    more, less = (usual[each // per] * slope.reshape(-1) for slope in (bends.more_a, bends.less_a))
    own, up = pairs + 1 + panel, pairs + 1 + panels + np.arange(steps)
    power = (
        np.concatenate([np.ones(panels), -total, -more, less]),
        (
            np.concatenate([panel, panel, each // per, each // per]),
            np.concatenate([np.full(panels, pairs), own, up, up + steps]),
        ),
    )
    held = (
        np.concatenate([volt, -np.ones(amps.size + steps), np.ones(steps)]),
        (
            np.concatenate([string, every, each, each]),
            np.concatenate([np.arange(pairs), own[every // per], up, up + steps]),
        ),
    )
    taken = np.interp(amps, vectors.current_a, vectors.taken_v)
    widest = np.concatenate(
        [[_AMPLE * need_w.mean()], np.full(panels, np.inf), *[bends.step_v.reshape(-1)] * 2]
    )
    needed = need_w + vectors.lead_ohm * total**2
    return _lines(bays, volt * amps[string], (power, needed), (held, taken), widest)


Entries = tuple[Array, tuple[Whole, Whole]]


def _lines(
    bays: Bays, watts: Array, power: tuple[Entries, Array], held: tuple[Entries, Array] | None, widest: Array
) -> Lines:
    """No piece twice, every bay full, and what panels and strings need."""
    from scipy.sparse import csr_matrix, vstack

    pairs, wide = np.arange(bays.at.size), bays.at.size + widest.size
    pieces, ones = int(bays.piece.max()) + 1, np.ones(bays.at.size)
    once = csr_matrix((ones, (bays.piece, pairs)), (pieces, wide))
    full = csr_matrix((ones, (bays.at, pairs)), (bays.count.size, wide))
    rows = vstack([once, csr_matrix(power[0], (power[1].size, wide))]).tocsr()
    same, equal = [full], [bays.count.astype(float)]
    if held is not None:
        same.append(csr_matrix(held[0], (held[1].size, wide)))
        equal.append(held[1])
    limit = np.concatenate([np.ones(pieces), -power[1]])
    most = np.concatenate([np.full(pairs.size, np.inf), widest])
    return Lines(watts, rows, limit, vstack(same).tocsr(), np.concatenate(equal), most)


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
