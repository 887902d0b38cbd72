"""How far the readings of a table may be off, as a person says it of the own meters: `current = "0.5 %"`.

All are one standard deviation but a last digit, which is the step in which the display counts: a figure lies
anywhere within it alike, so its deviation is the step over the root of twelve (JCGM 100:2008, 4.3.7).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType

from panewright.errors import Problem
from panewright.units import UnitError, read

_STEP = 12**-0.5
_KELVIN = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:K|degC|°C)")
#: what may be said -> the figure it is kept as, kind of its unit, an example, what of it counts, words
ACCURACIES: Mapping[str, tuple[str, str, str, float, str]] = MappingProxyType(
    {
        "current": ("current_share", "share", "0.5 %", 1.0, "a current, from reading to reading"),
        "current_digit": ("current_digit_a", "current", "10 mA", _STEP, "the last digit of a current"),
        "current_gain": ("common_current_share", "share", "1 %", 1.0, "all currents alike: the meter's gain"),
        "voltage": ("voltage_share", "share", "0.2 %", 1.0, "a voltage, from reading to reading"),
        "voltage_digit": ("voltage_digit_v", "voltage", "1 mV", _STEP, "the last digit of a voltage"),
        "voltage_gain": (
            "common_voltage_share",
            "share",
            "0.5 %",
            1.0,
            "all voltages alike: the meter's gain",
        ),
        "light": ("light_share", "share", "1 %", 1.0, "the light, from row to row"),
        "light_gain": ("common_light_share", "share", "3 %", 1.0, "the light, in all rows alike"),
        "heat": ("heat_k", "kelvin", "1 K", 1.0, "the cell's heat, from row to row"),
        "heat_gain": ("common_heat_k", "kelvin", "1.5 K", 1.0, "the cell's heat, in all rows alike"),
        "ammeter": ("meter_ohm", "resistance", "20 mohm", 1.0, "the ammeter and its leads, as a resistance"),
        "top": ("top_share", "share", "0.5 %", 1.0, "Imp against Vmp: how flatly the maximum was found"),
        "shunt": ("shunt_share", "share", "20 %", 1.0, "a shunt as read, as a factor"),
        "reverse": ("reverse_share", "share", "30 %", 1.0, "a current backwards, as a factor"),
    }
)
_SHOWN = {
    "share": ("%", 100.0),
    "kelvin": ("K", 1.0),
    "current": ("A", 1.0),
    "voltage": ("V", 1.0),
    "resistance": ("ohm", 1.0),
}
_MOST = {"share": 1.0, "current": 1.0, "voltage": 0.1, "resistance": 10.0, "kelvin": 30.0}
_ABOVE_NONE = ("current", "voltage")  # no meter reads without error


def accuracies_of(
    said: Mapping[str, object], place: str, file: str = ""
) -> tuple[dict[str, float], list[Problem]]:
    """What is said as figures in SI, by the names they are kept as; and every mistake in it.

    >>> accuracies_of({"current": "0.5 %", "ammeter": "20 mohm", "heat": "2 K"}, "errors")[0]
    {'current_share': 0.005, 'meter_ohm': 0.02, 'heat_k': 2.0}
    """
    figures: dict[str, float] = {}
    problems: list[Problem] = []
    for name, words in said.items():
        key = f"{place}.{name}" if place else name
        if name not in ACCURACIES:
            cure = f"Write one of: {', '.join(ACCURACIES)}."
            problems.append(Problem("There is no such error of a reading.", cure, file, key=key))
            continue
        kept, kind, example, counts, _ = ACCURACIES[name]
        value = _size(str(words), kind)
        if value is None or value > _MOST[kind] or (name in _ABOVE_NONE and value == 0):
            cure = f'Write it with its unit, such as "{example}".'
            problems.append(
                Problem("This is no error of a reading.", cure, file, key=key, value=str(words)[:40])
            )
        else:
            figures[kept] = value * counts
    return figures, problems


def accuracy_words(figures: Mapping[str, float]) -> Iterator[tuple[str, str]]:
    """The same as a person says it again: name and words."""
    for name, (kept, kind, _, counts, _) in ACCURACIES.items():
        if kept in figures:
            unit, size = _SHOWN[kind]
            yield name, f"{figures[kept] / counts * size:.6g} {unit}"


def _size(words: str, kind: str) -> float | None:
    """A size of zero or more, in SI; None where it is none."""
    if kind == "kelvin":
        found = _KELVIN.fullmatch(words.strip())
        return float(found.group(1).replace(",", ".")) if found else None
    try:
        value = float(read(words, kind))
    except UnitError:
        return None
    return value if value >= 0 else None
