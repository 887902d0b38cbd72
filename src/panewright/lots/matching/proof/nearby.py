"""A case's prices sought near its cut alone: far pieces keep theirs, but for a shift on either side of it.

A cut between two currents moves the prices of pieces that work near it; beyond, all rise or fall together. So
a small programme will do, in which one line stands for all strings far off. Whatever prices it finds are
reckoned over all stretches like any others.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.programme import (
    Line,
    Mask,
    Solved,
    above,
    cut,
    filled,
    gain_of,
    no_more,
    taken_by,
)
from panewright.lots.matching.proof.settling import Found
from panewright.lots.matching.proof.windows import Windows

_REACH = 2.5  # strings on either side of the one that is parted
_DUST = 1e-6  # watts: a piece so cheap need not be taken


@dataclass(frozen=True, slots=True)
class Held:
    """Prices that are held, but those of pieces near a cut; which of the others lie above it."""

    prices: Array
    near: Mask
    above: Mask

    @classmethod
    def about(cls, found: Found, place: int) -> Held:
        """Of a string by its place in falling order of currents, pieces in the order of their own."""
        table, length = found.shop.ceilings, found.shop.room.length
        half = table.low_a.size
        own_a = table.low_a[np.maximum(table.piece_w[:half], table.piece_w[half:]).argmax(axis=0)]
        rank = np.empty(own_a.size, dtype=np.int64)
        rank[np.argsort(-own_a, kind="stable")] = np.arange(own_a.size)
        at = length * (place + 0.5)
        return cls(found.prices, np.abs(rank - at) <= _REACH * length, rank < at)

    @property
    def sides(self) -> list[Whole]:
        """Far pieces that have a price, on either side."""
        far = ~self.near & (self.prices > _DUST)
        return [side for each in (self.above, ~self.above) if (side := np.flatnonzero(far & each)).size]

    def lines(self, found: Found, windows: Windows) -> dict[int, Mask]:
        """Rows to begin with: those in which near pieces are taken, and of each far part the dearest."""
        table, half = found.shop.ceilings, found.shop.ceilings.low_a.size
        worth, best = found.shop.sets(np.ones(2 * half), self.prices)
        near = best.taken[:, self.near].max(axis=1, initial=0.0) > 0
        begin = {row: mask.copy() for row, mask in found.open_to.items() if near[row]}
        edges = np.array([at for at, _, _ in windows.cuts()])
        part = 2 * above(np.tile(table.low_a, 2)[:, None], edges[None]).sum(axis=1)
        part += best.taken[:, self.above].sum(axis=1) > found.shop.room.length / 2
        for cuts in np.unique(part[~near]).tolist():
            row = int(np.where(~near & (part == cuts), worth, -np.inf).argmax())
            begin[row] = best.taken[row] > 0
        return begin

    def solved(self, shop: Shop, lines: tuple[Line, ...], open_to: Mask, windows: Windows) -> Solved | None:
        """As the programme over stretches, with these prices held."""
        from scipy.optimize import linprog
        from scipy.sparse import csr_matrix, vstack

        table, room, count = shop.ceilings, shop.room, shop.room.size.size
        line, piece = np.nonzero(open_to & ~room.shut)
        rows, fixed = np.array([each.row for each in lines]), np.where(self.near, 0.0, self.prices)
        gain = np.concatenate([gain_of(table, lines, (line, piece)) - fixed[piece], taken_by(table, lines)])
        less, least = no_more(shop, (line, piece), len(lines), windows.low_a.size)
        once, near, sides, cuts = less[:count], np.flatnonzero(self.near), self.sides, windows.cuts()
        bounds = vstack([once[near], less[count:]]).tocsr(), np.concatenate([least[near], least[count:]])
        less, least = cut(shop, bounds, rows % table.low_a.size, cuts) if cuts else bounds
        same = vstack(
            [filled(shop, (line, piece), lines), *(csr_matrix(once[side].sum(axis=0)) for side in sides)]
        )
        taken = np.array([0.0] * (same.shape[0] - len(sides)) + [float(side.size) for side in sides])
        found = linprog(-gain, less, least, same.tocsr(), taken, method="highs")
        if found.status != 0 or found.x is None:
            return None
        duals, prices = -found.ineqlin.marginals, fixed
        prices[near] = duals[: near.size]
        for side, shift in zip(sides, -found.eqlin.marginals[taken.size - len(sides) :], strict=True):
            prices[side] += shift
        level = duals[duals.size - len(cuts) - 1]
        prices = np.where(self.prices > _DUST, prices + level / room.length, prices)
        pays = np.zeros(table.low_a.size)
        for (at, _, least_so), dual in zip(cuts, duals[duals.size - len(cuts) :].tolist(), strict=True):
            pays += np.where(above(table.low_a, at), -dual if least_so else dual, 0.0)
        value = float(gain @ found.x + self.prices[~self.near].sum())
        return Solved(np.maximum(0.0, prices), value, found.x[line.size :], pays)


def between(found: Found, parent: Found, place: int) -> Found:
    """Where strings work: near the place as found, farther off as they did before."""
    low, high = place + 0.5 - _REACH, place + 0.5 + _REACH
    parts = [
        _some(parent, -np.inf, low),
        _some(found, low, high),
        _some(parent, high, np.inf),
    ]
    current, strings = (np.concatenate(each) for each in zip(*parts, strict=True))
    open_to = {row: mask.copy() for row, mask in parent.open_to.items()}
    for row, mask in found.open_to.items():
        open_to[row] = open_to.get(row, np.zeros_like(mask)) | mask
    return replace(found, current_a=current, strings=strings, open_to=open_to)


def _some(found: Found, low: float, high: float) -> tuple[Array, Array]:
    """Strings from one place to another, in falling order of their currents."""
    order = np.argsort(-found.current_a, kind="stable")
    to = np.cumsum(found.strings[order])
    share = np.minimum(to, high) - np.maximum(to - found.strings[order], low)
    return found.current_a[order][share > _DUST], share[share > _DUST]
