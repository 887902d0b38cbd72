"""What reaches the load or the bank: through the controller in the usual year, through the bank in years.

From the inputs to the bank's terminals it goes by `array.supplied`, through the bank by `array.stored`; the
front of sizes is that of `array.sized`. Here they are asked for one site.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from panewright.array.driven import Driven
from panewright.array.loops import stored_loops
from panewright.array.plan.legs import BANK, year_ohm
from panewright.array.plan.plan import Balance, Controlled, Leg
from panewright.array.plan.strung import window_of
from panewright.array.plan.weather import drawn_w
from panewright.array.sized import Asked, Choice, Prices, Progress, Shop, front
from panewright.array.stored import Demand, Supply, Told
from panewright.array.supplied import Way, lost_w, own_w, supply_of
from panewright.array.worth import Life
from panewright.array.year import Year
from panewright.battery.bank import Bank, life_years, store_of
from panewright.battery.converter import Converter, Switch
from panewright.order.site.site import Site
from panewright.sky.hours import YEAR_HOURS, Floats

_WH, _BACK = 1000.0, 0.6
_START, _STOP = 0.6, 0.8  # of a generator that is not there
_FEW, _MANY = 0.25, 4.0  # of the bank told, between which sizes are looked for
_NUMBERS = 8  # of strings that are tried, at most, where the text names none


def converter_of(site: Site) -> Converter:
    """The controller as one that seeks the greatest power; without a battery its watts are its amperes."""
    box = site.box
    if site.bank is None:
        return Converter(box.output_w, 1.0, box.efficiency, box.own_w)
    return Converter(box.output_a, site.bank.battery.nominal_v, box.efficiency, box.own_w)


def switch_of(site: Site) -> Switch:
    """The controller as one that joins panels and bank."""
    return Switch(site.box.output_a, site.box.controller.drop_v, site.box.own_w)


def way_of(site: Site, legs: Sequence[Leg]) -> Way:
    """Controller and run to the bank."""
    ohm = year_ohm(legs, BANK)
    if site.box.controller.kind == "direct":
        return Way((switch_of(site),), ohm)
    return Way((converter_of(site),), ohm)


def bank_a(site: Site, input_w: Floats) -> Floats:
    """Into the bank, while it takes all; 0 without one. [A]"""
    if site.bank is None:
        return np.zeros(len(input_w))
    whole = input_w.sum(axis=1)
    gives = converter_of(site).out_w(whole) if site.box.controller.kind == "mppt" else whole
    return np.asarray(np.minimum(gives / window_of(site).usual_v, site.box.output_a))


def controlled(site: Site, year: Year, legs: Sequence[Leg], pumped: Driven | None = None) -> Controlled:
    """Behind the controller while everything is taken, or into a pump, month by month."""
    by_month, whole = year.hours.by_month, year.input_w.sum(axis=1)
    if pumped is not None:
        return Controlled(by_month(whole) / _WH, pumped.month_kwh(), np.zeros(12))
    if site.bank is None:
        gives = converter_of(site).out_w(whole)
        kept = np.minimum(gives, site.box.output_w)
    else:
        supply, usual_v = supply_of(year, way_of(site, legs), site.bank), window_of(site).usual_v
        direct = np.array([np.interp(usual_v, supply.held_v, row) for row in supply.held_a]) * usual_v
        gives = supply.power_w + direct
        kept = np.minimum(gives, supply.most_a * usual_v)
    return Controlled(by_month(whole) / _WH, by_month(kept) / _WH, by_month(gives - kept) / _WH)


def balance_of(site: Site, bank: Bank, years: Sequence[Year], legs: Sequence[Leg]) -> Balance:
    """The bank through all years one after the other, begun full."""
    store, charge, told, way = store_of(bank), 1.0, [], way_of(site, legs)
    for year in years:
        row = Told(*np.zeros((len(Told._fields), YEAR_HOURS)))
        supply, demand = supply_of(year, way, bank), _demand(site, year, way)
        charge = stored_loops()["through"](store, supply, demand, charge, row)
        told.append(row)
    lost = [lost_w(year, way, bank, row) for year, row in zip(years, told, strict=True)]
    return _balance(bank, years, told, lost)


def load_w(site: Site, year: Year, way: Way) -> Floats:
    """Loads, and the controller's own draw while nothing comes. [W]"""
    return drawn_w(site, year.hours) + own_w(year, way)


