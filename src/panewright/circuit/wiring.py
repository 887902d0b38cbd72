"""A network laid out as columns of numbers, equal parts reckoned once.

Equal cells of a substring carry the same current and have the same voltage: one column with a count
stands for all of them. So do equal substrings of a string, and strings that are alike in parallel share
the current evenly.
Where all strings are alike the leads are one more resistance at the tail of that string.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.network import Network, Substring

Places = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Part:
    """One substring and its bypass diode."""

    cells: Diodes
    cell_count: Array
    joints_ohm: float
    dimmest_a: float
    bypass: Diode  #: as a dark cell without shunt


@dataclass(frozen=True, slots=True, eq=False)
class Wiring:
    """Kinds of cells in substrings, substrings in strings, strings side by side; equal only to itself."""

    cells: Diodes  #: a column for each kind of cell in each substring
    cell_count: Array  #: how many cells of that kind
    cell_starts: Places  #: first column of each substring
    cell_home: Places  #: substring of each column
    joints_ohm: Array  #: of each substring, all its joints together
    dimmest_a: Array  #: of each substring, the least light current
    part_count: Array  #: how many substrings of the string are alike
    bypassed: NDArray[np.bool_]  #: of each substring
    bypass_saturation_a: Array
    bypass_ideality_v: Array
    bypass_ohm: Array
    starts: Places  #: first substring of each string
    home: Places  #: string of each substring
    count: Array  #: how many strings are alike
    brightest_a: Array  #: of each string, the greatest light current
    tail_ohm: Array  #: of each string, outside its bypass diodes
    lead_ohm: float  #: carries the current of all strings

    def substring(self, k: int) -> Part:
        """Substring k by itself."""
        end = self.cell_starts[k + 1] if k + 1 < self.cell_starts.size else self.cell_count.size
        columns = slice(int(self.cell_starts[k]), int(end))
        return Part(
            self.cells.only(columns),
            self.cell_count[columns],
            float(self.joints_ohm[k]),
            float(self.dimmest_a[k]),
            Diode(
                0.0,
                float(self.bypass_saturation_a[k]),
                float(self.bypass_ideality_v[k]),
                float(self.bypass_ohm[k]),
                float("inf"),
            ),
        )


def wire(network: Network) -> Wiring:
    """Lay a network out as columns."""
    strings = Counter(_plain(string) for string in network.strings)
    if not strings or not all(strings):
        raise ValueError(f"a network has a string or more, each with a substring or more, got {network}")
    parts = [Counter(string) for string in strings]
    rows = [substring for part in parts for substring in part]
    kinds = [Counter(substring.cells) for substring in rows]
    sizes, lengths = [len(kind) for kind in kinds], [len(part) for part in parts]
    bypass = [substring.bypass for substring in rows]
    light = [[cell.light_a for cell in kind] for kind in kinds]
    brightest = np.array([max(row) for row in light])
    starts, count = _starts(lengths), np.array(list(strings.values()), dtype=float)
    alike = count.size == 1
    return Wiring(
        cells=Diodes.of([cell for kind in kinds for cell in kind]),
        cell_count=np.array([count for kind in kinds for count in kind.values()], dtype=float),
        cell_starts=_starts(sizes),
        cell_home=np.repeat(np.arange(len(rows)), sizes),
        joints_ohm=np.array([sum(substring.joints_ohm) for substring in rows]),
        dimmest_a=np.array([min(row) for row in light]),
        part_count=np.array([count for part in parts for count in part.values()], dtype=float),
        bypassed=np.array([diode is not None for diode in bypass]),
        bypass_saturation_a=np.array([diode.saturation_a if diode else 1.0 for diode in bypass]),
        bypass_ideality_v=np.array([diode.ideality_v if diode else 1.0 for diode in bypass]),
        bypass_ohm=np.array([diode.series_ohm if diode else 0.0 for diode in bypass]),
        starts=starts,
        home=np.repeat(np.arange(len(strings)), lengths),
        count=count,
        brightest_a=np.maximum.reduceat(brightest, starts),
        tail_ohm=np.where(alike, network.lead_ohm * count, 0.0),
        lead_ohm=0.0 if alike else network.lead_ohm,
    )


def _plain(string: tuple[Substring, ...]) -> tuple[Substring, ...]:
    """The same string with neighbouring substrings that have no bypass drawn together."""
    plain: list[Substring] = []
    for substring in string:
        if plain and substring.bypass is None and plain[-1].bypass is None:
            last = plain.pop()
            substring = Substring(last.cells + substring.cells, last.joints_ohm + substring.joints_ohm)
        plain.append(substring)
    return tuple(plain)


def _starts(lengths: list[int]) -> Places:
    return np.concatenate(([0], np.cumsum(lengths)[:-1])).astype(np.intp)
