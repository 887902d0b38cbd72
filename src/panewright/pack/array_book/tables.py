"""Tables of an array's book: strings, cables, needs, limits, energy, the bank, sizes, cost."""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf, isnan

from panewright.array.plan.plan import Balance, Leg, Plan
from panewright.array.worth import shown
from panewright.array.year import CAUSES
from panewright.check import Check
from panewright.drawing.drawing import Align
from panewright.drawing.sheet import Table
from panewright.pack.array_book.drawn.bank import choice_letter, choice_words
from panewright.pack.array_book.drawn.energy import CAUSE_WORDS
from panewright.pack.array_book.drawn.schemed import left_out, needs_of, strands_of
from panewright.pack.array_book.drawn.strands import fuse_words
from panewright.pack.array_book.limits_told import in_order
from panewright.pack.array_book.saying import MONTHS, kwh, percent, say, typed
from panewright.pack.pages.front import NO_FIGURE, used
from panewright.pack.pages.table import words_table
from panewright.pack.wording import signs
from panewright.price.money import amount
from panewright.units import against
from panewright.wire.chosen import Option

Rows = tuple[tuple[str, ...], ...]


def strings_table(plan: Plan) -> Table:
    """Each string with its serials, voltages, current, fuse."""
    rows = tuple(
        (
            strand.sign,
            f"{strand.input + 1}",
            ", ".join(strand.serials),
            NO_FIGURE if strand.cold_v is None else say(plan, strand.cold_v, "V"),
            say(plan, strand.hot_v, "V"),
            say(plan, strand.isc_a, "A"),
            fuse_words(strand),
        )
        for strand in strands_of(plan)
    )
    return words_table(("String", "Input", "Serials, minus end first", "Cold", "Hot", "Isc", "Fuse"), rows)


def unwired_words(plan: Plan) -> str:
    """Panels in no string; nothing where there are none."""
    out = left_out(plan)
    if not out:
        return ""
    names = ", ".join(placed.serial for placed in out)
    return f"In no string: {names}. They lie there live all the same: insulate their ends."


def known_table(plan: Plan) -> Table:
    """Each panel: by what its figures are known."""
    rows = tuple(
        (
            placed.serial,
            plan.site.stands[placed.stand].name,
            placed.known_by,
            say(plan, placed.member.rated_w, "W"),
            say(plan, placed.plate.voc_v, "V"),
            say(plan, placed.plate.isc_a, "A"),
        )
        for placed in plan.panels
    )
    return words_table(("Panel", "Stand", "Known by", "Rated", "Voc", "Isc"), rows)


def cables_table(plan: Plan) -> Table:
    """Each kind of run: length, section, what is lost, why this section."""
    rows = tuple(_cable(plan, n, leg) for n, leg in enumerate(plan.legs, 1))
    heads = ("Run", "", "Length one way", "Section", "Drop", "Lost a year", "Worth a year")
    return words_table(heads, rows)


def _cable(plan: Plan, number: int, leg: Leg) -> tuple[str, ...]:
    many = f"{leg.count} × " if leg.count > 1 else ""
    length = f"{many}{typed(plan, leg.run.one_way_m, 'm')}"
    head = (f"W{number}", leg.title, length)
    taken = leg.chosen.taken
    if taken is None:
        return (*head, "none keeps every rule", NO_FIGURE, NO_FIGURE, NO_FIGURE)
    return (
        *head,
        f"{taken.size.name} {taken.size.metal}",
        f"{say(plan, taken.drop_v, 'V', 2)}, {percent(taken.drop_v / leg.run.working_v)}",
        f"{kwh(leg.kwh_a_year)}\u2009kWh",
        amount(leg.lost_a_year, plan.site.named.currency),
    )


def why_table(plan: Plan) -> Table:
    """Of each run: the thinnest that the rules let pass, the one that is taken, the next ones, over life."""
    rows: list[tuple[str, ...]] = []
    for n, leg in enumerate(plan.legs, 1):
        for option in _round_the_taken(leg):
            mark = "taken" if option is leg.chosen.taken else ""
            cost = f"{option.cost:.2f}\u2009{plan.site.named.currency}"
            lost = f"{kwh(option.kwh_a_year)}\u2009kWh"
            rows.append((f"W{n}", f"{option.size.name} {option.size.metal}", lost, cost, mark))
    return words_table(("Run", "Keeps every rule", "Lost a year", "Cost over life", ""), tuple(rows))


