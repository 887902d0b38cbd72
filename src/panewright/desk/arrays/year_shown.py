"""An array's year for its page: energy by month and hour, losses, likely range, bank, sizes, money."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.array.plan.plan import Balance, Plan
    from panewright.array.sized import Choice
    from panewright.desk.orders.shown import Bar

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_QUARTERS = ("December to February", "March to May", "June to August", "September to November")
_CAUSES = {
    "slant": "light that comes aslant",
    "dirt": "dirt and age",
    "heat": "heat and dim light",
    "shade": "shadows and snow",
    "together": "panels worked together",
    "wire": "wires",
}
_WIDE, _HIGH, _LETTER = 190.0, 84.0, 4.6
_FULL = 100.0
_LEAST_KWH = 0.005  # less is not told as missing


@dataclass(frozen=True, slots=True)
class Month:
    """One month: what comes out, and of what the bank serves, lacks and cannot take."""

    name: str
    kwh: str
    width: str  #: of its bar, the greatest month at 100
    served: str
    missing: str
    unused: str
    lacks: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a table."""

    what: str
    value: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Pair:
    """One choice of panels and bank."""

    strings: str
    bank: str
    served: str
    worst: str
    dark: str
    generator: str
    unused: str
    cost: str
    per_kwh: str
    here: bool  #: as the site has it


@dataclass(frozen=True, slots=True)
class YearShown:
    """A reckoned year."""

    proven: bool
    sentence: str
    figures: tuple[tuple[str, str], ...]
    failing: tuple[Bar, ...]
    checks: tuple[Bar, ...]
    months: tuple[Month, ...]
    at_best: str  #: what stands behind 'at the inputs'
    banked: bool
    hours: str  #: svg
    losses: tuple[Row, ...]
    likely: str
    causes: tuple[Row, ...]
    bank: tuple[Row, ...]
    pump: tuple[Row, ...]
    front: tuple[Pair, ...]
    wires: tuple[Row, ...]
    needs: tuple[Row, ...]
    turned: tuple[Row, ...]
    money: tuple[Row, ...]
    known_by: tuple[Row, ...]
    assumed: tuple[Row, ...]
    said: tuple[str, ...]
    cautions: tuple[str, ...]


def year_shown(plan: Plan) -> YearShown:
    """A plan for its page."""
    from panewright.desk.orders.shown import bar
    from panewright.pack.array_book.limits_told import in_order

    units = plan.site.named.units
    ranked = in_order(plan)
    failing = tuple(bar(check, units) for check in ranked if not check.passed)
    return YearShown(
        plan.proven,
        _sentence(len(failing), len(plan.checks)),
        tuple(_figures(plan)),
        failing,
        tuple(bar(check, units) for check in ranked),
        tuple(_months(plan)),
        _at_best(plan),
        plan.balance is not None,
        _hours(plan),
        tuple(_losses(plan)),
        _likely(plan),
        tuple(_causes(plan)),
        tuple(_bank(plan.balance, units)) if plan.balance else (),
        tuple(_pump(plan)),
        tuple(_pair(plan, each) for each in plan.front),
        tuple(_wires(plan)),
        tuple(_needs(plan)),
        tuple(_turned(plan)),
        tuple(_money(plan)),
        tuple(Row(panel.serial, panel.known_by) for panel in plan.panels),
        tuple(Row(each.key, each.value, each.reason) for each in plan.site.assumed),
        plan.said,
        plan.cautions,
    )


def _sentence(failing: int, checks: int) -> str:
    if not failing:
        return f"All {checks} limits hold"
    return f"{failing} of {checks} limits {'does' if failing == 1 else 'do'} not hold"


def _kwh(value: float, units: str) -> str:
    from panewright.units import show

    return show(float(value), "kWh", units)


def _figures(plan: Plan) -> Iterator[tuple[str, str]]:
    from panewright.desk.arrays.shown import share
    from panewright.price.money import amount

    units = plan.site.named.units
    yield f"At the inputs{_at_best(plan)}, a year", _kwh(plan.year.kwh, units)
    if plan.balance is not None:
        yield "Of the load is served", share(plan.balance.served_share)
        yield "In the worst year", share(plan.balance.worst_share)
    behind = "Into the pump" if plan.pumped else "Behind the controller"
    yield behind, _kwh(plan.controlled.output_kwh.sum(), units)
    if plan.per_kwh is not None:
        yield "A kWh that is used costs", amount(plan.per_kwh, plan.site.named.currency)


