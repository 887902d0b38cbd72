"""One sheet with as much on it as will go, by the integer programme over its cuts or by shelves.

Sheet by sheet so, a whole job is filled quickly; and what else could come from a sheet is asked here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from panewright.cutting.sheets import shelves
from panewright.cutting.sheets.guillotine import Graph, Kind, graph
from panewright.cutting.sheets.layout import Tree, trees
from panewright.cutting.sheets.parting import Model, Parted, Root
from panewright.cutting.sheets.sheet_job import Job

_QUICK = 20  #: branches of the programme for one sheet of many
_NODES = 300  #: for one sheet alone

Grown = tuple[Tree, int]
"""A sheet's tree and its kind."""


@dataclass(frozen=True, slots=True)
class Fill:
    """A sheet's cuts, how many of each kind come of it, and the most that any cuts could be worth."""

    made: Graph
    parted: Parted
    given: tuple[int, ...]
    most: float | None  #: None where not all cuts were tried


Filler = Callable[[Job, Sequence[Kind], tuple[int, int]], Fill | None]


def sheet_by_sheet(asked: Job, filler: Filler) -> list[Grown] | None:
    """The sheet that gives most area of panels for its cost, again and again; None where they run out."""
    left = list(asked.kinds)
    have = [sheet.have for sheet in asked.stock]
    found: list[Grown] = []
    while any(kind.quantity for kind in left):
        best = _best_fill(asked, left, have, filler)
        if best is None:
            return None
        kind, fill = best
        tree = trees(fill.made, fill.parted, (0,), (asked.corner(kind),), asked.cutter.kerf_mm)[0]
        times = min(k.quantity // n for k, n in zip(left, fill.given, strict=True) if n)
        there = have[kind]
        if there is not None:
            times = min(times, there)
            have[kind] = there - times
        found += [(tree, kind)] * times
        left = [replace(k, quantity=k.quantity - n * times) for k, n in zip(left, fill.given, strict=True)]
    return found


def _best_fill(
    asked: Job, left: Sequence[Kind], have: Sequence[int | None], filler: Filler
) -> tuple[int, Fill] | None:
    """The sheet and its cuts that give most area for the money; the smaller cost where equal."""
    best: tuple[Fraction, tuple[int, Fill]] | None = None
    for kind, (size, cost) in enumerate(zip(asked.sizes, asked.costs, strict=True)):
        fill = None if have[kind] == 0 else filler(asked, left, size)
        if fill is None:
            continue
        area = sum(k.width * k.height * n for k, n in zip(left, fill.given, strict=True))
        rate = Fraction(area, max(cost, 1))
        if area and (best is None or rate > best[0]):
            best = (rate, (kind, fill))
    return best and best[1]


def by_programme(asked: Job, left: Sequence[Kind], size: tuple[int, int]) -> Fill | None:
    """One sheet as full as it will go."""
    return fullest(asked, left, size, [float(k.width * k.height) for k in left], _QUICK)


def fullest(
    asked: Job, left: Sequence[Kind], size: tuple[int, int], worth: Sequence[float], nodes: int = _NODES
) -> Fill | None:
    """The cuts worth most; of very many sizes, the largest that the programme can hold."""
    for number in range(len(left), 0, -1):
        some = [k if i < number else replace(k, quantity=0) for i, k in enumerate(left)]
        kinds = [k for k in some if k.quantity]
        found = [(made, full) for made, full in _graphs(asked, kinds, size) if made] if kinds else []
        fills = [_filled(made, some, worth, size, full=full, nodes=nodes) for made, full in found]
        best = max((f for f in fills if f), key=lambda fill: _worth(fill, worth), default=None)
        if best is not None:
            bounds = [f.most for f in fills if f and f.most is not None]
            return replace(best, most=min(bounds) if bounds and number == len(left) else None)
    return None


def _graphs(asked: Job, kinds: Sequence[Kind], size: tuple[int, int]) -> list[tuple[Graph | None, bool]]:
    """All cuts where they are few enough, else those at the ends of single panels."""
    made = graph([size], kinds, asked.rules(single=False, rounded=True))
    if made is not None:
        return [(made, asked.free or not asked.rounds)]
    return [(graph([size], kinds, asked.rules(single=True, rounded=True)), False)]


def _worth(fill: Fill, worth: Sequence[float]) -> float:
    return sum(w * n for w, n in zip(worth, fill.given, strict=True))


def by_shelves(asked: Job, left: Sequence[Kind], size: tuple[int, int]) -> Fill | None:
    """The same by rule of thumb."""
    found = shelves.fill(size, left, asked.rules(single=True))
    return found and Fill(found[0], found[1], tuple(found[2]), None)


def _filled(
    made: Graph,
    some: Sequence[Kind],
    worth: Sequence[float],
    size: tuple[int, int],
    *,
    full: bool,
    nodes: int,
) -> Fill | None:
    position = [i for i, kind in enumerate(some) if kind.quantity]
    model = Model(made, [Root(0, 1, 1, size[0] * size[1])], [some[i] for i in position], exact=False)
    scale = max(worth[i] for i in position)
    parted = model.solved(-model.worth([worth[i] / scale for i in position]), nodes)
    if parted is None:
        return None
    given = [0] * len(some)
    for use, times in zip(made.uses, parted.uses, strict=True):
        given[position[use.kind]] += times
    named = Graph(
        made.plates, made.cuts, [replace(use, kind=position[use.kind]) for use in made.uses], made.index
    )
    return Fill(named, replace(parted, sheets=(1,)), tuple(given), -parted.bound * scale if full else None)
