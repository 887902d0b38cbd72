"""The edge cut through, step by step: bead on the seat, pane in the bead, and what lies behind the cells."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Drawing, Item, Path, Point, Text, box
from panewright.pack.bench import Bench
from panewright.pack.figures.section import Edge, edge
from panewright.pack.figures.steps.arrow import arrow

_LIFT_MM = 9.0  #: a pane that is about to be set hangs so far over its bead
_BEHIND = {"silicone pour": "silicone, poured", "air gap": "air, dry"}


def pane_over_bead(bench: Bench, text: float) -> Drawing:
    """The edge cut through: the bead lies on the seat, the pane comes down on it. [mm]"""
    at = edge(bench.design)
    items: list[Item] = [*_bead(at, 1.0), *_metal(at), *_pane(at, _LIFT_MM)]
    middle = (at.bead_right + at.right) / 2
    items += arrow((middle, at.pane_foot + _LIFT_MM - 0.4), (middle, at.pane_foot + 0.8), 0.9 * text)
    items += _named(
        [
            ((at.right - 2.0, at.face + _LIFT_MM - 1.0), "pane"),
            (_in_bead(at), "bead, a little high"),
            (_in_seat(at), "seat"),
        ],
        at.right,
        text,
    )
    return Drawing("The edge, cut through", tuple(items))


def pane_in_bead(bench: Bench, text: float) -> Drawing:
    """The same with the pane on its spacers and the gap filled. [mm]"""
    at, bead = edge(bench.design), bench.design.structural.bead
    items: list[Item] = [*_bead(at, 0.0), *_metal(at), *_pane(at, 0.0)]
    if not at.tube:
        items.append(box(at.wall, at.wall, at.pane_left, at.face, "bead", filled=True))
    named = [
        ((at.right - 2.0, at.face - 1.0), "pane"),
        (_in_bead(at), f"bead, bite {bench.size(bead.bite_mm)}: cures from its free sides"),
        (_in_seat(at), "seat"),
    ]
    return Drawing("The edge, cut through", (*items, *_named(named, at.right, text)))


def closed_behind(bench: Bench, text: float) -> Drawing:
    """The same with the cells and what lies round them. [mm]"""
    at, kind = edge(bench.design), bench.design.order.parts.encapsulation
    items: list[Item] = []
    if kind != "air gap":
        items.append(box(at.pour_left, at.pour_foot, at.right, at.pane_foot, "encapsulant", filled=True))
    items += [*_bead(at, 0.0), *_metal(at), *_pane(at, 0.0)]
    if not at.tube:
        items.append(box(at.wall, at.wall, at.pane_left, at.face, "bead", filled=True))
    items.append(box(at.silicon_left, at.cell_top - at.cell_mm, at.right, at.cell_top, "cell", filled=True))
    named = [
        ((at.right - 2.0, at.face - 1.0), "pane, sunny side up"),
        ((at.right - 5.0, at.cell_top - at.cell_mm / 2), "cell"),
        ((at.right - 3.0, (at.pour_foot + at.cell_top - at.cell_mm) / 2), _BEHIND[kind]),
    ]
    return Drawing("The edge, cut through", (*items, *_named(named, at.right, text)))


def _bead(at: Edge, more_mm: float) -> Iterator[Item]:
    under = at.upright if at.tube else at.wall
    yield box(at.pane_left, under, at.bead_right, at.pane_foot + more_mm, "bead", filled=True)


def _pane(at: Edge, up_mm: float) -> Iterator[Item]:
    yield box(at.pane_left, at.pane_foot + up_mm, at.right, at.face + up_mm, "pane", filled=True)


def _metal(at: Edge) -> Iterator[Item]:
    outer, *holes = at.outlines
    yield Path(outer, "rail", closed=True, filled=True)
    yield from (Path(hole, "hole", closed=True, filled=True) for hole in holes)


def _in_bead(at: Edge) -> Point:
    under = at.upright if at.tube else at.wall
    return at.bead_right - 1.0, (under + at.pane_foot) / 2


def _in_seat(at: Edge) -> Point:
    return at.seat_tip - 1.5, at.upright - at.wall / 2 if at.tube else at.wall / 2


def _named(marks: list[tuple[Point, str]], right: float, text: float) -> Iterator[Item]:
    """What each part is, at the right, the highest first, each with a line to it."""
    rows = sorted(marks, key=lambda mark: -mark[0][1])
    top = rows[0][0][1] + 0.6 * text
    for number, (point, words) in enumerate(rows):
        y = top - 2.0 * number * text
        yield Path((point, (right + 2.4 * text, y + 0.33 * text)), "dimension")
        yield Text((right + 3.0 * text, y), words, text)
