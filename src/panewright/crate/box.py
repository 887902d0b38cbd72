"""The crate round the foam: plywood on battens, its sizes, its boards and its mass.

A box of plywood, the ends between the sides, battens outside along every edge and upright. Two sills lie
under the floor, and one more under a joint along it; the lowest batten of each side laps them, so that it
holds wall and floor together. Battens lie over the lid, as far apart as its plywood bears. One that is moved
by hand has a batten to grip across each end. One on a pallet has three bearers across, as long as it must not
tip.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from panewright.crate.cushion import Cushion, Side
from panewright.crate.kept import sheet_mm
from panewright.crate.level import SEAT_MM, floor_battens, level_battens
from panewright.crate.pads import foam_boards
from panewright.crate.room import Room
from panewright.crate.screws import Joint, joints
from panewright.crate.seams import Seams, battens_mm, cuts, loose, pieces
from panewright.crate.stack import Stack
from panewright.crate.timber import WOOD_MPA, Board, Build, Section, Yard, bending_mpa, ply_span_mm
from panewright.shelf.shelf import Sundry
from panewright.units import GRAVITY_M_S2

LID_PA = 10e3  #: on the lid where crates are stacked (transport insurers' packaging handbook 1.2, seen)
LIFT = 2.0  #: times its weight when it is lifted with a jerk (container handbook 13.9, seen for stacks)
TIP_DEG = 22.0  #: it may lean and not fall (tip tests of ASTM D6179 and ISTA, recalled)
UPRIGHT_MM = 600.0  #: most from one upright batten to the next; common practice
BEARERS = 3
_ON_ANY_SILL = ("inside", "box", "seams", "_sheets_and_foam")  #: of a crate, that its sills change nothing of
LIGHT_KG = 100.0  #: of panels in a crate of the lighter build on a pallet


@dataclass(frozen=True)
class Crate:
    """One crate, packed. Not slotted: its sizes and boards, which all else asks for, are reckoned once."""

    yard: Yard
    stack: Stack
    by_hand: bool
    cushions: tuple[Cushion, ...]  #: face, edge, end
    sill: Section
    lid: Section
    lid_battens: int
    wood: tuple[Sundry, ...] = ()  #: plywood as the shelf has it; taken as large as asked where it has none

    def cushion(self, side: Side) -> Cushion:
        """The foam of one side."""
        return next(each for each in self.cushions if each.asked.side == side)

    @property
    def _build(self) -> Build:
        if self.by_hand:
            return self.yard.hand
        light = self._held_kg <= LIGHT_KG
        return self.yard.light if light else self.yard.heavy

    @property
    def ply_mm(self) -> float:
        """Thickness of its plywood. [mm]"""
        return self._build.ply_mm

    @property
    def batten(self) -> Section:
        """Of the walls: how far it stands out, then how wide it is."""
        return self._build.batten

    @cached_property
    def inside(self) -> Room:
        """Between the plywood, to whole steps of a rule."""
        stack = self.stack
        across, up = across_and_up(stack.lay)
        return Room(
            self.yard.up(stack.along_mm + 2 * self.cushion("end").thickness_mm),
            self.yard.up(stack.across_mm + 2 * self.cushion(across).thickness_mm),
            self.yard.up(stack.up_mm + 2 * self.cushion(up).thickness_mm),
        )

    @cached_property
    def box(self) -> Room:
        """Over the plywood."""
        room, ply = self.inside, 2 * self.ply_mm
        return Room(room.along_mm + ply, room.across_mm + ply, room.up_mm + ply)

    @property
    def foot_mm(self) -> float:
        """From the ground to the floor's plywood. [mm]"""
        return self.sill.deep_mm + (0.0 if self.by_hand else self.yard.bearer.deep_mm)

    @property
    def base_mm(self) -> float:
        """How wide it must stand not to tip, leaned by 22 degrees. [mm]"""
        bare = 2 * (self.foot_mm + self.box.up_mm / 2) * math.tan(math.radians(TIP_DEG))
        return self.yard.up(bare)

    @cached_property
    def outside(self) -> Room:
        """Over everything."""
        box, proud = self.box, 2 * self.batten.wide_mm
        wide = box.across_mm + proud
        return Room(
            box.along_mm + proud,
            wide if self.by_hand else max(wide, self.base_mm),
            self.foot_mm + box.up_mm + self.lid.deep_mm,
        )

    @cached_property
    def boards(self) -> tuple[Board, ...]:
        """Everything to cut, foam last."""
        sheets, foam = self._sheets_and_foam
        return (*sheets, *_battens(self), *_under(self), *foam)

    @cached_property
    def _sheets_and_foam(self) -> tuple[tuple[Board, ...], tuple[Board, ...]]:
        return _sheets(self), foam_boards(self.yard, self.stack, self.cushions)

    def on(self, sill: Section) -> Crate:
        """The same on other sills; what hangs on none of them is handed over as it is reckoned."""
        made = replace(self, sill=sill)
        vars(made).update({name: getattr(self, name) for name in _ON_ANY_SILL})
        return made

    @property
    def uprights(self) -> int:
        """Battens upright on one side."""
        return max(2, math.ceil(self.box.along_mm / UPRIGHT_MM) + 1)

    @cached_property
    def seams(self) -> Seams:
        """Where its plywood is joined."""
        box, room, sheet = self.box, self.inside, sheet_mm(self.ply_mm, self.wood)
        down, along = self.yard.down, box.along_mm
        uprights = battens_mm(along, self.batten.deep_mm, self.uprights, down)
        over = battens_mm(along, self.lid.wide_mm, self.lid_battens, down)
        return Seams(
            cuts((along, room.up_mm), sheet, down, uprights),
            cuts((along, box.across_mm), sheet, down, over),
            cuts((room.across_mm, room.up_mm), sheet, down),
        )

    @property
    def drop_mm(self) -> float:
        """How far the lowest batten of a side reaches down over the sill, to be screwed to it. [mm]"""
        return self.yard.down(min(self.batten.deep_mm / 2, self.sill.deep_mm))

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """Its screws, joint by joint."""
        return joints(self)

    @property
    def screws(self) -> int:
        """All of them."""
        return sum(each.count for each in self.joints)

    @cached_property
    def tare_kg(self) -> float:
        """Crate and foam alone. [kg]"""
        foams = {each.foam.name: each.foam.density_kg_m3 for each in self.cushions}
        boards = sum(each.mass_kg(max(foams.values())) for each in self.boards)
        return boards + sum(each.count * each.screw.mass_kg for each in self.joints)

    @cached_property
    def gross_kg(self) -> float:
        """With its panels. [kg]"""
        return self.tare_kg + self._held_kg

    @property
    def _held_kg(self) -> float:
        return self.stack.panels * self.stack.panel.mass_kg

    @property
    def sill_mpa(self) -> float:
        """Bending of the sills, lifted at both ends with a jerk. [MPa]"""
        return self._sill_mpa(self.gross_kg)

    @property
    def sills_bear(self) -> bool:
        """Whether they do; asked by its panels' mass first, for all its boards take longer to count."""
        return self._sill_mpa(self._held_kg) <= WOOD_MPA and self.sill_mpa <= WOOD_MPA

    def _sill_mpa(self, mass_kg: float) -> float:
        moment = LIFT * mass_kg * GRAVITY_M_S2 * self.outside.along_mm / 8 / 2
        return bending_mpa(moment, self.sill)

    @property
    def lid_mpa(self) -> float:
        """Bending of the lid's battens under others. [MPa]"""
        apart = self.box.along_mm / (self.lid_battens - 1)
        moment = LID_PA * 1e-6 * apart * self.box.across_mm**2 / 8
        return bending_mpa(moment, self.lid)

    @property
    def lid_span_mm(self) -> float:
        """Of its plywood: between battens or between walls, whichever is less. [mm]"""
        return min(self.box.along_mm / (self.lid_battens - 1), self.box.across_mm)


