"""[controller], [battery], [[load]] and [generator]: what the panels feed."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import cast

from panewright.battery.bank import LIVES, Bank, Life
from panewright.battery.converter import USUAL_CURVE
from panewright.battery.load import Battery, Chemistry, Controller, ControllerKind
from panewright.battery.window import possible_nominal_v
from panewright.order.answers import Answers
from panewright.order.sections.load import voltage_problems
from panewright.order.site.figures import parts, several
from panewright.order.site.rows import Rows
from panewright.order.site.site import Box, Draw, Generator, Lift
from panewright.units import UnitError, read

_CURVES = {  #: share of the rated output, and what of it comes out, as `battery.converter` has it
    "mppt": ", ".join(f"{100 * share:g} %: {100 * left:g} %" for share, left in USUAL_CURVE),
    "direct": "100 %",
}
_OWN = {"mppt": "1 W", "direct": "0.2 W"}
_DROPS = {"mppt": "0 V", "direct": "0.3 V"}
_HEADROOMS = {"mppt": "1 V", "direct": "0 V"}
_CURVE_CURE = (
    'Write efficiency = "96 %", or shares of its rated output: "5 %: 90 %, 20 %: 96.5 %, 100 %: 95.5 %".'
)
_DAY = 24
_EARLIER, _ENOUGH = 0.1, 0.8  # of the charge: a generator's start over the end, and where it stops
_POWER_CURE = 'Write one figure or 24, from midnight on: power = "40 W".'
_MONTHS = 'Write numbers of months: months = "1-3, 10-12".'
Curve = tuple[tuple[float, float], ...]


def read_battery(answers: Answers) -> Bank | None:
    """The [battery] section; None where there is none, or where it is wrong."""
    if "battery" not in answers.source.tables:
        return None
    kind, volts = answers.word("battery.kind"), answers.number("battery.volts")
    capacity, heat = answers.number("battery.capacity"), answers.number("battery.temperature")
    given = {name: answers.sound_number(f"battery.{name}") for name in ("absorption", "float")}
    if kind not in LIVES or any(answers.faulty(f"battery.{n}") for n in ("kind", "volts", "capacity")):
        return None
    chemistry: Chemistry = kind
    possible = possible_nominal_v(chemistry)
    if not any(abs(volts - each) < 1e-9 for each in possible):
        cure = f"Write one of {', '.join(f'{each:g} V' for each in possible)}."
        answers.wrong("battery.volts", f"No bank of kind {kind} has this nominal voltage.", cure)
        return None
    for key, reason, cure in voltage_problems(volts, given["absorption"], given["float"]):
        answers.wrong(key.replace("load.", "battery."), reason, cure)
    battery = Battery(chemistry, volts, given["absorption"], given["float"])
    return Bank(battery, capacity, heat, _life(answers, chemistry))


def _life(answers: Answers, chemistry: Chemistry) -> Life | None:
    """Its maker's figures over its chemistry's; None where its maker says nothing."""
    told = {name: answers.sound_number(f"battery.{name}") for name in ("cycles", "shelf_life", "deepest")}
    if not any(told.values()):
        answers.assumed_open(
            "battery.cycles", "usual for its kind", "makers differ by half: its own sheet wins"
        )
        return None
    usual = LIVES[chemistry]
    return replace(
        usual,
        cycles=told["cycles"] or usual.cycles,
        years=told["shelf_life"] or usual.years,
        deepest=told["deepest"] or usual.deepest,
    )


def read_box(answers: Answers, bank: Bank | None, pump: Lift | None) -> Box:
    """The [controller] section."""
    kind = answers.word("controller.kind")
    if pump is not None and kind == "direct":
        return _none(answers, pump)
    kind = kind if kind in _CURVES else "mppt"
    usual = "usual for its kind; its sheet wins"
    answers.assume("controller.drop", _DROPS[kind], usual)
    answers.assume("controller.headroom", _HEADROOMS[kind], usual)
    answers.assume("controller.efficiency", _CURVES[kind], usual)
    answers.assume("controller.own_power", _OWN[kind], usual)
    inputs, curve = answers.count("controller.inputs"), _curve(answers)
    if pump is not None and inputs != 1:
        answers.wrong("controller.inputs", "A pump has one pair of leads.", "Write 1.")
    output_a, output_w = _rated(answers, kind, bank)
    controller = Controller(
        cast(ControllerKind, kind),
        answers.number("controller.most"),
        answers.number("controller.drop"),
        answers.number("controller.headroom"),
        curve[-1][1],
    )
    own_w = answers.number("controller.own_power")
    least_v, input_a = _least(answers, bank), _input_a(answers, bank, output_a)
    return Box(controller, inputs, least_v, output_a, output_w, input_a, _takes(answers, bank), curve, own_w)


def _none(answers: Answers, pump: Lift) -> Box:
    """Nothing between strings and pump: what stands in the text is what its isolator bears."""
    for name in ("power", "current", "efficiency", "least", "headroom", "drop", "own_power", "battery"):
        reason = "A pump that is joined straight has nothing between it and the strings."
        answers.bars(f"controller.{name}", reason, f'Drop {name}, or write kind = "mppt".')
    answers.assume("controller.input_current", "32 A", "of its isolator; its sheet says it")
    answers.assume("controller.inputs", 1, "a pump has one pair of leads")
    if answers.count("controller.inputs") != 1:
        answers.wrong("controller.inputs", "A pump has one pair of leads.", "Write 1.")
    most_v, bears_a = answers.number("controller.most"), answers.number("controller.input_current")
    controller = Controller("mppt", most_v, 0.0, 0.0, 1.0)
    rated_w = pump.rated_v * pump.rated_a
    return Box(controller, 1, 0.0, math.inf, rated_w, bears_a, (), ((1.0, 1.0),), 0.0, straight=True)


def _rated(answers: Answers, kind: str, bank: Bank | None) -> tuple[float, float]:
    """Greatest current into the battery, and rated power. [A, W]"""
    if "battery" in answers.source.tables:
        answers.needs("controller.current", "the charge is held to it.")
        cure = "Drop power: a controller with a battery is rated by its current."
        answers.bars("controller.power", "With a battery the current decides.", cure)
        amps = answers.number("controller.current")
        return amps, amps * (bank.battery.nominal_v if bank else 12.0)
    if kind == "direct":
        reason = "A direct controller ties the strings to a battery's voltage, and no battery is told."
        answers.wrong("controller.kind", reason, 'Add [battery] or [pump], or write "mppt".')
    cure = "Drop current, or add [battery]."
    answers.bars("controller.current", "There is no battery that it flows into.", cure)
    answers.needs("controller.power", "without a battery it is rated by its power.")
    return math.inf, answers.number("controller.power")


def _least(answers: Answers, bank: Bank | None) -> float:
    """Lowest voltage of an input, beside what the battery asks. [V]"""
    if bank is not None or "battery" in answers.source.tables:
        answers.assume("controller.least", "0 V", "the battery's own voltage decides")
    else:
        answers.needs("controller.least", "nothing else says from which voltage on it works.")
    return answers.number("controller.least")


def _input_a(answers: Answers, bank: Bank | None, output_a: float) -> float:
    if bank is not None or "battery" in answers.source.tables:
        why = "the rating, where the sheet names one alone"
        answers.assume("controller.input_current", f"{output_a:g} A", why)
    else:
        answers.needs("controller.input_current", "strings side by side must stay under it.")
    return answers.number("controller.input_current")


def _takes(answers: Answers, bank: Bank | None) -> tuple[float, ...]:
    if bank is None:
        return ()
    answers.assume(
        "controller.battery", f"{bank.battery.nominal_v:g} V", "taken for granted: its sheet says it"
    )
    cure = 'Write them as in battery = "12 V, 24 V".'
    counts = range(1, 13)
    count = len(parts(answers.word("controller.battery")))
    return (
        several(answers, "controller.battery", "voltage", [min(max(count, 1), counts[-1])], (2, 400), cure)
        or ()
    )


def _curve(answers: Answers) -> Curve:
    """Efficiency by the share of the rated output; one share stands for all."""
    told = parts(answers.word("controller.efficiency"))
    points: list[tuple[float, float]] = []
    for each in told:
        load, colon, share = each.rpartition(":")
        try:
            points.append((read(load, "share") if colon else 1.0, read(share, "share")))
        except UnitError as mistake:
            answers.wrong("controller.efficiency", mistake.reason, _CURVE_CURE)
            return ((1.0, 0.96),)
    rising = all(a[0] < b[0] and a[0] / a[1] < b[0] / b[1] for a, b in pairwise(points))
    if not points or not rising or not all(0 < x <= 1.5 and 0.3 <= y <= 1 for x, y in points):
        reason = "Shares of its output rise from above 0, each asks for more input, and 30 to 100 % come out."
        answers.wrong("controller.efficiency", reason, _CURVE_CURE)
        return ((1.0, 0.96),)
    return tuple(points)


def read_draws(answers: Answers, rows: Rows) -> tuple[Draw, ...]:
    """Every [[load]]; a battery serves them."""
    draws = [draw for row in rows.of("load") if (draw := _draw(answers, row)) is not None]
    if rows.of("load") and "battery" not in answers.source.tables:
        cure = "Add [battery], or drop the loads: the energy at the controller's output is told anyway."
        answers.wrong("load 1", "Loads are served by a battery, and none is told.", cure)
    return tuple(draws)


def _draw(answers: Answers, row: str) -> Draw | None:
    name = answers.word(f"{row}.name")
    answers.word(f"{row}.power")
    watts = several(answers, f"{row}.power", "power", (1, _DAY), (0.0, 1e6), _POWER_CURE)
    months = _months(answers, row)
    hours = _hours(answers, row)
    if watts is None or months is None:
        return None
    return Draw(name, tuple(w if hours[h] else 0.0 for h, w in enumerate(watts)), months)


def _hours(answers: Answers, row: str) -> tuple[bool, ...]:
    """Hours of the day in which it draws."""
    first, end = answers.sound_count(f"{row}.from"), answers.sound_count(f"{row}.until")
    if first is None and end is None:
        return (True,) * _DAY
    answers.needs(f"{row}.from", "until is told.")
    answers.needs(f"{row}.until", "from is told.")
    if first is None or end is None:
        return (True,) * _DAY
    if first == end % _DAY:
        answers.wrong(f"{row}.until", "It ends in the hour in which it begins.", "Drop both, or mend one.")
    return tuple((h - first) % _DAY < (end - first) % _DAY for h in range(_DAY))


def _months(answers: Answers, row: str) -> tuple[bool, ...] | None:
    """Months in which it draws; None where they are wrong."""
    drawn = [False] * 12
    for each in parts(answers.word(f"{row}.months")):
        first, _, last = each.partition("-")
        ends = [int(word) if word.strip().isdigit() else 0 for word in (first, last or first)]
        if not all(1 <= end <= 12 for end in ends):
            answers.wrong(f"{row}.months", f"{each} is no month and no span of months.", _MONTHS)
            return None
        for step in range((ends[1] - ends[0]) % 12 + 1):
            drawn[(ends[0] - 1 + step) % 12] = True
    if not any(drawn):
        answers.wrong(f"{row}.months", "It draws in no month.", _MONTHS)
        return None
    return tuple(drawn)


def read_generator(answers: Answers, bank: Bank | None) -> Generator | None:
    """The [generator] section; None where there is none."""
    if "generator" not in answers.source.tables:
        return None
    if "battery" not in answers.source.tables:
        answers.wrong("generator", "It charges a battery, and none is told.", "Add [battery], or drop it.")
    cut = 1 - bank.aging.deepest if bank else 0.3
    answers.assume("generator.start", f"{100 * (cut + _EARLIER):.3g} %", "before loads are cut off")
    start = float(answers.exact("generator.start"))
    usual = max(_ENOUGH, min(1.0, start + _EARLIER))
    answers.assume("generator.stop", f"{100 * usual:.3g} %", "above that a bank takes little")
    stop = float(answers.exact("generator.stop"))
    if bank and start <= cut:
        reason = f"Loads are cut off at {cut:.0%} already, so it would never start."
        answers.wrong("generator.start", reason, f"Write more than {cut:.0%}, or let the bank go deeper.")
    if start >= stop:
        answers.wrong("generator.stop", f"It stops at {stop:.0%}, not above its start.", "Exchange the two.")
    return Generator(answers.number("generator.power"), start, stop, answers.exact("generator.per_hour"))
