"""What is said of an array at the command: from what it is to what it costs, with what can hurt first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from panewright.array.sign import sign_of
from panewright.pack.array_book.limits_told import limits_told
from panewright.pack.array_book.saying import MONTHS
from panewright.pack.verdict import sentence, told
from panewright.price.money import amount
from panewright.units import show

if TYPE_CHECKING:
    from panewright.array.plan.plan import Leg, Plan

_DIGITS = 4
_SEASON_NAMES = ("Two tilts a year", "Four tilts a year")


def lines(plan: Plan) -> Iterator[str]:
    """All of it."""
    yield from _head(plan)
    for title, rows in (
        ("CAUTION", plan.cautions),
        ("Strings", list(_strings(plan))),
        ("Limits", list(_limits(plan))),
        ("Runs", list(_runs(plan))),
        ("Fuses of the strings", list(_fuses(plan))),
        ("What else is asked for", list(_needs(plan))),
        ("Energy by month, kWh", list(_months(plan))),
        ("Where the light goes, kWh a year", list(_causes(plan))),
        ("How likely", list(_likely(plan))),
        ("How the stand is turned", list(_turned(plan))),
        ("The bank through the years", list(_bank(plan))),
        ("The pump", list(_pump(plan))),
        ("Numbers of strings and sizes of bank, none beaten in cost and service", list(_front(plan))),
        ("Money", list(_money(plan))),
        ("Taken for granted", [f"{a.key} = {a.value}: {a.reason}" for a in plan.site.assumed]),
    ):
        if rows:
            yield ""
            yield title
            yield from (f"  {row}" for row in rows)


def _head(plan: Plan) -> Iterator[str]:
    site, watts, count = plan.site, plan.rated_w, len(plan.panels)
    panels = f"{count} panel{'s' * (count != 1)}"
    yield f"{site.named.name}: {panels}, {show(watts, 'W')} in standard light. {sentence(plan.checks)}"
    where = "where the strings' run ends" if site.box.straight else "at the controller's inputs"
    behind = "into the pump" if plan.pumped else "behind the controller"
    yield f"{plan.year.kwh:.0f} kWh a year {where}, {plan.controlled.output_kwh.sum():.0f} {behind}."
    source = plan.year.hours.source
    yield f"Weather: {source}."
    if plan.balance is not None and plan.balance.years > 1:
        yield f"Bank and sizes go through {plan.balance.years} years, not this one alone."
    yield from plan.year.hours.said
    yield from plan.said


def _strings(plan: Plan) -> Iterator[str]:
    string = 0
    for number, each in enumerate(plan.inputs, 1):
        for row in each.rows:
            names = ", ".join(plan.panels[p].serial for p in row.panels)
            where = f"input {number}, " if len(plan.inputs) > 1 else ""
            yield f"{where}string {sign_of(string)}: {names}"
            string += 1
    if plan.left_out:
        why = "" if plan.best or plan.site.strings else "; no strings within the limits give more with them"
        yield f"in no string: {', '.join(plan.panels[p].serial for p in plan.left_out)}{why}"
    yield f"{100 * plan.kept_share:.1f} % is kept of what every panel would give on a tracker of its own."
    if plan.best is not None:
        yield from _best(plan)
    yield from _known(plan)


def _best(plan: Plan) -> Iterator[str]:
    """What the program would have done beside what was typed."""
    best = plan.best
    assert best is not None
    rows = [", ".join(plan.panels[p].serial for p in row) for rows in best.inputs for row in rows]
    gain = (1 - best.lost_share) / plan.weighed_share - 1 if plan.weighed_share > 0 else 0.0
    yield f"These are as typed. The best found gives {_more(gain)}: {' | '.join(rows)}"


def _more(share: float) -> str:
    return f"{100 * share:+.1f} %" if abs(share) >= 5e-4 else "no more"


def _known(plan: Plan) -> Iterator[str]:
    """How each panel is known."""
    for known in dict.fromkeys(panel.known_by for panel in plan.panels):
        names = [panel.serial for panel in plan.panels if panel.known_by == known]
        yield f"known by {known}: {', '.join(names)}"


def _limits(plan: Plan) -> Iterator[str]:
    units = plan.site.named.units
    cold, hot = (show(each, "degC", units) for each in (plan.site.rules.coldest_c, plan.hot_cell_c))
    yield f"record cold {cold}, hottest cells {hot}"
    for judged, checks in limits_told(plan):
        yield judged
        run = f"{judged.removeprefix('Run ')}: "
        for check in checks:
            yield f"  {check.rule.removeprefix(run)}: {told(check, units)} ({check.source})"
            if not check.passed and check.cure:
                yield f"      {check.cure}"
    for each in plan.thresholds:
        yield f"above {each.above_v:g} V: {each.what} ({each.article})"


def _runs(plan: Plan) -> Iterator[str]:
    for leg in plan.legs:
        yield _run(plan, leg)
    for name, metres in plan.metres.items():
        long = show(metres, "m", plan.site.named.units)
        yield f"to buy: {long} of single conductor, {name}, half in each colour"
    yield f"to buy: {plan.connector_pairs} pairs of connectors, all of one make and type"
    lost = amount(plan.wire_lost_a_year, plan.site.named.currency)
    to = "pump" if plan.site.box.straight else "controller"
    yield f"wires up to the {to} take {plan.wire_kwh:.1f} kWh a year, worth {lost}"


def _run(plan: Plan, leg: Leg) -> str:
    units, option = plan.site.named.units, leg.chosen.taken
    long = show(leg.run.one_way_m, "m", units)
    many = f"{leg.count} x " if leg.count > 1 else ""
    if option is None:
        return f"{leg.title}: {many}{long} one way; NO SIZE KEEPS EVERY RULE, see the limits"
    thin = leg.chosen.thinnest
    least = (
        "" if thin is None or thin.size == option.size else f"; the rules alone would take {thin.size.name}"
    )
    drop = f"{show(option.drop_v, 'V')} at work, {leg.kwh_a_year:.1f} kWh a year"
    return f"{leg.title}: {many}{long} one way, {option.size.name} {option.size.metal}; {drop}{least}"


def _fuses(plan: Plan) -> Iterator[str]:
    for fuse in plan.fuses:
        size = f" {fuse.size_a:g} A." if fuse.needed and fuse.size_a else ""
        none = " NONE FITS." if fuse.needed and not fuse.size_a else ""
        yield f"string {sign_of(fuse.string)}: {fuse.why}{size}{none} ({fuse.article})"


def _needs(plan: Plan) -> Iterator[str]:
    for need in plan.needs:
        yield f"{need.thing}: {'YES' if need.needed else 'not asked'}; {need.why} ({need.article})"


def _months(plan: Plan) -> Iterator[str]:
    behind = "into the pump" if plan.pumped else "behind the controller"
    rows = {"at the inputs": plan.year.month_kwh(), behind: plan.controlled.output_kwh}
    if plan.balance is not None:
        rows |= {"served": plan.balance.served_kwh, "not served": plan.balance.missing_kwh}
        rows |= {"unused": plan.balance.unused_kwh}
        if plan.site.generator:
            rows["generator"] = plan.balance.generator_kwh
    yield f"{'':<22}" + "".join(f"{month:>7}" for month in MONTHS) + f"{'year':>8}"
    for name, row in rows.items():
        yield f"{name:<22}" + "".join(f"{_plain(each, 1):>7}" for each in row) + f"{_plain(row.sum()):>8}"


def _causes(plan: Plan) -> Iterator[str]:
    fallen = float(plan.year.light_w.sum() / 1000)
    yield f"ratings in the light that falls on them: {fallen:.0f}"
    for cause, row in plan.year.lost_kwh().items():
        share = 100 * row.sum() / fallen if fallen > 0 else 0.0
        yield f"{cause}: {_plain(-row.sum())} ({_plain(share, 1)} %)"
    yield f"at the inputs: {plan.year.kwh:.0f}"
    for cause, row in plan.balance.way_kwh.items() if plan.balance else ():
        yield f"{cause}, mean of the years: {_plain(-row.sum())}"


def _plain(value: float, digits: int = 0) -> str:
    """A figure whose zero has no sign."""
    return f"{round(float(value), digits) + 0.0:.{digits}f}"


def _likely(plan: Plan) -> Iterator[str]:
    found = plan.likely
    if found is None:
        return
    many = f"{100 * found.coverage:.0f} years of a hundred"
    yield f"{found.low_kwh:.0f} to {found.high_kwh:.0f} kWh in {many}, {found.middle_kwh:.0f} in the middle"
    for cause in found.causes:
        yield f"{cause.name}, {100 * cause.share:.1f} %: {cause.why}"


def _turned(plan: Plan) -> Iterator[str]:
    turns = plan.turns
    if turns is None or not turns.now_kwh > 0:
        return
    gain, held = 100 * turns.gain_share, 100 * turns.held_gain_share
    yield f"best: tilt {turns.tilt_deg:g}°, azimuth {turns.azimuth_deg:g}°: {gain:+.1f} % of a year"
    yield f"as it looks now: tilt {turns.held_tilt_deg:g}°: {held:+.1f} %"
    for name, seasons in zip(_SEASON_NAMES, (turns.seasons, turns.quarters), strict=True):
        if seasons:
            more = 100 * turns.more_share(seasons)
            tilts = ", ".join(f"{_span(each.months)} {each.tilt_deg:g}°" for each in seasons)
            yield f"{name}: {tilts}: {more:+.1f} % over the best"
    dull = turns.dull
    there = f"{dull.kwh_day:.2f} kWh a day there, {dull.now_kwh_day:.2f} as it is"
    yield f"for the darkest month: tilt {dull.tilt_deg:g}°, azimuth {dull.azimuth_deg:g}°: {there}"


def _span(months: Sequence[int]) -> str:
    return (
        f"{MONTHS[months[0] - 1]} to {MONTHS[months[-1] - 1]}" if len(months) > 1 else MONTHS[months[0] - 1]
    )


def _bank(plan: Plan) -> Iterator[str]:
    own, bank = plan.balance, plan.site.bank
    if own is None or bank is None:
        return
    battery, years = bank.battery, f"{own.years} year{'s' * (own.years > 1)}"
    yield f"{battery.chemistry}, {battery.nominal_v:g} V, {bank.capacity_ah:g} Ah, {years}"
    worst = f"{100 * own.worst_share:.2f} % in the worst year"
    yield f"serves {100 * own.served_share:.2f} % of the load, {worst}"
    runs = f"; the generator runs {own.generator_hours:.0f} hours a year" if plan.site.generator else ""
    yield f"{own.dark_hours:.0f} dark hours a year{runs}"
    yield f"lowest charge {100 * own.charge.min():.0f} %; the bank lasts {own.bank_years:.1f} years"
    yield f"unused {own.unused_kwh.sum():.0f} kWh a year, lost in the bank {own.lost_kwh.sum():.0f}"


def _pump(plan: Plan) -> Iterator[str]:
    """Water a day by month, and hours in which it stands."""
    own = plan.pumped
    if own is None:
        return
    yield f"{'':<22}" + "".join(f"{month:>7}" for month in MONTHS)
    yield f"{'water, m³ a day':<22}" + "".join(f"{each:>7.2f}" for each in own.day_m3())
    yield f"{100 * own.used_share:.0f} % of what the strings could give reaches its motor"
    yield f"it stands in {own.stalled.sum()} hours of light; at most {own.volt.max():.1f} V at its motor"


def _front(plan: Plan) -> Iterator[str]:
    money = plan.site.named.currency
    if plan.balance is not None and not plan.front:
        yield f"no size that was looked at serves {100 * min(plan.site.sizes.served):g} % of the load"
    for each in plan.front:
        own = each.served
        helped = f", {own.generator_hours:.0f} h of generator" if plan.site.generator else ""
        yield (
            f"{each.strings} string{'s' * (each.strings > 1)}, {each.bank.capacity_ah:.0f} Ah: "
            f"{100 * own.share:.2f} % served, {100 * own.worst_share:.2f} % in the worst year, "
            f"{own.dark_hours:.0f} dark hours{helped}, "
            f"{100 * own.unused_share:.0f} % unused; {each.per_kwh:.3f} {money}/kWh, "
            f"{amount(each.cost, money)} to begin with"
        )


def _money(plan: Plan) -> Iterator[str]:
    money = plan.site.named.currency
    yield f"to begin with: {amount(plan.capital, money)}"
    if plan.per_kwh is not None:
        yield f"a kWh over {plan.site.money.years} years: {plan.per_kwh:.3f} {money}"
    if plan.beside is not None:
        own, bought = plan.beside.own_per_kwh, plan.beside.bought_per_kwh
        yield f"of the panels alone: {own:.3f} {money}/kWh; of ready-made ones {bought:.3f}"
        yield f"at which price of a watt they are even: {plan.beside.break_even_per_w:.3f} {money}"
