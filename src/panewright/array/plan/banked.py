"""What reaches the load or the bank: through the controller, and through the bank in years.

A controller that seeks the greatest power gives a share of it by how much it is loaded; one that joins panels
and battery by a switch lets the panels work at the battery's voltage and its own drop. What the run to the
bank loses is taken off as the one resistance that loses as much in the year.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.array.loops import stored_loops
from panewright.array.plan.legs import BANK, year_ohm
from panewright.array.plan.plan import Balance, Driven, Leg
from panewright.array.plan.strung import window_of
from panewright.array.plan.weather import drawn_w
from panewright.array.sized import Asked, Choice, Prices, Progress, Shop, front
from panewright.array.stored import Demand, Supply, Told
from panewright.array.worth import Life
from panewright.array.year import Year
from panewright.battery.bank import Bank, life_years, store_of
from panewright.order.site.site import Site
from panewright.sky.hours import YEAR_HOURS, Floats, Hours

_WH, _BACK = 1000.0, 0.6
_FEW, _MANY = 0.25, 4.0  # of the bank told, between which sizes are looked for


@dataclass(frozen=True)
class Years:
    """Years in which the bank is tried, with what the panels give at the controller's inputs."""

    hours: tuple[Hours, ...]
    input_w: tuple[Floats, ...]  #: (hour, input) of each
    held_v: Floats  #: (voltage,) of a direct controller's inputs; empty
    held_a: tuple[Floats, ...]  #: (hour, input, voltage) of each

    @classmethod
    def of(cls, years: Sequence[Year]) -> Years:
        """Of reckoned years."""
        held_v = years[0].held_v[0] if years[0].held_v.size else np.zeros(0)
        return cls(
            tuple(each.hours for each in years),
            tuple(each.input_w for each in years),
            held_v,
            tuple(each.held_a for each in years),
        )


def output_w(site: Site, input_w: Floats) -> Floats:
    """What comes out of a controller that seeks the greatest power, all inputs together. [W]

    Between the shares that its sheet tells, output goes straight with input; under the first of several its
    loss stays what it is there. It gives no more than it is rated for, at the battery's usual voltage.
    """
    box = site.box
    share, left = np.array(box.efficiency).T
    inside, loaded = share / left, input_w.sum(axis=1) / box.output_w
    gives = np.where(loaded > inside[-1], loaded * left[-1], np.interp(loaded, inside, share))
    first = loaded * left[0] if share.size == 1 else np.maximum(loaded - inside[0] + share[0], 0.0)
    gives = np.where(loaded < inside[0], first, gives) * box.output_w
    return np.asarray(np.minimum(gives, most_w(site)))


def most_w(site: Site) -> float:
    """What the controller gives at most. [W]"""
    return site.box.output_a * window_of(site).usual_v if site.bank else site.box.output_w


def driven(site: Site, year: Year) -> Driven:
    """Behind the controller, month by month; what its rating cuts off is told."""
    by_month = year.hours.by_month
    if site.box.controller.kind == "direct":
        supply = supply_of(site, Years.of([year]), 0, ())
        usual = window_of(site).usual_v
        gives = np.array([np.interp(usual, supply.held_v, each) for each in supply.held_a]) * usual
        kept = np.minimum(gives, supply.most_a * usual)
        return Driven(by_month(gives) / _WH, by_month(kept) / _WH, by_month(gives - kept) / _WH)
    whole = year.input_w.sum(axis=1)
    gives = output_w(site, year.input_w)
    cut = np.where(gives >= most_w(site), whole * site.box.efficiency[-1][1] - gives, 0.0)
    return Driven(by_month(whole) / _WH, by_month(gives) / _WH, by_month(cut) / _WH)


