"""Where strings work: in falling order of their currents, each within a window that may be halved.

The string of a place works below a current, then all that follow do too; or above it, then all before it do.
One of both is true of every deal. So a bound of each half bounds all deals, and halves are halved again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.proof.ceilings import Ceilings


@dataclass(frozen=True, slots=True)
class Half:
    """The string of this place works below that current, or above it; a number is that of a proof."""

    place: int
    at_a: float
    below: Half | int
    above: Half | int


Halves = Half | int


@dataclass(frozen=True, slots=True)
class Windows:
    """Least and greatest current of every string, strings in falling order of their currents."""

    low_a: Array
    high_a: Array

    @classmethod
    def wide(cls, strings: int) -> Windows:
        """Strings work anywhere."""
        return cls(np.zeros(strings), np.full(strings, np.inf))

    def halved(self, place: int, at_a: float) -> tuple[Windows, Windows]:
        """The string of a place below a current, or above it."""
        low, high = self.low_a.copy(), self.high_a.copy()
        high[place:] = np.minimum(high[place:], at_a)
        low[: place + 1] = np.maximum(low[: place + 1], at_a)
        return replace(self, high_a=high), replace(self, low_a=low)

    def worths(self, table: Ceilings, worth: Array) -> Array:
        """What the string of every place is worth at most, from what every row's dearest set is worth.

        A string that may work at no current may be left away, and is worth nothing then; one that must work
        above a current is there, though its pieces may be dearer than what it gives.
        """
        half = table.low_a.size
        best = np.maximum(worth[:half], worth[half:])
        inside = (table.low_a < self.high_a[:, None]) & (table.high_a > self.low_a[:, None])
        most = np.where(inside, best, -np.inf).max(axis=1, initial=-np.inf)
        return np.asarray(np.where((self.low_a > 0) & np.isfinite(most), most, np.maximum(most, 0.0)))

    def cuts(self) -> list[tuple[float, int, bool]]:
        """Current, strings above it, and whether there are at least so many or at most."""
        most = {(float(a), k, False) for k, a in enumerate(self.high_a.tolist()) if np.isfinite(a)}
        least = {(float(a), k + 1, True) for k, a in enumerate(self.low_a.tolist()) if a > 0}
        return sorted(_tightest(most, False) | _tightest(least, True))


def _tightest(cuts: set[tuple[float, int, bool]], least: bool) -> set[tuple[float, int, bool]]:
    """Of the cuts at one current that which says most."""
    found: dict[float, int] = {}
    for at, count, _ in cuts:
        found[at] = (max if least else min)(found.get(at, count), count)
    return {(at, count, least) for at, count in found.items()}


def leaves(halves: Halves, windows: Windows) -> list[tuple[int, Windows]]:
    """Every proof that is named, with the windows that it has to prove."""
    if isinstance(halves, int):
        return [(halves, windows)]
    below, above = windows.halved(halves.place, halves.at_a)
    return leaves(halves.below, below) + leaves(halves.above, above)
