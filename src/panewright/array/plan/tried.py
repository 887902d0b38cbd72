"""Strings as a maker tries them: what they give, every limit, fuses and wires, at once and without the year.

The year is stood for by the moments of `array.states`; currents for the wires are those of these moments, so
a reckoned year may take the next size.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from panewright.array.arranged import Allowed, Rows, States, alone_kwh, arranged, weighed
from panewright.array.fuses import StringFuse
from panewright.array.limits import string_cold_v, string_hot_v
from panewright.array.plan.composed import field_of, state_currents, wires_of
from panewright.array.plan.judged import judged
from panewright.array.plan.legs import lost_v, taken, thickest_a
from panewright.array.plan.plan import Leg, Placed
from panewright.array.plan.strung import Strung, allowed, hot_cell_c
from panewright.array.protection import Need
from panewright.array.states import states_of
from panewright.check import Check
from panewright.order.site.site import Site, Typed
from panewright.sky.hours import Hours


@dataclass(frozen=True)
class Basis:
    """Panels in the light of their year: what does not hang on strings."""

    site: Site
    panels: tuple[Placed, ...]
    hours: Hours
    states: States
    allowed: Allowed  #: what the inputs bear and ask, wires left aside
    hot_c: float  #: hottest cells


@dataclass(frozen=True)
class StringTried:
    """One string."""

    cold_v: float | None  #: open in record cold; None where nothing tells it
    hot_v: float  #: at work in record heat
    fuse: StringFuse


@dataclass(frozen=True)
class Outcome:
    """What strings would do."""

    strings: tuple[StringTried, ...]  #: in the order in which they were tried
    left_out: tuple[int, ...]
    checks: tuple[Check, ...]
    needs: tuple[Need, ...]
    wires: tuple[tuple[Leg, str], ...]  #: each run with its conductor
    kwh: float  #: in a usual year, wires left aside
    alone_kwh: float  #: every panel on its own
    kept_share: float


def basis_of(site: Site, panels: Sequence[Placed], hours: Hours) -> Basis:
    """Panels of a site in the hours of a usual year."""
    field = field_of(site, panels, hours)
    hot_c = hot_cell_c(site, float(field.lit.steps.cell_c.max(initial=-273.0)))
    states = states_of(field.panels, field.at, field.lit)
    limits = allowed(site, panels, hot_c, carries_a=thickest_a(site))
    return Basis(site, tuple(panels), hours, states, limits, hot_c)


def tried(basis: Basis, strings: Sequence[Typed]) -> Outcome:
    """What so many strings would do; `ValueError` where there is none."""
    if not strings:
        raise ValueError("strings are tried where there is one or more, got none")
    found = _strung(basis, strings)
    flows = state_currents(basis.site, basis.states, found, basis.hours)
    legs = wires_of(basis.site, basis.panels, found, flows, basis.hot_c)
    verdicts = judged(basis.site, basis.panels, found, legs, basis.hot_c)
    kwh, alone = _kwh(basis, found.inputs), alone_kwh(basis.states)
    return Outcome(
        _strings(basis, strings, found, verdicts.fuses),
        found.left_out,
        verdicts.checks,
        verdicts.needs,
        tuple((leg, taken(leg.chosen).size.name) for leg in legs),
        kwh,
        alone,
        kwh / alone if alone > 0 else 0.0,
    )


def best_strings(basis: Basis) -> tuple[Typed, ...]:
    """The strings that give most, by the moments of the year; none where none stays within the limits."""
    found = arranged(basis.states, basis.allowed)
    if found is None:
        return ()
    first = _best(basis, found.inputs)
    wires = wires_of(
        basis.site,
        basis.panels,
        first,
        state_currents(basis.site, basis.states, first, basis.hours),
        basis.hot_c,
    )
    limits = allowed(basis.site, basis.panels, basis.hot_c, lost_v(wires), thickest_a(basis.site))
    if not all(limits.keeps(rows) for rows in found.inputs if rows):  # wires take of the voltage
        found = arranged(basis.states, limits) or found
    inputs = [rows for rows in found.inputs if rows]
    return tuple(Typed(row, number) for number, rows in enumerate(inputs) for row in rows)


def _best(basis: Basis, inputs: Sequence[Rows]) -> Strung:
    return _strung(basis, [Typed(row, number) for number, rows in enumerate(inputs) for row in rows])


def _strung(basis: Basis, strings: Sequence[Typed]) -> Strung:
    """The strings input by input, each input with a string or more."""
    numbers = tuple(sorted({each.input for each in strings}))
    inputs = tuple(tuple(each.panels for each in strings if each.input == n) for n in numbers)
    used = {p for each in strings for p in each.panels}
    left = tuple(p for p in range(len(basis.panels)) if p not in used)
    return Strung(inputs, numbers, left, None, None, 0.0)


def _kwh(basis: Basis, inputs: tuple[Rows, ...]) -> float:
    """Energy by the moments of the year, whatever the limits. [kWh]"""
    most = max(basis.allowed.inputs, len(inputs))
    ends = replace(basis.allowed, least_v=0.0, most_v=1e6, most_work_v=math.inf, inputs=most, fusing=None)
    return weighed(basis.states, ends, inputs)


def _strings(
    basis: Basis, strings: Sequence[Typed], found: Strung, fuses: Sequence[StringFuse]
) -> tuple[StringTried, ...]:
    """In the order of `strings`; fuses come input by input."""
    order = [n for number in found.numbers for n, each in enumerate(strings) if each.input == number]
    by_string = dict(zip(order, fuses, strict=True))
    told = []
    for number, each in enumerate(strings):
        plates = tuple(basis.panels[p].plate for p in each.panels)
        told.append(
            StringTried(
                string_cold_v(plates, basis.site.rules.coldest_c),
                string_hot_v(plates, basis.hot_c),
                by_string[number],
            )
        )
    return tuple(told)
