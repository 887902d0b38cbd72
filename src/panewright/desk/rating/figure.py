"""A figure typed beside a measurement: a number and its unit, as one of the kinds that may stand there."""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import isfinite
from types import MappingProxyType

from panewright.errors import Problem
from panewright.intake.measure import UNITS, plain, unit_of
from panewright.units import KELVIN

_NUMBER = re.compile(r"\s*([-+\u2212]?\d+(?:[.,]\d+)?)\s*(.*?)\s*", re.DOTALL)
_MORE: Mapping[str, Mapping[str, float]] = MappingProxyType(
    {
        "wind": {"m/s": 1.0, "km/h": 1 / 3.6, "mph": 0.44704},
        "rise": {"K": 1.0},
        "angle": {"deg": 1.0},
        "height": {"m": 1.0, "ft": 0.3048},
        "pull": {"N/mm": 1.0},
        "force": {"N": 1.0, "kgf": 9.80665, "lbf": 4.44822},
    }
)


class NoFigure(Exception):
    """What was typed is none; tells what would be."""

    def __init__(self, reason: str, cure: str) -> None:
        self.reason, self.cure = reason, cure
        super().__init__(f"{reason} {cure}")

    def problem(self, key: str, value: str) -> Problem:
        """The same with its place."""
        return Problem(self.reason, self.cure, key=key, value=value[:60])


def figure_of(text: str, *kinds: str) -> tuple[float, str]:
    """The number in SI and its kind.

    >>> figure_of("85,7 mV", "voltage", "current"), figure_of("7 mph", "wind")
    ((0.0857, 'voltage'), (3.12928, 'wind'))
    """
    parted = _NUMBER.fullmatch(text)
    if parted is None:
        raise NoFigure(
            "This is no number with its unit.", f"Write it with one of: {', '.join(_names(kinds))}."
        )
    number, word = float(parted[1].replace(",", ".").replace("\u2212", "-")), parted[2]
    for kind in kinds:
        if kind in _MORE:
            factor = _MORE[kind].get(plain(word))
            if factor is not None:
                return number * factor, kind
        elif unit := unit_of(word, kind) if word else None:
            return _si(number, unit.factor, unit.offset, kind), kind
    reason = f"{word[:20]!r} is no unit of it." if word else "A figure without its unit says nothing."
    raise NoFigure(reason, f"Write it with one of: {', '.join(_names(kinds))}.")


def within(value: float, low: float, high: float, unit: str) -> float:
    """The value, or what it must lie between."""
    if not (isfinite(value) and low <= value <= high):
        raise NoFigure(
            f"{value:.4g} {unit} cannot be.".replace("  ", " "), f"{low:g} to {high:g} {unit} can."
        )
    return value


def _si(number: float, factor: float, offset: float, kind: str) -> float:
    """A kelvin of 0 is the coldest; the rest by factor and offset."""
    found = number * factor + offset
    return max(found, -KELVIN) if kind == "heat" else found


def _names(kinds: tuple[str, ...]) -> list[str]:
    return [
        name for kind in kinds for name in (_MORE[kind] if kind in _MORE else (u.name for u in UNITS[kind]))
    ]
