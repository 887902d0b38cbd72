"""What the order leaves open of a mounting: bracket, screws, bolt, post, depth, blocks; and its proof."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.joining.bolt import M6
from panewright.frame.metals.metal import Metal
from panewright.frame.support.block import Block
from panewright.frame.support.bracket import Bracket
from panewright.frame.support.post import Post
from panewright.frame.support.timber import timber
from panewright.frame.support.wood_screw import WoodScrew
from panewright.shelf.shelf import Row, Shelf, Sundry
from panewright.structure.mounting.bolted import Bolted, choose_bolt, judge_bolted
from panewright.structure.mounting.bracket import HOLE_MM, choose_bracket, judge_bracket
from panewright.structure.mounting.forces import BracketForces, Panel, top_check
from panewright.structure.mounting.ground.ballast import (
    Stand,
    judge_ballast,
    least_blocks,
    stack_mm,
    under_panel_mm,
)
from panewright.structure.mounting.ground.post import Standing, judge_post, with_depth
from panewright.structure.mounting.ground.soil import soil
from panewright.structure.mounting.timber.wood import Screwed, judge_wood
from panewright.structure.mounting.wish import BallastWish, Mounting, PostWish, TimberWish
from panewright.structure.nearness import far_from_passing
from panewright.units import GRAVITY_M_S2

LEG_MM = 40.0  #: of the shelf's brackets
BRACKET_METAL: Metal = "6063-T6"  #: known to both rule books
_STAND_WALL_MM = 3.0  # of a post's head or a stand, that brackets are bolted to; common practice
_SUPPORT: dict[Family, Metal] = {"EN": "S235", "ASCE": "A500 B"}
_MOST_SCREWS = 2
_BOLT_PART = {"M6 A2-70": "bolt M6 x 20 with nut and washers, stainless A2"}

Units = Literal["metric", "us"]


@dataclass(frozen=True, slots=True)
class Part:
    """Something that the mounting takes, by its name on the shelf or in the order."""

    name: str
    count: float
    sold_by: str
    at_site: bool = False  #: heavy or long, and the same everywhere: had where the panel is put up
    long_mm: float = 0.0  #: of a post, from its foot to its top


@dataclass(frozen=True, slots=True)
class MountingProof:
    """What carries the panel, chosen and judged."""

    mounting: Mounting
    bracket: Bracket
    forces: BracketForces
    panel: Panel
    brackets: int
    checks: tuple[Check, ...]
    parts: tuple[Part, ...] = ()  #: beside the brackets and their bolts in the rail
    screwed: Screwed | None = None
    bolted: Bolted | None = None
    standing: Standing | None = None
    stand: Stand | None = None
    block: Block | None = None
    blocks: int = 0


def shelf_brackets(shelf: Shelf) -> tuple[Row[Bracket], ...]:
    """Brackets of the shelf whose thickness is told, as pieces of angle; their length is what they fit."""
    return tuple(
        Row(row.name, _piece(row), row.price, row.sold_by, row.source)
        for row in shelf.sundries
        if row.part.use == "bracket" and row.part.wall_mm > 0 and row.part.fit_mm > 0
    )


def _piece(row: Row[Sundry]) -> Bracket:
    return Bracket(row.name, LEG_MM, row.part.wall_mm, row.part.fit_mm, BRACKET_METAL)


def bracket_for(mounting: Mounting, shelf: Shelf, forces: BracketForces, family: Family) -> Bracket:
    """The order's bracket, or the thinnest of the shelf that holds."""
    brackets = tuple(row.part for row in shelf_brackets(shelf))
    usual = Bracket("bracket 40 x 40 x 4 mm", LEG_MM, 4.0, 40.0, BRACKET_METAL)
    return mounting.bracket or choose_bracket(brackets or (usual,), forces, family)


