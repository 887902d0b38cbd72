"""An array planned: strings, wires, fuses, year, bank, money, each from its own room, put together here.

The currents that wires are chosen by are first those of 48 moments that stand for the year; the year is
then reckoned with these wires, and the wires are chosen again by its hours. Where that takes another size,
the year is reckoned once more.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import pairwise

import numpy as np

from panewright.array.arranged import States
from panewright.array.doubts import Doubts
from panewright.array.driven import Driven
from panewright.array.field import Given
from panewright.array.likely import Likely, likely
from panewright.array.moments import Moments, moments
from panewright.array.plan.banked import balance_of, bank_a, controlled, front_of
from panewright.array.plan.cautions import cautions
from panewright.array.plan.headroom import headroom_v, thick_enough
from panewright.array.plan.judged import Judged, fuses_of, judged, strings_of
from panewright.array.plan.legs import (
    BANK,
    DOWN,
    Currents,
    ampacity_a,
    legs_of,
    lost_v,
    row_ohms,
    taken,
    thickest_a,
    year_ohm,
)
from panewright.array.plan.paid import Paid, paid
from panewright.array.plan.plan import Balance, Controlled, Leg, Placed, Plan
from panewright.array.plan.pumped import driven_of, pump_checks
from panewright.array.plan.strung import Strung, allowed, hot_cell_c, open_v, spans_of, strung
from panewright.array.plan.weather import Weathered, apart_said
from panewright.array.sized import Choice
from panewright.array.states import states_of
from panewright.array.steps import Lit, dome_of, steps_of
from panewright.array.turned import Turns, turns_of
from panewright.array.wiring import wired
from panewright.array.year import Year, gathered, worked
from panewright.circuit.chords.panels import Panels, panels_of
from panewright.order.site.site import Site
from panewright.sky.hours import YEAR_HOURS, Floats, Hours
from panewright.wire.lengths import Laying, connector_pairs, metres_to_buy

Told = Callable[[float, str], None]
_AGAIN = 2  # times that wires are chosen by the year's own currents


@dataclass(frozen=True)
class Field:
    """Panels in the light of one year."""

    hours: Hours
    at: Moments
    lit: Lit
    panels: Panels


@dataclass(frozen=True)
class _Wired:
    """The year with the wires that were chosen by it."""

    strung: Strung
    legs: tuple[Leg, ...]
    year: Year
    given: Given


def plan_of(
    site: Site, panels: Sequence[Placed], weather: Weathered, told: Told = lambda _share, _words: None
) -> Plan:
    """The plan; `told` hears what share of it is done, and what is worked at."""
    told = _onward(told)
    told(0.0, "light and shadows")
    field = field_of(site, panels, weather.usual)
    hot_c = hot_cell_c(site, float(field.lit.steps.cell_c.max(initial=-273.0)))
    told(0.1, "strings")
    states = states_of(field.panels, field.at, field.lit)
    found = _with_wires(site, panels, field, states, hot_c, told)
    verdicts = judged(site, panels, found.strung, found.legs, hot_c)
    used = _used(site, panels, weather, found, told)
    plan = _put_together(site, panels, found, (verdicts, hot_c), used)
    told(1.0, "done")
    return plan


def _onward(told: Told) -> Told:
    """Tells no less than it told before, also where something is reckoned once more."""
    most = 0.0

    def tell(share: float, words: str) -> None:
        nonlocal most
        most = max(most, share)
        told(most, words)

    return tell


def field_of(site: Site, panels: Sequence[Placed], hours: Hours) -> Field:
    """Panels of a site in the light of a year."""
    members = [panel.member for panel in panels]
    at = moments(hours, site.around, members)
    sees = [dome_of(member, site.around) for member in members]
    lit = steps_of(hours, members, at, sees)
    return Field(hours, at, lit, panels_of([member.law for member in members], sees))


def _with_wires(
    site: Site, panels: Sequence[Placed], field: Field, states: States, hot_c: float, told: Told
) -> _Wired:
    """Strings, wires and year; arranged once more where the wires take too much of the voltage."""
    first = strung(site, states, allowed(site, panels, hot_c, carries_a=thickest_a(site)))
    legs = wires_of(site, panels, first, state_currents(site, states, first, field.hours), hot_c)
    narrower = allowed(site, panels, hot_c, lost_v(legs), thickest_a(site))
    again = first if first.within(narrower) else strung(site, states, narrower)
    if again is not first:
        first, legs = (
            again,
            wires_of(site, panels, again, state_currents(site, states, again, field.hours), hot_c),
        )
    for _ in range(_AGAIN):
        year, given = _year(site, panels, field, first, legs, told)
        chosen = wires_of(site, panels, first, _of_year(site, field, year, given), hot_c)
        alike = _sizes(chosen) == _sizes(legs)
        legs = chosen
        if alike:
            break
    return _Wired(first, legs, year, given)


def _sizes(legs: Sequence[Leg]) -> list[str]:
    return [taken(leg.chosen).size.name for leg in legs]


def wires_of(
    site: Site, panels: Sequence[Placed], found: Strung, flows: Currents, hot_c: float
) -> tuple[Leg, ...]:
    """Wires, with the fuses that they ask for, thick enough for the hottest string to finish the charge."""
    legs = _fused(site, panels, found, flows)
    return thick_enough(site, legs, headroom_v(site, panels, found, hot_c))


def _fused(site: Site, panels: Sequence[Placed], found: Strung, flows: Currents) -> tuple[Leg, ...]:
    """Wires; chosen again with the fuses that they ask for, by what the panels bear: the wire follows."""
    legs = legs_of(site, panels, found, flows)
    strings = strings_of(panels, found)
    fuses = fuses_of(site, strings, ampacity_a(legs))
    if not any(fuse.needed for fuse in fuses):
        return legs
    wide = fuses_of(site, strings, thickest_a(site))
    asked = [replace(fuse, size_a=best.size_a) for fuse, best in zip(fuses, wide, strict=True)]
    return legs_of(site, panels, found, flows, asked)


def _year(
    site: Site, panels: Sequence[Placed], field: Field, found: Strung, legs: Sequence[Leg], told: Told
) -> tuple[Year, Given]:
    inputs = found.wired(row_ohms(legs, panels, found), year_ohm(legs, DOWN))
    spans = spans_of(site, len(inputs), year_ohm(legs, BANK), open_v(site, panels, found))
    wires = wired(inputs, len(panels))
    given = worked(
        field.panels,
        wires,
        field.lit,
        spans,
        lambda share: told(0.15 + 0.45 * share, "the year, hour by hour"),
    )
    members = [panel.member for panel in panels]
    return gathered(field.hours, members, field.at, field.lit, spans, given), given


def _of_year(site: Site, field: Field, year: Year, given: Given) -> Currents:
    """The year's currents, rms of each hour."""

    def hourly(each: Floats) -> Floats:
        total = np.zeros((YEAR_HOURS, each.shape[1]))
        np.add.at(total, field.at.hour, each**2 * field.at.share[:, None])
        return np.asarray(np.sqrt(total))

    return Currents(
        hourly(given.row_a),
        hourly(given.input_a),
        bank_a(site, year.input_w),
        float(year.hours.air_c.mean()),
    )


