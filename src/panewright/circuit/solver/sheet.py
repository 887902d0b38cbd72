"""A network as columns of numbers, in the form in which it is solved.

Cells stand one after the other, substring by substring, string by string. Where only one panel is asked,
equal cells of a substring are one column with a count, since they carry one current; strings that are
alike are reckoned once and counted, and with only one kind of string the leads are part of its tail.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple, Protocol

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.enclosure.bypass import Bypass

BROKEN_OHM = 1e12  #: stands for an infinite resistance: its current is below any instrument's
NONE, BYPASS, TURNED, BRIDGE = 0, 1, 2, 3
FACTS = 7  #: of a substring


class Column(Protocol):
    """A list or an array of numbers."""

    def __len__(self) -> int: ...
    def __iter__(self) -> Iterator[float]: ...
    def __getitem__(self, place: int, /) -> float: ...
    def __setitem__(self, place: int, value: float, /) -> None: ...


class Table(Protocol):
    """A list or an array of columns."""

    def __len__(self) -> int: ...
    def __getitem__(self, place: int, /) -> Column: ...


Numbers = list[int] | NDArray[np.int64]


class Cells(NamedTuple):
    """Columns of cells."""

    light: Column
    saturation: Column
    ideality: Column
    series: Column
    shunt: Column  #: conductance [S]
    breakdown: Column  #: conductance [S]
    breakdown_v: Column
    exponent: Column
    sign: Column  #: -1 for a cell the wrong way round
    amount: Column  #: how many cells the column stands for
    per_saturation: Column  #: reciprocals, made once
    per_ideality: Column
    per_breakdown: Column
    parts: Table  #: of each substring what does not change with its current, see `facts`


class Tables(NamedTuple):
    """Columns of the cells of many panels: arrays (panels, cells)."""

    light: Array
    saturation: Array
    ideality: Array
    series: Array
    shunt: Array
    breakdown: Array
    breakdown_v: Array
    exponent: Array
    sign: Array
    amount: Array
    per_saturation: Array
    per_ideality: Array
    per_breakdown: Array


class Sheet(NamedTuple):
    """How columns of cells are joined."""

    first_cell: Numbers  #: of each substring, and the end of the last
    kind: Numbers  #: what lies beside the cells of each substring
    beside_a: Column  #: saturation current of its diode
    beside_v: Column  #: nVth of its diode
    beside_ohm: Column
    joints_ohm: Column
    first_part: Numbers  #: of each string, and the end of the last
    tail_ohm: Column
    blocking: Numbers  #: 1 where a string has a blocking diode
    blocking_a: Column
    blocking_v: Column
    blocking_ohm: Column
    alike: Column  #: how many strings are so
    lead_ohm: float


class Laid(NamedTuple):
    """A network laid out, with the column of every cell."""

    sheet: Sheet
    cells: Cells
    column: tuple[int, ...]  #: of each cell of the network, in its order
    string: tuple[int, ...]  #: which of the sheet's strings each string of the network is


def lay_out(network: Network) -> Laid:
    """One network, equal parts reckoned once."""
    kinds = {string: k for k, string in enumerate(dict.fromkeys(network.strings))}
    counts = Counter(network.strings)
    columns: list[tuple[Diode, float]] = []
    amounts: list[int] = []
    first, places = [0], {}
    for string in kinds:
        mine: list[int] = []
        for part in string.substrings:
            turned = set(part.turned)
            found: dict[tuple[Diode, float], int] = {}
            last, place = None, 0
            for k, cell in enumerate(part.cells):
                if cell is not last or turned:
                    place = found.setdefault((cell, -1.0 if k in turned else 1.0), len(amounts))
                last = cell
                if place == len(amounts):
                    amounts.append(0)
                amounts[place] += 1
                mine.append(place)
            columns += found
            first.append(len(columns))
        places[string] = mine
    column = tuple(place for string in network.strings for place in places[string])
    cells = _cells([cell for cell, _ in columns], [sign for _, sign in columns], amounts)
    sheet = _sheet(list(kinds), first, [float(counts[string]) for string in kinds], network.lead_ohm)
    cells = cells._replace(parts=[[0.0] * FACTS for _ in sheet.kind])
    return Laid(sheet, cells, column, tuple(kinds[string] for string in network.strings))


def lay_out_apart(network: Network) -> tuple[Sheet, Array]:
    """The same with a column for every cell and a string for every string; and the cells' signs."""
    parts = [part for string in network.strings for part in string.substrings]
    first = [0, *accumulate(len(part.cells) for part in parts)]
    signs = np.ones(first[-1])
    for start, part in zip(first, parts, strict=False):
        for turned in part.turned:
            signs[start + turned] = -1.0
    return _sheet(network.strings, first, [1.0] * len(network.strings), network.lead_ohm), signs


