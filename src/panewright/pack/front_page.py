"""The first pages: what the checks say, what the panel is, what is nearest its limit; then every check."""

from __future__ import annotations

from functools import partial

from panewright.check import Check
from panewright.drawing.drawing import Align
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Caution, Heading, Numbers, Page, Table, Verdicts, Words
from panewright.pack import caution
from panewright.pack.bench import Bench, count
from panewright.pack.finished import finished
from panewright.pack.scale import figure
from panewright.pack.verdict import by_need, by_room, cells_in_words, sentence, size
from panewright.price.money import amount, whole

MOST_ON_FRONT = 4  #: checks that the first page bears beside figure and numbers
ROOMS = {
    "layup": "Lay-up",
    "climate": "Wind, snow and place",
    "circuit": "String and controller",
    "seal": "Bead",
}


def front_pages(bench: Bench) -> tuple[Page, ...]:
    """The verdict, then every check by room."""
    return (_front(bench), _every_check(bench))


def _front(bench: Bench) -> Page:
    design, job = bench.design, bench.design.order.job
    nearest = by_need(design.checks)[:MOST_ON_FRONT]
    drawn = figure(partial(finished, design), Size(168.0, 64.0), "The finished panel", job.units)
    blocks: list[Block] = [
        Words(sentence(design.checks), "lead"),
        Words(f"{cells_in_words(design)}; {size(design)} outside. {_for_whom(bench)}"),
        Numbers(headline(bench)),
        drawn,
        Heading(_head(len([check for check in design.checks if not check.passed]))),
        Verdicts(nearest),
        Caution(f"{caution.LIVE_SHORT} {caution.NOT_LISTED}"),
    ]
    return Page("Verdict", tuple(blocks))


def _head(fails: int) -> str:
    """What the few checks of the first page are."""
    if fails == 0:
        return "Nearest their limits"
    if fails > MOST_ON_FRONT:
        return f"The {MOST_ON_FRONT} that fail by most; all {fails} are on the next page"
    head = "The one that fails" if fails == 1 else f"The {fails} that fail"
    return head if fails == MOST_ON_FRONT else f"{head}, and the next nearest"


def _for_whom(bench: Bench) -> str:
    job = bench.design.order.job
    whom = f" for {job.customer}" if job.customer else ""
    maker = f", built by {job.maker}" if job.maker else ""
    return f"{count(job.panels, 'panel').capitalize()}{whom}{maker}."


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
        ("Price of one", whole(quote.price_each, quote.currency)),
        ("Price of a watt", amount(quote.price_per_watt, quote.currency)),
    )


def _every_check(bench: Bench) -> Page:
    """Failing checks as bars with their cures, then all of them room by room."""
    checks = bench.design.checks
    failing = tuple(check for check in by_need(checks) if not check.passed)
    blocks: list[Block] = [Words(sentence(checks))]
    if failing:
        blocks += [Heading("What fails"), Verdicts(failing)]
    for room, group in by_room(checks).items():
        blocks += [Heading(ROOMS.get(room, room.capitalize())), _table(bench, group)]
    return Page("Every check", tuple(blocks))


def _table(bench: Bench, checks: tuple[Check, ...]) -> Table:
    heads = ("Rule", "Asked", "It may bear", "Used", "Verdict", "Source")
    rows = tuple(
        (
            check.rule,
            bench.say(check.demand, check.unit),
            "none known" if check.limit is None else bench.say(check.limit, check.unit),
            used(check),
            check.verdict,
            check.source,
        )
        for check in checks
    )
    align: tuple[Align, ...] = ("left", "right", "right", "right", "left", "left")
    return Table(heads, rows, (0.27, 0.12, 0.12, 0.07, 0.11, 0.31), align)


def used(check: Check) -> str:
    """Share of the limit in per cent, rounded up so that what fails never reads 100 %.

    >>> used(Check("sag", 2.0, 4.0, "mm", "physics"))
    '50\\u2009%'
    """
    share = check.utilisation
    if share > 9.99:
        return "> 999\u2009%"
    return f"{int(-(-share * 100 // 1))}\u2009%"
