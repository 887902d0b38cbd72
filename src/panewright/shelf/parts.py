"""Rows become parts: one function for each kind of part, the same for the shelf and for an order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import cast

from panewright.cell.kind import CellKind, Pole
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.enclosure.back_sheet import Back
from panewright.enclosure.back_sheet import Kind as BackKind
from panewright.enclosure.bypass import Bypass
from panewright.enclosure.film import Film
from panewright.enclosure.film import Kind as FilmKind
from panewright.enclosure.silicone import Cure, Silicone
from panewright.frame.metals.metal import Metal
from panewright.frame.rail import Alloy, Profile, Rail
from panewright.frame.shape.drawn import Size, flaw
from panewright.frame.shape.outline import Outline
from panewright.frame.support.block import Block
from panewright.frame.support.post import Post
from panewright.frame.support.post import Shape as PostShape
from panewright.frame.support.timber import Species
from panewright.frame.support.wood_screw import Kind, WoodScrew
from panewright.glass.pane import Interlayer, Material, Plies, Sheet, Surface, Treatment
from panewright.ribbon.strip import Strip
from panewright.seal.sealant import Sealant
from panewright.shelf.carriage import FOAM, foam
from panewright.shelf.carton import CARTON, carton
from panewright.shelf.columns.closing import BACK, FILM, POUR
from panewright.shelf.columns.electric import BYPASS, BYPASS_HEAT, CELL, STRIP
from panewright.shelf.columns.fixings import BLOCK, POST, SUNDRY, WOOD_SCREW
from panewright.shelf.columns.frame import RAIL, SEALANT, SHEET
from panewright.shelf.key import Fault, Key
from panewright.shelf.lengths import lengths_mm
from panewright.shelf.points import closed_lines
from panewright.shelf.reading import Reading
from panewright.shelf.shelf import Sundry, Use

# what a material has unless a row says otherwise: density [kg/m3], expansion [1/K], solar transmittance
# soda-lime EN 572-1 and trade figure for clear float; acrylic and polycarbonate: sheet suppliers' data
MATERIALS = {
    "glass": (2500.0, 9.0e-6, 0.83),
    "acrylic": (1190.0, 7.2e-5, 0.90),
    "polycarbonate": (1200.0, 6.8e-5, 0.86),
}
INTERLAYER_KG_M3 = 1070.0  # polyvinyl butyral and its like, data sheets (recalled)
_BEHIND_INTERLAYER = 0.98  # what an interlayer lets through beside the glass (common practice, no source)


def strip(name: str, row: Reading) -> Strip:
    """A tabbing or bus ribbon."""
    return Strip(name, row.number("width"), row.number("thickness"), coat_mm=row.number("coat", 0.02))


def sheet(name: str, row: Reading) -> Sheet:
    """A glass or plastic sheet; density, expansion and light follow the material where left out."""
    material, thickness_mm = row.word("material"), row.number("thickness")
    treatment = row.word("treatment")
    if (material == "glass") == (treatment == "none"):
        cure = 'Glass is annealed, heat-strengthened or tempered; for plastics write treatment = "none".'
        raise Fault(f"{material} does not come with treatment {treatment}.", cure)
    density, expansion, light = MATERIALS[material]
    bound = plies(row)
    whole_mm = thickness_mm + (bound.between_mm if bound else 0.0)
    if bound:
        density = (density * thickness_mm + INTERLAYER_KG_M3 * bound.between_mm) / whole_mm
        light *= _BEHIND_INTERLAYER
    return Sheet(
        name,
        cast(Material, material),
        cast(Treatment, treatment),
        cast(Surface, row.word("surface", "plain")),
        nominal_mm=row.number("nominal", whole_mm),
        thickness_mm=thickness_mm,
        density_kg_m3=row.number("density", density),
        expansion_per_k=row.number("expansion", expansion),
        solar_transmittance=row.number("transmittance", light),
        plies=bound,
    )


def plies(row: Reading) -> Plies | None:
    """The two plies of laminated glass; None where no interlayer is told."""
    interlayer, between_mm = row.word("interlayer"), row.number("between")
    both_mm, outer_mm = row.number("thickness"), row.number("ply") or row.number("thickness") / 2
    if not interlayer:
        if between_mm or row.number("ply"):
            cure = 'Write interlayer = "pvb", or drop between and ply.'
            raise Fault("A ply and what lies between belong to laminated glass.", cure)
        return None
    if row.word("material") != "glass":
        raise Fault("Only glass is laminated here.", "Drop interlayer, between and ply.")
    if not between_mm:
        raise Fault("The thickness of the interlayer is missing.", 'Add between = "0.76 mm".')
    if not 0 < outer_mm < both_mm:
        cure = "Write the thickness of both plies together as thickness, and of the outer one as ply."
        raise Fault("One ply is as thick as both together.", cure)
    return Plies(outer_mm, both_mm - outer_mm, between_mm, cast(Interlayer, interlayer))


def rail(name: str, row: Reading) -> Rail:
    """A frame profile; a drawn one with its outline."""
    size = Size(row.number("seat"), row.number("upright"), row.number("wall"))
    outline, holes = _lines(row)
    if outline and (found := flaw(outline, holes, size)):
        raise Fault(found.reason, found.cure, found.of)
    return Rail(
        name,
        cast(Profile, row.word("profile")),
        size.seat_mm,
        size.upright_mm,
        size.wall_mm,
        alloy=cast(Alloy, row.word("alloy")),
        bar_mm=row.number("bar"),
        outline_mm=outline,
        holes_mm=holes,
    )


def _lines(row: Reading) -> tuple[Outline, tuple[Outline, ...]]:
    """Outline and holes of a drawn rail; another has none."""
    outline, holes = row.word("outline"), row.word("holes")
    if row.word("profile") == "drawn":
        if not outline:
            cure = f"Add {next(key for key in RAIL if key.name == 'outline').assignment()}."
            raise Fault("A drawn rail needs its outline.", cure, "outline")
        (line,) = closed_lines("outline", outline, most=1)
        return line, closed_lines("holes", holes) if holes else ()
    if outline or holes:
        cure = 'Write profile = "drawn", or leave outline and holes out.'
        raise Fault("An outline belongs to a drawn rail.", cure, "outline" if outline else "holes")
    return (), ()


def sealant(name: str, row: Reading) -> Sealant:
    """A sealant with what it may bear."""
    return Sealant(
        name,
        design_pa=row.number("design"),
        dead_load_pa=row.number("dead_load"),
        movement=row.number("movement"),
        cartridge_ml=row.number("cartridge"),
        structural=row.word("use") == "structural",
    )


def cell(name: str, row: Reading) -> CellKind:
    """A whole cell as bought."""
    circle = row.number("circle") or None
    shape = Shape(
        row.number("width"),
        row.number("length"),
        circle_mm=circle,
        busbars=int(row.number("busbars")),
        busbar_width_mm=row.number("busbar_width", 1.6),
        thickness_mm=row.number("thickness", 0.2),
        tolerance_mm=row.number("tolerance", 0.5),
    )
    nameplate = Nameplate(*(row.number(k) for k in ("isc", "voc", "imp", "vmp", "isc_per_k", "voc_per_k")))
    return CellKind(
        name,
        shape,
        nameplate,
        cast(Pole, row.word("front")),
        shunt_ohm_cm2=row.number("shunt", 5000.0),
        breakdown_v=row.number("breakdown", -12.0),
    )


def bypass(name: str, row: Reading) -> Bypass:
    """A bypass diode; of what its sheet leaves out, a Schottky diode's usual figures."""
    usual = Bypass(name, *(row.number(key.name) for key in BYPASS))
    return replace(
        usual,
        drift_v_k=row.number("drift", usual.drift_v_k),
        sheds_k_w=row.number("sheds", usual.sheds_k_w),
        bears_c=row.number("bears", usual.bears_c),
        survives_c=row.number("survives", usual.survives_c),
        leaks_a=row.number("leaks", usual.leaks_a),
        leak_per_k=row.number("leak_growth", usual.leak_per_k),
    )


