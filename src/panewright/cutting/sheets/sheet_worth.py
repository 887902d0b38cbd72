"""What the panels of one sheet can be worth at most, by any cuts from edge to edge.

Dynamic programming over plates [B]: a plate is worth its dearest panel, or what the two parts of its best
cut are worth. Cuts are tried where panels side by side end [H]; any other plate is as good as the largest of
these within it. A panel may come out more often than it is wanted, strips may be narrow and turns many: so no
real cuts give more. Worths are whole numbers of a small share, so that sums are exact.

[B] J. E. Beasley, Algorithms for unconstrained two-dimensional guillotine cutting, Journal of the Operational
Research Society 36 (1985) 297 (recalled). [H] see `panewright.cutting.sheets.guillotine`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.cutting.sheets.panel_ends import ACROSS, ALONG, Filled, Kind, Rules

SHARE = 2.0**-30  #: worths are whole numbers of this
MOST_PLATES = 60_000  #: of more the table would take too long

Worth = NDArray[np.float64]
Places = NDArray[Any]
Splits = list[tuple[Places, Places]]
"""For each length the places of the two parts of all its cuts."""


class Plates:
    """All plates of a sheet; asked again and again with other prices."""

    def __init__(self, size: tuple[int, int], kinds: Sequence[Kind], kerf: int) -> None:
        filled = Filled(kinds, Rules(kerf, 0, 0, single=False, keep=None), max(size))
        self.kinds = tuple(kinds)
        self._widths = filled.ends(size[0] + 1, size[1], ACROSS)
        self._heights = filled.ends(size[1] + 1, size[0], ALONG)
        self.number = len(self._widths) * len(self._heights)
        self.many = self.number > MOST_PLATES
        if not self.many:
            self._across, self._along = _splits(self._widths, kerf), _splits(self._heights, kerf)

    def dearest(self, worth: Sequence[float]) -> tuple[float, tuple[int, ...]]:
        """The most that a sheet gives, and how many of each kind then come off it.

        `worth` of each kind in whole numbers of `SHARE`.
        """
        if not self._widths or not self._heights:
            return 0.0, (0,) * len(self.kinds)
        table = self._singles(worth)
        for place, (first, rest) in enumerate(self._across):
            row = table[place]
            if place:
                np.maximum(row, table[place - 1], out=row)
            if len(first):
                np.maximum(row, (table[first] + table[rest]).max(axis=0), out=row)
            _cut_along(row, self._along)
        counts = [0] * len(self.kinds)
        self._read(table, worth, counts)
        return float(table[-1, -1]), tuple(counts)

    def _singles(self, worth: Sequence[float]) -> Worth:
        """Every plate worth the dearest single panel within it."""
        table = np.zeros((len(self._widths), len(self._heights)))
        for _, each, wide, high in self._lying(worth):
            np.maximum(table[wide:, high:], each, out=table[wide:, high:])
        return table

    def _lying(self, worth: Sequence[float]) -> list[tuple[int, float, int, int]]:
        """Kinds in each way that fits: kind, worth, and the places of its sides."""
        wide = {length: place for place, length in enumerate(self._widths)}
        high = {length: place for place, length in enumerate(self._heights)}
        return [
            (index, worth[index], wide[way[0]], high[way[1]])
            for index, kind in enumerate(self.kinds)
            for way in kind.ways
            if way[0] in wide and way[1] in high
        ]

    def _read(self, table: Worth, worth: Sequence[float], counts: list[int]) -> None:
        """The panels of the dearest cuts, followed backwards."""
        lying = self._lying(worth)
        left = [(len(self._widths) - 1, len(self._heights) - 1)]
        while left:
            wide, high = left.pop()
            here = table[wide, high]
            if here <= 0:
                continue
            one = next((k for k, w, x, y in lying if w == here and x <= wide and y <= high), None)
            if one is not None:
                counts[one] += 1
                continue
            left += self._parts(table, wide, high)

    def _parts(self, table: Worth, wide: int, high: int) -> list[tuple[int, int]]:
        """The smaller plates that are worth as much together as this one."""
        here = table[wide, high]
        for first, rest in zip(*self._across[wide], strict=True):
            if table[first, high] + table[rest, high] == here:
                return [(int(first), high), (int(rest), high)]
        for first, rest in zip(*self._along[high], strict=True):
            if table[wide, first] + table[wide, rest] == here:
                return [(wide, int(first)), (wide, int(rest))]
        if wide and table[wide - 1, high] == here:
            return [(wide - 1, high)]
        return [(wide, high - 1)]


def _splits(lengths: Sequence[int], kerf: int) -> Splits:
    """Cuts of each length that leave two parts of use; the mirror of each is left out."""
    ends = np.array(lengths)
    found = []
    for length in lengths:
        rest = np.searchsorted(ends, length - ends - kerf, side="right") - 1
        first = np.arange(len(ends))
        good = (rest >= 0) & (first <= rest)
        found.append((first[good], rest[good]))
    return found


def _cut_along(row: Worth, splits: Splits) -> None:
    """The best cuts of plates of one width, the lowest first."""
    for place, (first, rest) in enumerate(splits):
        best = row[place]
        if place and row[place - 1] > best:
            best = row[place - 1]
        if len(first):
            most = (row[first] + row[rest]).max()
            best = max(best, most)
        row[place] = best