def _round_the_taken(leg: Leg) -> tuple[Option, ...]:
    """The thinnest that keeps every rule, then the one taken with its neighbours."""
    holding = [option for option in leg.chosen.looked_at if option.holds]
    taken = next((n for n, option in enumerate(holding) if option is leg.chosen.taken), 0)
    return tuple(option for n, option in enumerate(holding) if n == 0 or abs(n - taken) <= 1)


def wire_table(plan: Plan) -> Table:
    """What is bought of wire and connectors."""
    bought = [
        (f"single conductor {name}, half in each colour", say(plan, float(metres), "m"))
        for name, metres in plan.metres.items()
    ]
    rows = (*bought, ("plugs with their sockets, all of one make", f"{plan.connector_pairs} pairs"))
    return words_table(("To buy", "How much"), rows)


def needs_table(plan: Plan) -> Table:
    """What protects the array: needed or not, why, by which article."""
    rows = tuple(
        (need.thing, "yes" if need.needed else "no", need.why, need.article) for need in needs_of(plan)
    )
    return words_table(("Thing", "Needed", "Why", "Article"), rows)


def fuses_table(plan: Plan) -> Table:
    """Each string's fuse and its reason."""
    rows = tuple(
        (strand.sign, fuse_words(strand), fuse.why, fuse.article)
        for strand, fuse in zip(strands_of(plan), plan.fuses, strict=True)
    )
    return words_table(("String", "Fuse", "Why", "Article"), rows)


def thresholds_table(plan: Plan) -> Table | None:
    """Voltages that are passed and from which more is asked."""
    if not plan.thresholds:
        return None
    rows = tuple((f"above {t.above_v:g}\u2009V", t.what, t.article) for t in plan.thresholds)
    return words_table(("Voltage", "What is asked", "Article"), rows)


def limits_table(plan: Plan) -> Table:
    """Every check, demand against limit."""
    rows = tuple(
        (check.rule, *_sides(plan, check), used(check), check.verdict, signs(check.source))
        for check in in_order(plan)
    )
    return words_table(("Rule", "Asked", "It may bear", "Used", "Verdict", "Source"), rows)


def _sides(plan: Plan, check: Check) -> tuple[str, str]:
    units = plan.site.named.units
    if check.limit is None or isnan(check.demand):
        asked = (
            NO_FIGURE if isnan(check.demand) else against(check.demand, check.demand, check.unit, units)[0]
        )
        return asked, NO_FIGURE
    if isinf(check.limit):
        return against(check.demand, check.demand, check.unit, units)[0], "not stated"
    return against(check.demand, check.limit, check.unit, units)


def causes_table(plan: Plan) -> Table:
    """What each cause takes in each month, from what the light would give to what is given."""
    lost = plan.year.lost_kwh()
    light = plan.year.hours.by_month(plan.year.light_w.sum(axis=1)) / 1000
    given = plan.year.month_kwh()
    columns = [light, *(lost[cause] for cause in CAUSES), given]
    rows = [(MONTHS[m], *(kwh(float(column[m])) for column in columns)) for m in range(12)]
    rows.append(("Year", *(kwh(float(column.sum())) for column in columns)))
    heads = ("kWh", "light", *(_HEADS[cause] for cause in CAUSES), "given")
    return _figures(heads, tuple(rows))


def _figures(heads: tuple[str, ...], rows: Rows) -> Table:
    """Names at the left, figures at the right, columns of one width."""
    figures: Align = "right"
    align: tuple[Align, ...] = ("left", *(figures for _ in heads[1:]))
    return Table(heads, rows, (1.0,) * len(heads), align)


_HEADS = {"slant": "aslant", "dirt": "dirt, age", "heat": "heat", "shade": "shade", "together": "together"}
_HEADS |= {"wire": "wire"}