def pour(name: str, row: Reading) -> Silicone:
    """A two-part silicone to pour."""
    part_a, _, part_b = row.word("ratio").partition(":")
    try:
        parts = float(part_a.replace(",", ".")) / float(part_b.replace(",", "."))
    except (ValueError, ZeroDivisionError):
        raise Fault("A ratio is two numbers.", 'Write ratio = "10 : 1".', "ratio") from None
    return Silicone(
        name,
        density_kg_m3=row.number("density", 1030.0),
        pot_life_min=row.number("pot_life") / 60,
        parts_a=parts,
        viscosity_pa_s=row.number("viscosity", 1.5),
        full_h=row.number("full_cure") / 3600,
        sheet_c=row.number("at", 23.0),
        oven_min=row.number("oven_cure") / 60,
        oven_c=row.number("oven"),
        cures_by=cast(Cure, row.word("cures_by", "platinum")),
    )


def film(name: str, row: Reading) -> Film:
    """A laminating film."""
    return Film(
        name,
        cast(FilmKind, row.word("kind")),
        row.number("thickness"),
        row.number("shrinks_along", 0.03),
        row.number("shrinks_across", 0.01),
        soft_c=row.number("soft", 80.0),
        nine_tenths_min=row.number("cure") / 60,
        most_c=row.number("most", 160.0),
        density_kg_m3=row.number("density", 960.0),
    )


