"""The first page of an array's book: what it is, the three figures that matter, where to read on."""

from __future__ import annotations

from dataclasses import replace

from panewright.array.plan.plan import Plan
from panewright.array.worth import shown
from panewright.drawing.sheet import Block, Caution, Heading, Numbers, Page, Pointers, Verdicts, Words
from panewright.order.letters import boxes_told
from panewright.pack.array_book import cautions, pages
from panewright.pack.array_book.drawn.schemed import strands_of
from panewright.pack.array_book.saying import percent, say, typed, water
from panewright.pack.bench import count
from panewright.pack.verdict import by_need
from panewright.pack.wording import plain_source

_NEAREST = 3


def front_page(plan: Plan) -> Page:
    """What a reader has to know who reads one page only."""
    nearest = tuple(replace(c, source=plain_source(c.source)) for c in by_need(plan.checks)[:_NEAREST])
    blocks: list[Block] = [
        Words(_verdict(plan), "lead"),
        Words(what_it_is(plan)),
        *(Words(words) for words in (boxes_told(plan.site.text),) if words),
        Numbers(three_figures(plan)),
        *(Words(words) for words in _range(plan)),
        Heading("Nearest their limits" if plan.proven else "What fails, and what is nearest"),
        Verdicts(nearest),
        Pointers(tuple(_where(plan))),
        *(Caution(words, close=True) for words in (cautions.BEFORE, cautions.LISTED)),
    ]
    return Page("The array", tuple(blocks))


def _verdict(plan: Plan) -> str:
    fails = sum(not check.passed for check in plan.checks)
    if not fails:
        return f"All {count(len(plan.checks), 'limit')} hold."
    broken = "is broken" if fails == 1 else "are broken"
    return f"{fails} of {count(len(plan.checks), 'limit')} {broken}: do not build it so."


def what_it_is(plan: Plan) -> str:
    """Panels, strings, controller, battery in one paragraph."""
    site = plan.site
    watts = plan.rated_w
    strands = tuple(strands_of(plan))
    lengths = sorted({len(strand.serials) for strand in strands})
    series = " or ".join(str(length) for length in lengths)
    stands = count(len({placed.stand for placed in plan.panels}), "stand")
    behind = f"; {_bank(plan)}" if site.bank else "; a pump, no battery" if site.pump else "; no battery"
    wired = f"{count(len(strands), 'string')} of {series}"
    panels = f"{count(len(plan.panels), 'panel')}, {say(plan, watts, 'W')} together, on {stands}"
    inputs = f"{_meets(plan)}{behind}"
    known = f"Rules of the {site.rules.family} family; weather: {plan.year.hours.source}."
    return f"{panels}; {wired} in series at {inputs}. {known}"


def _meets(plan: Plan) -> str:
    """What the strings meet."""
    if plan.site.box.straight:
        return "an isolator, nothing else between them and what they drive"
    mppt = plan.site.box.controller.kind == "mppt"
    kind = "an MPPT controller" if mppt else "a direct controller (PWM)"
    return f"{count(len(plan.inputs), 'input')} of {kind}"


def _bank(plan: Plan) -> str:
    bank = plan.site.bank
    assert bank is not None
    volts, size = typed(plan, bank.battery.nominal_v, "V"), typed(plan, bank.capacity_ah, "Ah")
    return f"a battery of {volts}, {size}"


def three_figures(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Energy a year; what of the load is served, or what the panels keep together; the cost of a kWh."""
    served = ("Kept of each panel's own best", percent(plan.kept_share))
    if plan.pumped:
        served = ("Water a year", water(plan, float(plan.pumped.flow_m3_h.sum())))
    if plan.balance:
        served = ("Of the load served", percent(plan.balance.served_share))
    cost = ("To begin with", f"{plan.capital:.0f}\u2009{plan.site.named.currency}")
    if plan.per_kwh is not None:
        cost = ("A kWh costs", shown(plan.per_kwh, plan.site.named.currency))
    return (("Energy a year", say(plan, plan.year.kwh, "kWh")), served, cost)


def _range(plan: Plan) -> tuple[str, ...]:
    if plan.likely is None:
        return ()
    low, high = (say(plan, value, "kWh") for value in (plan.likely.low_kwh, plan.likely.high_kwh))
    return (f"In {round(10 * plan.likely.coverage)} years of 10 it gives between {low} and {high}.",)


def _where(plan: Plan) -> list[tuple[str, str]]:
    rows = [("Before anything is joined, and in which order", pages.WORK), ("How it is wired", pages.LINE)]
    rows += [("Which wire, and what to buy", pages.CABLES), ("What protects it", pages.NEEDS)]
    number = len(plan.site.assumed)
    if number:
        rows.append((f"{count(number, 'thing')} {'was' if number == 1 else 'were'} assumed", pages.ASSUMED))
    return rows
