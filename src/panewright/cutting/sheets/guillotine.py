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

from panewright.cutting.sheets.panel_ends import ACROSS, ALONG, Filled, Kind, Rules, comes_off, leaves_well

MOST_ENDS = 200  #: of panels along one side of a sheet; of more there is no hope
MOST_CUTS = {False: 6_500, True: 9_000}  #: in one graph, all sums of panels tried or single ones


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
    made, filled = Graph(), Filled(kinds, rules, max(map(max, sheets), default=0))
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


def _panels(plate: Plate, filled: Filled) -> Iterator[tuple[int, tuple[int, int]]]:
    """Panels of the plate's size; where plates are rounded, also those beside which no other has room."""
    kerf = filled.rules.kerf
    for kind, panel in enumerate(filled.kinds):
        for way in panel.ways:
            width, height = plate.width - way[0], plate.height - way[1]
            if (width, height) == (0, 0):
                yield kind, way
            elif filled.rules.rounded and all(comes_off(over, filled.rules) for over in (width, height)):
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


__all__ = [
    "ACROSS",
    "ALONG",
    "Cut",
    "Graph",
    "Kind",
    "Plate",
    "Rules",
    "Use",
    "add",
    "graph",
    "leaves_well",
    "parted_at",
]
