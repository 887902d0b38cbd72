"""A key of a table: what may be written behind it, in which unit, within which bounds.

Shelf tables and orders are made of the same keys, so that a part can be named from the shelf or
described in full with the same words.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches
from fractions import Fraction
from functools import cache

from panewright.units import KINDS, UnitError, read_exact

Value = str | int | float | Decimal

_MOST_LETTERS = 400
_MONEY = re.compile(r"(\d{1,9}(?:[.,]\d{1,4})?)\s*([A-Z]{3})?\s*(/\s*h)?")


class Fault(ValueError):
    """A value that the key cannot take: the reason and the cure, and which key where a whole row is told."""

    def __init__(self, reason: str, cure: str, key: str = "") -> None:
        self.reason = reason
        self.cure = cure
        self.key = key
        super().__init__(f"{reason} {cure}")


@dataclass(frozen=True, slots=True)
class Key:
    """One key: its kind of value, what stands for it when it is left out, and a line for people.

    `kind` is 'text', 'count' (a bare whole number), 'choice', 'share', 'money', 'part' (a name from the
    shelf or a table in full) or a kind of `panewright.units.read`. Bounds and defaults are written as a
    person writes them.
    """

    section: str
    name: str
    kind: str
    comment: str
    example: str | int = ""  #: a likely value, for the template and for cures
    required: bool = False
    default: str | int | None = None
    reason: str = ""  #: why the default is what it is
    choices: tuple[str, ...] = ()
    least: str | int | None = None
    most: str | int | None = None
    above_least: bool = False  #: the least itself is not allowed

    @property
    def dotted(self) -> str:
        """The key with its section, 'site.wind'."""
        return f"{self.section}.{self.name}"

    def assignment(self, value: str | int | None = None) -> str:
        """The key with a value, as it stands in a table."""
        shown = self.example if value is None else value
        return f"{self.name} = {shown}" if isinstance(shown, int) else f'{self.name} = "{shown}"'

    def read(self, raw: object) -> Value:
        """The value behind what stands in the table, or a Fault."""
        if self.kind == "count":
            return self._count(raw)
        text = self._text(raw)
        if self.kind == "choice":
            return self._choice(text)
        if self.kind == "money":
            return self._money(text)
        return text if self.kind == "text" else self._quantity(text)

    def _count(self, raw: object) -> int:
        if isinstance(raw, bool) or not isinstance(raw, int):
            raise Fault(f"{self.name} is a bare whole number, not {described(raw)}.", self._say())
        if isinstance(self.least, int) and raw < self.least:
            raise Fault(f"{self.name} is less than {self.least}.", self._say())
        if isinstance(self.most, int) and raw > self.most:
            raise Fault(f"{self.name} is more than {self.most}.", self._say())
        return raw

    def _text(self, raw: object) -> str:
        if not isinstance(raw, str):
            unit = "a number without its unit" if self._measured and _is_number(raw) else described(raw)
            raise Fault(f"{self.name} is text in quotes, not {unit}.", self._say())
        text = " ".join(raw.split(" ")).strip()
        if not text and self.required:
            raise Fault("Nothing is written here.", self._say())
        letters = self.most if isinstance(self.most, int) else _MOST_LETTERS
        if len(text) > letters or not text.isprintable():
            cure = f"Write no more than {letters} letters, without a line break."
            raise Fault(f"{self.name} is one line of at most {letters} letters.", cure)
        return text

    @property
    def _measured(self) -> bool:
        return self.kind in KINDS

    def _choice(self, text: str) -> str:
        wanted = _plain(text)
        for choice in self.choices:
            if _plain(choice) == wanted:
                return choice
        raise Fault(f"{text or 'Nothing'} is none of the choices.{nearest(text, self.choices)}", self._say())

    def _money(self, text: str) -> Decimal:
        found = _MONEY.fullmatch(text)
        if found is None:
            raise Fault(f"{text} is no sum of money.", self._say())
        return Decimal(found.group(1).replace(",", "."))

    def _quantity(self, text: str) -> float | Decimal:
        try:
            exact = read_exact(text, self.kind)
            self._within(exact, text)
        except UnitError as mistake:
            raise Fault(mistake.reason, mistake.cure) from mistake
        if self.kind == "share":
            return Decimal(exact.numerator) / Decimal(exact.denominator)
        return float(exact)

    def _within(self, exact: Fraction, text: str) -> None:
        if self.least is not None:
            least = _bound(str(self.least), self.kind)
            if exact < least or (self.above_least and exact == least):
                more = "not more" if self.above_least else "less"
                raise Fault(f"{text} is {more} than {self.least}.", self._bounds())
        if self.most is not None and exact > _bound(str(self.most), self.kind):
            raise Fault(f"{text} is more than {self.most}.", self._bounds())

    def _bounds(self) -> str:
        low = f"above {self.least}" if self.above_least else f"from {self.least}"
        up = f" up to {self.most}" if self.most is not None else ""
        return f"Write {self.name} {low}{up}; did the unit slip?"

    def _say(self) -> str:
        if self.choices:
            return f"Write one of {', '.join(chr(34) + choice + chr(34) for choice in self.choices)}."
        if self.kind == "count":
            up = f" to {self.most}" if self.most is not None else " upward"
            return f"Write a whole number without quotes, from {self.least}{up}, such as {self.assignment()}."
        return f"Write it as in {self.assignment()}."


def described(raw: object) -> str:
    """What a raw value is, in plain words."""
    if isinstance(raw, bool):
        return "yes or no"
    if isinstance(raw, float):
        return "a number with a point" if math.isfinite(raw) else "a number past all bounds"
    for kind, words in ((int, "a number"), (str, "text in quotes"), (list, "a list"), (dict, "a table")):
        if isinstance(raw, kind):
            return words
    return "a date or time"


def nearest(text: str, names: Iterable[str]) -> str:
    """' Is ... meant?' for the name most like the text, or nothing."""
    plain = {_plain(name): name for name in names}
    near = get_close_matches(_plain(text)[:_MOST_LETTERS], list(plain), n=1, cutoff=0.6)
    return f" Is {plain[near[0]]} meant?" if near else ""


def _plain(text: str) -> str:
    return " ".join(text.lower().replace("_", " ").replace("-", " ").split())


def _is_number(raw: object) -> bool:
    return isinstance(raw, int | float) and not isinstance(raw, bool)


@cache
def _bound(text: str, kind: str) -> Fraction:
    return read_exact(text, kind)
