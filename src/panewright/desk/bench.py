"""The bench of one serial, ready for a page: its steps, what was ticked, what to read and what was read."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from importlib.metadata import version as program_version
from importlib.resources import files
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.bench.expected import Expected
    from panewright.desk import Made
    from panewright.ledger.designs import DesignMade
    from panewright.ledger.readings import ReadingKept
    from panewright.ledger.steps import Tick, Timer
    from panewright.pack.steps.steps import BenchStep

_MOST_ALIKE = 12  #: readings alike that each get a line; of more, such as all cells, one stands for all


@dataclass(frozen=True, slots=True)
class Line:
    """One reading of a step: what is expected, and what was read last."""

    key: str  #: of what is read, with the place where there are several: 'string-column.voc-3'
    words: str
    unit: str
    expected: str
    by_light: bool
    value: str = ""  #: as read last
    holds: bool | None = None
    told: str = ""
    cure: str = ""
    light: str = ""
    heat: str = ""


@dataclass(frozen=True, slots=True)
class StepShown:
    """One step of one serial."""

    key: str
    number: int
    title: str
    do: str
    check: str
    expect: str
    caution: str
    minutes: float
    done: bool
    by: str
    at: datetime | None
    until: datetime | None  #: of a clock that runs
    waits: str  #: how long it is left alone, in words; empty where it need not be
    meanwhile: str  #: what can be done meanwhile
    lines: tuple[Line, ...]
    now: bool  #: the step to do next


def bench_steps(
    made: Made, ticks: Sequence[Tick], clocks: Sequence[Timer], read: Sequence[ReadingKept], now: datetime
) -> tuple[StepShown, ...]:
    """Every step of a serial as it stands."""
    from panewright import desk

    ticked = {tick.step: tick for tick in ticks if tick.done}
    running = {clock.step: clock.ends for clock in clocks}
    steps = desk.steps(made)
    titles = {step.key: step.step.title for step in steps}
    next_key = _next(steps, set(ticked), {key for key, ends in running.items() if ends and ends > now})
    return tuple(
        StepShown(
            key=step.key,
            number=number,
            title=step.step.title,
            do=step.step.do,
            check=step.step.check,
            expect=step.step.expect,
            caution=step.step.caution,
            minutes=step.minutes,
            done=step.key in ticked,
            by=ticked[step.key].by if step.key in ticked else "",
            at=ticked[step.key].at if step.key in ticked else None,
            until=running.get(step.key),
            waits=_span(step.wait_h),
            meanwhile="; ".join(titles[key] for key in step.meanwhile if key in titles),
            lines=tuple(_lines(made, step, read)),
            now=step.key == next_key,
        )
        for number, step in enumerate(steps, 1)
    )


def _next(steps: Sequence[BenchStep], done: set[str], waiting: set[str]) -> str:
    """The first step that is not done; while it waits, what can be done meanwhile."""
    open_steps = [step for step in steps if step.key not in done]
    if not open_steps:
        return ""
    first = open_steps[0]
    if first.key in waiting:
        return next((key for key in first.meanwhile if key not in done), first.key)
    return first.key


def wait_of(made: Made, key: str) -> timedelta | None:
    """How long a step is left alone; None where it need not be, or is none of this panel."""
    from panewright import desk

    hours = {step.key: step.wait_h for step in desk.steps(made)}.get(key, 0.0)
    return timedelta(hours=hours) if hours else None


def _span(hours: float) -> str:
    """A wait in words.

    >>> _span(168.0), _span(12.0), _span(0.0)
    ('7 days', '12 hours', '')
    """
    if not hours:
        return ""
    days = hours / 24
    return f"{days:.0f} days" if days >= 2 else f"{hours:.0f} hours"


def _lines(made: Made, step: BenchStep, read: Sequence[ReadingKept]) -> Iterator[Line]:
    """The readings of a step; of very many alike, one stands for all."""
    last = {each.reading.quantity: each for each in read if each.reading.step == step.key}
    units = made.design.order.job.units
    for each in step.readings:
        told = expected_words(each, units)
        single = each.count == 1 or each.count > _MOST_ALIKE
        for number in range(1, 1 + (1 if single else each.count)):
            key = each.key if single else f"{each.key}-{number}"
            words = _capital(each.what) if single else f"{_capital(each.what)}, {number}"
            line = Line(key, words, each.unit, told, each.law is not None)
            yield _judged(made, line, last[key]) if key in last else line


def _judged(made: Made, line: Line, kept: ReadingKept) -> Line:
    """A line with what was read, held against what was expected in that light and heat."""
    from panewright import desk
    from panewright.bench.expected import Condition

    reading, units = kept.reading, made.design.order.job.units
    at = Condition(reading.light_w_m2, reading.heat_c)
    judged = desk.judge_reading(made, key_of(line.key), reading.value, at)
    low, high = (None if each is None else _say(each, line.unit, units) for each in (judged.low, judged.high))
    between = f"{low} to {high}" if low and high else f"at least {low}" if low else f"at most {high}"
    return replace(
        line,
        value=f"{reading.value:g}",
        holds=judged.passed,
        told=f"{_say(reading.value, line.unit, units)}, expected {between}",
        cure="" if judged.passed else judged.check.cure,
        light="" if reading.light_w_m2 is None else f"{reading.light_w_m2:g}",
        heat="" if reading.heat_c is None else _say(reading.heat_c, "degC", units).replace("\u2009", " "),
    )


def key_of(line_key: str) -> str:
    """What is read, without the place.

    >>> key_of("string-column.voc-3"), key_of("cut-rails.length-1-2"), key_of("set-pane.glue-line")
    ('string-column.voc', 'cut-rails.length-1', 'set-pane.glue-line')
    """
    stem, _, number = line_key.rpartition("-")
    if not number.isdecimal() or (line_key.startswith("cut-rails.length-") and line_key.count("-") == 2):
        return line_key
    return stem


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _say(value: float, unit: str, units: str) -> str:
    from panewright.units import show

    signs = {"ohm": "Ω", "Mohm": "MΩ"}
    return f"{value:.3g}\u2009{signs[unit]}" if unit in signs else show(value, unit, units)


def expected_words(each: Expected, units: str) -> str:
    """What is expected, in words."""
    if each.low is None and each.high is not None:
        return f"at most {_say(each.high, each.unit, units)}"
    if each.high is None and each.law is None:
        return f"at least {_say(each.low or 0.0, each.unit, units)}"
    return _say(each.value, each.unit, units)


@dataclass(frozen=True, slots=True)
class Typed:
    """A reading as a person typed it."""

    value: float
    unit: str
    light_w_m2: float | None
    heat_c: float | None


def typed_reading(made: Made, step: str, key: str, typed: Mapping[str, str]) -> Typed:
    """What was typed as numbers, `RecordError` with what to mend where it is none."""
    from panewright import desk

    known = {each.key: each for one in desk.steps(made) if one.key == step for each in one.readings}
    if key_of(key) not in known:
        cure = "Load the page again."
        raise RecordError([Problem("This step asks for no such reading.", cure, key=key[:40])])
    unit = known[key_of(key)].unit
    light, heat = typed.get("light", "").strip(), typed.get("heat", "").strip()
    return Typed(
        _value(typed.get("value", ""), unit, known[key_of(key)].what),
        unit,
        _within(_number(light.removesuffix("W/m2").removesuffix("W/m²"), "", "Light"), 0, 2000, "Light")
        if light
        else None,
        _within(_heat(heat), -60, 150, "Heat") if heat else None,
    )


def _value(typed: str, unit: str, words: str) -> float:
    """A reading; a length may bear a unit of its own."""
    from panewright.units import UnitError, read

    if unit == "mm" and not typed.strip().replace(",", "").replace(".", "").lstrip("-").isdecimal():
        try:
            return float(read(typed, "size"))
        except UnitError as mistake:
            raise RecordError(
                [Problem(mistake.reason, mistake.cure, key="value", value=typed[:40])]
            ) from mistake
    return _number(typed, unit, words)


def _within(value: float, low: float, high: float, words: str) -> float:
    if not low < value < high:
        cure = f"Write a number above {low} and under {high}."
        raise RecordError([Problem(f"{words} is never so.", cure, key=words.lower(), value=f"{value:g}")])
    return value


def _number(typed: str, unit: str, words: str) -> float:
    plain = typed.replace(",", ".").replace("Ω", "ohm").strip()
    plain = plain.removesuffix(unit).removesuffix("MΩ").strip() if unit else plain.strip()
    try:
        value = float(plain)
    except ValueError:
        value = float("nan")
    if not abs(value) < 1e9:
        cure = f"Write the number that the meter shows{f', in {unit}' if unit else ''}."
        raise RecordError([Problem(f"{words}: this is no number.", cure, key="value", value=typed[:40])])
    return value


def _heat(typed: str) -> float:
    """A temperature with its unit; a bare number is degrees Celsius."""
    from panewright.units import UnitError, read

    try:
        bare = typed.replace(",", ".").replace(".", "", 1).lstrip("-").isdecimal()
        return float(read(f"{typed} degC" if bare else typed, "temperature"))
    except UnitError as mistake:
        raise RecordError([Problem(mistake.reason, mistake.cure, key="heat", value=typed[:40])]) from mistake


def design_record(made: Made, number: str, version: int) -> DesignMade:
    """A design as the records keep it: figures, checks, and the shelf as it was."""
    from panewright import desk
    from panewright.ledger.designs import DesignMade

    tables = files("panewright.shelf") / "tables"
    shelf = {
        each.name: each.read_text("utf-8") for each in sorted(tables.iterdir(), key=lambda each: each.name)
    }
    figures = json.loads(desk.as_json(made))
    return DesignMade(
        order=number,
        version=version,
        revision=made.design.revision,
        program=program_version("panewright"),
        shelf=json.dumps(shelf),
        figures=json.dumps(figures),
        checks=json.dumps([str(check) for check in made.design.checks]),
        serials=made.design.label.serials,
        proven=made.design.proven,
    )
