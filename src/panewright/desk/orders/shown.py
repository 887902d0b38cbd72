"""What a page shows of one design: words and pictures, ready to be set, and nothing to reckon with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypedDict

from panewright.errors import Problem

if TYPE_CHECKING:
    from panewright.check import Check
    from panewright.desk import Made
    from panewright.desk.orders.crated import CrateShown
    from panewright.price.actuals import Actuals

_NEAREST = 6


@dataclass(frozen=True, slots=True)
class Bar:
    """One check: demand against limit."""

    rule: str
    told: str
    verdict: str
    width: str  #: of its bar, the limit at 100 and cut at 125
    holds: bool
    source: str
    cure: str


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the price."""

    what: str
    money: str
    sum: bool = False


@dataclass(frozen=True, slots=True)
class Answered:
    """A choice that the tool made."""

    question: str
    answer: str


@dataclass(frozen=True, slots=True)
class Taken:
    """An assumption."""

    key: str
    value: str
    reason: str


@dataclass(frozen=True, slots=True)
class Shown:
    """One design for a page."""

    text: str  #: of the order
    number: str
    name: str
    customer: str
    panels: int
    units: str
    revision: str
    proven: bool
    sentence: str
    cells: str
    size: str
    mass: str
    figures: tuple[tuple[str, str], ...]
    goods: str  #: what one price is for: panel or kit
    claims: tuple[str, ...]  #: what is proved of a kit and what is not
    price_each: str
    price: str
    lines: tuple[Line, ...]
    notes: tuple[str, ...]
    own: tuple[str, ...]  #: what of the price is this shop's own, and from how many panels
    failing: tuple[Bar, ...]
    nearest: tuple[Bar, ...]
    checks: tuple[Bar, ...]
    weighed: tuple[Answered, ...]
    taken: tuple[Taken, ...]
    crate: CrateShown | None  #: how the panels travel; none of kits
    mini: str  #: the cells as one small picture, svg
    front: str  #: svg
    bench: str  #: svg


@dataclass(frozen=True, slots=True)
class Refused:
    """An order with mistakes."""

    text: str
    problems: tuple[Problem, ...]


def shown(made: Made, own: Actuals | None = None) -> Shown:
    """A design as a page shows it."""
    from panewright.desk.orders.crated import crate_shown
    from panewright.pack.bench import Bench
    from panewright.pack.kit_claim import claims

    design, (each, order, own_notes, notes) = made.design, _price(made, own)
    return Shown(
        text=design.order.text,
        revision=design.revision,
        proven=design.proven,
        goods=made.quote.goods,
        claims=claims(Bench(design, made.quote)),
        price_each=each,
        price=order,
        lines=_lines(made),
        notes=notes,
        own=own_notes,
        weighed=_weighed(made),
        taken=tuple(Taken(each.key, each.value, each.reason) for each in design.order.assumptions),
        crate=crate_shown(made),
        **_job(made),
        **_panel(made),
        **_judged(made),
        **_pictures(made),
    )


class _Job(TypedDict):
    number: str
    name: str
    customer: str
    panels: int
    units: str


class _Panel(TypedDict):
    cells: str
    size: str
    mass: str
    figures: tuple[tuple[str, str], ...]


class _Judged(TypedDict):
    sentence: str
    failing: tuple[Bar, ...]
    nearest: tuple[Bar, ...]
    checks: tuple[Bar, ...]


class _Pictures(TypedDict):
    mini: str
    front: str
    bench: str


def _job(made: Made) -> _Job:
    """What was asked, for whom."""
    job = made.design.order.job
    return _Job(number=job.number, name=job.name, customer=job.customer, panels=job.panels, units=job.units)


def _panel(made: Made) -> _Panel:
    """What one panel is and gives."""
    from panewright.pack.verdict import cells_in_words, size
    from panewright.units import show

    design, label, units = made.design, made.design.label, made.design.order.job.units
    rows = (
        ("Pmp", label.pmp_w, "W"),
        ("Voc", label.voc_v, "V"),
        ("Isc", label.isc_a, "A"),
        ("Vmp", label.vmp_v, "V"),
        ("Imp", label.imp_a, "A"),
    )
    return _Panel(
        cells=cells_in_words(design),
        size=size(design),
        mass=show(label.mass_kg, "kg", units),
        figures=tuple((name, show(value, unit, units)) for name, value, unit in rows),
    )