def _at_best(plan: Plan) -> str:
    """Without a controller that seeks it, nothing draws the strings' best."""
    seeks = plan.site.box.controller.kind == "mppt" and not plan.site.box.straight
    return "" if seeks else " at their best"


def _months(plan: Plan) -> Iterator[Month]:
    units, balance = plan.site.named.units, plan.balance
    gives = plan.year.month_kwh()
    most = float(gives.max()) or 1.0
    for number, name in enumerate(MONTHS):
        missing = balance.missing_kwh[number] if balance else 0.0
        yield Month(
            name,
            _kwh(gives[number], units),
            f"{_FULL * float(gives[number]) / most:.1f}",
            _kwh(balance.served_kwh[number], units) if balance else "",
            _kwh(missing, units) if balance else "",
            _kwh(balance.unused_kwh[number], units) if balance else "",
            bool(missing >= _LEAST_KWH),
        )


def _hours(plan: Plan) -> str:
    """Power over the day, one curve for each quarter of the year."""
    from panewright.array.plan.daily import by_clock
    from panewright.drawing.chart import Chart, Series
    from panewright.paper.screen_chart import chart_svg

    watts = by_clock(plan.year.hours, plan.year.input_w.sum(axis=1), plan.site.zone_h)
    clock = tuple(hour + 0.5 for hour in range(24))
    series = tuple(
        Series(clock, tuple(row.tolist()), name) for row, name in zip(watts, _QUARTERS, strict=True)
    )
    said = "Power at the inputs over the hours of the day, by quarters of the year"
    chart = Chart("", "hour of the clock, h", "power, W", series, x_to=24.0)
    return chart_svg(chart, _WIDE, _HIGH, letter_mm=_LETTER, said=said)


def _losses(plan: Plan) -> Iterator[Row]:
    from panewright.desk.arrays.shown import share

    units = plan.site.named.units
    whole = float(plan.year.light_w.sum()) / 1000
    yield Row("The panels' ratings in the light that falls on them", _kwh(whole, units))
    for cause, lost in plan.year.lost_kwh().items():
        part = float(lost.sum()) / whole if whole > 0 else 0.0
        yield Row(f"− {_CAUSES[cause]}", _kwh(lost.sum(), units), share(part))
    yield Row(f"At the inputs{_at_best(plan)}", _kwh(plan.year.kwh, units))
    for way, kwh in plan.balance.way_kwh.items() if plan.balance else ():
        yield Row(f"− {way}, mean of the years", _kwh(kwh.sum(), units))


def _likely(plan: Plan) -> str:
    found, units = plan.likely, plan.site.named.units
    if found is None:
        return ""
    span = f"{_kwh(found.low_kwh, units)} and {_kwh(found.high_kwh, units)}"
    return f"In {found.coverage:.0%} of all years between {span}, as far as what is not known is known."


def _causes(plan: Plan) -> Iterator[Row]:
    from panewright.desk.arrays.shown import share

    for cause in plan.likely.causes if plan.likely else ():
        yield Row(cause.name, f"± {share(cause.share)}", cause.why)


def _bank(balance: Balance, units: str) -> Iterator[Row]:
    from panewright.units import show

    yield Row("Years gone through", str(balance.years))
    yield Row("Hours a year with a load not served", show(balance.dark_hours, "h", units))
    yield Row("Hours a year of the generator", show(balance.generator_hours, "h", units))
    yield Row("Could have been given, and was not taken", _kwh(balance.unused_kwh.sum(), units))
    yield Row("Lost in the bank", _kwh(balance.lost_kwh.sum(), units))
    yield Row("The bank lasts", show(balance.bank_years, "years", units))


def _pump(plan: Plan) -> Iterator[Row]:
    from panewright.desk.arrays.shown import share
    from panewright.units import show

    own, units = plan.pumped, plan.site.named.units
    if own is None:
        return
    for name, water in zip(MONTHS, own.day_m3(), strict=True):
        yield Row(f"Water a day in {name}", show(float(water), "m3", units))
    yield Row("Reaches its motor, of what the strings could give", share(own.used_share))
    yield Row("Hours a year in which it stands in light", str(int(own.stalled.sum())))
    yield Row("At its motor at most", show(float(own.volt.max()), "V", units))


