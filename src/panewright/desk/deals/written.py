"""A deal out of its text: every figure of its kind and every cell in its place, or the key that is wrong.

A file in a maker's folder is cut off, edited by hand, or quite another one. Nothing of it is believed before
it was looked at, so that what asks of a deal need not.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields
from decimal import Decimal, InvalidOperation
from math import isfinite
from typing import Any, TypeVar, get_args

from panewright.cell.diode import Diode
from panewright.desk.deals.wish import AimName, Wish

MOST = 1_000_000  #: of whatever is counted
T = TypeVar("T")
_UNSURE = 2  # the last way of writing in which no chance is wished
_DEEP = 40  # letters of a wrong value that are shown


class Wrong(Exception):
    """What is wrong, and under which key of the text."""

    def __init__(self, reason: str, key: str = "", value: object = None) -> None:
        super().__init__(reason)
        self.reason, self.key = reason, key
        self.value = "" if value is None else json.dumps(value, ensure_ascii=False)[:_DEEP]


@dataclass(frozen=True, slots=True)
class Written:
    """A part of the text that holds keys, and where it stands."""

    told: dict[str, Any]
    place: str = ""

    def key(self, name: str) -> str:
        """A key by its whole name."""
        return f"{self.place}.{name}" if self.place else name

    def _value(self, name: str) -> Any:
        if name not in self.told:
            raise Wrong("it is missing.", self.key(name))
        return self.told[name]

    def words(self, name: str) -> str:
        """A text."""
        return text_of(self._value(name), self.key(name))

    def number(self, name: str, least: float = 0.0) -> float:
        """A finite number that is no less."""
        found = _number(self._value(name), self.key(name))
        if not (isfinite(found) and found >= least):
            raise Wrong(f"it must be a number from {least:g} on.", self.key(name), self._value(name))
        return found

    def count(self, name: str, least: int = 0) -> int:
        """A whole number that is no less."""
        found = self._value(name)
        if isinstance(found, bool) or not isinstance(found, int) or not least <= found <= MOST:
            raise Wrong(f"it must be a whole number from {least} to {MOST}.", self.key(name), found)
        return found

    def yes(self, name: str) -> bool:
        """Yes or no."""
        found = self._value(name)
        if not isinstance(found, bool):
            raise Wrong("it must be true or false.", self.key(name), found)
        return found

    def row(self, name: str, of: Callable[[Any, str], T]) -> tuple[T, ...]:
        """A list, each of the same kind."""
        return _row(self._value(name), self.key(name), of)

    def numbers(self, name: str) -> tuple[float, ...]:
        """A list of finite numbers."""
        found = self.row(name, _number)
        if not all(map(isfinite, found)):
            raise Wrong("each must be a finite number.", self.key(name))
        return found

    def marks(self, name: str) -> tuple[str, ...]:
        """Marks of cells."""
        return marks(self._value(name), self.key(name))

    def parts(self, name: str) -> Iterator[Written]:
        """A list of parts that hold keys themselves."""
        return iter(self.row(name, lambda each, place: part(each, place)))

    def part(self, name: str) -> Written:
        """One such part."""
        return part(self._value(name), self.key(name))

    def only(self, kind: type[Any], *more: str) -> None:
        """No key but those of a record."""
        known = {each.name for each in fields(kind)} | set(more)
        if strange := sorted(set(self.told) - known):
            raise Wrong("there is no such key.", self.key(strange[0][:_DEEP]))


def loaded(text: str) -> Any:
    """What the text holds; `Wrong` where it is no JSON."""
    try:
        return json.loads(text)
    except json.JSONDecodeError as broken:
        reason = f"it is cut off, or no JSON, at line {broken.lineno}, letter {broken.colno}."
        raise Wrong(reason) from broken
    except (RecursionError, ValueError) as broken:
        raise Wrong("it is no JSON that can be read.") from broken


def part(told: Any, place: str = "") -> Written:
    """What holds keys."""
    if not isinstance(told, dict):
        raise Wrong("it must hold keys in { }.", place, told)
    return Written(told, place)


def _row(told: Any, key: str, of: Callable[[Any, str], T]) -> tuple[T, ...]:
    if not isinstance(told, list):
        raise Wrong("it must be a list in [ ].", key, told)
    return tuple(of(each, f"{key}[{number}]") for number, each in enumerate(told, 1))


def text_of(told: Any, key: str) -> str:
    """Words."""
    if not isinstance(told, str):
        raise Wrong('it must be words in " ".', key, told)
    return told


def _number(told: Any, key: str) -> float:
    if isinstance(told, bool) or not isinstance(told, int | float):
        raise Wrong("it must be a number.", key, told)
    return float(told)


def marks(told: Any, key: str) -> tuple[str, ...]:
    """Marks of cells, none twice and none empty."""
    found = _row(told, key, text_of)
    if twice := [mark for mark, count in Counter(found).items() if count > 1]:
        raise Wrong("a cell stands there twice.", key, twice[0])
    if "" in found:
        raise Wrong("a cell has no mark.", key)
    return found


def cell(told: Any, key: str) -> tuple[float, ...]:
    """The figures of one cell, which a cell can have."""
    found, wanted = _row(told, key, _number), len(fields(Diode))
    if len(found) != wanted:
        raise Wrong(f"a cell has {wanted} figures, here are {len(found)}.", key)
    try:
        Diode(*found)
    except ValueError as no_cell:
        raise Wrong("no cell has such figures.", key) from no_cell
    return found


def pair(told: Any, key: str) -> tuple[float, float]:
    """Volts and amperes of a point."""
    found = _row(told, key, _number)
    if len(found) != 2 or not all(isfinite(each) and each >= 0 for each in found):
        raise Wrong("a point of a curve is volts and amperes, zero or more.", key, told)
    return found[0], found[1]


def price(told: Written) -> str:
    """A panel's price, or none."""
    found = told.words("price")
    try:
        sound = not found or (Decimal(found).is_finite() and Decimal(found) >= 0)
    except InvalidOperation:
        sound = False
    if not sound:
        raise Wrong("it must be an amount, or empty.", told.key("price"), found)
    return found


def wish(told: Written, written: int) -> Wish:
    """What was wished."""
    told.only(Wish)
    aim = told.words("aim")
    if aim not in get_args(AimName):
        raise Wrong(f"it must be one of: {', '.join(get_args(AimName))}.", told.key("aim"), aim)
    return Wish(
        aim,  # type: ignore[arg-type]
        told.words("rating"),
        told.row("steps", _step),
        told.count("panels"),
        told.count("spares"),
        told.words("leaky"),
        told.count("most_leaky"),
        told.yes("reverse"),
        told.row("soldered", marks),
        told.count("seed"),
        told.words("sure") if written > _UNSURE else "",
        told.words("reverse_most") if "reverse_most" in told.told else "",  # a deal of before it was asked
    )


def _step(told: Any, key: str) -> tuple[str, str]:
    found = _row(told, key, text_of)
    if len(found) != 2:
        raise Wrong("a step is from how many watts on, and a price.", key, told)
    return found[0], found[1]