def prove(
    mounting: Mounting,
    bracket: Bracket,
    panel: Panel,
    forces: BracketForces,
    *,
    brackets: int,
    shelf: Shelf,
    units: Units,
) -> MountingProof:
    """The mounting with everything chosen, and every rule."""
    base = MountingProof(mounting, bracket, forces, panel, brackets, ())
    if mounting.timber:
        return _on_timber(base, mounting.timber, shelf)
    if mounting.on == "by others":
        return replace(base, checks=judge_bracket(bracket, forces, panel.family))
    bolted = _bolted(base, mounting.support_wall_mm or _STAND_WALL_MM)
    if mounting.post:
        return _on_post(bolted, mounting.post, shelf, units)
    if mounting.ballast:
        return _on_ballast(bolted, mounting.ballast, shelf, units)
    return bolted


def _on_timber(base: MountingProof, wish: TimberWish, shelf: Shelf) -> MountingProof:
    """The fewest and thinnest screws that hold; the nearest where none do."""
    family, wood = base.panel.family, timber(wish.species)

    def joint(screw: WoodScrew, screws: int) -> Screwed:
        return Screwed(family, base.bracket, screw, screws, wood, wish.wet, wish.depth_mm, wish.width_mm)

    tried = [
        (each, _screw_checks(each, base.forces))
        for each in (joint(*pair) for pair in _screws(wish, shelf, family))
    ]
    holding = (pair for pair in tried if all(check.passed for check in pair[1]))
    nearest = min(tried, key=lambda pair: far_from_passing(pair[1]))
    chosen, checks = next(holding, nearest)
    parts = (Part(chosen.screw.name, chosen.screws * base.brackets, "each"),)
    return replace(base, screwed=chosen, checks=checks, parts=parts)


def _screw_checks(joint: Screwed, forces: BracketForces) -> tuple[Check, ...]:
    bracket = judge_bracket(joint.bracket, forces, joint.family, max(HOLE_MM, joint.screws * joint.hole_mm))
    return (*bracket, *judge_wood(joint, forces))


def _screws(wish: TimberWish, shelf: Shelf, family: Family) -> Iterator[tuple[WoodScrew, int]]:
    """Screws to try: the order's own, or those of the family from thin to thick and short to long."""
    counts: Iterable[int] = (wish.screws,) if wish.screws else range(1, _MOST_SCREWS + 1)
    listed = [row.part for row in shelf.wood_screws if row.part.made_for(family) and row.part.kind != "bolt"]
    usual = WoodScrew("coach screw 8 x 80 mm", "lag screw" if family == "ASCE" else "coach screw", 8.0, 80.0)
    screws = (
        [wish.screw]
        if wish.screw
        else sorted(listed or [usual], key=lambda screw: (screw.diameter_mm, screw.length_mm))
    )
    for count in counts:
        for screw in screws:
            yield screw, count


def _bolted(base: MountingProof, wall_mm: float) -> MountingProof:
    family = base.panel.family
    joint = choose_bolt(Bolted(family, base.bracket, M6, wall_mm, _SUPPORT[family]), base.forces)
    hole = max(HOLE_MM, joint.bolt.hole_mm)
    checks = (*judge_bracket(base.bracket, base.forces, family, hole), *judge_bolted(joint, base.forces))
    name = _BOLT_PART.get(joint.bolt.name, f"bolt {joint.bolt.name} with nut and washers")
    return replace(base, bolted=joint, checks=checks, parts=(Part(name, base.brackets, "each"),))


def _on_post(base: MountingProof, wish: PostWish, shelf: Shelf, units: Units) -> MountingProof:
    """The lightest post that holds, set as deep as it needs."""
    tried = [_standing(base.panel, wish, post) for post in _posts(wish, shelf, base.panel.family, units)]
    holding = (each for each in tried if all(check.passed for check in judge_post(each)))
    nearest = min(tried, key=lambda each: far_from_passing(judge_post(each)))
    chosen = next(holding, nearest)
    concrete = chosen.foot_n / GRAVITY_M_S2 - chosen.post.kg_m * chosen.embedment_mm / 1000
    parts = (
        *base.parts,
        Part(chosen.post.name, 1, "each", True, chosen.height_mm + chosen.embedment_mm),
        Part("concrete round the post", concrete, "kilogram", True),
    )
    top = top_check(base.panel, chosen.height_mm + base.panel.rise_mm / 2)
    checks = (*base.checks, *judge_post(chosen), top)
    return replace(base, standing=chosen, checks=checks, parts=parts)


