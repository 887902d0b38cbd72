"""How many panels and how large a bank: what serves the load so often, at least cost.

Years of weather, made or measured, are gone through hour by hour for every pair of sizes that matters. A
larger bank serves no less, so for each number of strings and each share of the load the least bank that
serves it is found by halving, on a row of sizes each some per cent above the last. A larger one may still be
cheaper: it saves hours of a generator, and is not spent so soon; so some larger ones are looked at too. What
is told is a front: choices of which none is beaten in both cost and service.

A made year's dull weeks are no worse than true ones by more than `sky.made` tells; the worst year is told
beside the mean, for a mean of twenty years hides the one in which the lights go out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from decimal import Decimal

import numpy as np

from panewright.array.loops import stored_loops
from panewright.array.stored import Demand, Supply, Told
from panewright.array.worth import Life, Outlay, per_kwh, renewals_of
from panewright.battery.bank import Bank, life_years, store_of
from panewright.sky.hours import Floats

_STEPS = 7  # halvings between the smallest bank and the largest
_APART = 16  # steps between banks that are always looked at
_WH = 1000.0
Progress = Callable[[float], None]


@dataclass(frozen=True)
class Asked:
    """What is to be served, and how surely."""

    load_w: Floats  #: of a year's hours, at the bank's terminals
    shares: tuple[float, ...] = (0.9, 0.95, 0.98, 0.99, 0.995, 0.999)  #: of the load's energy, to be served
    generator_w: float = 0.0
    start: float = 0.6  #: state of charge at which the generator is started: above that of loads cut off
    stop: float = 0.8
    back: float = 0.6  #: at which loads that were cut off come back

    def __post_init__(self) -> None:
        if self.generator_w > 0 and not 0 < self.start < self.stop <= 1:
            raise ValueError(f"a generator starts below where it stops, got {self.start} and {self.stop}")
        if not self.shares or not all(0 < share <= 1 for share in self.shares):
            raise ValueError(f"shares above 0 and up to 1 of a load are asked for, got {self.shares}")
        if not (self.load_w >= 0).all() or not self.load_w.sum() > 0:
            raise ValueError("a load draws 0 W or more in every hour, and more in some")


@dataclass(frozen=True)
class Prices:
    """What things cost, in one currency."""

    string: Decimal  #: one more string, with its panels, wires and frame
    bank_kwh: Decimal  #: a kWh of the bank by its nominal voltage
    fixed: Decimal = Decimal(0)  #: controller, boxes, posts
    a_year: Decimal = Decimal(0)
    generator_hour: Decimal = Decimal(0)


@dataclass(frozen=True)
class Served:
    """What one pair of sizes does over the years."""

    share: float  #: of the load's energy
    worst_share: float  #: in the worst year
    dark_hours: float  #: a year in which some load is not served
    generator_hours: float  #: a year
    unused_share: float  #: of what the panels could have given
    served_kwh: float  #: a year
    passed_ah: float  #: discharged in a year


@dataclass(frozen=True)
class Choice:
    """One pair of sizes, with what it does and costs."""

    strings: int
    bank: Bank
    served: Served
    bank_years: float
    per_kwh: Decimal
    cost: Decimal  #: to begin with


def through_years(bank: Bank, years: Sequence[Supply], strings: int, asked: Asked) -> Served:
    """Years one after the other, begun with a full bank; `years` hold the supply of one string."""
    store, charge, sums = store_of(bank), 1.0, []
    demand = Demand(asked.load_w, asked.generator_w, asked.start, asked.stop, asked.back)
    for year in years:
        told = Told(*np.zeros((len(Told._fields), asked.load_w.size)))
        charge = stored_loops()["through"](store, many(year, strings), demand, charge, told)
        sums.append(_sums(told))
    served, missing, dark, running, offered, used, passed = np.array(sums).T
    share = served / (served + missing)
    return Served(
        float(served.sum() / (served + missing).sum()),
        float(share.min()),
        float(dark.mean()),
        float(running.mean()),
        float(1 - used.sum() / offered.sum()) if offered.sum() > 0 else 0.0,
        float(served.mean() / _WH),
        float(passed.mean()),
    )


def _sums(told: Told) -> tuple[float, ...]:
    return (
        float(told.served_wh.sum()),
        float(told.missing_wh.sum()),
        float(np.count_nonzero(told.missing_wh > 1e-9)),
        float(np.count_nonzero(told.generator_wh > 0)),
        float(told.offered_wh.sum()),
        float(told.used_wh.sum()),
        float(told.passed_ah.sum()),
    )


def many(year: Supply, strings: int) -> Supply:
    """The supply of so many strings side by side; their controllers grow with them."""
    return Supply(strings * year.power_w, year.held_v, strings * year.held_a, strings * year.most_a)


@dataclass(frozen=True)
class Shop:
    """What may be bought."""

    bank: Bank  #: of any size
    strings: tuple[int, ...]
    banks_ah: tuple[float, float]  #: the smallest and the largest
    prices: Prices
    life: Life

    def sized(self, step: int) -> Bank:
        """The bank at a step from the smallest, 0, to the largest, 2^7."""
        small, large = self.banks_ah
        return replace(self.bank, capacity_ah=small * (large / small) ** (step / 2**_STEPS))


def front(
    shop: Shop, years: Sequence[Supply], asked: Asked, told: Progress = lambda _: None
) -> tuple[Choice, ...]:
    """Choices that serve the least share or more, the cheapest first, each next one surer and dearer.

    Empty where none will do.
    """
    found: list[Choice] = []
    with ThreadPoolExecutor(2) as pool:
        for done, each in enumerate(pool.map(lambda n: _least(shop, years, n, asked), shop.strings), 1):
            told(done / len(shop.strings))
            found += each
    return tuple(_unbeaten(sorted(found, key=lambda choice: (choice.per_kwh, -choice.served.share))))


def _least(shop: Shop, years: Sequence[Supply], strings: int, asked: Asked) -> list[Choice]:
    """The cheapest banks that were looked at with which so many strings serve each share."""
    seen: dict[int, Served] = {}

    def served(step: int) -> Served:
        if step not in seen:
            seen[step] = through_years(shop.sized(step), years, strings, asked)
        return seen[step]

    least: list[int] = []
    for share in asked.shares:
        low, high = -1, 2**_STEPS
        if served(high).share < share:
            continue
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if served(middle).share >= share else (middle, high)
        least.append(high)
    for step in range(min(least, default=0) // _APART * _APART, 2**_STEPS, _APART) if least else ():
        served(step)
    made = {k: priced(shop.sized(k), strings, seen[k], shop.prices, shop.life) for k in seen}
    found = {min((k for k in made if k >= step), key=lambda k: made[k].per_kwh) for step in least}
    return [made[k] for k in sorted(found)]


def priced(bank: Bank, strings: int, served: Served, prices: Prices, life: Life) -> Choice:
    """A choice with what it costs over life: banks are renewed when they are spent."""
    lasts, own = life_years(bank, served.passed_ah), prices.bank_kwh * _decimal(bank.nominal_wh / _WH)
    capital = prices.fixed + strings * prices.string + own
    yearly = prices.a_year + prices.generator_hour * _decimal(served.generator_hours)
    outlay = Outlay(capital, yearly, renewals_of(own, lasts, life.years))
    return Choice(strings, bank, served, lasts, per_kwh(outlay, served.served_kwh, life), capital)


def _decimal(amount: float) -> Decimal:
    """An amount to a millionth: money is no float."""
    return Decimal(f"{amount:.6f}")


def _unbeaten(choices: Sequence[Choice]) -> Iterator[Choice]:
    """Of choices by rising cost those that serve more than every cheaper one; the cheapest first."""
    best = -1.0
    for choice in choices:
        if choice.served.share > best:
            best = choice.served.share
            yield choice
