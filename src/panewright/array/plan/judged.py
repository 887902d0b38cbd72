"""Limits, fuses and what else protects: each rule with its verdict."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from panewright.array.fuses import StringFuse, fuse_checks, string_fuses
from panewright.array.limits import Threshold, input_checks, string_cold_v, thresholds_passed
from panewright.array.plan.headroom import heat_cure
from panewright.array.plan.legs import CONNECTOR, STRINGS, ampacity_a, lost_v, size_of, taken
from panewright.array.plan.plan import Leg, Placed
from panewright.array.plan.strung import Strung, extremes_of, least_v, port_of
from panewright.array.plate import String
from panewright.array.protection import Need, Protected, needs
from panewright.battery.bank import store_of
from panewright.battery.window import cold_charge_check, overvoltage_check
from panewright.check import Check
from panewright.order.site.site import Site
from panewright.wire.connector import connector_checks


@dataclass(frozen=True)
class Judged:
    """All verdicts."""

    checks: tuple[Check, ...]
    fuses: tuple[StringFuse, ...]
    needs: tuple[Need, ...]
    thresholds: tuple[Threshold, ...]
    cold_v: float | None


def strings_of(panels: Sequence[Placed], strung: Strung) -> tuple[tuple[String, ...], ...]:
    """Labels, string by string, input by input."""
    return tuple(tuple(tuple(panels[p].plate for p in row) for row in rows) for rows in strung.inputs)


def fuses_of(site: Site, inputs: Sequence[Sequence[String]], carries_a: float) -> tuple[StringFuse, ...]:
    """Of all strings, numbered through; strings of one input can feed each other. `carries_a` their wires."""
    found: list[StringFuse] = []
    for strings in inputs:
        own = string_fuses(strings, site.rules.family, carries_a)
        found += [replace(fuse, string=len(found) + fuse.string) for fuse in own]
    return tuple(found)


def judged(site: Site, panels: Sequence[Placed], strung: Strung, legs: Sequence[Leg], hot_c: float) -> Judged:
    """Every rule that an array is held to."""
    inputs = strings_of(panels, strung)
    fuses = fuses_of(site, inputs, ampacity_a(legs))
    cold = [string_cold_v(string, site.rules.coldest_c) for strings in inputs for string in strings]
    cold_v = None if None in cold else max(volt for volt in cold if volt is not None)
    checks = [
        *_of_inputs(site, strung, inputs, legs, hot_c),
        *fuse_checks(fuses, cold_v or 0.0),
        *_of_legs(legs),
        *_of_connectors(site, inputs, legs, cold_v),
        *_of_bank(site),
    ]
    guarded = Protected(
        site.rules.family,
        sum(len(strings) for strings in inputs),
        cold_v or 0.0,
        site.rules.on_building,
        True,
        any(fuse.needed for fuse in fuses),
    )
    away = () if site.bank else ("battery", "blocking", "controller")
    asked = tuple(need for need in needs(guarded) if not any(word in need.thing for word in away))
    passed = thresholds_passed(cold_v or 0.0, site.rules.family)
    passed = tuple(each for each in passed if site.bank or not each.what.startswith("a battery"))
    return Judged(tuple(checks), fuses, asked, passed, cold_v)


def _of_inputs(
    site: Site, strung: Strung, inputs: Sequence[Sequence[String]], legs: Sequence[Leg], hot_c: float
) -> Iterator[Check]:
    """Limits of each input; told by its number where there are several."""
    port, extremes = port_of(site, lost_v(legs)), extremes_of(site, hot_c)
    for number, strings in zip(strung.numbers, inputs, strict=True):
        for check in input_checks(strings, port, extremes):
            if site.bank is None and ("battery" in check.rule or "bank" in check.rule):
                continue
            if site.box.straight and "finishes the charge" in check.rule:
                continue
            if "finishes the charge" in check.rule:
                check = replace(check, cure=heat_cure(legs, (check.limit or 0.0) - least_v(site), check.cure))
            yield _named(site, check, port.lost_v, (number, len(inputs)))


def _named(site: Site, check: Check, lost: float, which: tuple[int, int]) -> Check:
    """A check in the words of this input, of so many."""
    number, inputs = which
    if site.box.straight:
        return replace(check, rule=check.rule.replace("controller bears", "isolator bears"))
    rule, demand, source = check.rule, check.demand, check.source
    if site.bank is None and "finishes the charge" in rule:
        rule, source = (
            "hottest string still works the input",
            "the controller's sheet against Vmp of hot cells",
        )
        demand = site.box.least_v + lost
    elif rule == "hottest string finishes the charge":
        demand = max(demand, site.box.least_v + lost)
    return replace(
        check, rule=f"input {number + 1}: {rule}" if inputs > 1 else rule, demand=demand, source=source
    )


def _of_legs(legs: Sequence[Leg]) -> Iterator[Check]:
    for leg in legs:
        for check in taken(leg.chosen).checks:
            yield replace(check, rule=f"{leg.title}: {check.rule}")


def _of_connectors(
    site: Site, inputs: Sequence[Sequence[String]], legs: Sequence[Leg], cold_v: float | None
) -> tuple[Check, ...]:
    """Plugs and sockets of the strings."""
    size = size_of(legs, STRINGS)
    if size is None or cold_v is None:
        return ()
    isc_a = max(plate.isc_a for strings in inputs for string in strings for plate in string)
    return connector_checks(CONNECTOR, size, isc_a, cold_v, site.rules.family)


def _of_bank(site: Site) -> Iterator[Check]:
    """What the bank bears."""
    if site.bank is None:
        return
    battery, window = site.bank.battery, site.bank.window
    yield overvoltage_check(window)
    if (cold := cold_charge_check(battery, site.bank.bank_c)) is not None:
        yield cold
    yield Check(
        rule="bank bears the controller's current",
        demand=site.box.output_a,
        limit=store_of(site.bank).most_a,
        unit="A",
        source="usual for its kind: common practice, no source",
        cure="Set the controller to less current, or take a larger bank.",
        room="battery",
    )
