"""A heading of a curve's file taken apart: what it names, its unit, which of several sweeps side by side.

U2 [mV]  ->  voltage, mV, the second          t/ms  ->  time, ms          Strom (A)  ->  current, A

Where no word is known the unit alone may tell: 'CH1 (V)' is a voltage.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import lru_cache

from panewright.intake.curves.quantity import OF_A_LINE, QUANTITIES, book
from panewright.intake.measure import UNITS, Unit, plain, unit_of
from panewright.intake.naming import heading
from panewright.intake.other_heat import asked, whose_heat

_TIMES = tuple(
    Unit(name, "time", factor)
    for name, factor in (("s", 1.0), ("ms", 1e-3), ("us", 1e-6), ("min", 60.0), ("h", 3600.0))
)
_TIME_WORDS = {
    word: unit
    for words, unit in zip(
        ("s sec secs second seconds sek sekunden", "ms msec", "us usec", "min minutes", "h hours"),
        _TIMES,
        strict=True,
    )
    for word in words.split()
}
_TIME_UNIT = re.compile(r"(.*?[^\W\d_].*?)(?:\s*[\[({<]\s*(\w+)\s*[\])}>]|\s*[/_]\s*(\w+)|\s+in\s+(\w+))\s*")
_BY_UNIT = {"voltage": "voltage_v", "current": "current_a", "power": "power_w", "light": "irradiance_w_m2"}
_BY_UNIT |= {"heat": "cell_c", "time": "time", "resistance": "load_ohm"}
_BESIDE = re.compile(r"[^\W\d_]{3,}[\s_]*(\d{1,2})[\s_:./-]+([UVIAuvia])")  # 'Sweep 1 V'
_FULL_SUN = (
    "Only who owns it knows how many {unit} it shows in full sun: left unread. Write a column of the "
    "irradiance in W/m2, or say one irradiance for all points."
)
_WORDS_ONLY = ("sweep", "stage", "serial", "remark", "date", "cells")


@dataclass(frozen=True, slots=True)
class Named:
    """What a heading names, and how that is known."""

    quantity: str  #: '' where it names none
    why: str
    unit: str = ""  #: letters as written, '' where none
    nth: int = 0  #: of several side by side; 0 where it counts none
    choices: tuple[str, ...] = ()  #: where it may be one of several
    sure: bool = True
    words: tuple[str, ...] = ()
    asked: str = ""  #: of a person, where it is another thing's; its quantity is then ''


def units_of(kind: str) -> tuple[Unit, ...]:
    """The units that a kind of quantity is written in."""
    return _TIMES if kind == "time" else UNITS.get(kind, ())


def unit_in(text: str, kind: str) -> Unit | None:
    """The unit of a kind that these letters mean.

    >>> unit_in("ms", "time").factor, unit_in("mV", "voltage").factor
    (0.001, 0.001)
    """
    if kind == "time":
        return _TIME_WORDS.get(plain(text).strip(" .").casefold())
    return unit_of(text, kind)


def kind_of(unit: str) -> str:
    """The kind of quantity that a unit is of; '' where it is none, or more than one.

    >>> kind_of("mV"), kind_of("s"), kind_of("%")
    ('voltage', 'time', '')
    """
    kinds = [kind for kind in _BY_UNIT if unit not in ("", "%") and unit_in(unit, kind) is not None]
    return kinds[0] if len(kinds) == 1 else ""


@lru_cache(maxsize=4096)
def named(text: str) -> Named:
    """What a heading names.

    >>> named("U2 [mV]").quantity, named("U2 [mV]").unit, named("U2 [mV]").nth
    ('voltage_v', 'mV', 2)
    >>> [named(each).quantity for each in ("t/ms", "T [°C]", "Strom (A)", "T Luft °C", "CH1 (V)", "U_soll")]
    ['time', 'cell_c', 'current_a', 'air_c', 'voltage_v', '']
    """
    text = text.strip().lstrip("#%!*").strip()
    if text.casefold() != "v" and (alone := kind_of(text.strip("[](){}"))):
        return Named(_BY_UNIT[alone], "only its unit tells", text.strip("[](){}"))
    if beside := _BESIDE.fullmatch(text):
        return replace(named(beside.group(2)), nth=int(beside.group(1)))
    timed = _timed(text)
    told = heading(timed[0] if timed else text)
    unit, words = (timed[1] if timed else told.unit), told.words
    for word in words:
        if word in book().other and not (word in ("no", "nr", "n") and len(words) > 1):
            return Named("", book().other[word], unit, words=words)
    if whose := whose_heat(words, kind_of(unit)):
        return Named("", f"the heat of {whose}", unit, told.reading, words=words, asked=asked(whose))
    if kind_of(unit) in ("voltage", "current") and _of_light(words):
        why = f"the light's sensor in {unit}"
        return Named("", why, unit, told.reading, words=words, asked=_FULL_SUN.format(unit=unit))
    if "".join(words) == "t" and not kind_of(unit):
        return Named("", "is a short form", unit, told.reading, ("time", "cell_c"), words=words)
    when = book().before | book().after
    name, why, sure = _match(tuple(word for word in words if word not in when), kind_of(unit))
    return Named(name, why, unit, told.reading, sure=sure, words=words)


def way(text: str) -> bool | None:
    """Whether a heading or a sweep's number says that it went up, or down; None where it says neither.

    >>> way("I up [A]"), way("Strom zurück"), way("2")
    (True, False, None)
    """
    words = set(re.findall(r"[a-z]+", plain(text).casefold()))
    up, down = bool(words & book().up), bool(words & book().down)
    return up if up != down else None


def of_cells(text: str) -> bool:
    """Whether a heading of a heat says that it is the cells' own, not only that it is a heat.

    >>> of_cells("Cell temp (C)"), of_cells("Temperature"), of_cells("T [°C]"), of_cells("Tc")
    (True, False, False, True)
    """
    words = re.findall(r"[a-z]+", plain(text).casefold())
    return any(word in book().cells or word.startswith(book().of_cells) for word in words)


def known(text: str) -> bool:
    """Whether a heading names something that a curve's table has as a column.

    >>> known("Voltage"), known("t"), known("0.612"), known("12 V"), known("Voc")
    (True, True, False, False, False)
    """
    if len(text) > 60 or text.strip()[:1].isdigit():
        return False
    found = named(text)
    named_so = found.quantity and found.quantity not in OF_A_LINE and found.sure
    return bool(found.choices or found.asked or named_so)


def _timed(text: str) -> tuple[str, str] | None:
    """A heading without its unit of time, and that unit; None where it has none."""
    found = _TIME_UNIT.fullmatch(text[:80])
    unit = next((each for each in found.groups()[1:] if each), "") if found else ""
    return (found.group(1), unit) if found and unit.casefold() in _TIME_WORDS else None


def _match(words: tuple[str, ...], kind: str) -> tuple[str, str, bool]:
    """The quantity whose name these words are, hold, or nearly are; else what the unit alone tells."""
    joined, names = "".join(words), book()
    whole = names.whole.get(joined) or names.bare.get(joined)
    if whole and _fits(whole, kind):
        return whole, f"names {QUANTITIES[whole].said}", True
    if joined == "t" and kind in ("time", "heat"):
        return _BY_UNIT[kind], "its unit tells which of two it is", True
    held = [
        (length, name) for length, parts, name in names.parts if parts <= set(words) and _fits(name, kind)
    ]
    bare = {names.bare[word] for word in words if word in names.bare and _fits(names.bare[word], kind)}
    if held and max(held)[1] in ("air_c", "back_c", "shunt_v", "isc_a", "voc_v"):
        return max(held)[1], f"holds the words of {QUANTITIES[max(held)[1]].said}", True
    if len(bare) == 1:
        (name,) = bare
        return name, f"names {QUANTITIES[name].said}", True
    if held:
        measured = [each for each in held if each[1] not in _WORDS_ONLY] or held
        return max(measured)[1], f"holds the words of {QUANTITIES[max(measured)[1]].said}", True
    if near := _near(joined, kind):
        return near, f"is nearly a name of {QUANTITIES[near].said}", False
    if kind:
        return _BY_UNIT[kind], "only its unit tells", True
    return "", "no name that is known", False


def _of_light(words: tuple[str, ...]) -> bool:
    """Whether the words, not a single letter, name the light; 'intensity' is a current's too."""
    letters = "".join(words)
    return len(letters) > 2 and "intens" not in letters and _match(words, "")[0] == "irradiance_w_m2"


def _fits(name: str, kind: str) -> bool:
    """Whether a quantity can have a unit of that kind, if there is one."""
    return not kind or QUANTITIES[name].kind == kind


def _near(joined: str, kind: str) -> str:
    """A slip of the hand: letters that are one or two off a long name."""
    if len(joined) <= 6:
        return ""
    names = [key for key, name in book().whole.items() if len(key) > 6 and _fits(name, kind)]
    near = get_close_matches(joined, names, 1, 0.86)
    return book().whole[near[0]] if near else ""