def state_currents(site: Site, states: States, found: Strung, hours: Hours) -> Currents:
    """The currents of the moments that stand for the year: each string at its own best."""
    rows = [row for rows in found.inputs for row in rows]
    watts = np.stack([states.current_a * states.volt_v[:, list(row)].sum(axis=1) for row in rows], axis=1)
    best = watts.argmax(axis=2)
    amps = np.take_along_axis(states.current_a, best, axis=1)
    power = np.take_along_axis(watts, best[:, :, None], axis=2)[:, :, 0]
    ends = np.cumsum([0, *(len(rows) for rows in found.inputs)])
    inputs = np.stack([amps[:, a:b].sum(axis=1) for a, b in pairwise(ends)], axis=1)
    times = np.maximum(1, np.round(states.hours)).astype(int)  # each moment for the hours it stands for
    rows_a, inputs_a, bank = (np.repeat(each, times, axis=0) for each in (amps, inputs, bank_a(site, power)))
    return Currents(rows_a, inputs_a, bank, float(hours.air_c.mean()))


def _years(
    site: Site, panels: Sequence[Placed], weather: Weathered, found: _Wired, told: Told
) -> tuple[tuple[Year, ...], tuple[float, ...]]:
    """Other years with the same wires, and the energy of each; the usual one where there are none."""
    if len(weather.years) == 1 and weather.years[0] is weather.usual:
        return (found.year,), ()
    made = []
    for number, hours in enumerate(weather.years):
        tell = _part(told, number, len(weather.years))
        field = field_of(site, panels, hours)
        made.append(_year(site, panels, field, found.strung, found.legs, tell)[0])
    return tuple(made), tuple(year.kwh for year in made)