def _judged(made: Made) -> _Judged:
    """What the checks say, the neediest first."""
    from panewright.pack.verdict import by_need, sentence

    design = made.design
    bars = tuple(bar(check, design.order.job.units) for check in by_need(design.checks))
    return _Judged(
        sentence=sentence(design.checks),
        failing=tuple(bar for bar in bars if not bar.holds),
        nearest=_nearest(made),
        checks=bars,
    )


def _pictures(made: Made) -> _Pictures:
    from panewright import desk

    return _Pictures(mini=_mini(made), front=desk.drawing(made, "front"), bench=desk.drawing(made, "bench"))


def repriced(before: Shown, made: Made, own: Actuals) -> Shown:
    """The same with the price that it has now."""
    each, order, own_notes, notes = _price(made, own)
    return replace(before, price_each=each, price=order, lines=_lines(made), notes=notes, own=own_notes)


def _price(made: Made, own: Actuals | None) -> tuple[str, str, tuple[str, ...], tuple[str, ...]]:
    """Of a panel, of the order, and what is said of it: of this shop's own, and otherwise."""
    from panewright.price.actuals import notes
    from panewright.price.money import amount

    quote, mine = made.quote, tuple(notes(own))
    rest = tuple(note for note in quote.notes if note not in mine)
    return amount(quote.price_each, quote.currency), amount(quote.price_order, quote.currency), mine, rest


def code_svg(words: str) -> str:
    """A square code as one svg element for a page."""
    import segno

    code = segno.make(words, error="m", micro=False)
    return str(code.svg_inline(border=4, omitsize=True, svgclass=None, lineclass=None))


def _mini(made: Made) -> str:
    """Pane and cells in two strokes, as large as a thumbnail needs."""
    layup = made.design.layup
    wide, high = layup.pane_width_mm, layup.pane_height_mm
    cells = "".join(
        f"M{x - 0.43 * wide_mm:.0f} {high - y - 0.43 * long_mm:.0f}"
        f"h{0.86 * wide_mm:.0f}v{0.86 * long_mm:.0f}h-{0.86 * wide_mm:.0f}z"
        for cell in layup.cells
        for (x, y), wide_mm, long_mm in ((cell.centre, cell.shape.width_mm, cell.shape.length_mm),)
    )
    pane = f'<rect class="pane" width="{wide:.0f}" height="{high:.0f}"/>'
    box = f"-30 -30 {wide + 60:.0f} {high + 60:.0f}"
    return (
        f'<svg class="mini" viewBox="{box}" aria-hidden="true">{pane}<path class="cells" d="{cells}"/></svg>'
    )


def _nearest(made: Made) -> tuple[Bar, ...]:
    from panewright.pack.verdict import worst_of_each_room

    passed = [check for check in made.design.checks if check.passed]
    return tuple(bar(each, made.design.order.job.units) for each in worst_of_each_room(passed)[:_NEAREST])


def bar(check: Check, units: str) -> Bar:
    """One check as a bar."""
    from panewright.pack.verdict import told
    from panewright.pack.wording import plain_source

    return Bar(
        rule=check.rule,
        told=told(check, units).rpartition(",")[0],
        verdict=check.verdict,
        width=f"{100 * min(check.utilisation, 1.25):.1f}",
        holds=check.passed,
        source=plain_source(check.source),
        cure=check.cure,
    )


def _lines(made: Made) -> tuple[Line, ...]:
    """From parts to the price, as the quote adds them up."""
    from panewright.price.money import amount

    quote = made.quote
    rows = (
        ("Parts", quote.parts, False),
        (f"Work, {quote.hours.normalize():f} hours", quote.labour, False),
        ("Overhead", quote.overhead, False),
        ("Margin", quote.margin, False),
        ("The whole order", quote.price_order, True),
        (f"One {quote.goods}", quote.price_each, True),
        *([("One watt", quote.price_per_watt, False)] if quote.goods == "panel" else []),
    )
    return tuple(Line(what, amount(money, quote.currency), total) for what, money, total in rows)


def _weighed(made: Made) -> tuple[Answered, ...]:
    from panewright.pack.verdict import answer

    return tuple(Answered(each.question, answer(each)) for each in made.design.weighed)
