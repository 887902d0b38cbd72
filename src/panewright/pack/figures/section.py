"""The edge of the panel cut through, to scale: frame, bead, pane, encapsulant and the first cell.

Outside is on the left, the sunny side above. The rail's heel is the origin, as in its own section: the seat
runs to the right under the pane's rim, the upright stands up beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.drawing.drawing import Dimension, Drawing, Item, Path, Point, Text, box
from panewright.frame.shape.outline import Outline
from panewright.frame.shape.profile import outlines
from panewright.pack.figures.leaders import Mark, least_crossed
from panewright.panel.closed import BACK_CLEAR_MM
from panewright.panel.design import Design
from panewright.units import show

_BACK_MM = 0.4  # of a back sheet; common practice
_CELL_SHOWN_MM = 24.0  #: of the first cell, then the drawing breaks off


@dataclass(frozen=True, slots=True)
class Edge:
    """Where everything lies at the edge, from the rail's heel. [mm]"""

    pane_left: float
    pane_foot: float
    face: float  #: top of the pane
    bead_right: float
    seat_tip: float
    silicon_left: float
    right: float  #: where the drawing breaks off
    upright: float
    wall: float
    tube: bool
    outlines: tuple[Outline, ...]  #: of the rail, then of its holes
    pour_left: float
    pour_foot: float
    back_left: float  #: where the back sheet begins
    cell_top: float
    cell_mm: float
    back_mm: float  #: thickness of the back sheet as drawn; 0 where there is none to the pane
    lowest: float  #: of the pour or of a board screwed on behind
    blocked: bool  #: a setting block stands in the gap at the low edge


def edge(design: Design) -> Edge:
    """The edge of a design; nothing is drawn yet."""
    built = design.structural
    rail, bead, sheet = built.rail, built.bead, built.pane.sheet
    tube = rail.profile == "tube"
    left = rail.wall_mm + bead.gap_mm
    foot = (rail.upright_mm if tube else rail.wall_mm) + bead.glue_line_mm
    silicon = left + min(design.layup.plan.side_margin_mm, design.layup.plan.end_margin_mm)
    depth = design.pour.depth_mm if design.pour else 1.0
    fits = depth <= bead.glue_line_mm
    pour_left = left + bead.bite_mm if fits else max(rail.seat_mm, left + bead.bite_mm)
    thick, air = design.layup.cells[0].shape.thickness_mm, design.order.parts.encapsulation == "air gap"
    return Edge(
        pane_left=left,
        pane_foot=foot,
        face=foot + sheet.nominal_mm,
        bead_right=left + bead.bite_mm,
        seat_tip=rail.seat_mm,
        silicon_left=silicon,
        right=max(silicon, rail.seat_mm) + _CELL_SHOWN_MM,
        upright=rail.upright_mm,
        wall=rail.wall_mm,
        tube=tube,
        outlines=outlines(rail),
        pour_left=pour_left,
        pour_foot=0.0 if air else foot - depth,
        back_left=_back_left(design, left),
        cell_top=thick if air else foot - (depth - thick) * 0.4,  # on its board, or in the pour
        cell_mm=thick,
        back_mm=_BACK_MM if design.order.parts.encapsulation != "air gap" else 0.0,
        lowest=-design.closing.back.thickness_mm if air else min(0.0, foot - depth),
        blocked=bool(built.low.places_mm) and not tube,
    )


def _back_left(design: Design, pane_left: float) -> float:
    """Where the back sheet begins: as far inside the pane's edge as it is cut smaller than the pane. [mm]"""
    return pane_left + (design.structural.pane.long_mm - design.closing.back_mm[0]) / 2


def edge_section(design: Design, text_mm: float = 1.6) -> Drawing:
    """The section with its parts named and its sizes dimensioned. [mm]"""
    place = edge(design)
    items = [*_parts(design, place), *_sizes(place, text_mm), *_names(design, place, text_mm)]
    return Drawing("Section through the edge", tuple(items))


def _parts(design: Design, at: Edge) -> Iterator[Item]:
    if at.pour_foot < at.pane_foot and design.order.parts.encapsulation != "air gap":
        yield box(at.pour_left, at.pour_foot, at.right, at.pane_foot, "encapsulant", filled=True)
    under = at.upright if at.tube else at.wall
    yield box(at.pane_left, under, at.bead_right, at.pane_foot, "bead", filled=True)
    if not at.tube:
        yield box(at.wall, under, at.pane_left, at.face, "bead", filled=True)
    yield box(at.pane_left, at.pane_foot, at.right, at.face, "pane", filled=True)
    if at.blocked:
        yield box(at.wall, at.pane_foot, at.pane_left, at.face, "hidden")
    if at.back_mm:
        yield box(at.back_left, at.pour_foot - at.back_mm, at.right, at.pour_foot, "band", filled=True)
        yield Path(((at.back_left, at.pour_foot - at.back_mm), (at.right, at.pour_foot - at.back_mm)), "ink")
    yield box(at.silicon_left, at.cell_top - at.cell_mm, at.right, at.cell_top, "cell", filled=True)
    yield from _rail(at)
    if design.order.parts.encapsulation == "air gap":
        thick = design.closing.back.thickness_mm
        yield box(BACK_CLEAR_MM, -thick, at.right, 0.0, "band", filled=True)
        yield Path(((BACK_CLEAR_MM, -thick), (at.right, -thick)), "ink")
    low, high = at.pour_foot - 1.5, at.face + 1.5
    middle = (low + high) / 2
    zigzag = (
        (at.right, low),
        (at.right, middle - 1.0),
        (at.right - 1.2, middle),
        (at.right + 1.2, middle),
        (at.right, middle + 1.0),
        (at.right, high),
    )
    yield Path(zigzag, "border")


