"""A cutting plan as its paper needs it: rows of bars, sheets and spools, and what is said of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from panewright.cutting.piece import Saw
from panewright.cutting.plan import BarCut
from panewright.cutting.sheets.sheet_plan import SheetCut
from panewright.cutting.spools import SpoolCut

Units = Literal["metric", "us"]


@dataclass(frozen=True, slots=True)
class CutPiece:
    """So many pieces alike, whose they are."""

    order: str
    name: str
    length_mm: float
    width_mm: float | None
    count: int


@dataclass(frozen=True, slots=True)
class CutRow:
    """One bar, sheet or spool: where it lies, what is cut from it, what goes back with which mark."""

    number: int
    item: str
    place: str
    pieces: tuple[CutPiece, ...]
    rests: tuple[tuple[str, float, float | None], ...]
    cut: BarCut | SheetCut | SpoolCut
    bought: bool = False  #: it does not lie there yet
    plastic: bool = False  #: a sheet that is no glass


@dataclass(frozen=True, slots=True)
class CutSheets:
    """A plan as its paper needs it."""

    number: int
    orders: tuple[str, ...]
    units: Units  #: of all orders; metric where they differ
    saw: Saw
    rows: tuple[CutRow, ...]
    said: tuple[tuple[str, str], ...]  #: of each part, how sure its plan is
    notes: tuple[str, ...]
    currency: str = ""
    revision: str = ""  #: of all that is in it
    unproven: tuple[str, ...] = ()  #: orders of which some check fails
    revisions: Mapping[str, str] = field(default_factory=dict)  #: of each order's design, by its number
    inches: tuple[str, ...] = ()  #: orders in inches, beside others in millimetres

    def units_of(self, order: str) -> Units:
        """In which a piece of an order is told."""
        return "us" if order in self.inches else self.units

    def part_units(self, item: str) -> Units:
        """In which bars, sheets and rests of a part are told: inches where every piece of it is."""
        whose = {piece.order for row in self.rows if row.item == item for piece in row.pieces}
        return "us" if whose <= set(self.inches) else self.units
