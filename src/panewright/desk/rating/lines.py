"""What is said of a rating at the command: flags, figures by each procedure, budget, verdict, checks."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.bench.rate.budget import Budget
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.rated import UNITS, WORDS
from panewright.check import Check
from panewright.curve.moved.choice import Gone
from panewright.desk.rating.rated import PanelRated
from panewright.units import show

_TERMS = 8  #: of a budget; all of them stand in what --json prints
_SHARE = 0.005  #: of the variance: a smaller term is not told
_FIGURES = ("power_w", "isc_a", "voc_v", "imp_a", "vmp_v", "fill_factor")


def lines(made: PanelRated) -> Iterator[str]:
    """All of it."""
    yield verdict_line(made)
    yield f"  {made.rating.why}"
    yield from (f"  {each}" for each in [made.rating.borne] if each)
    yield from (f"  {each}" for each in made.said)
    yield around_line(made)
    yield "Flags:" if made.flags else "No flag: nothing makes the measurement less good than its figures."
    yield from (f"  {'GRAVE ' if flag.grave else ''}{flag.name}: {flag.told}" for flag in made.flags)
    yield f"At STC, by procedure {made.rated.chosen.taken.moved.procedure}, against the {_whose(made)}:"
    yield from (f"  {line}" for line in _figures(made))
    yield "By each procedure that applies:"
    yield from (f"  {_gone(gone)}" for gone in made.rated.chosen.all)
    yield from _budget(made)
    yield "Instruments:"
    yield from (f"  {instrument_line(each, made)}" for each in instruments(made))
    yield "Rules:"
    yield from (f"  {rule_line(each)}" for each in made.rating.checks)


def verdict_line(made: PanelRated) -> str:
    """The one line that matters."""
    rating = made.rating
    serial = f"Serial {made.serial}: " if made.serial else ""
    return f"{serial}{rating.verdict.upper()}, label {rating.label_w:g} W, guard {rating.guard:g}."


def around_line(made: PanelRated) -> str:
    """Light and heat, and how they were known."""
    light, hot = made.sources.light, made.sources.heat
    known = made.told.light.by
    spread = f"{light.value_w_m2:.0f} +- {2 * light.sigma_w_m2:.2g} W/m2 (k = 2)"
    warm = f"{made.rated.cell_c:.1f} +- {2 * hot.sigma_k:.2g} degC (k = 2)"
    return f"Light by {known}: {spread}. Heat of the cells by {hot.how}: {warm}."


def instruments(made: PanelRated) -> tuple[Instrument, ...]:
    """Every instrument, once."""
    own = made.sources
    seen = (own.volts, own.amps, own.light.instrument, own.heat.instrument)
    return tuple(dict.fromkeys(each for each in seen if each is not None))


def instrument_line(each: Instrument, made: PanelRated) -> str:
    """Its name, its figures, its calibration."""
    wrong = each.wrong_on(made.day)
    days = wrong or f"calibrated {each.calibrated}, good until {each.due}"
    return f"{each.name} ({each.kind}): {each.source}; {days}".rstrip(".")


def rule_line(check: Check) -> str:
    """One rule with its word, and the cure where it does not hold."""
    if check.passed:
        return str(check)
    limit = "not measured" if check.limit is None else f"{check.limit:.4g} {check.unit}"
    return f"{check.rule}: {check.demand:.4g} of {limit}, {check.verdict}. {check.cure}"


def _whose(made: PanelRated) -> str:
    return "panel as built" if made.as_built else "design"


def _figures(made: PanelRated) -> Iterator[str]:
    for name in _FIGURES:
        told = str(made.rated.of(name))
        value = predicted(made, name)
        yield f"{told}; predicted {value:.4g} {UNITS[name]}".rstrip()


def predicted(made: PanelRated, name: str) -> float:
    """A figure of the prediction."""
    return float(getattr(made.prediction.points, name))


def _gone(gone: Gone) -> str:
    reads = [
        f"{WORDS[name]} {read.value:.4g} {UNITS[name]}"
        for name in ("power_w", "isc_a", "voc_v")
        if (read := getattr(gone.points, name)) is not None
    ]
    outside = "" if gone.moved.within else "; outside its bounds"
    return f"procedure {gone.moved.procedure}: {', '.join(reads)}{outside}"


def _budget(made: PanelRated) -> Iterator[str]:
    budget = made.rated.of("power_w").budget
    if budget is None:
        return
    yield f"What makes Pmp unsure ({budget.sigma:.2g} W with k = 1):"
    yield from (f"  {line}" for line in budget_lines(budget))


def budget_lines(budget: Budget) -> Iterator[str]:
    """The largest terms."""
    for term in [each for each in budget.terms if each.share >= _SHARE][:_TERMS]:
        own = f"{term.input.sigma:.2g} {term.input.unit}".strip()
        moved = f"moves it by {abs(term.moves):.2g} W, {term.share:.0%} of the variance"
        yield f"{term.input.name}: {own} {moved}"


def told_figure(made: PanelRated, name: str) -> str:
    """A figure with its band, as a page writes it."""
    figure = made.rated.of(name)
    if figure.budget is None:
        return "not rated"
    unit = UNITS[name]
    return f"{show(figure.budget.value, unit, digits=4)} ± {show(figure.budget.expanded, unit, digits=2)}"
