"""Which measurements are weighed: over parts that halve what is believed, at several voltages."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panewright.bench.fault.place.belief import State
from panewright.bench.fault.place.probe import numbers
from panewright.cell.root import Array
from panewright.circuit.place import CellAt, DiodeAt

DEPTHS = (0.01, 0.02, 0.03, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9)  #: of meshes and films
_PARTS = ((0.0, 0.5), (0.5, 1.0), (0.0, 1 / 3), (0.25, 0.75))  # of what is believed, along the strings
_BESIDE = ((0.0, 0.5, 1.0), (0.0, 1 / 3, 2 / 3), (1 / 3, 2 / 3, 1.0))
_DEEPER = (1.2, 2.5)  # times what the weak cell lacks: a strip that is moved takes more than that
_NOTABLE = 0.02  # of the likeliest cell's odds
_DEEP = (0.3, 0.9)  # for what has no deficit to stay below
Stretch = tuple[int, int]  #: first and last cell, from 0 along all strings


def by_cell(state: State) -> tuple[list[CellAt], Array]:
    """All cells in their order, and the odds that each of them is it; a row's are shared out."""
    every = numbers(state)
    odds = np.zeros(len(every))
    for spot in state.spots:
        if isinstance(spot.place, CellAt):
            odds[every[spot.place]] += spot.odds
        elif isinstance(spot.place, DiodeAt):
            mine = [every[cell] for cell in row_cells(state, spot.place)]
            odds[mine] += spot.odds / len(mine)
    return list(every), odds


def row_cells(state: State, place: DiodeAt) -> tuple[CellAt, ...]:
    """The cells of a row."""
    rows = state.foretold.network.strings[place.string].substrings
    first = 1 + sum(len(row.cells) for row in rows[: place.substring])
    return tuple(
        CellAt(place.string, number) for number in range(first, first + len(rows[place.substring].cells))
    )


def rows(state: State) -> tuple[DiodeAt, ...]:
    """All rows."""
    strings = state.foretold.network.strings
    return tuple(DiodeAt(s, k) for s, string in enumerate(strings) for k in range(len(string.substrings)))


def parts(state: State) -> Iterator[Stretch]:
    """First and last cell of parts of one string that are worth asking, from 0 along all strings."""
    cells, odds = by_cell(state)
    if not odds.any():
        return
    notable = np.flatnonzero(odds > _NOTABLE * odds.max())
    upto = np.cumsum(odds[notable]) / odds[notable].sum()
    seen: set[Stretch] = set()
    for low, high in _PARTS:
        inside = notable[(upto > low + 1e-9) & (upto <= high + 1e-9)]
        if inside.size:
            seen |= set(_in_strings(cells, int(inside[0]), int(inside[-1])))
    every = {cell: k for k, cell in enumerate(cells)}
    for row in rows(state):
        mine = row_cells(state, row)
        seen.add((every[mine[0]], every[mine[-1]]))
    top = int(np.argmax(odds))
    seen.add((top, top))
    yield from sorted(seen)


def pairs(state: State) -> Iterator[tuple[Stretch, Stretch]]:
    """Two parts that lie beside each other, from one of which a strip is moved to the other."""
    _, odds = by_cell(state)
    if np.count_nonzero(odds) < 2:
        return
    notable = np.flatnonzero(odds > _NOTABLE * odds.max())
    upto = (np.cumsum(odds[notable]) - odds[notable] / 2) / odds[notable].sum()
    for low, middle, high in _BESIDE:
        one, other = (notable[(upto > a) & (upto <= b)].tolist() for a, b in ((low, middle), (middle, high)))
        if one and other:
            yield (one[0], one[-1]), (other[0], other[-1])
    first, second = sorted(np.argsort(-odds, kind="stable")[:2].tolist())
    yield (first, first), (second, second)


def _in_strings(cells: list[CellAt], first: int, last: int) -> Iterator[Stretch]:
    """A stretch cut where strings end."""
    start = first
    for k in range(first, last + 1):
        if k == last or cells[k + 1].string != cells[start].string:
            yield start, k
            start = k + 1


def depths(state: State) -> tuple[float, ...]:
    """Shades below what the weak cell lacks, as far as one is believed in; deeper ones for other things."""
    odds, lacks = _lacks(state)
    found: set[float] = set()
    if odds > 0:
        below = [depth for depth in DEPTHS if depth <= 0.9 * lacks] or [DEPTHS[0]]
        found |= {below[-1], below[len(below) // 2]}
    return tuple(sorted(found | (set(_DEEP) if odds < 0.95 else set())))


def deeper(state: State) -> tuple[float, ...]:
    """Shades beyond what the weak cell lacks; none where no such cell is believed in."""
    odds, lacks = _lacks(state)
    if odds <= 0:
        return ()
    beyond = (next((depth for depth in DEPTHS if depth >= times * lacks), DEPTHS[-1]) for times in _DEEPER)
    return tuple(sorted(set(beyond)))


def _lacks(state: State) -> tuple[float, float]:
    """How likely a cell is weak, and how much of the light it then lacks."""
    weak = [spot for spot in state.spots if spot.kind is not None and spot.kind.group == "weak cell"]
    odds = sum(spot.odds for spot in weak)
    return odds, sum(spot.odds * spot.strength for spot in weak) / odds if odds > 0 else 0.0
