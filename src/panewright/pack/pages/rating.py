"""The test report of one panel: curve, predicted against measured, how sure, safety, instruments."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from panewright.bench.rate.checklist import EARTH_OHM
from panewright.bench.rate.flags import Flag
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.rated import UNITS, WORDS, Rated
from panewright.bench.rate.rated import Figure as RatedFigure
from panewright.bench.rate.rating import Rating
from panewright.check import Check
from panewright.drawing.chart import draw_chart
from panewright.drawing.sheet import (
    Block,
    Book,
    Caution,
    Fields,
    Figure,
    Heading,
    Numbers,
    Page,
    Table,
    Words,
)
from panewright.pack.figures.rated_chart import RatedCurves, current_chart, power_chart
from panewright.pack.heading import order_words, stamp
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.panel.design import Design
from panewright.units import show

_WIDE_MM = 164.0
_TERMS = 10
_FIGURES = ("power_w", "isc_a", "voc_v", "imp_a", "vmp_v", "fill_factor")
_RULE_OF = {name: f"{WORDS[name]} rated against the prediction" for name in _FIGURES}


@dataclass(frozen=True, slots=True)
class RatingReport:
    """What the report tells."""

    design: Design
    serial: str
    as_built: bool
    day: date
    file: str
    rated: Rated
    curves: RatedCurves
    rating: Rating
    predicted: dict[str, float]  #: by the names of the figures
    light: str  #: how the light was known, in a sentence
    heat: str
    flags: tuple[Flag, ...]
    said: tuple[str, ...]
    instruments: tuple[Instrument, ...]
    safety: tuple[Check, ...]


def rating_book(report: RatingReport) -> Book:
    """The report as pages of its own."""
    job = report.design.order.job
    pages = (_first(report), _sure(report), _safe(report))
    mark = "" if report.rating.verdict == "pass" else report.rating.verdict.upper()
    return Book(
        "Test report", order_words(report.design), report.design.revision, job.paper, pages, job.units,
        mark or stamp(report.design),
    )  # fmt: skip


def _first(report: RatingReport) -> Page:
    """Verdict, curve, table."""
    whose = "the panel as it was built" if report.as_built else "the design"
    blocks: list[Block] = [
        Words(_verdict(report), "lead"),
        Words(f"{report.rating.why} {report.rating.borne}".strip()),
        Numbers(tuple(_numbers(report))),
        _chart(report, power=False),
        _table(report),
        Words(
            f"At STC (1000 W/m², AM1.5G, cells at 25 °C), beside {whose}. ± is the expanded uncertainty, "
            f"k = 2. A figure is off only where it differs by more than both uncertainties together.",
            "small",
        ),
        Fields((("measured by", ""), ("looked over by", "")), 2),
    ]
    return Page(_title(report), tuple(blocks))


def _title(report: RatingReport) -> str:
    return f"Test report, serial {report.serial}" if report.serial else "Test report"


def _verdict(report: RatingReport) -> str:
    rating = report.rating
    label = f"Label {rating.label_w:g} W, guard {rating.guard:g}"
    return f"{rating.verdict.upper()}. {label}; measured on {report.day.isoformat()}."


def _numbers(report: RatingReport) -> Iterator[tuple[str, str]]:
    for name in ("power_w", "voc_v", "isc_a"):
        yield WORDS[name], told(report.rated.of(name))


def told(figure: RatedFigure) -> str:
    """A figure with its band, as a page writes it."""
    if figure.budget is None:
        return "not rated"
    unit = UNITS[figure.name]
    number = show(figure.budget.value, "", digits=4)
    return f"{number} ± {show(figure.budget.expanded, unit, digits=2)}"


def _chart(report: RatingReport, *, power: bool) -> Figure:
    made = power_chart(report.curves) if power else current_chart(report.curves)
    over = "Power" if power else "Current"
    band = ", the band its uncertainty (k = 2)" if made.bands else ""
    caption = f"{over} over voltage at STC: predicted thin, measured thick{band}"
    return Figure(draw_chart(made, _WIDE_MM, 62.0 if power else 78.0), 1.0, caption, to_scale=False)


def _table(report: RatingReport) -> Table:
    rows = tuple(_row(report, name) for name in _FIGURES)
    return words_table(("", "Predicted", "Measured", "± (k = 2)", "Off by", "Verdict"), rows)


def _row(report: RatingReport, name: str) -> tuple[str, ...]:
    figure, unit, value = report.rated.of(name), UNITS[name], report.predicted[name]
    plan = show(value, unit, digits=4)
    if figure.budget is None:
        return _word(name), plan, "not rated", "–", "–", figure.why_not
    budget = figure.budget
    off = f"{100 * (budget.value / value - 1) + 0.0:+.1f}\u2009%".replace("-0.0", "0.0").replace("-", "−")
    check = next((each for each in report.rating.checks if each.rule == _RULE_OF[name]), None)
    word = "" if check is None else "holds" if check.passed else "off"
    return (
        _word(name),
        plan,
        show(budget.value, unit, digits=4),
        show(budget.expanded, unit, digits=2),
        off,
        word,
    )


def _word(name: str) -> str:
    return _capital(WORDS[name])


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _sure(report: RatingReport) -> Page:
    """Power curve, light and heat, procedures, budget, flags."""
    blocks: list[Block] = [
        _chart(report, power=True),
        Words(f"{report.light} {report.heat}"),
        *_flags(report),
        Heading("By each procedure of IEC 60891 that applies"),
        words_table(("Procedure", "Pmp", "Isc", "Voc", ""), tuple(_procedures(report))),
        *_budget(report),
        Words(" ".join(report.said), "small"),
    ]
    return Page("How sure it is", tuple(blocks))


def _flags(report: RatingReport) -> Iterator[Block]:
    if not report.flags:
        yield Words("No flag: nothing seen makes this measurement less good than its figures.")
        return
    yield Heading("What makes it less good than its figures")
    rows = tuple((f"{'! ' if each.grave else ''}{each.name}", each.told) for each in report.flags)
    yield words_table(("Flag", "What was seen"), rows, "! asks for a new sweep")


def _procedures(report: RatingReport) -> Iterator[tuple[str, ...]]:
    chosen = report.rated.chosen
    for gone in chosen.all:
        reads = tuple(
            show(read.value, UNITS[name], digits=4) if (read := getattr(gone.points, name)) else "–"
            for name in ("power_w", "isc_a", "voc_v")
        )
        word = "taken" if gone is chosen.taken else "" if gone.moved.within else "outside its bounds"
        yield (gone.moved.procedure, *reads, word)


def _budget(report: RatingReport) -> Iterator[Block]:
    budget = report.rated.of("power_w").budget
    if budget is None:
        yield Words(report.rated.of("power_w").why_not)
        return
    yield Heading("What makes Pmp unsure")
    rows = tuple(
        (
            _capital(term.input.name),
            _input(term.input.sigma, term.input.unit),
            show(abs(term.moves), "W", digits=2),
            f"{100 * term.share:.0f}\u2009%",
            term.input.source,
        )
        for term in budget.terms[:_TERMS]
    )
    yield words_table(("Input", "Its own, k = 1", "Moves Pmp", "Variance", "By"), rows)
    whole = show(budget.sigma, "W", digits=2), show(budget.expanded, "W", digits=2)
    yield Words(f"Together {whole[0]} with k = 1, {whole[1]} with k = 2 (JCGM 100).", "small")


def _input(sigma: float, unit: str) -> str:
    return f"{100 * sigma:.2g}\u2009%" if unit == "share" else show(sigma, unit, digits=2)


def _safe(report: RatingReport) -> Page:
    """Checklist of insulation and continuity, instruments, cautions."""
    blocks: list[Block] = [
        Heading("Insulation, earth, diodes, continuity, leads"),
        Table(
            ("Rule", "Asked", "Read", "Verdict", "By"),
            tuple(_safety(each) for each in report.safety),
            (0.3, 0.13, 0.17, 0.14, 0.26),
            ("left", "right", "right", "left", "left"),
            ticks=True,
        ),
        *(Words(f"{_capital(each.rule)}: {each.cure}") for each in report.safety if not each.passed),
        Heading("Instruments"),
        words_table(
            ("Instrument", "Kind", "Figures", "Calibrated", "Good until"), tuple(_instruments(report))
        ),
        Words(f"Curve: {report.file}." if report.file else "", "small"),
        Caution(caution.LIVE, close=True),
        Caution("An insulation tester drives a lethal voltage: hands off while it is on.", close=True),
        Caution(caution.NOT_LISTED, close=True),
        Words(
            "A report of one bench, not of an accredited laboratory: no type test, no listing. "
            f"{caution.NO_CERTIFICATE}"
        ),
    ]
    return Page("Safety and instruments", tuple(blocks))


def _safety(check: Check) -> tuple[str, ...]:
    """A rule of the kind 'at least' holds what was read as its limit."""
    most = check.rule.startswith(("earth to", "bypass diodes"))
    wanted, read = (check.limit, check.demand) if most else (check.demand, check.limit)
    if most and wanted is None:
        limit = f"≤ {show(EARTH_OHM, check.unit)}" if check.unit == "ohm" else f"≤ {show(0.0, check.unit)}"
        return _capital(check.rule), limit, "not measured", "NOT MEASURED", check.source
    asked = show(wanted or 0.0, check.unit)
    shown = "not measured" if read is None else show(read, check.unit)
    word = "NOT MEASURED" if check.limit is None else "holds" if check.passed else "DOES NOT HOLD"
    return _capital(check.rule), f"{'≤' if most else '≥'} {asked}", shown, word, check.source


def _instruments(report: RatingReport) -> Iterator[tuple[str, ...]]:
    for each in report.instruments:
        days = tuple(day.isoformat() if day else "never" for day in (each.calibrated,))
        due = each.due.isoformat() if each.due else "–"
        late = " (past)" if each.due and each.due < report.day else ""
        yield (each.name, each.kind, each.source, *days, f"{due}{late}")
