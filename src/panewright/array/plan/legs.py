"""Every run of an array with the section it gets, by the currents of its year.

Strings' own wires go from each string to where strings meet, then one run for each input goes down to the
controller, then one to the battery. A run is chosen by the rules of the site's family and by what its losses
cost (`wire.chosen`). In the year it counts as the one resistance that loses as much.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

import numpy as np

from panewright.array.fuses import SIZES_A, StringFuse
from panewright.array.plan.plan import Leg, Placed
from panewright.array.plan.strung import Strung, window_of
from panewright.array.worth import years_worth
from panewright.order.site.site import Site, Way
from panewright.sky.hours import Floats
from panewright.wire.ampacity import CONTINUOUS_FACTOR
from panewright.wire.chosen import Chosen, Option, Sold, Worth, choose_run
from panewright.wire.connector import Connector
from panewright.wire.heated import Flow
from panewright.wire.laid import Laid
from panewright.wire.rules import Run, carried_a, greatest_of_panels_a
from panewright.wire.sizes import GAUGES, METRIC, Size

STRINGS, DOWN, BANK = "strings to where they meet", "down to the controller", "controller to battery"
CONNECTOR = Connector(rated_a=30.0, rated_v=1000.0, least_mm2=2.5, most_mm2=10.0)  #: as most are; memory
_THINNEST_MM2 = {STRINGS: 2.5, DOWN: 1.5, BANK: 1.5}
_THICKEST_MM2 = {STRINGS: 10.0, DOWN: 1e3, BANK: 1e3}
_WARM_K = 10.0  # air round runs while current flows, over the year's mean: day, and summer; common practice
_SHORTEST_A = 1e-3
_BATTERY_FUSES_A = (*SIZES_A, 40.0, 50.0, 60.0, 80.0, 100.0, 125.0, 150.0, 175.0, 200.0, 250.0, 300.0, 400.0)


@dataclass(frozen=True)
class Currents:
    """A year's currents by hour, rms within each. [A]"""

    row_a: Floats  #: (hour, string), input after input
    input_a: Floats  #: (hour, input)
    bank_a: Floats  #: (hour,)
    air_c: float  #: mean of the year


def legs_of(
    site: Site, panels: Sequence[Placed], strung: Strung, flows: Currents, fuses: Sequence[StringFuse] = ()
) -> tuple[Leg, ...]:
    """All runs; a run of no length is none."""
    made = [_strings(site, panels, strung, flows, fuses), _down(site, panels, strung, flows)]
    if site.bank is not None:
        made.append(_bank(site, flows))
    return tuple(leg for leg in made if leg.run.one_way_m > 0)


def _rows(panels: Sequence[Placed], strung: Strung) -> list[list[Placed]]:
    return [[panels[p] for p in row] for rows in strung.inputs for row in rows]


def _strings(
    site: Site, panels: Sequence[Placed], strung: Strung, flows: Currents, fuses: Sequence[StringFuse]
) -> Leg:
    rows = _rows(panels, strung)
    plates = [[each.plate for each in row] for row in rows]
    fuse_a = max((fuse.size_a for fuse in fuses if fuse.needed and fuse.size_a), default=None)
    run = Run(
        site.ways.strings.one_way_m,
        greatest_of_panels_a(max(plate.isc_a for row in plates for plate in row)),
        max(min(plate.imp_a for plate in row) for row in plates),
        min(sum(plate.vmp_v for plate in row) for row in plates),
        fuse_a,
    )
    return _leg(site, STRINGS, len(rows), run, site.ways.strings, flows.row_a, flows.air_c)


def _down(site: Site, panels: Sequence[Placed], strung: Strung, flows: Currents) -> Leg:
    greatest, working, volts = [], [], []
    for rows in strung.inputs:
        plates = [[panels[p].plate for p in row] for row in rows]
        greatest.append(greatest_of_panels_a(sum(max(p.isc_a for p in row) for row in plates)))
        working.append(sum(min(p.imp_a for p in row) for row in plates))
        volts.append(min(sum(p.vmp_v for p in row) for row in plates))
    run = Run(site.ways.down.one_way_m, max(greatest), max(working), min(volts))
    return _leg(site, DOWN, len(strung.inputs), run, site.ways.down, flows.input_a, flows.air_c)


def _bank(site: Site, flows: Currents) -> Leg:
    """To the battery, behind the fuse at its terminal."""
    most_a = site.box.output_a
    fuse = next((size for size in _BATTERY_FUSES_A if size >= CONTINUOUS_FACTOR * most_a), None)
    run = Run(site.ways.bank.one_way_m, most_a, most_a, window_of(site).usual_v, fuse)
    return _leg(site, BANK, 1, run, site.ways.bank, flows.bank_a[:, None], flows.air_c)