def _cells(cells: Sequence[Diode], signs: Sequence[float], counts: Sequence[int]) -> Cells:
    return Cells(
        [cell.light_a for cell in cells],
        [cell.saturation_a for cell in cells],
        [cell.ideality_v for cell in cells],
        [cell.series_ohm for cell in cells],
        [1.0 / cell.shunt_ohm for cell in cells],
        [cell.breakdown_siemens for cell in cells],
        [cell.breakdown_v for cell in cells],
        [cell.breakdown_exponent for cell in cells],
        list(signs),
        [float(count) for count in counts],
        [1.0 / cell.saturation_a for cell in cells],
        [1.0 / cell.ideality_v for cell in cells],
        [1.0 / cell.breakdown_v for cell in cells],
        [],
    )


def cells_apart(diodes: Diodes, signs: Array, trials: int) -> Tables:
    """Columns of many trials, arrays (trials, cells), from arrays of either one row or as many."""
    with np.errstate(divide="ignore"):
        shunt = 1.0 / np.asarray(diodes.shunt_ohm, dtype=float)
    columns: tuple[Array | float, ...] = (
        diodes.light_a,
        diodes.saturation_a,
        diodes.ideality_v,
        diodes.series_ohm,
        shunt,
        diodes.breakdown_siemens,
        diodes.breakdown_v,
        diodes.breakdown_exponent,
        signs,
        1.0,
        1.0 / np.asarray(diodes.saturation_a, dtype=float),
        1.0 / np.asarray(diodes.ideality_v, dtype=float),
        1.0 / np.asarray(diodes.breakdown_v, dtype=float),
    )
    tables = np.empty((len(columns), trials, signs.size))
    for table, column in zip(tables, columns, strict=True):
        table[:] = column
    return Tables(*tables)


def arrays(sheet: Sheet) -> Sheet:
    """The same sheet with arrays in place of lists, as compiled functions take it."""
    return Sheet._make(column if isinstance(column, float) else np.array(column) for column in sheet)


def _sheet(strings: Sequence[String], first: list[int], alike: list[float], lead_ohm: float) -> Sheet:
    parts = [part for string in strings for part in string.substrings]
    beside = [_beside(part.bypass) for part in parts]
    ends = [0, *accumulate(len(string.substrings) for string in strings)]
    lone = len(strings) == 1
    tails = [string.tail_ohm + (lead_ohm * alike[0] if lone else 0.0) for string in strings]
    blocks = [string.blocking for string in strings]
    return Sheet(
        first_cell=first,
        kind=[kind for kind, *_ in beside],
        beside_a=[figures[1] for figures in beside],
        beside_v=[figures[2] for figures in beside],
        beside_ohm=[figures[3] for figures in beside],
        joints_ohm=[_joints_ohm(part) for part in parts],
        first_part=ends,
        tail_ohm=[min(tail, BROKEN_OHM) for tail in tails],
        blocking=[0 if diode is None else 1 for diode in blocks],
        blocking_a=[1.0 if diode is None else diode.saturation_a for diode in blocks],
        blocking_v=[1.0 if diode is None else diode.ideality_v for diode in blocks],
        blocking_ohm=[0.0 if diode is None else diode.series_ohm for diode in blocks],
        alike=alike,
        lead_ohm=0.0 if lone else float(lead_ohm),
    )


def _joints_ohm(part: Substring) -> float:
    return min(float(sum(part.joints_ohm)), BROKEN_OHM)


def _beside(bypass: Bypass | Turned | Bridge | None) -> tuple[int, float, float, float]:
    """Kind, saturation current, nVth and resistance of what lies beside a substring."""
    if bypass is None:
        return NONE, 1.0, 1.0, 0.0
    if isinstance(bypass, Bridge):
        return BRIDGE, 0.0, 1.0, bypass.ohm
    diode = bypass.diode if isinstance(bypass, Turned) else bypass
    kind = TURNED if isinstance(bypass, Turned) else BYPASS
    return kind, diode.saturation_a, diode.ideality_v, diode.series_ohm
