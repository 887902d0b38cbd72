"""From how often each cut is made to sheets with panels in their places, and the cuts in their order."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from panewright.cutting.guillotine import ACROSS, Graph
from panewright.cutting.parting import Parted
from panewright.cutting.sheet import Axis, Cutter, Panel, Rectangle

UNIT_MM = 0.001  #: lengths in the graph are whole numbers of this


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

    @property
    def words(self) -> str:
        """What to do, as a sentence."""
        edge = "left" if self.axis == "across" else "lower"
        way = "upright" if self.axis == "across" else "level"
        return f"Cut {self.part} {way}, {self.at_mm:.1f} mm from its {edge} edge: {' and '.join(self.gives)}."


@dataclass(slots=True)
class Tree:
    """A plate in its place, and what becomes of it."""

    plate: int
    at: Rectangle
    kind: int | None = None
    cut: int | None = None
    parts: tuple[Tree, ...] = ()


def trees(
    graph: Graph, parted: Parted, roots: tuple[int, ...], begin: tuple[tuple[float, float], ...]
) -> list[Tree]:
    """A tree for every sheet taken; `begin` is the usable lower left corner of each kind of sheet."""
    cuts, uses = list(parted.cuts), list(parted.uses)
    cuts_of: list[list[int]] = [[] for _ in graph.plates]
    uses_of: list[list[int]] = [[] for _ in graph.plates]
    for index, cut in enumerate(graph.cuts):
        cuts_of[cut.plate].append(index)
    for index, (plate, _) in enumerate(graph.uses):
        uses_of[plate].append(index)

    def grown(plate: int, left: float, bottom: float) -> Tree:
        size = graph.plates[plate]
        tree = Tree(plate, Rectangle(left, bottom, size.width * UNIT_MM, size.height * UNIT_MM))
        use = next((u for u in uses_of[plate] if uses[u]), None)
        if use is not None:
            uses[use] -= 1
            tree.kind = graph.uses[use][1]
            return tree
        index = next((c for c in cuts_of[plate] if cuts[c]), None)
        if index is not None:
            cuts[index] -= 1
            tree.cut = index
            tree.parts = tuple(_parts(graph, index, tree.at, grown))
        return tree

    return [
        grown(root, *begin[kind])
        for kind, (root, number) in enumerate(zip(roots, parted.sheets, strict=True))
        for _ in range(number)
    ]


def _parts(
    graph: Graph, index: int, at: Rectangle, grown: Callable[[int, float, float], Tree]
) -> Iterator[Tree]:
    cut = graph.cuts[index]
    yield grown(cut.first, at.left_mm, at.bottom_mm)
    if cut.rest is not None:
        rest = graph.plates[cut.rest]
        if cut.axis == ACROSS:
            yield grown(cut.rest, at.left_mm + at.width_mm - rest.width * UNIT_MM, at.bottom_mm)
        else:
            yield grown(cut.rest, at.left_mm, at.bottom_mm + at.height_mm - rest.height * UNIT_MM)


def leaves(tree: Tree) -> Iterator[Tree]:
    """Panels and rests, in the order in which they come off."""
    if tree.cut is None:
        yield tree
    for part in tree.parts:
        yield from leaves(part)


def steps(tree: Tree, graph: Graph, name: Callable[[Tree], str], cutter: Cutter) -> tuple[Step, ...]:
    """The cuts, each part finished before the next is begun; parts that are cut further get a letter."""
    found: list[Step] = []
    letters = _letters()

    def follow(node: Tree, part: str) -> None:
        if node.cut is None:
            return
        cut = graph.cuts[node.cut]
        names = [f"part {next(letters)}" if each.cut is not None else name(each) for each in node.parts]
        told = (*names, "chips")[:2]
        at, axis = cut.at * UNIT_MM, "across" if cut.axis == ACROSS else "along"
        size = (round(node.at.width_mm, 3), round(node.at.height_mm, 3))
        line = _line(node.at, cut.axis, at + cutter.kerf_mm / 2)
        found.append(
            Step(len(found) + 1, part, size, axis, round(at, 3), (told[0], told[1]), line)  # type: ignore[arg-type]
        )
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
