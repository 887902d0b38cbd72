"""The frame: rails with every hole, the edge cut through, brackets and the square corner."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import product

from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Caution, Figure, Heading, Page, Words
from panewright.frame.support.clip import Clip
from panewright.pack.bench import Bench, told
from panewright.pack.figures.frame import LETTERS, brackets_figure, edge_words, rail_figure
from panewright.pack.figures.scale import LETTERS_MM, figure
from panewright.pack.figures.section import edge_section
from panewright.pack.figures.titled import strip, title_of
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.pack.setting_blocks import block_words
from panewright.structure.carrying import carriers
from panewright.structure.corners.corner import TOE_MM
from panewright.structure.corners.squareness import SAW_MM, SQUARE_MM
from panewright.structure.drilling.frame_plan import FramePlan, Hole, RailPiece

HOLE_MM = 0.5  #: a hole may lie so far off its place; common practice
_RAIL_ROOM = Size(170.0, 90.0)  # of paper, for the longest rail


def frame_pages(bench: Bench) -> tuple[Page, ...]:
    """Rails to drill, then the edge and the brackets."""
    return (_rails(bench), _edge(bench))


def kinds(frame: FramePlan) -> tuple[tuple[str, RailPiece], ...]:
    """Rails that are cut and drilled alike, told once: (names, one of them)."""
    found: dict[tuple[object, ...], list[RailPiece]] = {}
    for piece in frame.pieces:
        key = (piece.length_mm, piece.cut_deg, piece.cope_mm, piece.holes)
        found.setdefault(key, []).append(piece)
    return tuple((" and ".join(piece.name for piece in alike), alike[0]) for alike in found.values())


def _rails(bench: Bench) -> Page:
    built, units = bench.design.structural, bench.design.order.job.units
    frame = built.frame
    long = max(frame.pieces, key=lambda piece: piece.length_mm)
    scale = figure(lambda text: rail_figure(long, frame, text, units, "x"), _RAIL_ROOM, "", units).scale
    blocks: list[Block] = [
        Words(
            f"{_named(bench)} {corner_words(bench)} Drawn unfolded: the upright above "
            "the dashed heel, the seat below it. Hook the rule at the left end with the upright towards "
            "you and the seat down; every distance along runs from there, every distance across from the "
            "heel."
        ),
        Caution(caution.CHIPS),
        _strip(bench, "Frame rails, unfolded", "from outside"),  # here, for the drawings run on
    ]
    for names, piece in kinds(frame):
        drawing = rail_figure(piece, frame, LETTERS_MM[0] * scale, units, names.capitalize())
        blocks.append(Figure(drawing, scale))
    blocks.append(
        words_table(("Hole", "For", "Diameter", "Leg, and where across it", "From the datum"), _rows(bench))
    )
    blocks += [Heading("Carrying"), Words(_carrying(bench))]
    return Page("Frame, rails and holes", tuple(blocks))


def _named(bench: Bench) -> str:
    """The rail and its alloy, as a sentence begins."""
    rail = bench.design.structural.rail
    return f"{rail.name[:1].upper()}{rail.name[1:]}, {rail.alloy}."


def corner_words(bench: Bench) -> str:
    """How the rails are sawn and joined at the corners."""
    frame = bench.design.structural.frame
    if frame.joint is None:
        return (
            "Corners mitred at 45°, both ends, and welded round the outside: upright and seat. Heat softens "
            "the rail for about 25 mm; weld before the pane comes near."
        )
    clip = clip_words(bench, frame.joint.clip)
    where = "outside" if frame.rail.profile == "tube" else "inside"
    if any(hole.leg == "seat" for hole in frame.corner_holes):
        last = max(min(hole.along_mm, piece.length_mm - hole.along_mm) for piece, hole in _at_corners(frame))
        where = f"on the seats, a flat L cut from plate, {bench.size(last + TOE_MM)} along each rail"
    held = f"{clip} {where}, two of {frame.joint.fastener.name} in each rail."
    if frame.corner == "mitred":
        return f"Corners mitred at 45°, both ends; {held}"
    lapped = "Corners lapped, ends square: the side rails run through, bottom and top stand between them"
    cope = max(piece.cope_mm for piece in frame.pieces)
    return (
        f"{lapped}, their seats cut back by {bench.size(cope)} at both ends; {held}"
        if cope
        else f"{lapped}; {held}"
    )


def frame_tolerance(bench: Bench) -> str:
    """Lengths, holes and square, as a title block says them; the holes are common practice."""
    return (
        f"rails ± {bench.off(SAW_MM)}, opposite ones alike; holes ± {bench.off(HOLE_MM)} from the datum; "
        f"frame's diagonals alike within {bench.size(SQUARE_MM)} (common practice)"
    )


def _at_corners(frame: FramePlan) -> Iterator[tuple[RailPiece, Hole]]:
    """Every hole of a corner's clip, and its rail."""
    return ((piece, hole) for piece in frame.pieces for hole in piece.holes if hole.purpose == "corner")