def _pair(plan: Plan, each: Choice) -> Pair:
    from panewright.desk.arrays.shown import share
    from panewright.price.money import amount
    from panewright.units import show

    units, currency, served = plan.site.named.units, plan.site.named.currency, each.served
    return Pair(
        str(each.strings),
        show(each.bank.capacity_ah, "Ah", units),
        share(served.share),
        share(served.worst_share),
        show(served.dark_hours, "h", units),
        show(served.generator_hours, "h", units),
        share(served.unused_share),
        amount(each.cost, currency),
        amount(each.per_kwh, currency),
        each.strings == len(plan.strings()) and each.bank == plan.site.bank,
    )


def _wires(plan: Plan) -> Iterator[Row]:
    from panewright.array.plan.legs import taken
    from panewright.price.money import amount
    from panewright.units import show

    units = plan.site.named.units
    for leg in plan.legs:
        option = taken(leg.chosen)
        far = f"{leg.count} × {option.size.name}, {show(leg.run.one_way_m, 'm', units)} one way"
        loses = f"{_kwh(leg.kwh_a_year, units)} a year, {amount(leg.lost_a_year, plan.site.named.currency)}"
        yield Row(
            f"{leg.title[0].upper()}{leg.title[1:]}", far, f"{show(option.drop_v, 'V', units)} lost; {loses}"
        )
    for name, metres in plan.metres.items():
        yield Row("To buy", name, show(float(metres), "m", units))
    yield Row("Pairs of connectors", str(plan.connector_pairs))


def _needs(plan: Plan) -> Iterator[Row]:
    for need in plan.needs:
        verdict = "needed" if need.needed else "not needed"
        yield Row(f"{need.thing[0].upper()}{need.thing[1:]}", verdict, f"{need.why} ({need.article})")
    for each in plan.thresholds:
        yield Row(f"Above {each.above_v:g}\u2009V", each.what, each.article)


def _turned(plan: Plan) -> Iterator[Row]:
    from panewright.array.turned import season_kwh
    from panewright.desk.arrays.shown import share
    from panewright.units import show

    found, units = plan.turns, plan.site.named.units
    if found is None:
        return

    def deg(angle: float) -> str:
        return show(angle, "deg", units)

    yield Row(
        "Best plane",
        f"tilt {deg(found.tilt_deg)}, to {deg(found.azimuth_deg)}",
        f"{share(found.gain_share)} more than as it stands",
    )
    yield Row("Best tilt, looking where it looks", deg(found.held_tilt_deg), _kwh(found.held_kwh, units))
    for name, seasons in (("Two tilts a year", found.seasons), ("Four tilts a year", found.quarters)):
        told = "; ".join(f"{_span(each.months)} {deg(each.tilt_deg)}" for each in seasons)
        if told:
            yield Row(name, told, _kwh(season_kwh(seasons), units))
    dull = found.dull
    yield Row(
        "Best worst month",
        f"tilt {deg(dull.tilt_deg)}, to {deg(dull.azimuth_deg)}",
        f"{_kwh(dull.kwh_day, units)} on its day, {_kwh(dull.now_kwh_day, units)} as it stands",
    )


def _span(months: Sequence[int]) -> str:
    first, last = MONTHS[months[0] - 1], MONTHS[months[-1] - 1]
    return first if first == last else f"{first} to {last}"


def _money(plan: Plan) -> Iterator[Row]:
    from panewright.price.money import amount

    currency = plan.site.named.currency
    yield Row("To begin with", amount(plan.capital, currency))
    if plan.per_kwh is not None:
        yield Row("A kWh that is used, over life", amount(plan.per_kwh, currency))
    yield Row(
        "Lost in wires a year",
        amount(plan.wire_lost_a_year, currency),
        _kwh(plan.wire_kwh, plan.site.named.units),
    )
    if plan.beside is not None:
        own, bought = plan.beside.own_per_kwh, plan.beside.bought_per_kwh
        yield Row(
            "A kWh of these panels alone", amount(own, currency), f"{amount(bought, currency)} of bought ones"
        )
        yield Row(
            "What a hand-built watt may cost to be no dearer", amount(plan.beside.break_even_per_w, currency)
        )
