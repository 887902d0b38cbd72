"""The shelf as records: each part with its price, how it is sold and where its figures come from."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Generic, Literal, TypeVar

from panewright.cell.kind import CellKind
from panewright.enclosure.back_sheet import Back
from panewright.enclosure.bypass import Bypass
from panewright.enclosure.film import Film
from panewright.enclosure.silicone import Silicone
from panewright.frame.rail import Rail
from panewright.frame.support.block import Block
from panewright.frame.support.post import Post
from panewright.frame.support.wood_screw import WoodScrew
from panewright.glass.pane import Sheet
from panewright.ribbon.strip import Strip
from panewright.seal.sealant import Sealant
from panewright.shelf.carriage import Carrier, Foam
from panewright.shelf.carton import CartonBoard
from panewright.shelf.supplier import Supplier

Part = TypeVar("Part")
_INCH = re.compile(r"\d in\b")
Use = Literal[
    "box",
    "lead",
    "plug",
    "ferrule",
    "sleeve",
    "crossing film",
    "corner",
    "screw",
    "bracket",
    "bolt",
    "encapsulant",
    "back sheet",
    "film",
    "label",
    "flux",
    "solder",
    "earth",
    "tape",
    "drain",
    "block",
    "cleat",
    "tapping screw",
    "rivet",
    "stainless rivet",
    "filler",
    "isolator",
    "plywood",
    "batten",
    "crate screw",
    "board screw",
    "void fill",
    "desiccant",
    "vent",
]


@dataclass(frozen=True, slots=True)
class Row(Generic[Part]):
    """A part that can be had."""

    name: str
    part: Part
    price: Decimal  #: in the shelf's currency, for one `sold_by`
    sold_by: Literal["each", "metre", "square metre", "bar", "cartridge", "kilogram", "litre"]
    source: str  #: where the figures come from
    supplier: str = ""
    lead_days: int | None = None  #: from ordering to the shop's door
    pack: Decimal = Decimal(0)  #: sold in whole packs of so much; 0 where it is not
    least: Decimal = Decimal(0)  #: the least that is sold at once

    @property
    def measure(self) -> Literal["metric", "us"]:
        """The measure it is sold in, as its trade name tells: inch sizes are named by the inch."""
        return "us" if _INCH.search(self.name) else "metric"


@dataclass(frozen=True, slots=True)
class Sundry:
    """Something bought that needs no proof: box, lead, screws, clips, encapsulant, back sheet."""

    name: str
    use: Use
    mass_kg: float  #: for one `sold_by`
    #: hole of a screw, thickness of a block, length of a bracket; width of a clip, batten, crate's screw
    fit_mm: float = 0.0
    wall_mm: float = 0.0  #: thickness of a bracket, clip, batten, plywood; length of a crate's screw
    long_mm: float = 0.0  #: of a sheet of plywood as sold; 0 where it is sold cut to size
    short_mm: float = 0.0
    bars_mm: tuple[float, ...] = ()  #: lengths in which a batten is sold; none where by the metre


@dataclass(frozen=True, slots=True)
class Shelf:
    """All that can be had, each group in the order in which the shop prefers it."""

    currency: str
    cells: tuple[Row[CellKind], ...]
    tabs: tuple[Row[Strip], ...]
    buses: tuple[Row[Strip], ...]
    sheets: tuple[Row[Sheet], ...]
    rails: tuple[Row[Rail], ...]
    sealants: tuple[Row[Sealant], ...]
    bypasses: tuple[Row[Bypass], ...]
    sundries: tuple[Row[Sundry], ...]
    wood_screws: tuple[Row[WoodScrew], ...]
    posts: tuple[Row[Post], ...]
    blocks: tuple[Row[Block], ...]
    foams: tuple[Row[Foam], ...]
    cartons: tuple[Row[CartonBoard], ...]
    pours: tuple[Row[Silicone], ...]
    films: tuple[Row[Film], ...]
    backs: tuple[Row[Back], ...]
    carriers: tuple[Carrier, ...]
    suppliers: tuple[Supplier, ...]
    stock_glass_mm: tuple[tuple[float, float], ...]  #: sizes glass shops keep, long and short side

    def __hash__(self) -> int:
        """Of how much there is, not of every row."""
        groups = self.cells, self.sheets, self.rails, self.sealants, self.sundries
        return hash((self.currency, *map(len, groups)))

    def row(self, name: str) -> Row[Any] | None:
        """The first row of that name, whatever its kind; None where there is none."""
        groups: tuple[tuple[Row[Any], ...], ...] = (
            *(self.cells, self.tabs, self.buses, self.sheets, self.rails, self.sealants),
            *(self.bypasses, self.sundries, self.wood_screws, self.posts, self.blocks),
            *(self.foams, self.cartons, self.pours, self.films, self.backs),
        )
        return next((row for group in groups for row in group if row.name == name), None)

    def supplier(self, name: str) -> Supplier | None:
        """The record of a supplier; None where the shop keeps none."""
        return next((each for each in self.suppliers if each.name == name), None)

    def in_measure(
        self, rows: tuple[Row[Part], ...], measure: Literal["metric", "us"]
    ) -> tuple[Row[Part], ...]:
        """The rows of one measure; all of them where the shop keeps none of it."""
        return tuple(row for row in rows if row.measure == measure) or rows
