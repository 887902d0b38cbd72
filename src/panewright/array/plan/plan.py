"""The plan of an array: everything that follows from its site and its panels.

Composed by `array.plan.composed`, drawn, told and kept by others. Nothing here computes.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from panewright.array.arranged import Arrangement
from panewright.array.doubts import Rated
from panewright.array.driven import Driven
from panewright.array.fuses import StringFuse
from panewright.array.likely import Likely
from panewright.array.limits import Threshold
from panewright.array.member import Member
from panewright.array.plate import Plate
from panewright.array.protection import Need
from panewright.array.sized import Choice
from panewright.array.turned import Turns
from panewright.array.wiring import Input
from panewright.array.worth import Beside
from panewright.array.year import Year
from panewright.check import Check
from panewright.order.site.site import Site
from panewright.sky.hours import Floats
from panewright.wire.chosen import Chosen
from panewright.wire.heated import Flow
from panewright.wire.laid import Laid
from panewright.wire.rules import Run


@dataclass(frozen=True)
class Placed:
    """A panel of the array, where it lies."""

    serial: str  #: or its kind's name with a number
    plate: Plate
    member: Member
    known_by: str  #: "measured on 2026-09-14", "built record", "design of Jetty lights", "label"
    stand: int  #: number of the site's stand, from 0
    column: int  #: on the stand, from the left seen from its face, from 0
    row: int  #: upward, from 0
    width_mm: float
    height_mm: float
    left_mm: float  #: of its lower left corner from the stand's, along the stand
    up_mm: float
    doubt: Rated  #: how well its rating is known
    age_years: float = 0.0


@dataclass(frozen=True)
class Leg:
    """One kind of run: all of it alike."""

    name: str  #: "strings to where they meet", "down to the controller", "controller to battery"
    count: int
    run: Run
    laid: Laid
    flow: Flow  #: the year's current in the one that carries most
    chosen: Chosen
    kwh_a_year: float  #: lost in all of them together, by the size taken; 0 where none holds
    lost_a_year: Decimal  #: worth of it
    straight: bool = False  #: to what the panels drive, no controller there

    @property
    def title(self) -> str:
        """Its name as it is told."""
        return self.name.replace("the controller", "the pump") if self.straight else self.name


@dataclass(frozen=True)
class Balance:
    """A bank through the year: kWh by month, January first."""

    served_share: float  #: of the load's energy, mean of the years
    worst_share: float  #: in the worst year
    dark_hours: float  #: a year in which some load is not served
    generator_hours: float  #: a year
    bank_years: float  #: until it is spent
    years: int  #: that were gone through
    offered_kwh: Floats  #: that the panels could have given at the bank, means of the years, as all below
    used_kwh: Floats
    unused_kwh: Floats
    served_kwh: Floats
    missing_kwh: Floats
    generator_kwh: Floats
    lost_kwh: Floats  #: in the bank, rest too
    charge: Floats  #: at the end of each hour of the first year, 8760
    way_kwh: dict[str, Floats]  #: by cause, what is lost from the inputs to the bank: see `array.supplied`


@dataclass(frozen=True)
class Controlled:
    """What comes through the controller while everything is taken, kWh by month."""

    input_kwh: Floats  #: at the controller's inputs
    output_kwh: Floats  #: behind it
    cut_kwh: Floats  #: held back by its greatest current


@dataclass(frozen=True)
class Plan:
    """Everything of one array."""

    site: Site
    panels: tuple[Placed, ...]
    inputs: tuple[Input, ...]  #: strings by number of panel, with the wires taken
    left_out: tuple[int, ...]  #: panels in no string
    arrangement: Arrangement | None  #: of the program; None where the strings were typed
    best: Arrangement | None  #: what the program would have done, where they were typed
    kept_share: float  #: of what each panel alone would give in the year, those in no string too
    weighed_share: float  #: the same by the moments that arrangements are weighed in, beside `best`
    year: Year  #: with the wires taken; the first year where there are several
    checks: tuple[Check, ...]
    fuses: tuple[StringFuse, ...]  #: string by string, input after input
    needs: tuple[Need, ...]
    thresholds: tuple[Threshold, ...]
    cold_v: float | None  #: of the longest string in record cold; None where nothing tells it
    hot_cell_c: float  #: in the hottest hour of the year's weather, or of record heat, the hotter
    legs: tuple[Leg, ...]
    metres: dict[str, int]  #: single conductor to buy, by its size's name and metal
    connector_pairs: int
    controlled: Controlled
    balance: Balance | None  #: None without a battery or without a load
    front: tuple[Choice, ...]
    per_kwh: Decimal | None
    capital: Decimal  #: to begin with
    wire_kwh: float  #: lost a year in wires and blocking diodes
    wire_lost_a_year: Decimal  #: worth of it
    beside: Beside | None  #: a bought panel
    likely: Likely | None = None  #: range of a year's energy with its causes
    turns: Turns | None = (
        None  #: how the stand with the most watts could be turned; None where none was looked for
    )
    pumped: Driven | None = None  #: a pump's year; None without one
    cautions: tuple[str, ...] = ()
    said: tuple[str, ...] = field(default=())  #: what was settled on the way, in sentences

    @property
    def proven(self) -> bool:
        """Whether every check holds."""
        return all(check.passed for check in self.checks)

    @property
    def rated_w(self) -> float:
        """All panels in standard light."""
        return sum(placed.member.rated_w for placed in self.panels)

    @property
    def plates(self) -> tuple[Plate, ...]:
        """Of all panels."""
        return tuple(placed.plate for placed in self.panels)

    def strings(self) -> tuple[tuple[Placed, ...], ...]:
        """Panels string by string, input after input."""
        return tuple(tuple(self.panels[p] for p in row.panels) for each in self.inputs for row in each.rows)