def _demand(site: Site, year: Year, way: Way) -> Demand:
    helper, load = site.generator, load_w(site, year, way)
    if helper is None:
        return Demand(load, 0.0, _START, _STOP, _BACK)
    return Demand(load, helper.power_w, helper.start, helper.stop, _BACK)


def _balance(
    bank: Bank, years: Sequence[Year], told: Sequence[Told], lost: Sequence[dict[str, Floats]]
) -> Balance:
    def mean(rows: Sequence[Floats]) -> Floats:
        months = [year.hours.by_month(row) for year, row in zip(years, rows, strict=True)]
        return np.asarray(np.mean(months, axis=0) / _WH)

    served = np.array([row.served_wh.sum() for row in told])
    missing = np.array([row.missing_wh.sum() for row in told])
    offered, used = mean([row.offered_wh for row in told]), mean([row.used_wh for row in told])
    return Balance(
        served_share=float(served.sum() / (served + missing).sum()),
        worst_share=float((served / (served + missing)).min()),
        dark_hours=float(np.mean([np.count_nonzero(row.missing_wh > 1e-9) for row in told])),
        generator_hours=float(np.mean([np.count_nonzero(row.generator_wh > 0) for row in told])),
        bank_years=life_years(bank, float(np.mean([row.passed_ah.sum() for row in told]))),
        years=len(years),
        offered_kwh=offered,
        used_kwh=used,
        unused_kwh=offered - used,
        served_kwh=mean([row.served_wh for row in told]),
        missing_kwh=mean([row.missing_wh for row in told]),
        generator_kwh=mean([row.generator_wh for row in told]),
        lost_kwh=mean([row.lost_wh + row.idle_wh for row in told]),
        charge=told[0].charge,
        way_kwh={cause: mean([each[cause] for each in lost]) for cause in lost[0]},
    )


def front_of(
    site: Site, years: Sequence[Year], legs: Sequence[Leg], paid: tuple[Prices, int], told: Progress
) -> tuple[Choice, ...]:
    """Numbers of strings and sizes of bank, none beaten in both cost and service.

    `paid`: prices, and the number of strings that the years are of; others count as so many like their mean.
    """
    bank, (prices, strings) = site.bank, paid
    if bank is None or not site.draws:
        return ()
    way, helper = way_of(site, legs), site.generator
    supplies = [_one(supply_of(year, way, bank), strings) for year in years]
    asked = Asked(
        load_w(site, years[0], way),
        site.sizes.served,
        helper.power_w if helper else 0.0,
        helper.start if helper else _START,
        helper.stop if helper else _STOP,
        _BACK,
    )
    banks = site.sizes.banks_ah or (_FEW * bank.capacity_ah, _MANY * bank.capacity_ah)
    life = Life(site.money.years, site.money.interest)
    shop = Shop(bank, site.sizes.strings or _numbers(strings), banks, prices, life)
    return front(shop, supplies, asked, told)


def _numbers(strings: int) -> tuple[int, ...]:
    """From one string to twice those there are, some of them where they are many.

    >>> _numbers(2), _numbers(8)
    ((1, 2, 3, 4), (1, 3, 5, 7, 10, 12, 14, 16))
    """
    return tuple(sorted({round(n) for n in np.linspace(1, 2 * strings, min(2 * strings, _NUMBERS)).tolist()}))


def _one(supply: Supply, strings: int) -> Supply:
    """The supply of one string of so many alike."""
    return Supply(supply.power_w / strings, supply.held_v, supply.held_a / strings, supply.most_a / strings)
