"""A design's order with everything that was decided written into it, and the shelf with nothing else.

Designed again, such an order gives the design again: the same panel, judged by the same rooms. What is then
changed in it, as a substitution does, is the only thing that differs.
"""

from __future__ import annotations

from dataclasses import replace

from panewright.order.order import Order, Parts, Wishes
from panewright.panel.design import Design
from panewright.shelf.shelf import Row, Shelf, Sundry
from panewright.structure.drilling.fixing import CLIP_USES
from panewright.structure.mounting.choice import MountingProof
from panewright.structure.mounting.wish import Mounting


def pinned_order(design: Design) -> Order:
    """The order, with nothing left open."""
    order = design.order
    return replace(
        order,
        wishes=_wishes(design),
        parts=_parts(design),
        mounting=_mounting(design.structural.mounting),
    )


def pinned_shelf(design: Design, shelf: Shelf) -> Shelf:
    """The shelf without other sheets, rails, sealants, diodes, clips and closings than the design's."""
    made, held, closing = design.electrical, design.structural, design.closing
    return replace(
        shelf,
        tabs=tuple(row for row in shelf.tabs if row.part == made.tab),
        buses=tuple(row for row in shelf.buses if row.part == made.bus),
        sheets=tuple(row for row in shelf.sheets if row.part == held.pane.sheet),
        rails=tuple(row for row in shelf.rails if row.part == held.rail),
        bypasses=tuple(row for row in shelf.bypasses if row.part == made.bypass),
        pours=tuple(row for row in shelf.pours if closing.pour is None or row.part == closing.pour.silicone),
        films=tuple(
            row for row in shelf.films if closing.laminating is None or row.part == closing.laminating.film
        ),
        backs=tuple(row for row in shelf.backs if row.part == closing.back) or shelf.backs,
        sundries=tuple(row for row in shelf.sundries if _stays(row, design)),
    )


def _stays(row: Row[Sundry], design: Design) -> bool:
    """Whether a sundry is no corner clip, or the design's own."""
    joint = design.amounts.joint
    clip = row.part.use in CLIP_USES.values()
    return not clip or joint is None or row.name == joint.clip.name


def _wishes(design: Design) -> Wishes:
    plan = design.layup.plan
    return replace(
        design.order.wishes,
        in_series=plan.in_series,
        strings=plan.strings,
        columns=plan.columns,
        rows=plan.rows,
        substrings=plan.substrings,
        cell_gap_mm=plan.cell_gap_mm,
        string_gap_mm=plan.string_gap_mm,
        margin_mm=plan.side_margin_mm,
        end_margin_mm=plan.end_margin_mm,
    )


def _parts(design: Design) -> Parts:
    made, held = design.electrical, design.structural
    bead = held.bead
    return replace(
        design.order.parts,
        tab=made.tab,
        bus=made.bus,
        sheet=held.pane.sheet,
        rail=held.rail,
        sealant=bead.sealant,
        bite_mm=bead.bite_mm,
        gap_mm=bead.gap_mm,
        glue_line_mm=bead.glue_line_mm,
        other_corners=(),
        drilled=held.brackets,
    )


def _mounting(proof: MountingProof) -> Mounting:
    """Bracket, screws, post and blocks as they were chosen."""
    wish = replace(proof.mounting, bracket=proof.bracket)
    if wish.timber and proof.screwed:
        timber = replace(wish.timber, screw=proof.screwed.screw, screws=proof.screwed.screws)
        return replace(wish, timber=timber)
    if wish.post and proof.standing:
        post = replace(wish.post, post=proof.standing.post, embedment_mm=proof.standing.embedment_mm)
        return replace(wish, post=post)
    if wish.ballast and proof.block:
        return replace(wish, ballast=replace(wish.ballast, block=proof.block, blocks=proof.blocks))
    return wish
