"""A column's heading taken apart: its words, its unit, the fixed voltage, which of several readings it is.

Isc 2 [mA]  ->  isc, mA, the second          I @ 0,5 V / A  ->  i, A, at 0.5 V
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from panewright.intake.measure import UNITS, is_unit, plain, unit_of
from panewright.intake.other_heat import asked, whose_heat
from panewright.intake.quantity import QUANTITIES, names, telling

_BRACKETS = re.compile(r"[\[({<]([^\])}>]*)[\])}>]")
_VOLTAGE = re.compile(r"([-+]?\d+(?:[.,]\d+)?)\s*(m?V)(?![A-Za-z/])")
_CONDITION = re.compile(
    r"\d+(?:[.,]\d+)?\s*(?:deg\s?[CF]|k?W\s?/\s?m2?)(?![A-Za-z])|\bSTC\b|\bAM\s?1[.,]5G?\b", re.IGNORECASE
)
_JOINING = re.compile(r"(?:@|,|\b(?:at|bei|mit|with|under|unter|con|bij|przy|a|en))?\s*$")
_PARTING = re.compile(r"/|\bin\b|[_,;:\s]")
_NUMBER = re.compile(
    r"(?<![A-Za-z]\d)(?:#|no\.?\s?|_|\s|^|(?<=[A-Za-z]))(\d{1,2})\s*[.):]?(?=\s|_|$)", re.IGNORECASE
)
_WORD = re.compile(r"[a-z]+\d?")
_CURRENTS = frozenset({"isc_a", "imp_a", "reverse_a"})  # stay what they are, whatever voltage is said beside


@dataclass(frozen=True, slots=True)
class Heading:
    """What a heading says."""

    words: tuple[str, ...]
    unit: str = ""  #: letters as written
    at_v: float | None = None
    reading: int = 0  #: 0 where it counts none
    conditions: bool = False  #: whether it says itself to stand in standard conditions


@dataclass(frozen=True, slots=True)
class Named:
    """The quantity a heading names, and how that is known."""

    quantity: str  #: '' where it names none
    why: str
    choices: tuple[str, ...] = ()  #: where it may be one of several
    sure: bool = True
    asked: str = ""  #: of a person, where it is another thing's heat; its quantity is then ''


@lru_cache(maxsize=4096)
def heading(text: str) -> Heading:
    """A heading taken apart.

    >>> heading("I @ 0,5 V [mA]")
    Heading(words=('i',), unit='mA', at_v=0.5, reading=0, conditions=False)
    >>> heading("Isc_2 (A)").words, heading("Isc_2 (A)").reading
    (('isc',), 2)
    """
    rest = "no" if text.strip() == "#" else plain(text[:200])
    conditions = bool(_CONDITION.search(rest))
    rest, at_v = _voltage(_CONDITION.sub(" ", rest))
    rest = _JOINING.sub("", rest)
    rest, unit = _unit(rest)
    rest, reading = _reading(rest)
    words = telling(_WORD.findall(rest.casefold().replace("_", " ")))
    return Heading(words, unit, at_v, reading, conditions)


def _voltage(rest: str) -> tuple[str, float | None]:
    found = _VOLTAGE.search(rest)
    if not found:
        return rest, None
    volts = float(found.group(1).replace(",", ".")) * (1e-3 if found.group(2) == "mV" else 1.0)
    before = re.sub(r"(?:@|\b[UV]\s*=|\()\s*$", " ", rest[: found.start()].rstrip())
    return f"{before} {rest[found.end() :]}", volts


def _unit(rest: str) -> tuple[str, str]:
    for found in _BRACKETS.finditer(rest):
        inner = found.group(1).strip()
        if (is_unit(inner) and not inner.isdigit()) or "cm2" in inner:
            return rest[: found.start()] + " " + rest[found.end() :], inner
    for found in _PARTING.finditer(rest):
        tail = rest[found.end() :].strip()
        if rest[: found.start()].strip() and is_unit(tail) and not tail.isdigit():
            return rest[: found.start()], tail
    return rest, ""


def _reading(rest: str) -> tuple[str, int]:
    opened = _BRACKETS.sub(r" \1 ", rest)
    if re.fullmatch(r"\s*[uU]\s?0\s*", opened):  # a name of Voc
        return opened, 0
    found = _NUMBER.search(opened)
    if not found or not 1 <= int(found.group(1)) <= 20:
        return opened, 0
    return f"{opened[: found.start()]} {opened[found.end() :]}", int(found.group(1))


@lru_cache(maxsize=4096)
def named(text: str) -> Named:
    """The quantity that a heading names.

    >>> named("Kurzschlußstrom [A]").quantity, named("I @ -10 V").quantity, named("I [A]").choices
    ('isc_a', 'reverse_a', ('isc_a', 'imp_a', 'at_a'))
    """
    told, book = heading(text), names()
    for word in told.words:
        if word in book.other:
            return Named("", book.other[word])
    if whose := whose_heat(told.words, "heat" if _unit_is(told, "heat") else "other" if told.unit else ""):
        return Named("", f"the heat of {whose}", asked=asked(whose))
    name, how, sure = _match(told.words)
    if told.at_v is not None and name not in _CURRENTS:
        return _fixed(told, name)
    if name:
        return Named(name, f"{how} {QUANTITIES[name].said}", sure=sure)
    bare = "".join(told.words).rstrip("0123456789")
    if bare in book.bare:
        return Named("", "does not say which", book.bare[bare])
    return Named("", "no name of a reading that is known")


def known(text: str) -> bool:
    """Whether a heading names something a lot has.

    >>> known("Voc [mV]"), known("0.612")
    (True, False)
    """
    return len(text) < 120 and (bool(named(text).quantity) or bool(named(text).choices))


def _fixed(told: Heading, name: str) -> Named:
    """A heading with a voltage in it is a current at that voltage, if it is a current at all."""
    volts = told.at_v or 0.0
    bare = bool(told.words) and all(names().bare.get(word, ("",))[0] == "isc_a" for word in told.words)
    if not (bare or name == "at_a" or "icell" in told.words or _unit_is(told, "current")):
        return Named(name, f"names {QUANTITIES[name].said}") if name else Named("", "no name that is known")
    if volts < 0:
        return Named("reverse_a", f"names a current at {-volts:g} V backwards")
    return Named("at_a", f"names a current at {volts:g} V")


def _unit_is(told: Heading, kind: str) -> bool:
    return bool(told.unit) and kind in UNITS and unit_of(told.unit, kind) is not None


def _match(words: tuple[str, ...]) -> tuple[str, str, bool]:
    """The quantity whose name these words are, hold, or nearly are."""
    joined, book = "".join(words), names()
    if joined in book.whole:
        return book.whole[joined], "names", True
    held = [(length, name) for length, parts, name in book.parts if parts <= set(words)]
    if held:
        return max(held)[1], "holds the words of", True
    return _near(joined)


def _near(joined: str) -> tuple[str, str, bool]:
    """A slip of the hand: letters that are one or two off a long name."""
    from difflib import get_close_matches

    whole = names().whole
    near = (
        get_close_matches(joined, [key for key in whole if len(key) > 6], 1, 0.86) if len(joined) > 6 else []
    )
    return (whole[near[0]], "is nearly a name of", False) if near else ("", "", False)
