"""Every plate that cuts from edge to edge can make of a sheet, as a graph.

A plate is a rectangle. A cut parts it into two; a plate of a panel's size is that panel. Cuts are tried where
panels laid side by side from the left or lower edge end: nothing is lost by that [H]. Where that makes too
many plates, only where a single panel ends.

Where turns are not counted a plate is as good as the largest one within it that
panels side by side fill: it is taken for that one, and what it is larger becomes waste in the end. A panel
may be taken from a larger plate where the strips beside it are of no use. A cut of which only one part is of
use is then not needed, nor one beyond the middle, which is the mirror of one before it. Where narrow strips
cannot be broken off, a plate rounded so may miss a cut that the larger one allows, but allows none too many.

[H] J. C. Herz, Recursive computational procedure for two-dimensional stock cutting, IBM Journal of Research
and Development 16 (1972) 462 (recalled).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

ACROSS, ALONG = 1, 2  #: a cut across parts the width, one along the height
MOST_ENDS = 200  #: of panels along one side of a sheet; of more there is no hope
MOST_CUTS = {False: 6_500, True: 9_000}  #: in one graph, all sums of panels tried or single ones


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
    rounded: bool = False  #: plates are taken for the largest within them that panels fill


@dataclass(frozen=True, slots=True)
class Plate:
    """A rectangle, how many turns of direction made it, and the direction of the last cut."""

    width: int
    height: int
    turns: int = 0
    last: int = 0


@dataclass(frozen=True, slots=True)
class Cut:
    """A plate parted at a distance from its left or lower edge; a part is None where nothing comes of it."""

    plate: int
    axis: int
    at: int
    first: int | None
    rest: int | None


@dataclass(frozen=True, slots=True)
class Use:
    """A plate that is a panel, or is trimmed to one."""

    plate: int
    kind: int
    sides: tuple[int, int]  #: the panel's, as it lies


@dataclass(slots=True)
class Graph:
    """Plates, the cuts that part them, and which plate is which panel."""

    plates: list[Plate] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    uses: list[Use] = field(default_factory=list)
    index: dict[Plate, int] = field(default_factory=dict)


def graph(sheets: Sequence[tuple[int, int]], kinds: Sequence[Kind], rules: Rules) -> Graph | None:
    """All plates of these sheets; None where there are more cuts or ends than are allowed."""
    made, filled = Graph(), Filled(kinds, rules)
    for width, height in sheets:
        ends = (filled.ends(width, height, ACROSS), filled.ends(height, width, ALONG))
        if max(map(len, ends)) > MOST_ENDS:
            return None
        add(made, Plate(width, height))
    place = 0
    while place < len(made.plates):
        plate = made.plates[place]
        made.uses += [Use(place, kind, way) for kind, way in _panels(plate, filled)]
        for axis, at in _cuts(plate, filled, rules):
            made.cuts.append(parted_at(made, place, axis, at, rules, filled))
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


class Filled:
    """Where panels end in plates, each asked once."""

    def __init__(self, kinds: Sequence[Kind], rules: Rules) -> None:
        self.kinds, self.rules = kinds, rules
        self._ends: dict[tuple[int, int, int], list[int]] = {}
        self._sides: dict[tuple[int, int], tuple[int, int]] = {}

    def ends(self, length: int, beside: int, axis: int) -> list[int]:
        """Where panels that fit in the plate can end."""
        key = (length, beside, axis)
        if key not in self._ends:
            self._ends[key] = _ends(length, beside, axis, self.kinds, self.rules)
        return self._ends[key]

    def sides(self, width: int, height: int) -> tuple[int, int]:
        """Of the largest plate within this one that panels fill; 0 where none fits."""
        if min(width, height) <= 0:
            return 0, 0
        if (width, height) not in self._sides:
            self._sides[width, height] = self._shrunk(width, height)
        return self._sides[width, height]

    def _shrunk(self, width: int, height: int) -> tuple[int, int]:
        while True:
            narrow = self._longest(width, height, ACROSS)
            low = self._longest(height, narrow, ALONG) if narrow else 0
            if not low or (narrow, low) == (width, height):
                return narrow if low else 0, low
            width, height = narrow, low

    def _longest(self, length: int, beside: int, axis: int) -> int:
        sums = _sums(length, beside, axis, self.kinds, self.rules.kerf)
        ends = (end - self.rules.kerf for end in sums if end)
        return max((end for end in ends if _comes_off(length - end, self.rules)), default=0)


def _panels(plate: Plate, filled: Filled) -> Iterator[tuple[int, tuple[int, int]]]:
    """Panels of the plate's size; where plates are rounded, also those beside which no other has room."""
    kerf = filled.rules.kerf
    for kind, panel in enumerate(filled.kinds):
        for way in panel.ways:
            width, height = plate.width - way[0], plate.height - way[1]
            if (width, height) == (0, 0):
                yield kind, way
            elif filled.rules.rounded and all(_comes_off(over, filled.rules) for over in (width, height)):
                strips = ((width - kerf, plate.height), (plate.width, height - kerf))
                if all(0 in filled.sides(*strip) for strip in strips):
                    yield kind, way


