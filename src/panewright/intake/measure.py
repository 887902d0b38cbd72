"""Units that readings of a cell are written in, and what each is in SI.

Prefixes are exact. 100 mW/cm2 is 1000 W/m2. One sun is 1000 W/m2 (IEC 60904-3, recalled). A unit is told by
its letters alone; only between milliohm and megohm does the size of the first letter speak.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from panewright.units import KELVIN


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: SI = factor * written + offset."""

    name: str  #: as it is shown and kept
    kind: str
    factor: float
    offset: float = 0.0


_KINDS: Mapping[str, tuple[tuple[str, str, float, float], ...]] = {
    "current": (
        ("A", "a amp amps ampere amperes", 1.0, 0.0),
        ("mA", "ma milliamp milliamps", 1e-3, 0.0),
        ("uA", "ua", 1e-6, 0.0),
    ),
    "voltage": (("V", "v volt volts", 1.0, 0.0), ("mV", "mv millivolt millivolts", 1e-3, 0.0)),
    "power": (("W", "w wp watt watts", 1.0, 0.0), ("mW", "mw mwp", 1e-3, 0.0)),
    "share": (("1", "1 share", 1.0, 0.0), ("%", "% percent pct prozent", 1e-2, 0.0)),
    "resistance": (
        ("ohm", "ohm ohms r", 1.0, 0.0),
        ("mohm", "mohm", 1e-3, 0.0),
        ("kohm", "kohm", 1e3, 0.0),
        ("Mohm", "", 1e6, 0.0),
    ),
    "capacitance": (
        ("F", "f farad", 1.0, 0.0),
        ("mF", "mf", 1e-3, 0.0),
        ("uF", "uf", 1e-6, 0.0),
    ),
    "light": (
        ("W/m2", "w/m2 wm-2 w/sqm w/qm", 1.0, 0.0),
        ("kW/m2", "kw/m2 kwm-2", 1e3, 0.0),
        ("mW/cm2", "mw/cm2 mwcm-2", 10.0, 0.0),
        ("sun", "sun suns sonne sonnen sol soles soleil soleils", 1000.0, 0.0),
        ("% sun", "%sun %suns %", 10.0, 0.0),
    ),
    "heat": (
        ("degC", "degc c celsius", 1.0, 0.0),
        ("degF", "degf f fahrenheit", 5 / 9, -160 / 9),
        ("K", "k kelvin degk", 1.0, -KELVIN),
    ),
}
UNITS: Mapping[str, tuple[Unit, ...]] = MappingProxyType(
    {
        kind: tuple(Unit(name, kind, factor, offset) for name, _, factor, offset in rows)
        for kind, rows in _KINDS.items()
    }
)
_BY_LETTERS = {
    (kind, word): unit
    for kind, rows in _KINDS.items()
    for (_, words, _, _), unit in zip(rows, UNITS[kind], strict=True)
    for word in (unit.name.casefold().replace(" ", ""), *words.split())
    if unit.name != "Mohm"
}
_SIGNS = str.maketrans(
    {"°": "deg", "º": "deg", "˚": "deg", "Ω": "ohm", "\u2126": "ohm", "µ": "u", "μ": "u"}
    | {
        "²": "2",
        "³": "3",
        "⁻": "-",
        "¹": "1",
        "−": "-",
        "–": "-",
        "\u00a0": " ",
        "\u202f": " ",
        "\u2009": " ",
    }
    | {
        "№": "no",
        "℃": "degC",
        "℉": "degF",
        "％": "%",
        "η": "eta",
        "ϑ": "theta",
        "ß": "ss",
        "ł": "l",
        "ø": "o",
    }
)


def plain(text: str) -> str:
    """Letters without accents, and signs as words.

    >>> plain("Einstrahlungsstärke [W/m²]"), plain("Température (°C)")
    ('Einstrahlungsstarke [W/m2]', 'Temperature (degC)')
    """
    parted = unicodedata.normalize("NFKD", text.translate(_SIGNS))
    return "".join(letter for letter in parted if not unicodedata.combining(letter)).strip()


def unit_of(text: str, kind: str) -> Unit | None:
    """The unit of a kind that these letters mean.

    >>> unit_of("mA", "current").factor, unit_of("mW·cm-2", "light").name, unit_of("MΩ", "resistance").name
    (0.001, 'mW/cm2', 'Mohm')
    >>> unit_of("V", "current")
    """
    letters = re.sub(r"[\s.·*^]", "", plain(text))
    if kind == "resistance" and re.fullmatch("M(ohms?|eg.*)", letters):
        return UNITS["resistance"][-1]
    return _BY_LETTERS.get((kind, letters.casefold()))


def is_unit(text: str) -> bool:
    """Whether these letters are a unit of any kind."""
    return any(unit_of(text, kind) for kind in UNITS)
