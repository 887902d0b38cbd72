"""The bench of one serial, ready for a page: its steps, what was ticked, what to read and what was read."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from importlib.metadata import version as program_version
from importlib.resources import files
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.ledger.designs import DesignMade
    from panewright.ledger.readings import ReadingKept
    from panewright.ledger.steps import Tick, Timer
    from panewright.pack.steps.asked import Asked


@dataclass(frozen=True, slots=True)
class Line:
    """One reading of a step: what is expected, and what was read last."""

    key: str
    words: str
    unit: str
    expected: str
    by_light: bool
    value: str = ""  #: as read last
    holds: bool | None = None
    told: str = ""
    light: str = ""
    heat: str = ""


@dataclass(frozen=True, slots=True)
class BenchStep:
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
    waits: str  #: how long a clock of this step runs, in words; empty where none is needed
    lines: tuple[Line, ...]
    now: bool  #: the step to do next


def bench_steps(
    made: Made, ticks: Sequence[Tick], clocks: Sequence[Timer], read: Sequence[ReadingKept]
) -> tuple[BenchStep, ...]:
    """Every step of a serial as it stands."""
    from panewright.pack.bench import Bench
    from panewright.pack.steps.asked import step_key
    from panewright.pack.steps.steps import steps

    ticked = {tick.step: tick for tick in ticks}
    running = {clock.step: clock for clock in clocks}
    found, first = [], True
    for number, step in enumerate(steps(Bench(made.design, made.quote)), 1):
        key = step_key(step.title)
        tick, clock = ticked.get(key), running.get(key)
        done = tick is not None and tick.done
        waits = wait_of(made, key)
        found.append(
            BenchStep(
                key=key,
                number=number,
                title=step.title,
                do=step.do,
                check=step.check,
                expect=step.expect,
                caution=step.caution,
                minutes=step.minutes,
                done=done,
                by=tick.by if tick and done else "",
                at=tick.at if tick and done else None,
                until=clock.ends if clock else None,
                waits=_span(waits) if waits else "",
                lines=_lines(made, key, read),
                now=not done and first,
            )
        )
        first = first and done
    return tuple(found)


def wait_of(made: Made, key: str) -> timedelta | None:
    """How long a step must be left alone."""
    from panewright.pack.steps.frame import cure_days

    if key == "let-the-bead-cure":
        return timedelta(days=cure_days(made.design.structural.bead.bite_mm))
    if key == "pour-the-encapsulant" and made.design.pour is not None:
        return timedelta(minutes=made.design.pour.batch_min)
    return timedelta(minutes=2) if key == "check-the-insulation" else None


def _span(wait: timedelta) -> str:
    minutes = wait.total_seconds() / 60
    return f"{wait.days} days" if wait.days else f"{minutes:.0f} minutes"


def _lines(made: Made, key: str, read: Sequence[ReadingKept]) -> tuple[Line, ...]:
    from panewright.pack.steps.asked import asked

    last = {each.reading.quantity: each for each in read if each.reading.step == key}
    units = made.design.order.job.units
    lines = []
    for ask in asked(made.design, key):
        kept = last.get(ask.key)
        line = Line(ask.key, ask.words, ask.unit, _expected(ask, units), ask.by_light)
        lines.append(line if kept is None else _judged(made, key, line, kept))
    return tuple(lines)


def _judged(made: Made, key: str, line: Line, kept: ReadingKept) -> Line:
    """A line with what was read, held against what was expected in that light and heat."""
    from dataclasses import replace

    from panewright.pack.steps.asked import HEAT_C, LIGHT_W_M2, asked
    from panewright.units import show

    reading, units = kept.reading, made.design.order.job.units
    light = LIGHT_W_M2 if reading.light_w_m2 is None else reading.light_w_m2
    heat = HEAT_C if reading.heat_c is None else reading.heat_c
    ask = next(each for each in asked(made.design, key, light, heat) if each.key == line.key)
    holds = ask.holds(reading.value)
    return replace(
        line,
        value=f"{reading.value:g}",
        holds=holds,
        told=f"{_say(reading.value, ask.unit, units)} of {_expected(ask, units)}",
        light="" if reading.light_w_m2 is None else f"{light:g} W/m2",
        heat="" if reading.heat_c is None else show(heat, "degC", units).replace("\u2009", " "),
    )


def _say(value: float, unit: str, units: str) -> str:
    from panewright.units import show

    signs = {"ohm": "Ω", "Mohm": "MΩ"}
    return f"{value:.3g}\u2009{signs[unit]}" if unit in signs else show(value, unit, units)


def _expected(ask: Asked, units: str) -> str:
    if ask.expected is not None:
        return _say(ask.expected, ask.unit, units)
    if ask.least:
        return f"at least {_say(ask.least, ask.unit, units)}"
    return f"at most {_say(ask.most or 0.0, ask.unit, units)}"


@dataclass(frozen=True, slots=True)
class Typed:
    """A reading as a person typed it."""

    value: float
    unit: str
    light_w_m2: float | None
    heat_c: float | None


def typed_reading(made: Made, step: str, key: str, typed: Mapping[str, str]) -> Typed:
    """What was typed as numbers, `RecordError` with what to mend where it is none."""
    from panewright.pack.steps.asked import asked

    ask = next((each for each in asked(made.design, step) if each.key == key), None)
    if ask is None:
        raise RecordError(
            [Problem("This step asks for no such reading.", "Load the page again.", key=key[:40])]
        )
    light, heat = typed.get("light", "").strip(), typed.get("heat", "").strip()
    return Typed(
        _number(typed.get("value", ""), ask.unit, ask.words),
        ask.unit,
        _number(light.removesuffix("W/m2").removesuffix("W/m²"), "", "Light") if light else None,
        _heat(heat) if heat else None,
    )


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
