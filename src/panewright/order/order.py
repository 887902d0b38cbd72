"""An order as records, in SI and mm, with every default marked as an assumption.

None means: the order leaves it open, the tool chooses and says what it weighed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from panewright.battery.load import Battery, Controller
from panewright.cell.kind import CellKind
from panewright.climate.site import Site
from panewright.enclosure.back_sheet import Back
from panewright.enclosure.film import Film
from panewright.enclosure.fog import Gap
from panewright.enclosure.laminating import Heater
from panewright.enclosure.silicone import Silicone
from panewright.frame.rail import Rail
from panewright.glass.pane import Sheet
from panewright.order.terms import Hands, Kit, Terms
from panewright.ribbon.strip import Strip
from panewright.seal.sealant import Sealant
from panewright.shelf.carriage import Carrier, CarrierKind, Foam
from panewright.shelf.carton import CartonBoard
from panewright.shelf.shelf import Sundry
from panewright.structure.contact import Isolate
from panewright.structure.corners.corner import Corner
from panewright.structure.mounting.wish import Mounting
from panewright.structure.rails.rails import Brackets
from panewright.wire.cable import Cable


@dataclass(frozen=True, slots=True)
class Assumption:
    """A default the order did not state, and why it is what it is."""

    key: str
    value: str  #: as one would write it in the order
    reason: str


@dataclass(frozen=True, slots=True)
class Job:
    """Who asked, how many, and how to write things down."""

    name: str
    number: str
    customer: str
    maker: str
    panels: int
    first_serial: str
    currency: str
    units: Literal["metric", "us"]
    paper: Literal["A4", "Letter"]


@dataclass(frozen=True, slots=True)
class Load:
    """What the panel feeds: a battery behind a controller, or just a number of cells."""

    battery: Battery | None
    controller: Controller | None
    cable: Cable | None
    blocking_drop_v: float  #: blocking diode in the line, 0 without one
    battery_c: float = 25.0  #: while it is charged
    battery_coldest_c: float | None = None  #: LFP: the coldest it is charged at
    system_v: float | None = None  #: wanted on the label; None where no panel lies in series with it


@dataclass(frozen=True, slots=True)
class Wishes:
    """Pins and preferences of the lay-up."""

    in_series: int | None
    strings: int | None
    columns: int | None
    rows: int | None
    substrings: int | None
    cell_gap_mm: float | None
    string_gap_mm: float | None
    margin_mm: float | None
    leads: Literal["one end", "any"]
    most_mass_kg: float  #: what one person may lift
    most_long_mm: float | None
    most_short_mm: float | None
    end_margin_mm: float | None = None  #: no order says it: of a panel that is laid out already


Touched = Literal["none", "hand", "knee"]


@dataclass(frozen=True, slots=True)
class CornerWay:
    """How two rails may meet, and what joins them to their clip."""

    corner: Corner
    fastener: str | None  #: None where corners are welded


@dataclass(frozen=True, slots=True)
class Parts:
    """Parts pinned by the order; None is the tool's choice from the shelf."""

    tab: Strip | None
    bus: Strip | None
    sheet: Sheet | None
    front: Literal["glass", "acrylic", "polycarbonate"]
    rail: Rail | None
    brackets_per_long_side: int | None
    bracket_from_end_mm: float | None
    sealant: Sealant | None
    bite_mm: float | None
    gap_mm: float | None
    encapsulation: Literal["silicone pour", "film", "air gap"]
    glue_line_mm: float | None = None
    glass_from: Literal["ordered to size", "cut from stock"] = "ordered to size"
    glass_holes: int = 0
    corner: Corner = "mitred"
    corner_fastener: str | None = "screw M5"  #: None where corners are welded
    other_corners: tuple[CornerWay, ...] = ()  #: left open by the order: tried where the usual way fails
    isolate: Isolate = "as needed"  #: washers and paste between stainless and aluminium
    gap_tolerance_mm: float | None = None  #: for size and square of pane and frame; None by the standards
    held: Literal["four sides", "two long sides"] = "four sides"  #: sides that hold the pane
    touched: Touched = "hand"  #: what a person may do to the pane
    bracket_places_mm: tuple[float, ...] | None = None  #: all of them, from each long rail's left end
    pour: Silicone | None = None
    film: Film | None = None
    back: Back | None = None
    drilled: Brackets | None = None  #: no order says it: of a frame that is drilled already


LeadEnds = Literal["plugs", "bare"]


@dataclass(frozen=True, slots=True)
class Closing:
    """The shop in which the panel is encapsulated and closed."""

    shop_c: float = 23.0
    near: tuple[str, ...] | None = None  #: things that may stop a cure; None where nobody said
    plate_c: float = 145.0
    heater: Heater = "plate"
    hold_min: float | None = None
    shop_humidity: float = 0.5
    gap: Gap = "vented"
    desiccant_g: float = 0.0
    fog_free_years: float | None = None
    leads: LeadEnds = "plugs"


@dataclass(frozen=True, slots=True)
class Money:
    """What work and money cost in this shop."""

    labour_per_hour: Decimal
    overhead: Decimal  #: share on top of parts and labour
    margin: Decimal  #: share on top of cost
    terms: Terms = field(default_factory=Terms)


Carried = Literal["by hand", "pallet"]
Lay = Literal["on edge", "flat"]
Handling = Literal["careful", "ordinary", "rough"]
Fragile = Literal[
    "extremely fragile", "very delicate", "delicate", "moderately delicate", "moderately rugged", "rugged"
]


@dataclass(frozen=True, slots=True)
class CrateWishes:
    """How finished panels travel; None is weighed."""

    by: CarrierKind | Literal["collected"] | None
    way: Carried | None
    lay: Lay
    most_panels: int | None  #: in one crate
    most_kg: float  #: of a crate moved by hand
    handling: Handling
    drop_mm: float | None
    fragility: Fragile
    foams: tuple[Foam, ...]  #: to choose from
    border: bool  #: whether it goes abroad
    carriers: tuple[Carrier, ...]  #: as the shelf has them
    cartons: tuple[CartonBoard, ...] = ()  #: boards to choose from, for what needs no crate
    wood: tuple[Sundry, ...] = ()  #: plywood and battens as the shelf has them, in the order's measure


@dataclass(frozen=True, slots=True)
class Order:
    """One order, whole."""

    job: Job
    load: Load
    cell: CellKind
    site: Site
    wishes: Wishes
    mounting: Mounting
    parts: Parts
    crate: CrateWishes
    money: Money
    assumptions: tuple[Assumption, ...]
    text: str  #: as written, kept with the design
    closing: Closing = Closing()
    kit: Kit = field(default_factory=Kit)
    hands: Hands = field(default_factory=Hands)
