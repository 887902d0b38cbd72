"""How many bypass diodes a string needs, and after which cells, so that no shaded cell passes a limit.

Each cell more under a diode drives a shaded one further backward, so a run of cells that holds the limit
still holds it when it is cut shorter. Taking the longest run that holds, again and again from the minus end,
therefore needs the fewest diodes. Where as many even runs hold too, they are taken: they fit a lay-up better.
Without a diode the whole string takes the diode's place; that is tried first. Where even the shortest run
does not hold, diodes are of no help: every stop is taken, and the check fails.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import accumulate, pairwise
from typing import Protocol

import numpy as np

from panewright.check import Check
from panewright.circuit.hot.heat import Cooling, Spread, hot_heat
from panewright.circuit.hot.spot import HotSpot, Working, hottest
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt
from panewright.enclosure.bypass import Bypass

SOLDER_MELTS_C = 183.0  #: tin-lead solder of 60 to 63 % tin begins to melt; from memory
FILM_GIVES_WAY_C = 150.0  #: about the heat at which film is laminated; common practice, no source


class Limit(Protocol):
    """What a shaded cell may bear."""

    def check(self, spot: HotSpot) -> Check:
        """The rule, held against one cell in its worst shade."""


@dataclass(frozen=True, slots=True)
class WattLimit:
    """Power that a cell may take in."""

    most_w: float

    def __post_init__(self) -> None:
        if not self.most_w >= 0:
            raise ValueError(f"a shaded cell may take in 0 W or more, got {self.most_w}")

    def check(self, spot: HotSpot) -> Check:
        """Watts at the cell's terminals."""
        return Check(
            rule="watts into a shaded cell",
            demand=max(0.0, spot.absorbed_w),
            limit=self.most_w,
            unit="W",
            source="limit as stated",
            cure="Put a bypass diode over fewer cells.",
            room="circuit",
        )


@dataclass(frozen=True, slots=True)
class HeatLimit:
    """Temperature that a cell may reach while the heat is spread over all of it.

    The default is where tin-lead solder begins to melt: a joint that lets go opens the string, and arcs.
    """

    spread: Spread
    cooling: Cooling = field(default_factory=Cooling)
    most_c: float = SOLDER_MELTS_C
    why: str = "tin-lead solder melts"

    def check(self, spot: HotSpot) -> Check:
        """Temperature of the evenly heated cell; a shunt's own spot is hotter, see `heat`."""
        return Check(
            rule="shaded cell stays cool enough",
            demand=hot_heat(spot, self.spread, self.cooling).even_c,
            limit=self.most_c,
            unit="degC",
            source=f"worst shade, heat spread over the whole cell; {self.why}",
            cure="Put a bypass diode over fewer cells.",
            room="circuit",
        )


@dataclass(frozen=True, slots=True)
class Guard:
    """Bypass diodes that a panel needs."""

    network: Network  #: the panel with them
    #: of each string: 0, and the cells after which its diodes end; empty where it needs none
    ends: tuple[tuple[int, ...], ...]
    worst: HotSpot
    check: Check  #: fails where even the shortest runs do not hold the limit

    @property
    def diodes(self) -> int:
        """Bypass diodes of the whole panel."""
        return sum(max(0, len(row) - 1) for row in self.ends)


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be held, by which diode, where it may end."""

    diode: Bypass
    limit: Limit
    stops: tuple[int, ...] = ()  #: cells of a string after which a diode may end; any where none is named
    at: Working = "short circuit"


def guard(network: Network, wish: Wish) -> Guard:
    """The fewest diodes that keep every shaded cell within a limit, and where they lie.

    Diodes that lie in the network already are taken out first.
    """
    bare = replace(network, strings=tuple(split(string, (), None) for string in network.strings))
    first = {string: place for place, string in reversed(list(enumerate(bare.strings)))}
    ends = {string: _ends(bare, place, wish) for string, place in first.items()}
    rows = tuple(ends[string] for string in bare.strings)
    strings = tuple(split(string, row, wish.diode) for string, row in zip(bare.strings, rows, strict=True))
    guarded = replace(bare, strings=strings)
    spots = [
        spot
        for string, place in first.items()
        for run in pairwise(ends[string] or (0, _length(string)))
        for spot in _spots(guarded, place, run, wish)
    ]
    worst = max(spots, key=lambda spot: wish.limit.check(spot).demand)
    return Guard(guarded, rows, worst, wish.limit.check(worst))


def split(string: String, ends: Sequence[int], diode: Bypass | None) -> String:
    """The string's cells under diodes that reach from one end to the next; under none without ends."""
    cells = tuple(cell for part in string.substrings for cell in part.cells)
    joints = tuple(ohm for part in string.substrings for ohm in part.joints_ohm)
    turned = _turned(string)
    parts = tuple(
        Substring(
            cells[first:last],
            joints[first:last],
            diode if ends else None,
            tuple(k - first for k in turned if first <= k < last),
        )
        for first, last in pairwise(ends or (0, len(cells)))
    )
    return replace(string, substrings=parts)