def across_and_up(lay: str) -> tuple[Side, Side]:
    """Which side of the panels looks to the crate's sides, and which to its lid."""
    return ("face", "edge") if lay == "on edge" else ("edge", "face")


def make_crate(
    yard: Yard, stack: Stack, cushions: tuple[Cushion, ...], by_hand: bool, wood: tuple[Sundry, ...] = ()
) -> Crate:
    """The lightest sills and lid that bear; the heaviest where none does."""
    made = _with_lid(Crate(yard, stack, by_hand, cushions, yard.sills[0], yard.lid[0], 2, wood))
    across = made.seams.lid.across_mm
    for sill in (each for each in yard.sills if not across or each.wide_mm >= SEAT_MM):
        made = made.on(sill)
        if made.sills_bear:
            break
    return made


def _with_lid(bare: Crate) -> Crate:
    """Battens as far apart as the plywood bears, and of the first section that bears them."""
    span = ply_span_mm(LID_PA * 1e-6, bare.ply_mm)
    apart = UPRIGHT_MM if bare.box.across_mm <= span else min(span, UPRIGHT_MM)
    battens = max(2, math.ceil(bare.box.along_mm / apart) + 1)
    made = bare
    for lid in bare.yard.lid:
        made = replace(bare, lid=lid, lid_battens=battens)
        if made.lid_mpa <= WOOD_MPA:
            break
    return made


