"""What the panel feeds: a battery behind a controller, or just a number of cells."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from panewright.battery.load import Battery, Chemistry, Controller, ControllerKind
from panewright.battery.window import REFERENCE_C, possible_nominal_v
from panewright.order.answers import Answers
from panewright.order.order import Load
from panewright.wire.cable import Cable

_OF_A_BATTERY = tuple(
    f"load.{name}"
    for name in (
        "battery",
        "battery_voltage",
        "absorption",
        "float",
        "drift",
        "battery_temperature",
        "battery_coldest",
    )
)
_WARM = "its voltages are printed for this; a controller with a probe follows the battery's own heat"
_INDOORS = "the battery stands indoors, where it does not freeze"
_ALONE = "it lies alone or beside others: panels in series need a label that says more"
_DROP = {
    "direct": ("0.3 V", "common for the switch of a direct controller under full current"),
    "mppt": ("0 V", "what an MPPT controller loses counts as power, not as voltage"),
}
_HEADROOM = {
    "direct": ("0 V", "a direct controller joins string and battery, nothing is needed above its drop"),
    "mppt": ("1 V", "an MPPT input commonly needs one volt above the battery to keep running"),
}


def read_load(answers: Answers) -> Load:
    """The [load] section."""
    _one_or_the_other(answers)
    battery = _battery(answers) if answers.given("load.battery") else None
    controller = _controller(answers) if answers.given("load.controller") else None
    cable = Cable(answers.number("load.cable_length"), answers.number("load.cable_area"))
    blocking_v = answers.number("load.blocking_drop")
    heat = _battery_heat(answers, battery)
    return Load(battery, controller, cable, blocking_v, *heat, _system_v(answers))


def _system_v(answers: Answers) -> float | None:
    """What strings of such panels may come to. [V]"""
    if not answers.given("load.system_voltage"):
        answers.assumed_open("load.system_voltage", "the panel's own", _ALONE)
    return answers.sound_number("load.system_voltage")


def _one_or_the_other(answers: Answers) -> None:
    """A battery with its controller, or a count of cells: one of them, and not both."""
    if answers.given("load.cells"):
        for key in _OF_A_BATTERY:
            reason = (
                "The order names both a battery and a number of cells; either decides the string's length."
            )
            answers.bars(key, reason, "Keep the battery and drop cells, or keep cells and drop the battery.")
        if answers.sound("load.controller") == "direct":
            reason = "A direct controller ties the string to a battery's voltage, and no battery is named."
            answers.wrong("load.controller", reason, 'Name the battery instead of cells, or write "mppt".')
    elif not answers.given("load.battery"):
        reason = "The order says neither what battery is charged nor how many cells are wanted."
        answers.wrong(
            "load.battery", reason, 'Add battery = "agm" and battery_voltage = "12 V", or cells = 60.'
        )
    else:
        answers.needs("load.battery_voltage", "the number of cells follows from it.")
        answers.needs("load.controller", "direct and MPPT charging want different strings.")
    if answers.given("load.controller"):
        answers.needs("load.controller_most", "on a record-cold morning the string must stay under it.")
    elif answers.given("load.cells"):
        for name in ("controller_most", "controller_drop", "headroom", "efficiency"):
            cure = 'Add controller = "mppt" or "direct".'
            answers.bars(f"load.{name}", "It belongs to a controller, and none is named.", cure)


def _battery(answers: Answers) -> Battery | None:
    kind, nominal_v = answers.sound_word("load.battery"), answers.sound_number("load.battery_voltage")
    if kind is None or nominal_v is None:
        return None
    chemistry = cast(Chemistry, kind)
    possible = possible_nominal_v(chemistry)
    if not any(abs(nominal_v - v) < 1e-9 for v in possible):
        cure = f"Write one of {', '.join(f'{v:g} V' for v in possible)}."
        answers.wrong("load.battery_voltage", f"No bank of kind {kind} has this nominal voltage.", cure)
    absorption_v, float_v = answers.sound_number("load.absorption"), answers.sound_number("load.float")
    for key, reason, cure in voltage_problems(nominal_v, absorption_v, float_v):
        answers.wrong(key, reason, cure)
    return Battery(chemistry, nominal_v, absorption_v, float_v, answers.sound_number("load.drift"))


def _battery_heat(answers: Answers, battery: Battery | None) -> tuple[float, float | None]:
    """How warm the battery is while it is charged, and how cold at worst where that matters. [degC]"""
    if battery is None:
        return REFERENCE_C, None
    answers.assume("load.battery_temperature", f"{REFERENCE_C:g} degC", _WARM)
    if battery.chemistry == "lfp":
        answers.assume("load.battery_coldest", "5 degC", _INDOORS)
    usual, coldest = (answers.sound_number(f"load.battery_{name}") for name in ("temperature", "coldest"))
    if usual is not None and coldest is not None and coldest > usual:
        reason = "The battery's coldest temperature lies above its usual one."
        answers.wrong("load.battery_coldest", reason, "Exchange battery_coldest and battery_temperature.")
    return REFERENCE_C if usual is None else usual, coldest


def voltage_problems(
    nominal_v: float, absorption_v: float | None, float_v: float | None
) -> Iterator[tuple[str, str, str]]:
    """Charging voltages that do not belong to the bank: key, reason, cure."""
    for name, stated in (("absorption", absorption_v), ("float", float_v)):
        if stated and not nominal_v < stated < 1.4 * nominal_v:
            cure = f"Write the whole bank's voltage, somewhat above {nominal_v:g} V."
            yield f"load.{name}", f"A bank of {nominal_v:g} V is not charged at {stated:g} V.", cure
    if absorption_v and float_v and float_v > absorption_v:
        yield "load.float", "Float lies above absorption.", "Exchange the two figures."


def _controller(answers: Answers) -> Controller:
    kind = answers.word("load.controller")
    answers.assume("load.controller_drop", *_DROP[kind])
    answers.assume("load.headroom", *_HEADROOM[kind])
    if kind == "mppt":
        answers.assume("load.efficiency", "96 %", "common for an MPPT controller")
    efficiency = answers.number("load.efficiency") if kind == "mppt" else 1.0
    return Controller(
        kind=cast(ControllerKind, kind),
        most_v=answers.number("load.controller_most"),
        drop_v=answers.number("load.controller_drop"),
        headroom_v=answers.number("load.headroom"),
        efficiency=efficiency,
    )
