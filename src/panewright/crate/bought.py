"""Wood as it is bought for all crates of an order: bars and whole sheets, as the shelf sells them.

Battens are sawn from bars, plywood from sheets by cuts from edge to edge, over all crates together. Both by
quick rules: wood is cheap, and crates of a thousand sizes are planned for a price list. What is too large for
anything that is sold is asked for by itself, a batten up to whole steps. Offcuts go back to the rack.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from panewright.crate.kept import HAIR_MM, sold_as
from panewright.crate.timber import Board, Stuff
from panewright.cutting.bars.bars import count_by_rule as count_bars
from panewright.cutting.bars.bars import cut_by_rule as cut_bars
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw, room_mm, taken_mm
from panewright.cutting.plan import CutPlan
from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet, fits
from panewright.cutting.sheets.sheet_plan import SheetPlan
from panewright.cutting.sheets.sheets import count_by_rule as count_sheets
from panewright.cutting.sheets.sheets import cut_by_rule as cut_sheets
from panewright.shelf.shelf import Sundry

SAW = Saw()
CUTTER = Cutter(kerf_mm=3.0)  #: a circular saw along a rail; edges as delivered
ASKED_MM = 100.0  #: a batten longer than any bar is asked for in whole steps of this; common practice


@dataclass(frozen=True, slots=True)
class Sold:
    """So many bars or sheets of one size."""

    long_mm: float
    wide_mm: float  #: of a sheet; 0 of a bar
    count: int


@dataclass(frozen=True)
class Bought:
    """Wood of one size for all crates. Not slotted: how it is sawn is planned once, where somebody asks."""

    row: Sundry  #: on the shelf
    sold: tuple[Sold, ...]  #: in the sizes that the shelf sells, the longest first
    asked: tuple[Sold, ...]  #: longer or larger than all of them
    pieces: tuple[Piece, ...] = ()  #: sawn from bars
    panels: tuple[Panel, ...] = ()  #: sawn from sheets

    @property
    def stuff(self) -> Stuff:
        """Battens or plywood."""
        return "softwood" if self.row.bars_mm else "plywood"

    @property
    def name(self) -> str:
        """On the shelf."""
        return self.row.name

    @property
    def thick_mm(self) -> float:
        """The thin side. [mm]"""
        return self.row.wall_mm

    @property
    def wide_mm(self) -> float:
        """Of a batten; 0 of a sheet. [mm]"""
        return self.row.fit_mm if self.row.bars_mm else 0.0

    @cached_property
    def bars(self) -> CutPlan | None:
        """Which batten from which bar; None where there is none to saw."""
        return cut_bars(self.pieces, _bars_of(self.row), SAW) if self.pieces else None

    @cached_property
    def sheets(self) -> SheetPlan | None:
        """Which board from which sheet; None where there is none to saw."""
        return cut_sheets(self.panels, _sheet_of(self.row), CUTTER) if self.panels else None

    def of(self, thick_mm: float, wide_mm: float) -> bool:
        """Whether it is wood of this size, the thin side first; 0 wide for plywood."""
        return abs(self.thick_mm - thick_mm) < HAIR_MM and abs(self.wide_mm - wide_mm) < HAIR_MM


@lru_cache(maxsize=128)
def bought(boards: tuple[Board, ...], crates: int, wood: tuple[Sundry, ...]) -> tuple[Bought, ...]:
    """What so many crates of these boards take; nothing of what the shelf sells cut to size or lacks."""
    found: dict[Sundry, list[Board]] = {}
    for board in boards:
        row = sold_as(board, wood) if board.stuff in ("softwood", "plywood") else None
        if row is not None and (row.bars_mm or row.long_mm):
            found.setdefault(row, []).append(board)
    return tuple((_bars if row.bars_mm else _sheets)(row, tuple(each), crates) for row, each in found.items())


def used(boards: Sequence[Board], wood: Sequence[Sundry]) -> tuple[Sundry, ...]:
    """Of the shelf's wood what these boards are cut from."""
    rows = (sold_as(each, wood) for each in boards if each.stuff in ("softwood", "plywood"))
    return tuple(dict.fromkeys(row for row in rows if row is not None))


@lru_cache(maxsize=128)
def _bars(row: Sundry, boards: tuple[Board, ...], crates: int) -> Bought:
    """Kept, as is what follows: many crates differ in their sills or in their foam alone."""
    listed = [Piece(each.name, round(each.long_mm, 1), each.count * crates) for each in boards]
    room = room_mm(max(row.bars_mm), SAW)
    fitting = tuple(each for each in listed if taken_mm(each, SAW) <= room)
    counted = count_bars(fitting, _bars_of(row), SAW) if fitting else ()
    asked = tuple(
        Sold(ASKED_MM * math.ceil((each.length_mm + 2 * SAW.trim_mm) / ASKED_MM), 0.0, each.quantity)
        for each in listed
        if each not in fitting
    )
    return Bought(row, tuple(Sold(long, 0.0, count) for long, count in counted), asked, pieces=fitting)


@lru_cache(maxsize=128)
def _sheets(row: Sundry, boards: tuple[Board, ...], crates: int) -> Bought:
    sides = row.long_mm, row.short_mm
    listed = [Panel(each.name, each.long_mm, each.wide_mm, each.count * crates) for each in boards]
    fitting = tuple(each for each in listed if fits(each, sides))
    sold = (Sold(*sides, count_sheets(fitting, _sheet_of(row), CUTTER)),) if fitting else ()
    asked = tuple(
        Sold(each.width_mm, each.height_mm, each.quantity) for each in listed if each not in fitting
    )
    return Bought(row, sold, asked, panels=fitting)


def _bars_of(row: Sundry) -> list[Bar]:
    return [Bar(each) for each in row.bars_mm]


def _sheet_of(row: Sundry) -> Sheet:
    return Sheet(row.long_mm, row.short_mm, name=row.name)