def _kept(year: Year) -> float:
    """Of what each panel alone would give, the share that all together give."""
    alone = float(year.alone_w.sum())
    return float(year.panel_w.sum()) / alone if alone > 0 else 0.0


def _turns(site: Site, panels: Sequence[Placed], hours: Hours) -> Turns:
    """How the stand with the most watts could be turned."""
    stands = [[each.member for each in panels if each.stand == number] for number in range(len(site.stands))]
    most = max(stands, key=lambda members: sum(member.rated_w for member in members))
    return turns_of(hours, site.around, most)


def _part(told: Told, number: int, years: int) -> Told:
    """Tells how far one of some years is."""
    begun, each = 0.6 + 0.3 * number / years, 0.3 / years

    def tell(share: float, _words: str) -> None:
        told(begun + each * share, f"year {number + 1} of {years}")

    return tell


@dataclass(frozen=True)
class _Used:
    """What becomes of the energy, and what that costs."""

    controlled: Controlled
    balance: Balance | None
    pumped: Driven | None
    money: Paid
    front: tuple[Choice, ...]
    likely: Likely


def _used(site: Site, panels: Sequence[Placed], weather: Weathered, found: _Wired, told: Told) -> _Used:
    years, kwh_by_year = _years(site, panels, weather, found, told)
    told(0.9, "the bank and its sizes")
    pumped, strings = driven_of(site, found.year), sum(len(rows) for rows in found.strung.inputs)
    behind = controlled(site, found.year, found.legs, pumped)
    balance = balance_of(site, site.bank, years, found.legs) if site.bank and site.draws else None
    money = paid(site, panels, strings, found.legs, (behind, balance))
    prices = money.prices, strings
    choices = front_of(site, years, found.legs, prices, lambda share: told(0.9 + 0.08 * share, "sizes"))
    doubts = Doubts(
        tuple(panel.doubt for panel in panels),
        weather.source,
        years_kwh=tuple(each for each in kwh_by_year if each > 0),
        ages=tuple(panel.age_years for panel in panels),
    )
    bounds = likely(found.year, [panel.member for panel in panels], doubts)
    return _Used(behind, balance, pumped, money, choices, bounds)


def _put_together(
    site: Site, panels: Sequence[Placed], found: _Wired, verdicts: tuple[Judged, float], used: _Used
) -> Plan:
    (limits, hot_c), strung = verdicts, found.strung
    lost = float(found.year.lost_kwh()["wire"].sum())
    layings = [Laying(taken(leg.chosen).size, leg.run.one_way_m, leg.count) for leg in found.legs]
    return Plan(
        site=site,
        panels=tuple(panels),
        inputs=strung.wired(row_ohms(found.legs, panels, strung), year_ohm(found.legs, DOWN)),
        left_out=strung.left_out,
        arrangement=strung.arrangement,
        best=strung.best,
        kept_share=_kept(found.year),
        weighed_share=strung.kept_share,
        year=found.year,
        checks=(*limits.checks, *pump_checks(site, used.pumped)),
        fuses=limits.fuses,
        needs=limits.needs,
        thresholds=limits.thresholds,
        cold_v=limits.cold_v,
        hot_cell_c=hot_c,
        legs=found.legs,
        metres=metres_to_buy(layings),
        connector_pairs=connector_pairs(len(row) for rows in strung.inputs for row in rows),
        controlled=used.controlled,
        balance=used.balance,
        pumped=used.pumped,
        front=used.front,
        per_kwh=used.money.per_kwh,
        capital=used.money.capital,
        wire_kwh=lost,
        wire_lost_a_year=Decimal(f"{lost * float(site.money.kwh):.4f}"),
        beside=used.money.beside,
        turns=_turns(site, panels, found.year.hours),
        likely=used.likely,
        cautions=cautions(site, limits),
        said=(*strung.said, *apart_said(site, found.year.hours)),
    )