def _standing(panel: Panel, wish: PostWish, post: Post) -> Standing:
    height = round(wish.height_mm - panel.rise_mm / 2) if wish.from_top else wish.height_mm
    depth = wish.embedment_mm
    standing = Standing(
        panel, post, max(1.0, height), wish.collar_mm, depth or 1.0, wish.ground, wish.bearing_pa
    )
    return standing if depth else with_depth(standing)


def _posts(wish: PostWish, shelf: Shelf, family: Family, units: Units) -> tuple[Post, ...]:
    """The order's post, or the shelf's of a metal that the family lists, lightest first."""
    if wish.post:
        return (wish.post,)
    steel = tuple(row for row in shelf.posts if row.part.metal == _SUPPORT[family])
    rows = shelf.in_measure(steel or shelf.posts, units)
    usual = Post("steel tube 60.3 x 3.2 mm", "round", 60.3, 3.2, 6000.0, _SUPPORT[family])
    return tuple(sorted((row.part for row in rows), key=lambda post: post.kg_m)) or (usual,)


def _on_ballast(base: MountingProof, wish: BallastWish, shelf: Shelf, units: Units) -> MountingProof:
    """The first block of the shelf that holds, as many as needed; the nearest where none does."""
    tried = [
        _weighted(base, wish, block) for block in ((wish.block,) if wish.block else _blocks(shelf, units))
    ]
    holding = (each for each in tried if all(check.passed for check in each.checks))
    return next(holding, min(tried, key=lambda each: far_from_passing(each.checks)))


def _weighted(base: MountingProof, wish: BallastWish, block: Block) -> MountingProof:
    """On a footprint as deep as the panel; deeper where the blocks find no room under it."""
    reach, slope = base.panel.reach_mm, base.panel.slope_mm
    usual = float(math.ceil(max(reach, slope / 2, 2 * block.short_mm)))
    proof = _on_footprint(base, wish, block, wish.footprint_depth_mm or usual)
    stand = proof.stand
    if wish.footprint_depth_mm or not stand or _fits_under(stand, block, proof.blocks):
        return proof
    return _on_footprint(base, wish, block, float(math.ceil(reach + 2 * block.short_mm)))


def _fits_under(stand: Stand, block: Block, blocks: int) -> bool:
    return stack_mm(stand, block, blocks) <= under_panel_mm(stand, block)


def _on_footprint(base: MountingProof, wish: BallastWish, block: Block, depth_mm: float) -> MountingProof:
    panel = base.panel
    stand = Stand(
        panel,
        depth_mm,
        wish.footprint_width_mm or panel.width_mm,
        panel.low_edge_mm if wish.low_edge_mm is None else wish.low_edge_mm,
        wish.friction,
        wish.friction_source,
    )
    blocks = wish.blocks or least_blocks(stand, block)
    judged = judge_ballast(stand, block, blocks, _bearing(base.mounting, wish, panel.family))
    tops = (
        () if base.mounting.on == "roof ballast" else (top_check(panel, stand.low_edge_mm + panel.rise_mm),)
    )
    checks = (*base.checks, *judged, *tops)
    parts = (*base.parts, Part(block.name, blocks, "each", True))
    return replace(base, stand=stand, block=block, blocks=blocks, checks=checks, parts=parts)


def _blocks(shelf: Shelf, units: Units) -> tuple[Block, ...]:
    rows = shelf.in_measure(shelf.blocks, units)
    return tuple(row.part for row in rows) or (Block("paver 400 x 400 x 50 mm", 18.0, 400.0, 400.0, 50.0),)


def _bearing(mounting: Mounting, wish: BallastWish, family: Family) -> tuple[float | None, str]:
    """What lies under the blocks may bear: stated, or by a table; of a roof never assumed. [Pa]"""
    if wish.bearing_pa is not None:
        return wish.bearing_pa, "stated by the order"
    if mounting.on == "roof ballast":
        return None, "the roof's own limit is not known: ask the building's engineer"
    ground = soil("clay" if wish.surface not in ("gravel", "sand") else wish.surface)
    if family == "ASCE":
        return ground.asce_bearing_pa, "IBC table 1806.2"
    return ground.en_bearing_pa, "common practice, no source; EN 1997-1 has no table"