def account(plan: Plan) -> Iterator[tuple[str, str, str, float | None]]:
    """The year row by row: words, kWh, share of the light, size of the bar."""
    light = float(plan.year.light_w.sum()) / 1000
    yield "What the light would give", kwh(light), percent(1.0), None
    for cause, months in plan.year.lost_kwh().items():
        lost = float(months.sum())
        words = CAUSE_WORDS[cause][0].upper() + CAUSE_WORDS[cause][1:]
        sign = "−" if lost > 0 else "+"
        shown_kwh = "0" if kwh(lost) == "0" else f"{sign}{kwh(abs(lost))}"
        yield words, shown_kwh, f"{sign}{percent(abs(lost) / light if light else 0.0)}", -lost
    yield (
        "Given where their run ends",
        kwh(plan.year.kwh),
        percent(plan.year.kwh / light if light else 0.0),
        None,
    )


def controlled_words(plan: Plan) -> str:
    """What of it comes out of the controller."""
    given, cut = float(plan.controlled.output_kwh.sum()), float(plan.controlled.cut_kwh.sum())
    held = f"; {say(plan, cut, 'kWh')} more it holds back at its greatest current" if kwh(cut) != "0" else ""
    where = "Into the pump" if plan.pumped else "Behind the controller"
    return f"{where}: {say(plan, given, 'kWh')} a year{held}."


def balance_table(balance: Balance) -> Table:
    """The bank by month."""
    columns = (
        balance.offered_kwh,
        balance.unused_kwh,
        balance.generator_kwh,
        balance.lost_kwh,
        balance.served_kwh,
        balance.missing_kwh,
    )
    rows = [(MONTHS[m], *(kwh(float(column[m])) for column in columns)) for m in range(12)]
    rows.append(("Year", *(kwh(float(column.sum())) for column in columns)))
    heads = ("kWh", "panels offer", "unused", "generator", "lost in bank", "loads served", "not served")
    return _figures(heads, tuple(rows))


WAY_WORDS = {
    "converter": "the converter's heat",
    "clamp": "what strings give less at the bank's voltage than at their best",
    "switch": "the switch's drop",
    "run": "the run to the battery",
    "limit": "past the controller's greatest current",
    "held back": "what a full battery does not take",
}


def way_table(balance: Balance) -> Table | None:
    """What is lost between the inputs and the bank, in the year."""
    rows = tuple(
        (WAY_WORDS.get(cause, cause), f"{kwh(float(months.sum()))}\u2009kWh")
        for cause, months in balance.way_kwh.items()
    )
    return words_table(("Between inputs and battery", "In the year"), rows) if rows else None


def front_table(plan: Plan) -> Table:
    """The sizes that were looked through, cheapest first."""
    currency = plan.site.named.currency
    rows = tuple(
        (
            choice_letter(n),
            choice_words(plan, choice),
            percent(choice.served.share),
            percent(choice.served.worst_share),
            f"{choice.served.dark_hours:.0f}\u2009h",
            f"{choice.served.generator_hours:.0f}\u2009h",
            f"{choice.bank_years:.1f}",
            amount(choice.cost, currency),
            shown(choice.per_kwh, currency),
        )
        for n, choice in enumerate(plan.front)
    )
    heads = ("", "Sizes", "Served", "Worst year", "Dark", "Generator", "Bank, years", "To begin", "A kWh")
    return words_table(heads, rows)


def money_rows(plan: Plan) -> Rows:
    """Cost of the array and of a kWh, and a bought panel beside."""
    currency = plan.site.named.currency
    rows = [("To begin with", amount(plan.capital, currency))]
    if plan.per_kwh is not None:
        over = f"over {plan.site.money.years} years"
        rows.append((f"A kWh that is used, {over}", shown(plan.per_kwh, currency)))
    rows.append(("Lost in wires and diodes, a year", f"{kwh(plan.wire_kwh)}\u2009kWh"))
    rows.append(("What that is worth, a year", amount(plan.wire_lost_a_year, currency)))
    if plan.beside:
        rows += [
            ("The panels alone, made here, a kWh", shown(plan.beside.own_per_kwh, currency)),
            ("The panels alone, bought, a kWh", shown(plan.beside.bought_per_kwh, currency)),
            ("A watt made here may cost", shown(plan.beside.break_even_per_w, currency, "W")),
            ("A watt made here costs", shown(plan.site.money.panel_w, currency, "W")),
        ]
    return tuple(rows)
