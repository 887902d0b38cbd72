"""One sheet filled by rule of thumb: shelves across its width, the highest panels first.

No plan is ever worse than this rule's; it also serves where the programme would grow too large.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from panewright.cutting.sheets.guillotine import (
    ACROSS,
    ALONG,
    Graph,
    Kind,
    Plate,
    Rules,
    Use,
    add,
    leaves_well,
    parted_at,
)
from panewright.cutting.sheets.parting import Parted

_STAGES = 3  # shelves, panels, and what is over a lower panel


@dataclass(slots=True)
class _Shelf:
    height: int
    left: int
    panels: list[tuple[int, tuple[int, int]]] = field(default_factory=list)  #: kind, size as it lies


def fill(
    size: tuple[int, int], kinds: Sequence[Kind], rules: Rules
) -> tuple[Graph, Parted, list[int]] | None:
    """The graph of one sheet, its cuts, how many of each kind it gives; None where it gives none."""
    shelves, given = _shelved(size, kinds, rules)
    return _drawn(size, shelves, rules, given) if any(given) else None


def fewest(size: tuple[int, int], kinds: Sequence[Kind], rules: Rules) -> int | None:
    """How many such sheets give all of them, each filled so with what is left; None where they do not."""
    left, number = list(kinds), 0
    while any(kind.quantity for kind in left):
        _, given = _shelved(size, left, rules)
        if not any(given):
            return None
        pairs = list(zip(left, given, strict=True))
        times = min(kind.quantity // n for kind, n in pairs if n)
        left = [Kind(kind.width, kind.height, kind.quantity - n * times, kind.turns) for kind, n in pairs]
        number += times
    return number


def _shelved(size: tuple[int, int], kinds: Sequence[Kind], rules: Rules) -> tuple[list[_Shelf], list[int]]:
    """The shelves of one sheet, and how many of each kind lie on them."""
    shelves: list[_Shelf] = []
    given = [0] * len(kinds)
    if 0 < rules.stages < _STAGES:
        return shelves, given
    left = size[1]
    for index, way in _in_order(size, kinds):
        for _ in range(kinds[index].quantity):
            shelf = next((s for s in shelves if _fits(way, s, rules)), None)
            if shelf is None and way[0] <= size[0] and _parts(left, way[1], rules):
                new = _Shelf(way[1], size[0])
                if _fits(way, new, rules):
                    shelf = new
                    shelves.append(new)
                    left -= way[1] + rules.kerf
            if shelf is None:
                break
            shelf.panels.append((index, way))
            shelf.left -= way[0] + rules.kerf
            given[index] += 1
    return shelves, given


def _in_order(size: tuple[int, int], kinds: Sequence[Kind]) -> list[tuple[int, tuple[int, int]]]:
    """Kinds with the way they lie: unturned where they fit so."""
    found = []
    for index, kind in enumerate(kinds):
        way = next((w for w in kind.ways if w[0] <= size[0] and w[1] <= size[1]), None)
        if way and kind.quantity:
            found.append((index, way))
    return sorted(found, key=lambda pair: (-pair[1][1], -pair[1][0], pair[0]))


def _parts(length: int, at: int, rules: Rules) -> bool:
    """Whether a length can be parted so, or ends there."""
    return at == length or (rules.breakout <= at < length and leaves_well(length - at, rules))


def _fits(way: tuple[int, int], shelf: _Shelf, rules: Rules) -> bool:
    width, height = way
    return width <= shelf.left and _parts(shelf.left, width, rules) and _parts(shelf.height, height, rules)


def _drawn(
    size: tuple[int, int], shelves: Sequence[_Shelf], rules: Rules, given: list[int]
) -> tuple[Graph, Parted, list[int]]:
    """Shelf by shelf and panel by panel as cuts of a graph, each made once."""
    made = Graph()
    rest: int | None = add(made, Plate(*size))
    for shelf in shelves:
        whole, rest = _cut_off(made, rest, ALONG, shelf.height, rules)
        strip: int | None = whole
        for index, (width, height) in shelf.panels:
            block, over = _cut_off(made, strip, ACROSS, width, rules)
            panel, _ = _cut_off(made, block, ALONG, height, rules)
            made.uses.append(Use(panel, index, (width, height)))
            strip = over
    once = (1,) * len(made.cuts)
    return made, Parted((1,), once, (1,) * len(made.uses), 0, 0, done=False), given


def _cut_off(made: Graph, plate: int | None, axis: int, at: int, rules: Rules) -> tuple[int, int | None]:
    """The part cut off, and the rest; the plate itself where it has that size already."""
    if plate is None:
        raise ValueError(f"there is no plate left to cut {at} off")
    size = made.plates[plate]
    if at == (size.width if axis == ACROSS else size.height):
        return plate, None
    cut = parted_at(made, plate, axis, at, rules)
    made.cuts.append(cut)
    return add(made, made.plates[plate]) if cut.first is None else cut.first, cut.rest
