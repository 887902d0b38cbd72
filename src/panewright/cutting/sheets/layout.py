"""From how often each cut is made to sheets with panels in their places, and the cuts in their order."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from panewright.cutting.sheets.guillotine import ACROSS, ALONG, Graph, Use
from panewright.cutting.sheets.parting import Parted
from panewright.cutting.sheets.sheet import Axis, Cutter, Panel, Rectangle

UNIT_MM = 0.001  #: lengths in the graph are whole numbers of this
_DUST_MM = UNIT_MM / 2  #: of floating point


@dataclass(frozen=True, slots=True)
class Placed:
    """A panel in its place; its quantity is 1."""

    panel: Panel
    at: Rectangle

    @property
    def turned(self) -> bool:
        """Whether it lies turned by 90 degrees."""
        return abs(self.at.width_mm - self.panel.width_mm) > 1e-6


@dataclass(frozen=True, slots=True)
class Step:
    """One cut from edge to edge: of which part, how, how far from which edge, and what the two halves are."""

    number: int
    part: str  #: 'the sheet', or the letter of a part
    size_mm: tuple[float, float]  #: width and height of that part
    axis: Axis
    at_mm: float  #: from the part's left edge for a cut across, from its lower edge for one along
    gives: tuple[str, str]
    line: tuple[tuple[float, float], tuple[float, float]]  #: on the sheet [mm]

    def told(self, at: str) -> str:
        """What to do, as a sentence; `at` is its distance from the edge in words."""
        edge = "left" if self.axis == "across" else "lower"
        way = "upright" if self.axis == "across" else "level"
        return f"Cut {self.part} {way}, {at} from its {edge} edge: {' and '.join(self.gives)}."


@dataclass(slots=True)
class Tree:
    """A part of a sheet in its place, and what becomes of it."""

    at: Rectangle
    kind: int | None = None
    axis: int | None = None  #: of the cut that parts it
    cut_mm: float = 0.0  #: how far that cut is from its left or lower edge
    parts: tuple[Tree, ...] = ()


def trees(
    graph: Graph,
    parted: Parted,
    roots: tuple[int, ...],
    begin: tuple[tuple[float, float], ...],
    kerf_mm: float,
) -> list[Tree]:
    """A tree for every sheet taken; `begin` is the usable lower left corner of each kind of sheet."""
    waiting = _Waiting(graph, parted, kerf_mm)
    return [
        waiting.grown(root, Rectangle(*begin[kind], size.width * UNIT_MM, size.height * UNIT_MM))
        for kind, (root, number) in enumerate(zip(roots, parted.sheets, strict=True))
        for size in (graph.plates[root],)
        for _ in range(number)
    ]


class _Waiting:
    """Cuts and panels that are still to be given to a plate."""

    def __init__(self, graph: Graph, parted: Parted, kerf_mm: float) -> None:
        self.graph, self.kerf_mm = graph, kerf_mm
        self.cuts: list[list[int]] = [[] for _ in graph.plates]
        self.uses: list[list[Use]] = [[] for _ in graph.plates]
        for index, (cut, times) in enumerate(zip(graph.cuts, parted.cuts, strict=True)):
            self.cuts[cut.plate] += [index] * times
        for use, times in zip(graph.uses, parted.uses, strict=True):
            self.uses[use.plate] += [use] * times

    def grown(self, plate: int | None, at: Rectangle) -> Tree:
        """A part taken for that plate; it may be larger."""
        if plate is None:
            return Tree(at)
        if self.uses[plate]:
            use = self.uses[plate].pop(0)
            sides = (use.sides[0] * UNIT_MM, use.sides[1] * UNIT_MM)
            return _trimmed(at, sides, use.kind, self.kerf_mm)
        if self.cuts[plate]:
            cut = self.graph.cuts[self.cuts[plate].pop(0)]
            first, rest = _halves(at, cut.axis, cut.at * UNIT_MM, self.kerf_mm)
            parts = (self.grown(cut.first, first), *((self.grown(cut.rest, rest),) if rest else ()))
            return Tree(at, None, cut.axis, cut.at * UNIT_MM, parts)
        return Tree(at)


def _trimmed(at: Rectangle, sides: tuple[float, float], kind: int, kerf_mm: float) -> Tree:
    """A panel, and the cuts that take off what its part is larger."""
    for axis, whole, side in ((ACROSS, at.width_mm, sides[0]), (ALONG, at.height_mm, sides[1])):
        if whole > side + _DUST_MM:
            first, rest = _halves(at, axis, side, kerf_mm)
            parts = (_trimmed(first, sides, kind, kerf_mm), *((Tree(rest),) if rest else ()))
            return Tree(at, None, axis, side, parts)
    return Tree(at, kind)


def _halves(at: Rectangle, axis: int, cut_mm: float, kerf_mm: float) -> tuple[Rectangle, Rectangle | None]:
    """The part cut off, and what the kerf leaves of the rest."""
    if axis == ACROSS:
        left = at.width_mm - cut_mm - kerf_mm
        first = Rectangle(at.left_mm, at.bottom_mm, cut_mm, at.height_mm)
        rest = Rectangle(at.left_mm + cut_mm + kerf_mm, at.bottom_mm, left, at.height_mm)
    else:
        left = at.height_mm - cut_mm - kerf_mm
        first = Rectangle(at.left_mm, at.bottom_mm, at.width_mm, cut_mm)
        rest = Rectangle(at.left_mm, at.bottom_mm + cut_mm + kerf_mm, at.width_mm, left)
    return first, rest if left > _DUST_MM else None


def leaves(tree: Tree) -> Iterator[Tree]:
    """Panels and rests, in the order in which they come off."""
    if tree.axis is None:
        yield tree
    for part in tree.parts:
        yield from leaves(part)


def steps(tree: Tree, name: Callable[[Tree], str], cutter: Cutter) -> tuple[Step, ...]:
    """The cuts, each part finished before the next is begun; parts that are cut further get a letter."""
    found: list[Step] = []
    letters = _letters()

    def follow(node: Tree, part: str) -> None:
        if node.axis is None:
            return
        names = [f"part {next(letters)}" if each.axis is not None else name(each) for each in node.parts]
        told = (*names, "chips")[:2]
        axis: Axis = "across" if node.axis == ACROSS else "along"
        size = (round(node.at.width_mm, 3), round(node.at.height_mm, 3))
        line = _line(node.at, node.axis, node.cut_mm + cutter.kerf_mm / 2)
        found.append(Step(len(found) + 1, part, size, axis, round(node.cut_mm, 3), (told[0], told[1]), line))
        for each, called in zip(node.parts, names, strict=True):
            follow(each, called)

    follow(tree, "the sheet")
    return tuple(found)


def _line(at: Rectangle, axis: int, away: float) -> tuple[tuple[float, float], tuple[float, float]]:
    if axis == ACROSS:
        x = at.left_mm + away
        return (x, at.bottom_mm), (x, at.bottom_mm + at.height_mm)
    y = at.bottom_mm + away
    return (at.left_mm, y), (at.left_mm + at.width_mm, y)


def _letters() -> Iterator[str]:
    """A, B, ... Z, AA, AB and so on."""
    number = 0
    while True:
        word, left = "", number
        while left >= 0:
            word, left = chr(65 + left % 26) + word, left // 26 - 1
        yield word
        number += 1
