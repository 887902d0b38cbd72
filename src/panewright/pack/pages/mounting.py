"""What carries the panel: a drawing from the side, what it takes, the forces it hands on, and every rule."""

from __future__ import annotations

from functools import partial

from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Caution, Figure, Heading, Page, Verdicts, Words
from panewright.pack.bench import Bench
from panewright.pack.figures.mounting import mounting_figure
from panewright.pack.figures.scale import figure
from panewright.pack.figures.titled import strip, title_of
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.panel.design import Design
from panewright.structure.mounting.choice import Part
from panewright.structure.mounting.ground.ballast import roof_kg_m2

_ROOM = Size(168.0, 95.0)
_HOW = {
    "by others": "The mounting is by others: only the panel's own brackets are proved. Whoever puts it up "
    "proves what carries them, from the forces below.",
    "timber": "Each bracket is screwed to timber. Drill for the thread's root, soap the screw, drive it "
    "square.",
    "steel": "Each bracket is bolted to steel, a plastic washer between aluminium and steel.",
    "post": "The panel stands on one post under its middle, set in concrete in undisturbed ground. Its head "
    "is not proved.",
    "ground ballast": "The panel stands by weight alone, the blocks in two even rows, front and back, tied "
    "to the stand.",
    "roof ballast": "The panel stands on the roof by weight alone, the blocks in two even rows, front and "
    "back, tied to the stand.",
}


def mounting_page(bench: Bench) -> Page:
    """One page for what carries the panel."""
    design = bench.design
    proof = design.structural.mounting
    caption = "The mounting from the side, the sun at the left; arrows are not to scale"
    blocks: list[Block] = [
        Words(_HOW[proof.mounting.on]),
        Caution(caution.CARRIES),
        figure(partial(_drawn, design), _ROOM, caption, design.order.job.units),
        _strip(bench),
        words_table(("What the mounting hands on", "Force"), _forces(bench), _level(bench)),
    ]
    if slots := slot_words(bench):
        blocks.insert(1, Words(slots))
    for head, at_site in (
        ("It takes, for each panel", False),
        ("To be had at the site, for each panel", True),
    ):
        if rows := _parts(bench, at_site=at_site):
            blocks.append(words_table((head, "Amount"), rows))
    blocks += [Heading("Its rules"), Verdicts(proof.checks)]
    return Page("Mounting", tuple(blocks))


def _strip(bench: Bench) -> Figure:
    """The title block of the drawing."""
    design = bench.design
    bracket = design.structural.mounting.bracket.name
    by_site = "by the site: measure there before cutting"
    title = title_of(design, "Mounting", material=bracket, tolerance=by_site, side="from the side")
    return strip(design, title)


def slot_words(bench: Bench) -> str:
    """Which bolts hold along the long rails and which let them grow; nothing where all holes are round."""
    frame = bench.design.structural.frame
    if not frame.slot_mm:
        return ""
    return (
        "The long rails grow and shrink along their brackets. One bolt of each, in the round hole, holds it: "
        "tighten that one. Set the others in the middle of their slots, a washer on either face, snug and no "
        "more, and lock them with a second nut: there the rail has to slide."
    )


def _drawn(design: Design, text_mm: float) -> Drawing:
    return mounting_figure(design, text_mm)


def _level(bench: Bench) -> str:
    if bench.design.order.site.family == "ASCE":
        return "Service level: 0.6 W, D and S of ASCE 7"
    return "Factored: 1.5 Q, 1.35 G of EN 1990"


def _forces(bench: Bench) -> tuple[tuple[str, str], ...]:
    """Of each bracket, and of the whole where it stands alone."""
    proof = bench.design.structural.mounting
    forces = proof.forces
    sideways = max(forces.sideways_up_n, forces.sideways_down_n)
    rows = [
        ("each bracket, up", bench.say(forces.up_n, "N")),
        ("each bracket, down", bench.say(forces.down_n, "N")),
        ("each bracket, down the slope", bench.say(forces.along_snow_n, "N")),
        ("each bracket, sideways off its rail", bench.say(sideways, "N")),
    ]
    if standing := proof.standing:
        loads = standing.loads
        rows += [
            ("post at the ground, level", bench.say(loads.level_n, "N")),
            ("post at the ground, moment", bench.say(loads.moment_nm, "N m")),
            ("post, torque", bench.say(loads.torque_nm, "N m")),
        ]
    if (stand := proof.stand) and proof.block:
        rows.append(
            ("weight on the footprint", bench.say(roof_kg_m2(stand, proof.block, proof.blocks), "kg/m2"))
        )
    return tuple(rows)


def _parts(bench: Bench, *, at_site: bool) -> tuple[tuple[str, str], ...]:
    """What it takes beside the brackets: what the shop sends, or what is had at the site."""
    parts = bench.design.structural.mounting.parts
    return tuple((part.name, _amount(bench, part)) for part in parts if part.at_site == at_site)


def _amount(bench: Bench, part: Part) -> str:
    if part.sold_by == "kilogram":
        return bench.say(part.count, "kg")
    return f"{part.count:g}, {bench.size(round(part.long_mm))} long" if part.long_mm else f"{part.count:g}"