def _rail(at: Edge) -> Iterator[Item]:
    """The metal, cut through."""
    outer, *holes = at.outlines
    yield Path(outer, "rail", closed=True, filled=True)
    yield from (Path(hole, "hole", closed=True, filled=True) for hole in holes)


def _sizes(at: Edge, text: float) -> Iterator[Dimension]:
    """Below: silicon, seat. At the left: upright. Above the pane: bite, and gap higher up.

    Words stand past the ends of the inner ones, so that no line of an outer one runs through them.
    """
    foot = at.lowest
    silicon = (at.pane_left, foot), (at.silicon_left, foot)
    yield Dimension(*silicon, -2.5 * text, text, "x", "to silicon", outside=True)
    yield Dimension((0.0, 0.0), (at.seat_tip, 0.0), -5.0 * text + foot, text, "x", "seat", outside=True)
    yield Dimension((0.0, 0.0), (0.0, at.upright), 2.5 * text, text, "y")
    bite = (at.pane_left, at.face), (at.bead_right, at.face)
    yield Dimension(*bite, 2.0 * text, text, "x", "bite", outside=True)
    top = max(at.upright, at.face)
    level = max(at.upright + 2.0 * text, at.face + 4.8 * text) - top
    yield Dimension((at.wall, top), (at.pane_left, top), level, text, "x", "gap", outside=True)


def _names(design: Design, at: Edge, text: float) -> Iterator[Item]:
    """What each part is, one under the other at the right, each with a line to it."""
    left, pitch = at.right + 3.0 * text, 1.7 * text
    marks = sorted(_marks(design, at), key=lambda mark: (mark[0][1], mark[0][0]))
    middle = (at.face + at.pour_foot) / 2
    low = min(middle - pitch * len(marks) / 2, at.pour_foot - 2.0 * pitch)
    if at.lowest < at.pour_foot:  # a board: its name stays above the sizes below it
        low = at.lowest - 0.5 * text
    ends = [(left - 0.5 * text, low + number * pitch + 0.33 * text) for number in range(len(marks))]
    marks = least_crossed(marks, ends)
    bead = _of_bead(design, at)
    over = max(_rising_over(bead[0], each, ends[0][0]) for each in _under_the_bead_line(at))
    ends.append((ends[0][0], max(over, ends[-1][1] + pitch)))
    for (point, words), end in zip([*marks, bead], ends, strict=True):
        yield Path((point, end), "dimension")
        yield Text((left, end[1] - 0.33 * text), words, text)


def _under_the_bead_line(at: Edge) -> tuple[Point, Point]:
    """Its line rises through the pane, over pour and cells and over the place where the pane is named."""
    x, y = _in_the_pane(at)
    return (at.silicon_left, at.pane_foot), (x, y + 0.5)


def _in_the_pane(at: Edge) -> Point:
    return at.right - 2.0, (at.pane_foot + at.face) / 2


def _rising_over(start: Point, over: Point, end_x: float) -> float:
    """How high a line ends that begins at a place and goes over another. [mm]"""
    (x, y), (over_x, over_y) = start, over
    return y + (over_y - y) * (end_x - x) / (over_x - x)


def _marks(design: Design, at: Edge) -> list[Mark]:
    """A place in each part, and its name."""
    built, units = design.structural, design.order.job.units
    depth = at.pane_foot - at.pour_foot
    filling = {
        "silicone pour": f"silicone pour, {show(depth, 'mm', units, 2)} deep",
        "film": "film",
        "air gap": "air",
    }
    seat_y = at.upright - at.wall / 2 if at.tube else at.wall / 2
    cell_y, air = at.cell_top - at.cell_mm, design.order.parts.encapsulation == "air gap"
    marks: list[Mark] = [
        ((at.seat_tip - at.wall / 2, seat_y), built.rail.name),
        (
            (at.right - 3.0, (at.pane_foot + at.cell_top if air else at.pour_foot + cell_y) / 2),
            filling[design.order.parts.encapsulation],
        ),
        ((at.right - 7.0, at.cell_top - at.cell_mm / 2), f"cell, {show(at.cell_mm, 'mm', units, 2)}"),
        (_in_the_pane(at), f"pane, {built.pane.sheet.name}"),
    ]
    if air:
        marks.append(((at.right - 2.0, -design.closing.back.thickness_mm / 2), design.closing.back.name))
    elif at.back_mm:
        marks.append(((at.right - 1.0, at.pour_foot - at.back_mm / 2), "back sheet"))
    return marks


def _of_bead(design: Design, at: Edge) -> Mark:
    """A place in the bead close under the pane, and its name."""
    bead = design.structural.bead
    glue_line = show(bead.glue_line_mm, "mm", design.order.job.units, 2)
    across = min(at.bead_right - 1.0, (at.pane_left + at.silicon_left) / 2)  # a wide bead reaches the cells
    point = across, at.pane_foot - 0.15 * bead.glue_line_mm
    return point, f"{bead.sealant.name}, glue line {glue_line}"
