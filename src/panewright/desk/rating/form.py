"""The form of the bench: what it asks beside a curve, and a meter's readings typed into it as their file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import tomlkit

from panewright.desk.rating.typed import HEATS, KEYS, LIGHTS

LOADS = 4  #: resistors and lamps that the form has room for
METER = ("voc", "isc", "before", "after", "volts", "amps")
_READ = (("volts", "at"), ("amps", "amp"))
_OF_LOAD = {"resistor": "ohm", "volts": "V", "amps": "A"}
_UNITS = {"voc": "V", "isc": "A", "before": "W/m2", "after": "W/m2"}


@dataclass(frozen=True, slots=True)
class Asked:
    """One field: its key, label, example, and what it may be chosen from."""

    key: str
    label: str
    example: str = ""
    choices: tuple[str, ...] = ()
    of_shop: bool = False  #: chosen from the shop's instruments


_WAYS = {
    "light": (
        Asked("light.by", "How the light was known", choices=LIGHTS),
        Asked("light.reading", "It read", "85.7 mV, or 856 W/m2; open where the file says it"),
        Asked("light.instrument", "By which", of_shop=True),
    ),
    "light_more": (
        Asked("light.heat", "How hot the sensor itself was", "42 C"),
        Asked("light.at_stc", "What it reads at STC", "100 mV"),
        Asked("light.place", "Clear sky: where", "47.1, 8.6, 430 m"),
        Asked("light.turned", "Clear sky: tilt, and where it faces", "35, 180"),
        Asked("light.moment", "Clear sky: day, clock, zone", "2026-06-20 12:40 +02:00"),
        Asked("light.haze", "Clear sky: turbidity, where known", "3"),
    ),
    "heat": (
        Asked("heat.by", "How the cells' heat was known", choices=HEATS),
        Asked("heat.reading", "It read", "45.4 C; open where the file says it"),
        Asked("heat.instrument", "By which", of_shop=True),
        Asked("heat.wind", "Wind, for the air", "2 m/s"),
    ),
    "meters": (
        Asked("meters.volts", "Voltage read by", of_shop=True),
        Asked("meters.amps", "Current read by", of_shop=True),
        Asked("day", "Day", "2026-06-20; open where the file says it"),
        Asked("bench.has", "At hand, to seek a fault with", "load, supply, 1.5 ohm; or meter"),
    ),
    "label": (
        Asked("label.guard", "Guard: how much of the uncertainty the power must lie above", "0, or 1"),
        Asked("label.tolerance", "Tolerance under the label", "5 %"),
        Asked("label.step", "Labels in whole steps of", "1 W"),
        Asked("label.most_unsure", "Nothing is told from an uncertainty of", "8 %"),
        Asked("label.reject", "Reject what is surely under, of the prediction", "80 %"),
        Asked(
            "label.in_date", "Pass only what instruments in date read", "no: they are only flagged; or yes"
        ),
    ),
    "safety": (
        Asked("safety.withstood", "Test voltage borne for a minute", "500 V"),
        Asked("safety.insulation", "Insulation to the frame", "85 Mohm"),
        Asked("safety.insulation_at", "read at", "500 V"),
        Asked("safety.earth", "Earth to each rail", "0.02, 0.03, 0.02, 0.05 ohm"),
        Asked("safety.earth_current", "by a current of", "25 A"),
        Asked("safety.diodes", "Each bypass diode, on the meter's diode range", "0.31, 0.32 V"),
        Asked("safety.polarity", "Volts at the ends of the leads in light, red on plus", "19.8 V"),
        Asked("safety.strings", "Each string's current by itself, in one light", "3.4 A"),
        Asked("safety.pull", "What each lead bore for a minute", "50, 50 N"),
        Asked("safety.wet", "Insulation in water, where it was held so", "60 Mohm"),
    ),
}


def fields() -> Mapping[str, tuple[Asked, ...]]:
    """Every field, by the part of the form that it stands in."""
    return _WAYS


def words_of(typed: Mapping[str, str]) -> dict[str, str]:
    """What of a form is said beside the curve."""
    return {key: typed[key].strip() for key in KEYS if typed.get(key, "").strip()}


def meter_text(typed: Mapping[str, str], serial: str) -> str:
    """A meter's readings as the file that they are kept in; empty where none was typed.

    >>> lamp = {"m-at-2": "15.1", "m-amp-2": "3.2"}
    >>> print(meter_text({"m-voc": "20.8", "m-ohm-1": "4.7 ohm, 1 %", "m-at-1": "17.2", **lamp}, "0051"))
    serial = "0051"
    voc = "20.8 V"
    <BLANKLINE>
    [meter]
    volts = "0.5 % + 2 of 0.01 V"
    amps = "1.5 % + 3 of 0.01 A"
    <BLANKLINE>
    [[load]]
    resistor = "4.7 ohm, 1 %"
    volts = "17.2 V"
    <BLANKLINE>
    [[load]]
    volts = "15.1 V"
    amps = "3.2 A"
    <BLANKLINE>
    """
    said = {name: _with_unit(typed.get(f"m-{name}", ""), _UNITS.get(name, "")) for name in METER}
    if not said["voc"] and not said["isc"]:
        return ""
    text = tomlkit.document()
    text["serial"] = serial
    for name in ("voc", "isc"):
        if said[name]:
            text[name] = said[name]
    text["meter"] = {
        "volts": said["volts"] or "0.5 % + 2 of 0.01 V",
        "amps": said["amps"] or "1.5 % + 3 of 0.01 A",
    }
    for name in ("before", "after"):
        if said[name]:
            text[name] = {"irradiance": said[name]}
    loads = tomlkit.aot()
    for n in range(1, LOADS + 1):
        said = {name: typed.get(f"m-{key}-{n}", "") for name, key in (("resistor", "ohm"), *_READ)}
        row = {name: _with_unit(text, _OF_LOAD[name]) for name, text in said.items() if text.strip()}
        if row:
            loads.append(tomlkit.item(row))
    if len(loads):
        text["load"] = loads
    return tomlkit.dumps(text)


def _with_unit(typed: str, unit: str) -> str:
    """A bare number gets the unit that its field is in."""
    plain = typed.strip()
    return f"{plain} {unit}" if plain and unit and not any(map(str.isalpha, plain)) else plain