def _leg(site: Site, name: str, count: int, run: Run, way: Way, amps: Floats, air_c: float) -> Leg:
    """One kind of run; the flow is that of the one with the greatest losses, the loss that of all."""
    laid = laid_of(site, name, way, count)
    squares = (amps**2).sum(axis=0)
    warm_c = air_c + _WARM_K
    flow = Flow(np.ascontiguousarray(amps[:, int(squares.argmax())]), 1.0, warm_c)
    worth = _worth(site)
    chosen = choose_run(run, laid, flow, offers(site, name), worth)
    option = taken(chosen)
    alike = squares.sum() / squares.max() if squares.max() > 0 else 0.0
    kwh = option.kwh_a_year * float(alike)
    lost = _money(kwh * worth.per_kwh)
    return Leg(name, count, run, laid, flow, chosen, kwh, lost, site.box.straight)


def chosen_again(site: Site, leg: Leg, run: Run) -> Leg:
    """The same run under other rules."""
    worth, before = _worth(site), taken(leg.chosen)
    chosen = choose_run(run, leg.laid, leg.flow, offers(site, leg.name), worth)
    alike = leg.kwh_a_year / before.kwh_a_year if before.kwh_a_year > 0 else 0.0
    kwh = taken(chosen).kwh_a_year * alike
    return replace(leg, run=run, chosen=chosen, kwh_a_year=kwh, lost_a_year=_money(kwh * worth.per_kwh))


def _worth(site: Site) -> Worth:
    return Worth(float(site.money.kwh), years_worth(site.money.interest, site.money.years))


def laid_of(site: Site, name: str, way: Way, count: int) -> Laid:
    """How a run lies; runs down to several inputs share their conduit."""
    nec = site.rules.family == "NEC"
    beside = count if name == DOWN and count > 1 else 0
    return Laid(
        site.rules.family,
        way.lies,
        site.rules.hottest_air_c,
        beside=max(way.beside, 2 * beside if nec else beside),
        under_panels=way.under_panels,
    )


def offers(site: Site, name: str) -> tuple[Sold, ...]:
    """Copper of the family's sizes, at the site's prices."""
    sizes = GAUGES if site.rules.family == "NEC" else METRIC
    low, high = _THINNEST_MM2[name], _THICKEST_MM2[name]
    metre, per_mm2 = float(site.money.metre), float(site.money.mm2_metre)
    fitting = [size for size in sizes if low * 0.99 <= size.area_mm2 <= high * 1.06]
    return tuple(Sold(size, metre + per_mm2 * size.area_mm2) for size in fitting)


def taken(chosen: Chosen) -> Option:
    """The size taken; the thickest where none keeps every rule."""
    return chosen.taken or chosen.looked_at[-1]


def leg_of(legs: Sequence[Leg], name: str) -> Leg | None:
    """A run by its name; None where it has no length."""
    return next((leg for leg in legs if leg.name == name), None)


def size_of(legs: Sequence[Leg], name: str) -> Size | None:
    """Its conductor."""
    leg = leg_of(legs, name)
    return taken(leg.chosen).size if leg else None


def ampacity_a(legs: Sequence[Leg]) -> float:
    """What the strings' own wires carry where they lie. [A]"""
    leg = leg_of(legs, STRINGS)
    if leg is None:
        return float("inf")
    return carried_a(taken(leg.chosen).size, leg.laid) or 0.0


def thickest_a(site: Site) -> float:
    """What the thickest wire that a string may have carries where it lies. [A]"""
    if site.ways.strings.one_way_m <= 0:
        return float("inf")
    laid = laid_of(site, STRINGS, site.ways.strings, 1)
    return max(carried_a(sold.size, laid) or 0.0 for sold in offers(site, STRINGS))


def year_ohm(legs: Sequence[Leg], name: str) -> float:
    """The one resistance, out and back, that loses in a year what the run loses. [ohm]"""
    leg = leg_of(legs, name)
    if leg is None:
        return 0.0
    option = taken(leg.chosen)
    squares = float((np.asarray(leg.flow.amps) ** 2).sum() * leg.flow.hours_each)
    return 1000 * option.kwh_a_year / squares if squares > _SHORTEST_A else option.ohm


def row_ohms(legs: Sequence[Leg], panels: Sequence[Placed], strung: Strung) -> tuple[float, ...]:
    """Of each string: its run with its pairs of connectors. [ohm]"""
    run = year_ohm(legs, STRINGS)
    return tuple(run + (len(row) + 1) * CONNECTOR.ohm for row in _rows(panels, strung))


def lost_v(legs: Sequence[Leg]) -> float:
    """In all runs before the controller at the working current. [V]"""
    return sum(taken(leg.chosen).drop_v for leg in legs if leg.name in (STRINGS, DOWN))


def _money(amount: float) -> Decimal:
    return Decimal(f"{amount:.4f}")
