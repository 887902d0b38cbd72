"""The first pages: what the checks say, what the panel is, what is nearest its limit; then every check."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from math import isnan

from panewright.check import Check
from panewright.drawing.drawing import Align
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Caution, Heading, Numbers, Page, Pointers, Table, Verdicts, Words
from panewright.order.letters import boxes_told
from panewright.pack.bench import Bench, count
from panewright.pack.figures.finished import finished
from panewright.pack.figures.scale import figure
from panewright.pack.kit_claim import claims
from panewright.pack.pages import caution
from panewright.pack.verdict import by_need, by_room, cells_in_words, sentence, size
from panewright.pack.wording import plain_source, signs
from panewright.price.money import amount, whole
from panewright.units import against

MOST_ON_FRONT = 4  #: checks that the first page bears beside figure and numbers
MOST_FAILING_ON_FRONT = 3  #: fewer where each brings its cure
CHECKS, ASSUMED, WEIGHED = "Every check", "What was assumed", "What was weighed"  #: titles of pages
PANE_RANGE = ("sides of the pane alike enough", "plate theory within its range")
"""Checks without which the plate's figures mean nothing."""
_STRING, _LEADS = "String, shade, battery and controller", "Cable, leads, label, diodes and pour"
ROOMS = {
    "layup": "Lay-up",
    "climate": "Wind, snow and place",
    "circuit": _STRING,
    "battery": _STRING,
    "enclosure": _LEADS,
    "wire": _LEADS,
    "seal": "Bead",
}


def front_pages(bench: Bench) -> tuple[Page, ...]:
    """The verdict, then every check by room."""
    return (_front(bench), _every_check(bench))


def _front(bench: Bench) -> Page:
    design, job = bench.design, bench.design.order.job
    fails = sum(not check.passed for check in design.checks)
    most = MOST_FAILING_ON_FRONT if fails else MOST_ON_FRONT
    nearest = tuple(_for_the_maker(check) for check in by_need(design.checks)[:most])
    drawn = figure(partial(finished, design), Size(168.0, 64.0), _named(bench), job.units)
    blocks: list[Block] = [
        Words(sentence(design.checks), "lead"),
        Words(f"{cells_in_words(design)}; {size(design)} outside. {_for_whom(bench)}"),
        *_boxes(bench),
        *(Words(words) for words in claims(bench)),
        Numbers(headline(bench)),
        drawn,
        Heading(_head(fails)),
        Verdicts(nearest),
        Pointers(_where_else(bench)),
        Caution(f"{caution.LIVE_SHORT} {caution.NOT_LISTED}"),
    ]
    return Page("Verdict", tuple(blocks))


def _boxes(bench: Bench) -> tuple[Words, ...]:
    """What of the order prints as boxes."""
    boxes = boxes_told(bench.design.order.text)
    return (Words(boxes),) if boxes else ()


def _for_the_maker(check: Check) -> Check:
    """The same check; how its source came to be known stands in the table of all."""
    return replace(check, source=plain_source(check.source))


def _where_else(bench: Bench) -> tuple[tuple[str, str], ...]:
    """What to read before building, and where."""
    design = bench.design
    number = len(design.order.assumptions)
    assumed = f"{count(number, 'thing')} {'was' if number == 1 else 'were'} assumed"
    return (
        (assumed if number else "Nothing was assumed", ASSUMED),
        (f"All {count(len(design.checks), 'check')} with their sources", CHECKS),
    )


def _head(fails: int) -> str:
    """What the few checks of the first page are."""
    if fails == 0:
        return "Nearest their limits"
    if fails > MOST_FAILING_ON_FRONT:
        return f"The {MOST_FAILING_ON_FRONT} that fail by most; all {fails} are on the next page"
    head = "The one that fails" if fails == 1 else f"The {fails} that fail"
    return head if fails == MOST_FAILING_ON_FRONT else f"{head}, and the next nearest"


def _for_whom(bench: Bench) -> str:
    job, kit = bench.design.order.job, bench.quote.goods == "kit"
    whom = f" for {job.customer}" if job.customer else ""
    maker = f", {'packed' if kit else 'built'} by {job.maker}" if job.maker else ""
    return f"{count(job.panels, bench.quote.goods).capitalize()}{whom}{maker}."


def _named(bench: Bench) -> str:
    return "The finished panel" if bench.quote.goods == "panel" else "What one kit becomes"