def supply_of(site: Site, years: Years, number: int, legs: Sequence[Leg]) -> Supply:
    """What comes to the bank's terminals in one of the years."""
    ohm = year_ohm(legs, BANK)
    if site.box.controller.kind == "direct":
        amps = years.held_a[number].sum(axis=1)
        return Supply(
            np.zeros(YEAR_HOURS), years.held_v - site.box.controller.drop_v, amps, site.box.output_a
        )
    gives = output_w(site, years.input_w[number])
    amps = gives / window_of(site).usual_v
    power = np.maximum(gives - ohm * amps**2, 0.0)
    return Supply(power, np.zeros(1), np.zeros((YEAR_HOURS, 1)), site.box.output_a)


def balance_of(site: Site, bank: Bank, years: Years, legs: Sequence[Leg]) -> Balance:
    """The bank through all years one after the other, begun full."""
    store, charge, told = store_of(bank), 1.0, []
    for number, hours in enumerate(years.hours):
        demand = _demand(site, hours)
        row = Told(*np.zeros((len(Told._fields), YEAR_HOURS)))
        supply = supply_of(site, years, number, legs)
        charge = stored_loops()["through"](store, supply, demand, charge, row)
        told.append(row)
    return _balance(bank, years, told)


def _demand(site: Site, hours: Hours) -> Demand:
    helper = site.generator
    load = drawn_w(site, hours)
    if helper is None:
        return Demand(load, 0.0, 0.4, 0.8, _BACK)
    return Demand(load, helper.power_w, helper.start, helper.stop, _BACK)


def _balance(bank: Bank, years: Years, told: Sequence[Told]) -> Balance:
    count = len(told)

    def months(*names: str) -> Floats:
        total = np.zeros(12)
        for hours, row in zip(years.hours, told, strict=True):
            total += hours.by_month(sum(getattr(row, name) for name in names))
        return np.asarray(total / count / _WH)

    served = np.array([row.served_wh.sum() for row in told])
    missing = np.array([row.missing_wh.sum() for row in told])
    offered, used = months("offered_wh"), months("used_wh")
    return Balance(
        served_share=float(served.sum() / (served + missing).sum()),
        worst_share=float((served / (served + missing)).min()),
        dark_hours=float(np.mean([np.count_nonzero(row.missing_wh > 1e-9) for row in told])),
        generator_hours=float(np.mean([np.count_nonzero(row.generator_wh > 0) for row in told])),
        bank_years=life_years(bank, float(np.mean([row.passed_ah.sum() for row in told]))),
        years=count,
        offered_kwh=offered,
        used_kwh=used,
        unused_kwh=offered - used,
        served_kwh=months("served_wh"),
        missing_kwh=months("missing_wh"),
        generator_kwh=months("generator_wh"),
        lost_kwh=months("lost_wh", "idle_wh"),
        charge=told[0].charge,
    )


def front_of(
    site: Site, years: Years, legs: Sequence[Leg], prices: tuple[Prices, int], told: Progress
) -> tuple[Choice, ...]:
    """Numbers of strings and sizes of bank, none beaten in both cost and service.

    `prices` with the number of strings that the years are of; others count as so many like their mean.
    """
    bank, (paid, strings) = site.bank, prices
    if bank is None or not site.draws:
        return ()
    supplies = [_one(supply_of(site, years, number, legs), strings) for number in range(len(years.hours))]
    helper = site.generator
    asked = Asked(
        drawn_w(site, years.hours[0]),
        site.sizes.served,
        helper.power_w if helper else 0.0,
        helper.start if helper else 0.4,
        helper.stop if helper else 0.8,
        _BACK,
    )
    banks = site.sizes.banks_ah or (_FEW * bank.capacity_ah, _MANY * bank.capacity_ah)
    numbers = site.sizes.strings or tuple(range(1, 2 * strings + 1))
    life = Life(site.money.years, site.money.interest)
    return front(Shop(bank, numbers, banks, paid, life), supplies, asked, told)


def _one(supply: Supply, strings: int) -> Supply:
    """The supply of one string of so many alike."""
    return Supply(supply.power_w / strings, supply.held_v, supply.held_a / strings, supply.most_a / strings)
