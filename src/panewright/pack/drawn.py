"""The drawings that leave the book: for the glass shop, for the hand at the bench, for machines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from panewright.drawing.drawing import Drawing
from panewright.layup.drawn.spacer import combs, spacer_drawing
from panewright.layup.drawn.workshop import workshop_drawing
from panewright.pack.bench import Bench
from panewright.pack.figures.clip import NAMES, clip_figure
from panewright.pack.figures.finished import rim
from panewright.pack.figures.frame import frame_drawing
from panewright.pack.figures.jig import jig_drawing
from panewright.pack.figures.jig_cards import card_room, jig_sheets
from panewright.pack.figures.pane import pane_figure
from panewright.pack.figures.titled import for_machines, title_of
from panewright.pack.heading import order_words, stamp
from panewright.pack.leaf import BookLeaf, DxfLeaf, Leaf, TemplateLeaf
from panewright.pack.pages.corner import clip_tolerance, rail_words
from panewright.pack.pages.frame import HOLE_MM, frame_tolerance, kinds
from panewright.pack.pages.glass import glass_book, tolerance_words
from panewright.pack.pages.layup import layup_material, layup_tolerance
from panewright.structure.corners.clip_cut import clip_cut

_LETTER_MM = 10.0  # on a drawing as large as a panel
SPACER_SHEET = "card, or 3 mm plywood or acrylic sheet"
_KERF = "teeth as wide as the gap, 0.2 mm less at most: try one in scrap, a cutter takes its kerf"


def drawing_leaves(bench: Bench) -> tuple[Leaf, ...]:
    """Every leaf that is a drawing, the lay-up's template and the book apart."""
    return (
        BookLeaf("glass.pdf", glass_book(bench)),
        *_at_full_size(bench),
        *_for_machines(bench),
    )


def _at_full_size(bench: Bench) -> Iterator[TemplateLeaf]:
    """To print and work over."""
    design, job = bench.design, bench.design.order.job
    frame = design.structural.frame
    jig, said = jig_drawing(kinds(frame), frame, job.units), f"crosses ± {bench.off(HOLE_MM)}"
    cards = jig_sheets(kinds(frame), frame, card_room(job.paper), job.units)
    yield replace(_template(bench, "jig.pdf", jig, f"{said} if the bars are true"), cards=cards)
    if combs(design.layup):
        note = "cut along the outer side of the line, from card"
        yield _template(bench, "spacer.pdf", spacer_drawing(design.layup, system=job.units), note)


def _template(bench: Bench, name: str, drawing: Drawing, note: str) -> TemplateLeaf:
    design, job = bench.design, bench.design.order.job
    return TemplateLeaf(
        name, drawing, order_words(design), design.revision, job.paper, job.units, stamp(design), note
    )


def _for_machines(bench: Bench) -> Iterator[DxfLeaf]:
    """At full size, each with its title block."""
    design, units = bench.design, bench.design.order.job.units
    built, layup = design.structural, design.layup
    layout = workshop_drawing(layup, _LETTER_MM, rim(built.frame), units)
    yield _dxf(bench, "layout.dxf", layout, (layup_material(design), layup_tolerance(bench)))
    frame = frame_drawing(built.frame, units)
    yield _dxf(bench, "frame.dxf", frame, (rail_words(built.rail), frame_tolerance(bench)))
    pane = pane_figure(design, min(_LETTER_MM, 0.03 * layup.pane_width_mm))
    yield _dxf(bench, "glass.dxf", pane, (built.pane.sheet.name, tolerance_words(bench)))
    if clip := clip_cut(built.frame):
        drawn = clip_figure(clip, 2.5, units)
        yield _dxf(bench, "clip.dxf", drawn, (clip.clip.name, clip_tolerance(bench)), NAMES[clip.kind])
    if combs(layup):
        yield _dxf(bench, "spacer.dxf", spacer_drawing(layup, system=units), (SPACER_SHEET, _KERF))


def _dxf(
    bench: Bench, name: str, drawing: Drawing, material_tolerance: tuple[str, str], called: str = ""
) -> DxfLeaf:
    material, tolerance = material_tolerance
    design, title_name = bench.design, called or drawing.name
    title = title_of(design, title_name, material=material, tolerance=tolerance)
    return DxfLeaf(name, for_machines(design, drawing, title), design.order.job.units)