def headline(bench: Bench) -> tuple[tuple[str, str], ...]:
    """The figures that matter."""
    label, quote = bench.design.label, bench.quote
    return (
        ("Power at STC", bench.say(label.pmp_w, "W")),
        ("Best voltage", bench.say(label.vmp_v, "V")),
        ("Best current", bench.say(label.imp_a, "A")),
        ("Mass", bench.say(label.mass_kg, "kg")),
        ("Open circuit", bench.say(label.voc_v, "V")),
        ("Short circuit", bench.say(label.isc_a, "A")),
        (f"Price of one {quote.goods}", whole(quote.price_each, quote.currency)),
        *(
            [("Price of a watt", amount(quote.price_per_watt, quote.currency))]
            if quote.goods == "panel"
            else []
        ),
    )


def _every_check(bench: Bench) -> Page:
    """Failing checks as bars with their cures, then all of them room by room."""
    checks = bench.design.checks
    failing = tuple(check for check in by_need(checks) if not check.passed)
    blocks: list[Block] = []
    if failing:
        blocks += [Words(sentence(checks)), Heading("What fails"), Verdicts(failing)]
    groups: dict[str, tuple[Check, ...]] = {}
    for room, group in by_room(checks).items():
        heading = ROOMS.get(room, room.capitalize())
        groups[heading] = by_need((*groups.get(heading, ()), *group))
    for heading, group in groups.items():
        blocks += [Heading(heading), _table(bench, group)]
    return Page(CHECKS, (*blocks, Words(HOW_TO_READ, "small")))


HOW_TO_READ = (
    "Asked is what place, load or circuit demand of the part, or, of a rule that says 'at least', what is "
    "needed. It may bear is what the rule allows, or what is there. Used is the one over the other, rounded "
    "up: to 100\u2009% the rule holds. What no rule book covers has no limit, and does not hold."
)


def _table(bench: Bench, checks: tuple[Check, ...]) -> Table:
    heads = ("Rule", "Asked", "It may bear", "Used", "Verdict", "Source")
    unknown = pane_out_of_range(bench.design.checks)
    rows = tuple(
        (
            check.rule,
            NO_FIGURE if unknown and _of_the_plate(check) else say_demand(bench, check),
            say_limit(bench, check),
            NO_FIGURE if unknown and _of_the_plate(check) else used(check),
            check.verdict,
            signs(check.source),
        )
        for check in checks
    )
    align: tuple[Align, ...] = ("left", "right", "right", "right", "left", "left")
    return Table(heads, rows, (0.27, 0.12, 0.12, 0.07, 0.11, 0.31), align)


def say_demand(bench: Bench, check: Check) -> str:
    """What is asked; a dash where it is not known."""
    if isnan(check.demand):
        return NO_FIGURE
    limit = check.demand if check.limit is None else check.limit
    return against(check.demand, limit, check.unit, bench.design.order.job.units)[0]


def say_limit(bench: Bench, check: Check) -> str:
    """What it may bear, as exactly as the demand is told; a dash where the rule book has no limit."""
    if check.limit is None:
        return NO_FIGURE
    demand = 0.0 if isnan(check.demand) else check.demand
    return against(demand, check.limit, check.unit, bench.design.order.job.units)[1]


NO_FIGURE = "–"  #: where there is no figure to tell


def pane_out_of_range(checks: tuple[Check, ...]) -> bool:
    """Whether the plate's theory does not reach so far: its figures would mean nothing."""
    return any(check.rule in PANE_RANGE and not check.passed for check in checks)


def _of_the_plate(check: Check) -> bool:
    """Whether a check's demand is a figure of the plate's theory past its range; in range it has a limit."""
    figure_of_plate = check.rule not in PANE_RANGE and check.unit in ("mm", "MPa", "%")
    return check.room == "glass" and figure_of_plate and not check.covered


def used(check: Check) -> str:
    """Share of the limit in per cent, rounded up so that what fails never reads 100 %; a dash without one.

    >>> used(Check("sag", 2.0, 4.0, "mm", "physics"))
    '50\\u2009%'
    """
    share = check.utilisation
    if not check.covered:
        return NO_FIGURE
    if share > 9.99:
        return "> 999\u2009%"
    return f"{int(-(-share * 100 // 1))}\u2009%"
