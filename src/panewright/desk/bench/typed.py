"""What a person types at the bench, as numbers; a bare number is in the unit that the order has."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.bench.line_key import key_of
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk import Made


@dataclass(frozen=True, slots=True)
class Typed:
    """A reading as a person typed it."""

    value: float
    unit: str
    light_w_m2: float | None
    heat_c: float | None
    meter: str = ""


def typed_reading(made: Made, step: str, key: str, typed: Mapping[str, str]) -> Typed:
    """What was typed as numbers, `RecordError` with what to mend where it is none."""
    from panewright import desk

    units = made.design.order.job.units
    known = {each.key: each for one in desk.steps(made) if one.key == step for each in one.readings}
    if key_of(key) not in known:
        cure = "Load the page again."
        raise RecordError([Problem("This step asks for no such reading.", cure, key=key[:40])])
    unit = known[key_of(key)].unit
    light, heat = typed.get("light", "").strip(), typed.get("heat", "").strip()
    return Typed(
        _value(typed.get("value", ""), unit, known[key_of(key)].what, units),
        unit,
        _within(_number(light.removesuffix("W/m2").removesuffix("W/m²"), "", "Light"), 0, 2000, "Light")
        if light
        else None,
        _within(_heat(heat, units), -60, 150, "Heat") if heat else None,
        " ".join(typed.get("meter", "").split())[:80],
    )


def minutes_of(typed: str) -> Decimal | None:
    """Minutes, or hours and minutes, that a step took; None where nothing is typed.

    >>> minutes_of("25"), minutes_of("1 h 20"), minutes_of("1:20"), minutes_of("")
    (Decimal('25'), Decimal('80'), Decimal('80'), None)
    """
    plain = typed.lower().removesuffix("minutes").removesuffix("min").strip().replace(",", ".")
    if not plain:
        return None
    hours = re.fullmatch(r"(\d{1,3})\s*(?:h|:)\s*(\d{0,2})", plain)
    if hours:
        return Decimal(60 * int(hours[1]) + int(hours[2] or 0))
    if re.fullmatch(r"\d{1,4}(\.\d{1,2})?", plain):
        return Decimal(plain)
    cure = "Write minutes, such as 25, or 1:20."
    raise RecordError([Problem("These are no minutes.", cure, key="minutes", value=typed[:40])])


def typed_in(unit: str, units: str) -> str:
    """The unit of a bare number, as the order has its units.

    >>> typed_in("mm", "us"), typed_in("mm", "metric"), typed_in("V", "us")
    ('in', 'mm', 'V')
    """
    return "in" if unit == "mm" and units == "us" else unit


def shown_value(value: float, unit: str, units: str) -> str:
    """What was read, as one would type it again.

    >>> shown_value(38.1, "mm", "us"), shown_value(7.5, "V", "us")
    ('1.5', '7.5')
    """
    from panewright.units import INCH_MM

    return f"{value / INCH_MM:.5g}" if typed_in(unit, units) == "in" else f"{value:g}"


def _value(typed: str, unit: str, words: str, units: str) -> float:
    """A reading; a length may bear a unit of its own."""
    from panewright.units import UnitError, read

    if unit != "mm":
        return _number(typed, unit, words)
    if not any(letter.isdecimal() for letter in typed):
        return _number(typed, unit, words)
    bare = re.fullmatch(r"[-+]?[\d\s.,/]+", typed.strip())
    try:
        return float(read(f"{typed} {typed_in(unit, units)}" if bare else typed, "size"))
    except UnitError as mistake:
        raise RecordError([Problem(mistake.reason, mistake.cure, key="value", value=typed[:40])]) from mistake


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


def _heat(typed: str, units: str) -> float:
    """A temperature with its unit; a bare number is in the order's."""
    from panewright.units import UnitError, read

    try:
        bare = typed.replace(",", ".").replace(".", "", 1).lstrip("-").isdecimal()
        return float(read(f"{typed} {'degF' if units == 'us' else 'degC'}" if bare else typed, "temperature"))
    except UnitError as mistake:
        raise RecordError([Problem(mistake.reason, mistake.cure, key="heat", value=typed[:40])]) from mistake