def clip_words(bench: Bench, clip: Clip) -> str:
    """A clip with its metal and size."""
    kind = "an aluminium cleat" if clip.metal == "aluminium" else "a stainless clip"
    return f"{kind} {bench.size(clip.wide_mm)} wide and {bench.size(clip.wall_mm)} thick"


def hole_size(bench: Bench, hole: Hole) -> str:
    """Diameter of a hole; width and whole length of a slot."""
    wide = bench.drill(hole.diameter_mm)
    return f"slot {wide} x {bench.drill(hole.slot_mm + hole.diameter_mm)}" if hole.slot_mm else wide


def _rows(bench: Bench) -> tuple[tuple[str, ...], ...]:
    """Every hole once for each kind of rail."""
    units, rows = bench.design.order.job.units, []
    sizes = sorted({0.0, bench.design.structural.frame.slot_mm})
    for names, piece in kinds(bench.design.structural.frame):
        for purpose, slot_mm in product(LETTERS, sizes):
            alike = [hole for hole in piece.holes if (hole.purpose, hole.slot_mm) == (purpose, slot_mm)]
            if not alike:
                continue
            first = alike[0]
            along = ", ".join(told(hole.along_mm, units) for hole in alike)
            size, across = hole_size(bench, first), edge_words(first, units)
            rows.append((LETTERS[purpose], f"{purpose}, {names}", size, across, along))
    return tuple(rows)


def _edge(bench: Bench) -> Page:
    design, units = bench.design, bench.design.order.job.units
    frame = design.structural.frame
    bead, places = design.structural.bead, design.structural.low.places_mm
    dashed = ", dashed in the cut below" if places and design.structural.rail.profile != "tube" else ""
    blocks: list[Block] = [
        Words(
            f"The bead of {bead.sealant.name} lies between seat and pane, {bench.size(bead.bite_mm)} wide "
            f"and {bench.size(bead.glue_line_mm)} thick, and fills the {bench.size(bead.gap_mm)} between "
            "the pane's edge and the upright all round. Spacers of that thickness keep the glue line. "
            f"What carries the pane's weight: {block_words(bench)}{dashed}."
        ),
        figure(partial(edge_section, design), Size(168.0, 80.0), "The edge cut through, sun above", units),
        Heading("Brackets and square corners"),
        figure(
            partial(_brackets, frame, places, units), Size(168.0, 94.0), "The frame from the front", units
        ),
        _strip(bench, "Edge and brackets"),
    ]
    return Page("Frame, edge and brackets", tuple(blocks))


def _strip(bench: Bench, name: str, side: str = "") -> Figure:
    """The title block of a page's drawings."""
    design = bench.design
    rail = f"{design.structural.rail.name}, {design.structural.rail.alloy}"
    return strip(design, title_of(design, name, material=rail, tolerance=frame_tolerance(bench), side=side))


def _carrying(bench: Bench) -> str:
    """Who carries it, and by what."""
    built = bench.design.structural
    people = carriers(built.frame, built.mass.total_kg)
    who = "One person carries" if people == 1 else f"{people} people carry"
    return (
        f"{who} it ({bench.say(built.mass.total_kg, 'kg')}), upright, hands under both long rails; never by "
        "the pane, the box or a lead. The checks weigh it lifted by one corner and stood on one, twice as "
        "heavy: those are mishaps, not a way to carry it."
    )


def _brackets(frame: FramePlan, blocks_mm: tuple[float, ...], system: str, text_mm: float) -> Drawing:
    return brackets_figure(frame, text_mm, system, blocks_mm)
