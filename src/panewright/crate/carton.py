"""A carton round the foam, for what neither breaks nor cuts: a kit without a pane and without cells.

A tray of double-wall board, and a lid over the whole of it, each folded of one sheet. Round the kits lies
card of the same board, where a crate has its loose boards; pads of foam stand between card and carton.
What stays hollow is filled with crumpled paper, so that nothing slides.

The carton's own strength under others, after McKee [M]:

    crush = 5.87 edge crush x (thickness x perimeter)^(1/2)

It holds for boxes deeper than a seventh of their perimeter; shallower ones bear more (recalled). Of the two
walls, tray and lid, one is counted.

[M] R. C. McKee, J. W. Gander, J. R. Wachuta, Compression strength formula for corrugated boxes, Paperboard
    Packaging, August 1963 (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from panewright.crate.cushion import Cushion, Side
from panewright.crate.pads import foam_boards
from panewright.crate.room import Room
from panewright.crate.screws import Joint
from panewright.crate.stack import Stack
from panewright.crate.timber import Board, Yard
from panewright.shelf.carton import CartonBoard
from panewright.units import GRAVITY_M_S2, MM

RUGGED_G = 85.0  #: what travels in a carton bears so much, the class "moderately rugged"
# all common practice, no source
STACKED_MM = 2000.0  #: how high like cartons may stand on each other
LASTING = 4.0  #: times the load: board creeps, and damp softens it
FILL_KG_M3 = 15.0  #: crumpled paper
TAPE_KG = 0.05


@dataclass(frozen=True)
class Carton:
    """One carton, packed. Not slotted: its boards, which all else asks for, are reckoned once."""

    yard: Yard
    stack: Stack
    cushions: tuple[Cushion, ...]  #: face, edge, end
    board: CartonBoard

    by_hand = True  #: always
    foot_mm = 0.0  #: it stands on its own floor

    def cushion(self, side: Side) -> Cushion:
        """The foam of one side."""
        return next(each for each in self.cushions if each.asked.side == side)

    @property
    def ply_mm(self) -> float:
        """Of its floor and of its lid: one board. [mm]"""
        return self.board.thick_mm

    @property
    def lid_wall_mm(self) -> float:
        """How deep the lid's walls are: to the ground, past the tray's floor. [mm]"""
        return self.inside.up_mm + self.board.thick_mm

    @property
    def wall_mm(self) -> float:
        """Of its walls: tray and lid. [mm]"""
        return 2 * self.board.thick_mm

    @cached_property
    def inside(self) -> Room:
        """Within the tray, to whole steps of a rule."""
        stack, up = self.stack, self.yard.up
        return Room(
            up(stack.along_mm + 2 * self.cushion("end").thickness_mm),
            up(stack.across_mm + 2 * self.cushion("edge").thickness_mm),
            up(stack.up_mm + 2 * self.cushion("face").thickness_mm),
        )

    @cached_property
    def outside(self) -> Room:
        """Over the lid."""
        room, walls = self.inside, 2 * self.wall_mm
        return Room(room.along_mm + walls, room.across_mm + walls, room.up_mm + 2 * self.ply_mm)

    @property
    def base_mm(self) -> float:
        """It lies flat and does not tip. [mm]"""
        return 0.0

    @cached_property
    def boards(self) -> tuple[Board, ...]:
        """Everything to cut, foam last."""
        foam = foam_boards(self.yard, self.stack, self.cushions)
        return (*self._blanks(), *self._cards(), *foam)

    def _blanks(self) -> tuple[Board, ...]:
        """Tray and lid, flat: the floor with four walls folded up."""
        room, thick = self.inside, self.board.thick_mm
        tray, lid = 2 * room.up_mm, 2 * self.lid_wall_mm + 2 * thick
        return tuple(
            Board(
                name,
                "card",
                self.yard.up(room.along_mm + more),
                self.yard.up(room.across_mm + more),
                thick,
                1,
            )
            for name, more in (("tray, folded up", tray), ("lid, folded down over it", lid))
        )

    def _cards(self) -> tuple[Board, ...]:
        """Round the kits, where a crate has loose boards."""
        stack, thick, up = self.stack, self.board.thick_mm, self.yard.up
        long, short, deep = up(stack.panel.long_mm), up(stack.panel.short_mm), up(stack.deep_mm)
        return (
            Board("card on a face", "card", long, short, thick, 2),
            Board("card along an edge", "card", long, deep, thick, 2),
            Board("card at an end", "card", short, deep, thick, 2),
        )

    joints: tuple[Joint, ...] = ()  #: it has no screws

    @property
    def screws(self) -> int:
        """None."""
        return 0

    @cached_property
    def card_m2(self) -> float:
        """Board, offcuts not counted. [m2]"""
        cards = (each for each in self.boards if each.stuff == "card")
        return sum(each.count * each.long_mm * each.wide_mm for each in cards) * MM**2

    @cached_property
    def fill_kg(self) -> float:
        """Paper for what stays hollow. [kg]"""
        stack, foam = self.stack, (each for each in self.boards if each.stuff == "foam")
        package_mm3 = stack.panels * stack.panel.long_mm * stack.panel.short_mm * stack.panel.deep_mm
        pads_mm3 = sum(each.count * each.long_mm * each.wide_mm * each.thick_mm for each in foam)
        hollow_m3 = self.inside.volume_cm3 * 1e-6 - (package_mm3 + pads_mm3) * MM**3
        return max(hollow_m3, 0.0) * FILL_KG_M3

    @cached_property
    def tare_kg(self) -> float:
        """Carton, card, foam, paper and tape alone. [kg]"""
        densest = max(each.foam.density_kg_m3 for each in self.cushions)
        foam = sum(each.mass_kg(densest) for each in self.boards if each.stuff == "foam")
        return self.card_m2 * self.board.kg_m2 + foam + self.fill_kg + TAPE_KG

    @cached_property
    def gross_kg(self) -> float:
        """With its kits. [kg]"""
        return self.tare_kg + self.stack.panels * self.stack.panel.mass_kg

    @property
    def sides_mm(self) -> float:
        """Length, width and depth together, outside. [mm]"""
        return sum(self.outside.sides_mm)

    @property
    def crush_n(self) -> float:
        """What it bears on its lid by its walls alone, for a moment. [N]"""
        return crush_n(self.board, self.outside)

    @property
    def stacked_n(self) -> float:
        """What like cartons on it weigh, for weeks and in damp. [N]"""
        above = max(STACKED_MM / self.outside.up_mm - 1, 0.0)
        return LASTING * above * self.gross_kg * GRAVITY_M_S2


def crush_n(board: CartonBoard, room: Room) -> float:
    """Compression that a carton bears. [N]

    >>> from panewright.shelf.carton import CartonBoard
    >>> card = CartonBoard("card", 6.5, 140.0, 8400.0, 45.0, 2413.0, 2450.0, 1250.0)
    >>> round(crush_n(card, Room(600.0, 400.0, 300.0)))
    5622
    """
    perimeter_m = 2 * (room.along_mm + room.across_mm) * MM
    return float(5.87 * board.edge_crush_n_m * (board.thick_mm * MM * perimeter_m) ** 0.5)