def _ends(bare: Network, place: int, wish: Wish) -> tuple[int, ...]:
    """Where the diodes of one string end; empty where it needs none."""
    count = _length(bare.strings[place])
    if not set(wish.stops) <= set(range(1, count + 1)):
        raise ValueError(f"a diode ends after cell 1 to {count} of string {place}, got {wish.stops}")
    if _holds(bare, place, (0, count), wish):
        return ()
    stops = sorted({*(wish.stops or range(1, count)), count})
    fewest = _fewest(bare, place, stops, wish)
    even = _even(stops, len(fewest) - 1)
    cut = _cut(bare, place, even, wish.diode)
    return even if all(_holds(cut, place, run, wish) for run in pairwise(even)) else fewest


def _fewest(bare: Network, place: int, stops: Sequence[int], wish: Wish) -> tuple[int, ...]:
    """The longest run of cells that holds, again and again."""
    ends = [0]
    while ends[-1] < stops[-1]:
        further = [stop for stop in stops if stop > ends[-1]]
        longest = bisect_left(further, True, key=partial(_breaks, bare, place, wish, ends[-1]))
        if longest == 0:
            return (0, *stops)
        ends.append(further[longest - 1])
    return tuple(ends)


def _breaks(bare: Network, place: int, wish: Wish, start: int, stop: int) -> bool:
    """Whether a run under one diode passes the limit, its neighbours under theirs."""
    ends = sorted({0, start, stop, _length(bare.strings[place])})
    return not _holds(_cut(bare, place, ends, wish.diode), place, (start, stop), wish)


def _even(stops: Sequence[int], runs: int) -> tuple[int, ...]:
    """So many runs, as even as the stops allow."""
    wanted = np.arange(1, runs + 1) * stops[-1] / runs
    nearest = np.abs(np.asarray(stops) - wanted[:, None]).argmin(axis=1)
    return (0, *sorted({stops[k] for k in nearest}))


def _cut(bare: Network, place: int, ends: Sequence[int], diode: Bypass) -> Network:
    strings = (*bare.strings[:place], split(bare.strings[place], ends, diode), *bare.strings[place + 1 :])
    return replace(bare, strings=strings)


def _holds(network: Network, place: int, run: tuple[int, int], wish: Wish) -> bool:
    return all(wish.limit.check(spot).passed for spot in _spots(network, place, run, wish))


def _spots(network: Network, place: int, run: tuple[int, int], wish: Wish) -> list[HotSpot]:
    """The worst shade of each kind of cell in a run of one string."""
    string = network.strings[place]
    cells = [cell for part in string.substrings for cell in part.cells]
    turned = _turned(string)
    kinds = {(cells[k], k in turned): k + 1 for k in range(*run)}
    return [hottest(network, CellAt(place, number), wish.at) for number in kinds.values()]


def _turned(string: String) -> tuple[int, ...]:
    """Cells of a string, from 0, that are soldered in the wrong way round."""
    lengths = [len(part.cells) for part in string.substrings]
    starts = (0, *accumulate(lengths[:-1]))
    return tuple(
        start + k for start, part in zip(starts, string.substrings, strict=True) for k in part.turned
    )


def _length(string: String) -> int:
    return sum(len(part.cells) for part in string.substrings)
