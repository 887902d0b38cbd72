"""The bench of one serial, ready for a page: its steps, what was ticked, what to read and what was read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from panewright.desk.bench.hours import Took, took
from panewright.desk.bench.line_key import key_of
from panewright.desk.bench.typed import shown_value, typed_in

if TYPE_CHECKING:
    from panewright.bench.expected import Expected
    from panewright.desk import Made
    from panewright.desk.built.scanned import GoesIn
    from panewright.ledger.bench.readings import ReadingKept
    from panewright.ledger.serials.hours import Spent
    from panewright.ledger.serials.steps import Tick, Timer
    from panewright.pack.steps.steps import BenchStep
    from panewright.panel.happened import Happened

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
    typed_in: str = ""  #: the unit of a bare number
    heat_in: str = "°C"
    meter: str = ""  #: that it was read with, or that is proposed
    overdue: str = ""  #: what is wrong with its calibration


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
    took: Took  #: minutes told of it
    material: tuple[GoesIn, ...]  #: what goes in, and the lots that are in


def bench_steps(
    made: Made,
    ticks: Sequence[Tick],
    clocks: Sequence[Timer],
    read: Sequence[ReadingKept],
    *,
    now: datetime,
    meters: Mapping[str, str] | None = None,
    hours: Sequence[Spent] = (),
    told: Happened | None = None,
) -> tuple[StepShown, ...]:
    """Every step of a serial as it stands; `meters` are the instruments proposed, by unit."""
    from panewright import desk
    from panewright.desk.built.scanned import goes_in

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
            lines=tuple(_lines(made, step, read, meters or {})),
            now=step.key == next_key,
            took=took(step.key, ticks, hours),
            material=goes_in(step, told),
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


def _lines(
    made: Made, step: BenchStep, read: Sequence[ReadingKept], meters: Mapping[str, str]
) -> Iterator[Line]:
    """The readings of a step; of very many alike, one stands for all."""
    last = {each.reading.quantity: each for each in read if each.reading.step == step.key}
    units = made.design.order.job.units
    for each in step.readings:
        told = expected_words(each, units)
        single = each.count == 1 or each.count > _MOST_ALIKE
        for number in range(1, 1 + (1 if single else each.count)):
            key = each.key if single else f"{each.key}-{number}"
            words = _capital(each.what) if single else f"{_capital(each.what)}, {number}"
            line = Line(
                key,
                words,
                each.unit,
                told,
                each.law is not None,
                typed_in=typed_in(each.unit, units),
                heat_in="°F" if units == "us" else "°C",
                meter=meters.get(each.unit, ""),
            )
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
        value=shown_value(reading.value, line.unit, units),
        holds=judged.passed,
        told=f"{_say(reading.value, line.unit, units)}, expected {between}",
        cure="" if judged.passed else judged.check.cure,
        light="" if reading.light_w_m2 is None else f"{reading.light_w_m2:g}",
        heat="" if reading.heat_c is None else _say(reading.heat_c, "degC", units).replace("\u2009", " "),
        meter=reading.instrument,
        overdue=_overdue(kept),
    )


def _overdue(kept: ReadingKept) -> str:
    """What is wrong with the calibration that a reading was taken by."""
    if not kept.overdue:
        return ""
    name = kept.reading.instrument
    return f"{name} was due {kept.due}" if kept.calibrated else f"{name} has no calibration on paper"


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
