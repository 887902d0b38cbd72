"""The line round a cell as columns, where all the rest of its string is lit; and its heat along it.

In a process that designs many the loop is compiled: loading takes a second, so a single design never does.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.root import Array
from panewright.circuit.hot.around import Around
from panewright.circuit.network import Network, Substring
from panewright.circuit.solver.compiled import compiled
from panewright.circuit.solver.lit import FIGURES, heats
from panewright.enclosure.bypass import Bypass

Heat = Callable[[Array], Array]  #: currents of the string -> watts
_here: list[Callable[..., object]] = []  # the compiled loop, where this process has loaded it


def load() -> None:
    """From here on this process takes the compiled loop."""
    if not _here:
        _here.append(compiled(heats))


def heat_of(line: Around, terminal_v: float) -> Heat:
    """What the cell takes in at currents of its string; where not all is lit, by the whole solver."""
    if not _is_plain(line):
        return lambda string_a: line.at(terminal_v, string_a).absorbed_w
    columns = tuple(_ready(table) for table in (_line(line), _mates(line.mates), _row(line.row)))
    call: Callable[..., object] = _here[0] if _here else heats

    def heat(string_a: Array) -> Array:
        told = np.empty(len(string_a))
        call(*columns, terminal_v, string_a if _here else string_a.tolist(), told)
        if (unlit := np.isnan(told)).any():
            told[unlit] = line.at(terminal_v, string_a[unlit]).absorbed_w
        return told

    return heat


def _is_plain(line: Around) -> bool:
    """Whether cells and diodes all stand the right way round, in one string."""
    if line.turned or line.blocking or line.others or not isinstance(line.bypass, Bypass | None):
        return False
    parts = (*_parts(line.mates), *_parts(line.row))
    if not all(isinstance(part.bypass, Bypass | None) and not part.turned for part in parts):
        return False
    return all(len(set(part.cells)) == 1 for part in _parts(line.row))


def _parts(network: Network | None) -> tuple[Substring, ...]:
    return network.strings[0].substrings if network else ()


def _line(line: Around) -> Array:
    return np.array([line.lead_ohm + line.tail_ohm, line.joints_ohm, *_diode(line.bypass)])


def _mates(mates: Network | None) -> Array:
    """Kinds of cells of its own substring; the joints are the line's."""
    kinds = Counter(cell for part in _parts(mates) for cell in part.cells)
    return _table([_cells(cell, count, count * cell.series_ohm) for cell, count in kinds.items()])


def _row(row: Network | None) -> Array:
    """Kinds of the other substrings."""
    rows = []
    for part, times in Counter(_parts(row)).items():
        cell, count = part.cells[0], len(part.cells)
        ohm = count * cell.series_ohm + sum(part.joints_ohm)
        rows.append([*_cells(cell, count, ohm), float(times), *_diode(part.bypass)])
    return _table(rows)


def _diode(beside: object) -> tuple[float, float, float]:
    """Of the diode beside cells; without leak where there is none."""
    if not isinstance(beside, Bypass):
        return 0.0, 1.0, 0.0
    return beside.saturation_a, beside.ideality_v, beside.series_ohm


def _cells(cell: Diode, count: int, ohm: float) -> list[float]:
    return [
        cell.light_a,
        cell.saturation_a,
        cell.ideality_v,
        1 / cell.shunt_ohm,
        cell.breakdown_siemens,
        cell.breakdown_v,
        cell.breakdown_exponent,
        float(count),
        ohm,
    ]


def _table(rows: list[list[float]]) -> Array:
    return np.array([[*row, *[0.0] * (FIGURES - len(row))] for row in rows]).reshape(len(rows), FIGURES)


def _ready(table: Array) -> Any:
    """As the loop takes it: lists are quicker where nothing is compiled."""
    return table if _here else table.tolist()
