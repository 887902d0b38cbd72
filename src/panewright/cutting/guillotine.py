"""Every plate that cuts from edge to edge can make of a sheet, as a graph.

A plate is a rectangle. A cut parts it into two; a plate of a panel's size is that panel. Cuts are tried where
panels laid side by side from the left or lower edge end: nothing is lost by that [H]. Where that makes too
many plates, only where a single panel ends.

[H] J. C. Herz, Recursive computational procedure for two-dimensional stock cutting, IBM Journal of Research
and Development 16 (1972) 462 (recalled).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

ACROSS, ALONG = 1, 2  #: a cut across parts the width, one along the height
MOST_CUTS = {False: 6_000, True: 12_000}  #: in one graph, all sums of panels tried or single ones


@dataclass(frozen=True, slots=True)
class Kind:
    """Panels of one size, in whole units."""

    width: int
    height: int
    quantity: int
    turns: bool

    @property
    def ways(self) -> tuple[tuple[int, int], ...]:
        """The sizes it may lie in."""
        turned = self.turns and self.width != self.height
        return ((self.width, self.height), (self.height, self.width))[: 1 + turned]


@dataclass(frozen=True, slots=True)
class Rules:
    """What a cut takes and leaves, in whole units."""

    kerf: int
    breakout: int
    stages: int
    single: bool  #: cuts only where a single panel ends
    keep: tuple[int, int] | None  #: long and short side of a rest worth keeping


@dataclass(frozen=True, slots=True)
class Plate:
    """A rectangle, how many turns of direction made it, and the direction of the last cut."""

    width: int
    height: int
    turns: int = 0
    last: int = 0


@dataclass(frozen=True, slots=True)
class Cut:
    """A plate parted at a distance from its left or lower edge; a part is None where the kerf takes it."""

    plate: int
    axis: int
    at: int
    first: int
    rest: int | None


@dataclass(slots=True)
class Graph:
    """Plates, the cuts that part them, and which plate is which panel."""

    plates: list[Plate] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    uses: list[tuple[int, int]] = field(default_factory=list)  #: plate, kind
    index: dict[Plate, int] = field(default_factory=dict)


def graph(sheets: Sequence[tuple[int, int]], kinds: Sequence[Kind], rules: Rules) -> Graph | None:
    """All plates of these sheets; None if there are more cuts than `MOST_CUTS`."""
    made = Graph()
    for width, height in sheets:
        add(made, Plate(width, height))
    place = 0
    while place < len(made.plates):
        plate = made.plates[place]
        for kind, panel in enumerate(kinds):
            if (plate.width, plate.height) in panel.ways:
                made.uses.append((place, kind))
        for axis, at in _cuts(plate, kinds, rules):
            made.cuts.append(parted_at(made, place, axis, at, rules))
        if len(made.cuts) > MOST_CUTS[rules.single]:
            return None
        place += 1
    return made


def add(made: Graph, plate: Plate) -> int:
    """A plate's place in the graph; it is added where it is new."""
    if plate not in made.index:
        made.index[plate] = len(made.plates)
        made.plates.append(plate)
    return made.index[plate]


def _cuts(plate: Plate, kinds: Sequence[Kind], rules: Rules) -> Iterator[tuple[int, int]]:
    for axis in (ACROSS, ALONG):
        if rules.stages and plate.turns + (axis != plate.last) > rules.stages:
            continue
        length, beside = (plate.width, plate.height) if axis == ACROSS else (plate.height, plate.width)
        for at in _ends(length, beside, axis, kinds, rules):
            if at >= rules.breakout and leaves_well(length - at, rules):
                yield axis, at


def leaves_well(rest: int, rules: Rules) -> bool:
    """The strip left is wide enough to break off, or the saw takes all of it."""
    left = rest - rules.kerf
    return rest > 0 and (left >= max(rules.breakout, 1) or (left <= 0 < rules.kerf))


def _ends(length: int, beside: int, axis: int, kinds: Sequence[Kind], rules: Rules) -> list[int]:
    """Where panels that fit in the plate can end: one alone, or some side by side."""
    sizes: dict[int, int] = {}
    for kind in kinds:
        for way in kind.ways:
            along, across = way if axis == ACROSS else way[::-1]
            if along <= length and across <= beside:
                sizes[along] = sizes.get(along, 0) + kind.quantity
    if rules.single:
        return sorted(size for size in sizes if size < length)
    sums = {0}
    for size, quantity in sorted(sizes.items()):
        step, reached = size + rules.kerf, sums
        for _ in range(min(quantity, length // step + 1)):
            reached = {end + step for end in reached if end + size < length} - sums
            if not reached:
                break
            sums |= reached
    return sorted(end - rules.kerf for end in sums if end)


def parted_at(made: Graph, place: int, axis: int, at: int, rules: Rules) -> Cut:
    """A plate of the graph parted, its two parts added."""
    plate = made.plates[place]
    turns = plate.turns + (axis != plate.last) if rules.stages else 0
    last = axis if rules.stages else 0
    left = (plate.width if axis == ACROSS else plate.height) - at - rules.kerf

    def part(size: int) -> int:
        sides = (size, plate.height) if axis == ACROSS else (plate.width, size)
        return add(made, Plate(*sides, turns, last))

    return Cut(place, axis, at, part(at), part(left) if left > 0 else None)
