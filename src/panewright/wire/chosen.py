"""Which section a run gets: of those as sold, the one that costs least over its life and keeps every rule.

    cost over life = both conductors with their slack x price of a metre
                   + lost kWh of a year x worth of a kWh x what one a year for all years is worth today

What an off-grid kWh is worth is what it costs to make, see `array.worth`. The others stay in the table, with
what they cost and which rule they break.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from panewright.check import Check
from panewright.wire.heated import Flow, conductor_c, year_kwh
from panewright.wire.laid import Laid
from panewright.wire.lengths import SLACK_SHARE, conductor_m
from panewright.wire.rules import Run, run_checks
from panewright.wire.sizes import Size


@dataclass(frozen=True, slots=True)
class Sold:
    """A conductor on offer."""

    size: Size
    per_m: float  #: price of a metre of one conductor

    def __post_init__(self) -> None:
        if not self.per_m >= 0:
            raise ValueError(f"a metre of {self.size.name} costs 0 or more, got {self.per_m}")


@dataclass(frozen=True, slots=True)
class Worth:
    """What lost energy is worth."""

    per_kwh: float
    years_worth: (
        float  #: what 1 in each year of its life is worth today; the number of years without interest
    )

    def __post_init__(self) -> None:
        if not (self.per_kwh >= 0 and self.years_worth >= 0):
            raise ValueError(f"energy and years are worth 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class Option:
    """One size for a run, with all that speaks for it or against it."""

    size: Size
    checks: tuple[Check, ...]
    conductor_c: float  #: under the working current in the hottest air
    ohm: float  #: out and back, then
    drop_v: float  #: then
    kwh_a_year: float
    lost_a_year: float  #: worth of that
    price: float
    lost: float  #: worth of what it loses over life

    @property
    def holds(self) -> bool:
        """Whether it keeps every rule."""
        return all(check.passed for check in self.checks)

    @property
    def cost(self) -> float:
        """Over life."""
        return self.price + self.lost


@dataclass(frozen=True, slots=True)
class Chosen:
    """The size taken, and every one that was looked at, thinnest first."""

    taken: Option | None  #: None where none keeps every rule
    looked_at: tuple[Option, ...]

    @property
    def thinnest(self) -> Option | None:
        """The least metal that keeps every rule: what the rules alone would take."""
        return next((option for option in self.looked_at if option.holds), None)


def choose_run(run: Run, laid: Laid, flow: Flow, offers: Iterable[Sold], worth: Worth) -> Chosen:
    """The size of least cost over life that keeps every rule of its family; equal costs: the thicker."""
    rows = sorted((_option(run, laid, flow, sold, worth) for sold in offers), key=_by_area)
    holding = [row for row in rows if row.holds]
    return Chosen(min(holding, key=lambda row: (row.cost, -row.size.area_mm2), default=None), tuple(rows))


def _by_area(option: Option) -> tuple[float, str]:
    return option.size.area_mm2, option.size.metal


def _option(run: Run, laid: Laid, flow: Flow, sold: Sold, worth: Worth) -> Option:
    size = sold.size
    warm_c = conductor_c(size, laid, run.working_a)
    ohm = 2 * run.one_way_m * size.ohm_per_m_at(warm_c)
    drop_v = ohm * run.working_a
    kwh = year_kwh(size, laid, run.one_way_m, flow)
    price = conductor_m(run.one_way_m, SLACK_SHARE) * sold.per_m
    a_year = kwh * worth.per_kwh
    return Option(
        size=size,
        checks=run_checks(size, run, laid, drop_v),
        conductor_c=warm_c,
        ohm=ohm,
        drop_v=drop_v,
        kwh_a_year=kwh,
        lost_a_year=a_year,
        price=price,
        lost=a_year * worth.years_worth,
    )