def back(name: str, row: Reading) -> Back:
    """A back sheet, board or glass."""
    return Back(
        name,
        cast(BackKind, row.word("kind")),
        thickness_mm=row.number("thickness"),
        holds_v=row.number("holds"),
        bears_c=row.number("bears"),
        water_g_m2_day=row.number("water"),
        white=row.number("white", 0.75),
        conducts_w_mk=row.number("conducts"),
        shear_pa=row.number("shear"),
        mass_kg_m2=row.number("mass"),
        stiff_pa=row.number("stiff", 0.0) or None,
    )


def sundry(name: str, row: Reading) -> Sundry:
    """Something bought that needs no proof; plywood with its sheet, battens with the bars they come in."""
    short, long = row.number("short"), row.number("long")
    if (not short) != (not long):
        missing = "short" if long else "long"
        raise Fault("A sheet has two sides.", f"Add {missing}, or leave both out.", missing)
    if short > long:
        raise Fault("The long side is less than the short one.", "Exchange long and short.", "long")
    said = row.number("mass"), row.number("fit"), row.number("wall")
    bars = lengths_mm("bars", row.word("bars"))
    return Sundry(name, cast(Use, row.word("use")), *said, long_mm=long, short_mm=short, bars_mm=bars)


def wood_screw(name: str, row: Reading) -> WoodScrew:
    """A screw or bolt for timber."""
    return WoodScrew(name, cast(Kind, row.word("kind")), row.number("diameter"), row.number("length"))


def post(name: str, row: Reading) -> Post:
    """A post: a tube of one metal, or a timber."""
    shape, wall = row.word("shape"), row.number("wall")
    metal, species = row.word("metal", ""), row.word("timber", "")
    if shape == "timber" and (not species or metal or wall):
        raise Fault("A timber post has a timber and no metal or wall.", 'Write timber = "C24".')
    if shape != "timber" and (species or not metal or not wall):
        raise Fault("A tube has a metal and a wall.", 'Write metal = "S235" and wall = "3.2 mm".')
    return Post(
        name,
        cast(PostShape, shape),
        row.number("outer"),
        wall,
        row.number("length"),
        cast(Metal | None, metal or None),
        cast(Species | None, species or None),
    )


def block(name: str, row: Reading) -> Block:
    """A ballast block."""
    return Block(name, *(row.number(key.name) for key in BLOCK))


Maker = Callable[[str, Reading], object]
GROUPS: dict[str, tuple[tuple[Key, ...], Maker]] = {
    "cells": (CELL, cell),
    "tabs": (STRIP, strip),
    "buses": (STRIP, strip),
    "sheets": (SHEET, sheet),
    "rails": (RAIL, rail),
    "sealants": (SEALANT, sealant),
    "bypasses": ((*BYPASS, *BYPASS_HEAT), bypass),
    "sundries": (SUNDRY, sundry),
    "wood_screws": (WOOD_SCREW, wood_screw),
    "posts": (POST, post),
    "blocks": (BLOCK, block),
    "foams": (FOAM, foam),
    "cartons": (CARTON, carton),
    "pours": (POUR, pour),
    "films": (FILM, film),
    "backs": (BACK, back),
}