def _sheets(crate: Crate) -> tuple[Board, ...]:
    """Plywood: floor and lid over the walls, ends between the sides, loose boards round the stack."""
    box, room, ply, stack, at = crate.box, crate.inside, crate.ply_mm, crate.stack, crate.seams
    sides = stack.panel.long_mm, stack.panel.short_mm, stack.deep_mm
    long, short, deep = (crate.yard.up(side) for side in sides)
    sheet, down = sheet_mm(stack.loose_mm, crate.wood), crate.yard.down
    return (
        *pieces(Board("floor and lid", "plywood", box.along_mm, box.across_mm, ply, 2), at.lid),
        *pieces(Board("side", "plywood", box.along_mm, room.up_mm, ply, 2), at.side),
        *pieces(Board("end", "plywood", room.across_mm, room.up_mm, ply, 2), at.end),
        *loose(Board("loose board on a face", "plywood", long, short, stack.loose_mm, 2), sheet, down),
        *loose(Board("loose board along an edge", "plywood", long, deep, stack.loose_mm, 2), sheet, down),
        *loose(Board("loose board at an end", "plywood", short, deep, stack.loose_mm, 2), sheet, down),
    )


def _battens(crate: Crate) -> tuple[Board, ...]:
    """Outside the walls and over the lid."""
    box, proud, wide = crate.box, crate.batten.wide_mm, crate.batten.deep_mm
    uprights, of_ends = 2 * crate.uprights, 4 + 2 * len(crate.seams.end.along_mm)
    over = box.across_mm + 2 * proud
    upright, lid = max(wide, box.up_mm - 2 * wide), crate.lid
    side_upright = max(wide, box.up_mm - 2 * wide + crate.drop_mm)
    level = [
        Board("batten along a side", "softwood", box.along_mm, wide, proud, 4),
        Board("batten upright on a side", "softwood", side_upright, wide, proud, uprights),
        Board("batten across an end", "softwood", over, wide, proud, 4),
        Board("batten upright on an end", "softwood", upright, wide, proud, of_ends),
        Board("batten over the lid", "softwood", over, lid.wide_mm, lid.deep_mm, crate.lid_battens),
    ]
    if crate.by_hand:
        level.append(Board("batten to grip", "softwood", over, wide, proud, 2))
    return (*level, *level_battens(crate))


def _under(crate: Crate) -> tuple[Board, ...]:
    """Sills, and bearers of a pallet."""
    lies, sills = crate.sill, 2 + len(crate.seams.lid.across_mm)
    sill = Board("sill", "softwood", crate.outside.along_mm, lies.wide_mm, lies.deep_mm, sills)
    under = (sill, *floor_battens(crate))
    if crate.by_hand:
        return under
    wood = crate.yard.bearer
    bearer = Board("bearer", "softwood", crate.outside.across_mm, wood.wide_mm, wood.deep_mm, BEARERS)
    return (*under, bearer)