def _needed(plate: Plate, axis: int, at: int, filled: Filled) -> bool:
    """Whether no other cuts that are tried too give the same."""
    rules = filled.rules
    if not rules.rounded:
        return True
    length = plate.width if axis == ACROSS else plate.height
    left = length - at - rules.kerf
    rest = (left, plate.height) if axis == ACROSS else (plate.width, left)
    return (rules.single or at <= left) and left > 0 and 0 not in filled.sides(*rest)


def _cuts(plate: Plate, filled: Filled, rules: Rules) -> Iterator[tuple[int, int]]:
    for axis in (ACROSS, ALONG):
        if rules.stages and plate.turns + (axis != plate.last) > rules.stages:
            continue
        length, beside = (plate.width, plate.height) if axis == ACROSS else (plate.height, plate.width)
        for at in filled.ends(length, beside, axis):
            if at >= rules.breakout and leaves_well(length - at, rules) and _needed(plate, axis, at, filled):
                yield axis, at


def leaves_well(rest: int, rules: Rules) -> bool:
    """The strip left is wide enough to break off, or the saw takes all of it."""
    left = rest - rules.kerf
    return rest > 0 and (left >= max(rules.breakout, 1) or (left <= 0 < rules.kerf))


def _comes_off(over: int, rules: Rules) -> bool:
    """Whether what a part is longer can be cut off, or there is none."""
    return over == 0 or leaves_well(over, rules)


def _ends(length: int, beside: int, axis: int, kinds: Sequence[Kind], rules: Rules) -> list[int]:
    """Where panels that fit in the plate can end before its edge: one alone, or some side by side."""
    if rules.single:
        return sorted(size for size in _sizes(length, beside, axis, kinds) if size < length)
    sums = _sums(length, beside, axis, kinds, rules.kerf)
    return sorted(end - rules.kerf for end in sums if end and end - rules.kerf < length)


def _sizes(length: int, beside: int, axis: int, kinds: Sequence[Kind]) -> dict[int, int]:
    """Sides of the panels that fit, and how many panels may show each."""
    sizes: dict[int, int] = {}
    for kind in kinds:
        for way in kind.ways:
            along, across = way if axis == ACROSS else way[::-1]
            if along <= length and across <= beside:
                sizes[along] = sizes.get(along, 0) + kind.quantity
    return sizes


def _sums(length: int, beside: int, axis: int, kinds: Sequence[Kind], kerf: int) -> set[int]:
    """0, and the ends of panels side by side within the length, each with its kerf."""
    sums = {0}
    for size, quantity in sorted(_sizes(length, beside, axis, kinds).items()):
        step, reached = size + kerf, sums
        for _ in range(min(quantity, length // step + 1)):
            reached = {end + step for end in reached if end + size <= length} - sums
            if not reached:
                break
            sums |= reached
    return sums


def parted_at(made: Graph, place: int, axis: int, at: int, rules: Rules, filled: Filled | None = None) -> Cut:
    """A plate of the graph parted, its two parts added; where plates are rounded, by what `filled` says."""
    plate = made.plates[place]
    turns = plate.turns + (axis != plate.last) if rules.stages else 0
    last = axis if rules.stages else 0
    left = (plate.width if axis == ACROSS else plate.height) - at - rules.kerf

    def part(size: int) -> int | None:
        sides = (size, plate.height) if axis == ACROSS else (plate.width, size)
        if filled and rules.rounded:
            sides = filled.sides(*sides)
        return add(made, Plate(*sides, turns, last)) if min(sides) > 0 else None

    return Cut(place, axis, at, part(at), part(left) if left > 0 else None)
