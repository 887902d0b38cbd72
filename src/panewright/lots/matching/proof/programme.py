"""The linear programme over stretches of current itself: how many strings work in each, with which pieces.

    most     sum of what pieces give in the stretches they are in
    so that  a stretch's pieces fill its strings, none of them more than once a string;
             no piece is taken more than once, and there are no more strings than that

It says the same as the programme over panels, without asking for panel after panel; so it is quick where
pieces are hundreds. Its prices are good ones; what they prove is reckoned elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.fills import Fill
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.relieved import Relieved
from panewright.lots.matching.proof.windows import Windows

Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Line:
    """A row of the ceilings, and how many pieces of each size fill a string there; none: it gives nothing."""

    row: int
    fill: Fill
    past: Relieved | None = (
        None  #: diodes carry the current past substrings: of the others none is below nothing
    )


@dataclass(frozen=True, slots=True)
class Solved:
    """Prices of pieces, the value reached, and how many strings work in each line."""

    prices: Array
    value: float
    strings: Array
    pays: Array  #: of every stretch: what another string in it would have to bring


def solved(shop: Shop, lines: tuple[Line, ...], open_to: Mask, windows: Windows) -> Solved | None:
    """Most watts of strings in these lines and windows; `open_to` (lines, pieces) may be in them."""
    from scipy.optimize import linprog

    table, room = shop.ceilings, shop.room
    line, piece = np.nonzero(open_to & ~room.shut)
    rows = np.array([each.row for each in lines])
    gain = np.concatenate([gain_of(table, lines, (line, piece)), taken_by(table, lines)])
    less, least = no_more(shop, (line, piece), len(lines), windows.low_a.size)
    cuts = windows.cuts()
    if cuts:
        less, least = cut(shop, (less, least), rows % table.low_a.size, cuts)
    same = filled(shop, (line, piece), lines)
    found = linprog(-gain, less, least, same, np.zeros(same.shape[0]), method="highs")
    if found.status != 0 or found.x is None:
        return None
    duals = -found.ineqlin.marginals
    pays = np.full(table.low_a.size, duals[duals.size - len(cuts) - 1])
    for (at, _, least_so), dual in zip(cuts, duals[duals.size - len(cuts) :].tolist(), strict=True):
        pays += np.where(above(table.low_a, at), -dual if least_so else dual, 0.0)
    return Solved(np.maximum(0.0, duals[: room.size.size]), float(gain @ found.x), found.x[line.size :], pays)


def gain_of(table: Ceilings, lines: tuple[Line, ...], where: tuple[Whole, Whole]) -> Array:
    """What pieces give in their lines. [W]"""
    line, piece = where
    found = table.piece_w[np.array([each.row for each in lines])[line], piece]
    past = np.array([each.past is not None for each in lines])[line]
    return np.asarray(np.where(past, np.maximum(found, 0.0), found))


def taken_by(table: Ceilings, lines: tuple[Line, ...]) -> Array:
    """What wiring and diodes take of every line's string; of one that gives nothing nearly nothing. [W]"""
    deep = [0 if each.past is None else each.past.deep for each in lines]
    return np.array(
        [
            float(table.string_w[each.row] - n * table.drop_w[each.row]) if any(each.fill) else 0.0
            for each, n in zip(lines, deep, strict=True)
        ]
    )


def above(low_a: Array, at_a: float | Array) -> Mask:
    """Stretches that lie above a current, which is an end of some."""
    return np.asarray(low_a >= at_a * (1 - 1e-12))


def cut(shop: Shop, limits, stretch: Whole, cuts: list[tuple[float, int, bool]]):  # type: ignore[no-untyped-def]
    """So many strings, at least or at most, work above some currents."""
    from scipy.sparse import csr_matrix, hstack, vstack

    less, least = limits
    over = np.array([above(shop.ceilings.low_a[stretch], at) for at, _, _ in cuts], dtype=float)
    sign = np.array([-1.0 if least_so else 1.0 for _, _, least_so in cuts])
    empty = csr_matrix((len(cuts), less.shape[1] - stretch.size))
    more = hstack([empty, csr_matrix(sign[:, None] * over)])
    most = sign * np.array([float(count) for _, count, _ in cuts])
    return vstack([less, more]).tocsr(), np.concatenate([least, most])


def no_more(shop: Shop, where: tuple[Whole, Whole], lines: int, strings: int):  # type: ignore[no-untyped-def]
    """No piece more than once, nor in more strings than there are; limits of kinds; so many strings."""
    from scipy.sparse import csr_matrix, vstack

    (line, piece), room = where, shop.room
    count, every = line.size, np.arange(line.size)
    ones, wide = np.ones(count), count + lines
    once = csr_matrix((ones, (piece, every)), (room.size.size, wide))
    each = csr_matrix(
        (np.concatenate([ones, -ones]), (np.tile(every, 2), np.concatenate([every, count + line]))),
        (count, wide),
    )
    parts, limit = [once, each], [np.ones(room.size.size), np.zeros(count)]
    for kind, most in ((room.leaky, room.most_leaky), (room.short, room.most_short)):
        mine = np.flatnonzero(kind[piece])
        if mine.size:
            data = np.concatenate([np.ones(mine.size), np.full(lines, -float(most))])
            at = (
                np.concatenate([line[mine], np.arange(lines)]),
                np.concatenate([mine, count + np.arange(lines)]),
            )
            parts.append(csr_matrix((data, at), (lines, wide)))
            limit.append(np.zeros(lines))
    total = csr_matrix((np.ones(lines), (np.zeros(lines, dtype=int), count + np.arange(lines))), (1, wide))
    return vstack([*parts, total]).tocsr(), np.concatenate([*limit, [float(strings)]])


def filled(shop: Shop, where: tuple[Whole, Whole], lines: tuple[Line, ...]):  # type: ignore[no-untyped-def]
    """Pieces of every size fill the strings of their line."""
    from scipy.sparse import csr_matrix, vstack

    (line, piece), room = where, shop.room
    count = line.size
    parts = []
    for s, size in enumerate(room.sizes.tolist()):
        mine = np.flatnonzero(room.size[piece] == size)
        wanted = np.array([float(each.fill[s]) for each in lines])
        data = np.concatenate([np.ones(mine.size), -wanted])
        at = (
            np.concatenate([line[mine], np.arange(len(lines))]),
            np.concatenate([mine, count + np.arange(len(lines))]),
        )
        parts.append(csr_matrix((data, at), (len(lines), count + len(lines))))
    return vstack(parts).tocsr()
