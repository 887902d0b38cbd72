"""A site as records: where finished panels lie, what they feed, and on which terms.

Sizes a person measures with a rule are in mm, distances in m, as in the panel's order. None means: left open,
the plan chooses and says what it weighed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal

from panewright.battery.bank import Bank
from panewright.battery.load import Controller
from panewright.climate.hourly import Behind
from panewright.order.order import Assumption
from panewright.sky.monthly import USUAL_DIRT
from panewright.sky.place import Place, Plane
from panewright.sky.shadow.shade import Surroundings
from panewright.wire.laid import Family
from panewright.wire.laid import Place as Lies

Ground = Literal["dwelling", "other building", "open ground"]
Twelve = tuple[float, ...]  #: January first


@dataclass(frozen=True, slots=True)
class Named:
    """What the array is called, and how to write things down."""

    name: str
    units: Literal["metric", "us"]
    currency: str
    paper: Literal["A4", "Letter"] = "A4"


@dataclass(frozen=True, slots=True)
class Rules:
    """Whose rules hold, and the extremes of the place."""

    family: Family
    coldest_c: float  #: record low of the air
    hottest_air_c: float
    on: Ground

    @property
    def on_building(self) -> bool:
        """Whether it lies on or in a building."""
        return self.on != "open ground"

    @property
    def dwelling(self) -> bool:
        """Whether that is a house for one or two families."""
        return self.on == "dwelling"


@dataclass(frozen=True, slots=True)
class OfFile:
    """Weather of a file beside the site's text."""

    file: str


@dataclass(frozen=True, slots=True)
class OfMeans:
    """Years made from twelve means."""

    light_kwh_m2_day: Twelve  #: on level ground, of a usual day
    air_c: Twelve
    years: int
    seed: int


@dataclass(frozen=True, slots=True)
class OfClearness:
    """A year in which each day lets through the same share of a clear sky's light."""

    share: float
    air_c: Twelve


Weather = OfFile | OfMeans | OfClearness


@dataclass(frozen=True, slots=True)
class Stand:
    """A plane on which panels lie, row by row from its lower left corner seen from its face."""

    name: str
    plane: Plane
    behind: Behind
    corner_m: tuple[float, float, float]  #: east, north, up
    columns: int  #: panels side by side
    gap_mm: float


@dataclass(frozen=True, slots=True)
class LabelFigures:
    """A panel by its label: 1000 W/m2, 25 degC."""

    voc_v: float
    vmp_v: float
    isc_a: float
    imp_a: float
    fuse_a: float
    system_v: float
    cells: int  #: in series
    diodes: int
    columns: int  #: of cells, side by side
    width_mm: float
    height_mm: float
    voc_per_k: float | None  #: share of Voc, negative; None where the label does not say it


@dataclass(frozen=True, slots=True)
class BySerial:
    """A panel that the shop built, by its record."""

    serial: str


@dataclass(frozen=True, slots=True)
class ByOrder:
    """A panel that is designed, by its order's file beside the site's text."""

    file: str


@dataclass(frozen=True, slots=True)
class ByLabel:
    """A panel of any make, by its label."""

    label: LabelFigures


@dataclass(frozen=True, slots=True)
class Wished:
    """One panel in its place."""

    name: str  #: its serial, or its kind's name with a number
    known: BySerial | ByOrder | ByLabel
    stand: int  #: number of the stand, from 0
    column: int  #: on it, from the left, from 0
    row: int  #: upward, from 0
    age_years: float
    line: int | None = None  #: of its entry in the text


@dataclass(frozen=True, slots=True)
class Typed:
    """A string as the maker typed it."""

    panels: tuple[int, ...]  #: numbers of panels, from 0
    input: int  #: from 0


@dataclass(frozen=True, slots=True)
class Box:
    """The controller with its sheet."""

    controller: Controller
    inputs: int
    least_v: float  #: below which no input works, whatever the battery asks
    output_a: float  #: into the battery at most; infinite without one
    output_w: float  #: rated
    input_a: float  #: short-circuit current that one input bears
    takes_v: tuple[float, ...]  #: nominal voltages of batteries
    efficiency: tuple[tuple[float, float], ...]  #: share of its rated power, what of it comes out; rising
    own_w: float  #: it draws from the battery while nothing comes
    straight: bool = False  #: nothing between panels and pump


@dataclass(frozen=True, slots=True)
class Draw:
    """Something that draws power."""

    name: str
    watts: tuple[float, ...]  #: of the 24 hours of a day by the local clock
    months: tuple[bool, ...]  #: January first


@dataclass(frozen=True, slots=True)
class Generator:
    """What helps out."""

    power_w: float
    start: float  #: state of charge
    stop: float
    per_hour: Decimal


@dataclass(frozen=True, slots=True)
class Lift:
    """A pump by its motor's plate, its curve at the rated turns, and its pipe."""

    rated_v: float
    rated_a: float
    rpm: float
    winding_ohm: float
    friction_share: float  #: of its rated pull
    start_share: float  #: the same while it stands
    most_v: float
    flow_m3_h: float
    head_m: float  #: at that flow
    shut_m: float  #: at none
    shaft_w: float  #: at that flow
    lift_m: float
    rubs_m: float  #: in the pipe, at that flow


@dataclass(frozen=True, slots=True)
class Way:
    """One kind of run: how far, and how it lies."""

    one_way_m: float
    lies: Lies
    under_panels: bool = False
    beside: int = 0  #: as `wire.laid` counts


@dataclass(frozen=True, slots=True)
class Ways:
    """All runs."""

    strings: Way  #: from each string to where strings meet
    down: Way  #: from there to the controller's input
    bank: Way  #: from the controller to the battery


@dataclass(frozen=True, slots=True)
class Money:
    """What things cost, in the site's currency."""

    panel_w: Decimal  #: a watt of the panels here
    bought_w: Decimal  #: a watt of a ready-made panel
    bought_years: int
    string: Decimal  #: box, posts and connectors of one more string
    bank_kwh: Decimal  #: by nominal voltage
    fixed: Decimal  #: controller and what else is there once
    a_year: Decimal
    metre: Decimal  #: of a single conductor, whatever its section
    mm2_metre: Decimal  #: on top for each mm2
    kwh: Decimal  #: what a kWh is worth that a wire does not lose
    years: int
    interest: float


@dataclass(frozen=True, slots=True)
class Sizes:
    """What is looked through for the front of sizes."""

    strings: tuple[int, ...]  #: empty: from one string to twice those there are
    banks_ah: tuple[float, float] | None  #: None: from a quarter of the bank to four of it
    served: tuple[float, ...]  #: shares of the load


@dataclass(frozen=True)
class Site:
    """A whole site."""

    named: Named
    place: Place
    zone_h: float  #: of the local clock against UTC, east positive
    rules: Rules
    weather: Weather
    stands: tuple[Stand, ...]
    panels: tuple[Wished, ...]
    strings: tuple[Typed, ...]  #: empty: the plan arranges
    box: Box
    bank: Bank | None
    draws: tuple[Draw, ...]
    generator: Generator | None
    ways: Ways
    money: Money
    sizes: Sizes
    around: Surroundings
    pump: Lift | None = None
    dirt: Twelve = USUAL_DIRT  #: shares of the light
    assumed: tuple[Assumption, ...] = ()
    text: str = field(default="", repr=False)  #: as it was typed
