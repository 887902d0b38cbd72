"""What the checks say, in words: one sentence first, then the failures with their cures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isnan

from panewright.check import Check
from panewright.order.letters import boxes_told
from panewright.pack.bench import count
from panewright.pack.wording import plain_source
from panewright.panel.design import Design, Weighed
from panewright.price.money import amount
from panewright.price.offers.quote import Quote
from panewright.units import against, show

NO_LIMIT = "no limit known"  #: what stands for the limit of a check that no rule book covers


def by_need(checks: Sequence[Check]) -> tuple[Check, ...]:
    """Failing checks first, then by the share of the limit that is used, the fullest first."""
    return tuple(sorted(checks, key=_need))


def _need(check: Check) -> tuple[bool, bool, float, str]:
    """Failing first; last what was sized to exactly its limit, as a bead drawn to whole millimetres is."""
    sized = check.passed and check.demand == check.limit
    return check.passed, sized, -check.utilisation, check.rule


def by_room(checks: Sequence[Check]) -> dict[str, tuple[Check, ...]]:
    """Checks of each room by need, the room with the worst check first."""
    rooms = dict.fromkeys(check.room or "other" for check in by_need(checks))
    return {room: by_need([check for check in checks if (check.room or "other") == room]) for room in rooms}


def worst_of_each_room(checks: Sequence[Check]) -> tuple[Check, ...]:
    """Every failing check, and of each room the one nearest its limit, by need."""
    nearest = {group[0] for group in by_room(checks).values()}
    return by_need([check for check in checks if check in nearest or not check.passed])


def sentence(checks: Sequence[Check]) -> str:
    """The one sentence that matters.

    >>> sentence([Check("sag", 1.0, 2.0, "mm", "physics"), Check("bite", 9.0, 6.0, "mm", "physics")])
    'NOT PROVEN: 1 of 2 checks fails.'
    """
    fails = sum(not check.passed for check in checks)
    if not checks:
        return "NOT PROVEN: nothing was checked."
    if fails:
        return f"NOT PROVEN: {fails} of {len(checks)} checks {'fails' if fails == 1 else 'fail'}."
    return f"Every check holds: {len(checks)} of {len(checks)}."


def told(check: Check, system: str = "metric") -> str:
    """Demand against limit with the word: '8.10 mm of 6.60 mm, TOO MUCH'."""
    demand, limit = figures(check, system)
    return f"{demand} of {limit}, {check.verdict}"


def figures(check: Check, system: str = "metric") -> tuple[str, str]:
    """Demand and limit in words; what is too much never reads the same as its limit."""
    if check.limit is not None and not isnan(check.demand):
        return against(check.demand, check.limit, check.unit, system)
    demand = "past what is known" if isnan(check.demand) else show(check.demand, check.unit, system)
    return demand, NO_LIMIT if check.limit is None else show(check.limit, check.unit, system)


def size(design: Design) -> str:
    """The finished panel's outer sides."""
    plan, units = design.structural.frame, design.order.job.units
    long, short = plan.outer_width_mm, plan.outer_height_mm
    return f"{show(long, 'mm', units)} × {show(short, 'mm', units)}"


def cells_in_words(design: Design) -> str:
    """How the cells lie: '36 cells in series, 4 columns of 9'."""
    plan = design.layup.plan
    side_by_side = f", {plan.strings} strings side by side" if plan.strings > 1 else ""
    if plan.in_series == plan.strings == 1:
        return "1 cell"
    columns = count(plan.columns, "column")
    return f"{count(plan.in_series, 'cell')} in series{side_by_side}, {columns} of {plan.rows}"


def verdict(design: Design, quote: Quote) -> str:
    """The verdict as a maker reads it on the screen."""
    return "\n".join(_lines(design, quote)).replace("\u2009", " ") + "\n"


def _lines(design: Design, quote: Quote) -> Iterator[str]:
    job, units = design.order.job, design.order.job.units
    yield sentence(design.checks)
    yield ""
    whom = _customer(job.customer)
    yield f"{job.number} {job.name}, revision {design.revision}, {count(job.panels, quote.goods)}{whom}"
    yield f"  {cells_in_words(design)}"
    yield f"  {size(design)}, {show(design.label.mass_kg, 'kg', units)}"
    yield f"  {_label(design, units)}"
    yield f"  {price(quote)}"
    if boxes := boxes_told(design.order.text):
        yield f"  {boxes}"
    failing = [check for check in by_need(design.checks) if not check.passed]
    if failing:
        yield ""
        yield "What fails"
        for check in failing:
            yield f"  {check.rule}: {told(check, units)} ({plain_source(check.source)})"
            yield f"    {check.cure}" if check.cure else "    No cure is known here."
    yield ""
    yield "Nearest its limit"
    for check in worst_of_each_room([check for check in design.checks if check.passed]):
        yield f"  {check.rule}: {told(check, units)}"
    yield ""
    yield "What was weighed"
    for choice in design.weighed:
        yield f"  {choice.question}"
        yield f"    {answer(choice)}"


def answer(choice: Weighed) -> str:
    """What was taken and why; told once where the reason begins with it.

    >>> answer(Weighed("How many?", "36 cells", "36 cells hold both ends."))
    '36 cells hold both ends.'
    """
    if choice.why.startswith(choice.taken):
        return choice.why
    return f"{choice.taken}. {choice.why}"


def _customer(name: str) -> str:
    return f" for {name}" if name else ""


def _label(design: Design, units: str) -> str:
    label = design.label
    parts = (
        ("Pmp", label.pmp_w, "W"),
        ("Voc", label.voc_v, "V"),
        ("Isc", label.isc_a, "A"),
        ("Vmp", label.vmp_v, "V"),
        ("Imp", label.imp_a, "A"),
    )
    return ", ".join(f"{name} {show(value, unit, units)}" for name, value, unit in parts)


def price(quote: Quote) -> str:
    """The price of one panel, and per watt, which a kit has none; says so where a part has no price."""
    each = amount(quote.price_each, quote.currency)
    if quote.goods == "kit":
        return f"{each} a kit{unpriced(quote.unpriced)}"
    watt = amount(quote.price_per_watt, quote.currency)
    return f"{each} a panel, {watt} a watt{unpriced(quote.unpriced)}"


def unpriced(parts: int) -> str:
    """What a price leaves out; nothing where it leaves out nothing.

    >>> unpriced(1), unpriced(2), unpriced(0)
    ('; 1 part without a price is not in it', '; 2 parts without a price are not in it', '')
    """
    if not parts:
        return ""
    return f"; {count(parts, 'part')} without a price {'is' if parts == 1 else 'are'} not in it"
