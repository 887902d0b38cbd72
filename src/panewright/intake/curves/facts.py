"""What the lines round the tables of a file say: light, heat, the moment, whose curve it is.

Irradiance before: 812 W/m2        cell temp = 41,5 °C        Datum;04.05.2026;Uhrzeit;12:31
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from panewright.intake.curves.moments import Moment, moment
from panewright.intake.curves.naming import Named, kind_of, named, unit_in, units_of
from panewright.intake.curves.quantity import QUANTITIES, book
from panewright.intake.measure import Unit
from panewright.intake.quantity import Quantity
from panewright.intake.written import figures

COMMENT = "#%!*/'"
_PARTED = re.compile(r"([^:=]*[^\W\d_][^:=]*?)\s*[:=]\s*(.*)", re.DOTALL)
_SPACED = re.compile(r"(.*?[^\W\d_][\])}]?)\s+([-+]?\d.*)", re.DOTALL)
_UNITLESS = frozenset({"sweep", "stage", "serial", "remark", "cells"})


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that a line says."""

    quantity: str
    row: int  #: in the file, from 1
    text: str  #: as written
    value: float = np.nan  #: in SI; nan for words and moments
    when: str = ""  #: 'before', 'after', or '' where it does not say
    moment: Moment | None = None
    doubt: str = ""  #: why it was not taken, or what to look at


def facts_in(fields: Sequence[str], row: int) -> tuple[Fact, ...]:
    """Everything that a line says; empty where it is mere words.

    >>> for each in facts_in(["Irradiance before: 812 W/m2", "cell temp = 41,5 °C"], 1):
    ...     print(each.quantity, each.value, each.when or "-")
    irradiance_w_m2 812.0 before
    cell_c 41.5 -
    >>> facts_in(["Datum", "04.05.2026"], 1)[0].moment.day.isoformat(), facts_in(["Lot of rain today"], 1)
    ('2026-05-04', ())
    """
    filled = [field.strip() for field in fields if field.strip()]
    if filled:
        filled[0] = filled[0].lstrip(COMMENT).strip()
    return tuple(_fact(name, told, row) for name, told in _pairs(_whole(filled)))


def _whole(fields: list[str]) -> list[str]:
    """A number that a comma between columns has parted is put together again: 'G: 1' and '012 W/m2'."""
    joined: list[str] = []
    for field in fields:
        if joined and _PARTED.fullmatch(joined[-1]) and joined[-1][-1].isdigit() and field[:1].isdigit():
            joined[-1] += f",{field}"
        else:
            joined.append(field)
    return joined


def _pairs(fields: list[str]) -> Iterator[tuple[str, str]]:
    """Each name with what stands beside it, its unit put behind."""
    rest = list(fields)
    while rest:
        field = rest.pop(0)
        parted = None if moment(field) and not _PARTED.fullmatch(field) else _PARTED.fullmatch(field)
        alone = not rest or bool(named(rest[0]).quantity)  # then what stands beside is no value of it
        if parted is None and (alone or not named(field).quantity):
            parted = _SPACED.fullmatch(field)
        name, told = parted.groups() if parted else (field, "")
        if not (named(name).quantity or named(name).asked):
            continue
        if not told and rest:
            told = rest.pop(0)
        if told and rest and kind_of(rest[0]) and not kind_of(told):
            told = f"{told} {rest.pop(0)}"
        if told:
            yield name, told


def _fact(name: str, told: str, row: int) -> Fact:
    said = named(name)
    if said.asked:
        return Fact("remark", row, f"{name}: {told}"[:120], doubt=f"It is {said.why}, and was not taken.")
    quantity = QUANTITIES[said.quantity]
    text = f"{name}: {told}"[:120]
    when = _when(said)
    if quantity.name in ("time", "date"):
        found = moment(told)
        return Fact(quantity.name, row, text, when=when, moment=found, doubt=found.doubt if found else "")
    if quantity.name == "cells":
        return Fact("cells", row, text, float(told.split()[0]) if told.split()[0].isdecimal() else np.nan)
    if quantity.name in _UNITLESS:
        return Fact(quantity.name, row, told[:120], when=when)
    value, doubt = _value(told, said, quantity)
    return Fact(quantity.name, row, text, value, when, doubt=doubt)


def _when(said: Named) -> str:
    words = set(said.words)
    if words & book().before:
        return "before"
    return "after" if words & book().after else ""


def _value(told: str, said: Named, quantity: Quantity) -> tuple[float, str]:
    """The number in SI, by its own unit, by its name's, or by the only unit in which it is likely."""
    units = [unit_in(said.unit, quantity.kind)] if said.unit else list(units_of(quantity.kind))
    found = {unit.name: _in(told, quantity, unit) for unit in units if unit}
    likely = {round(value, 9): value for value in found.values() if quantity.likely(value)}
    if len(likely) == 1:
        return next(iter(likely.values())), ""
    if not likely:
        return np.nan, "It is no likely figure in any unit, and was not taken."
    return np.nan, "Its unit is not written, and it could be more than one: it was not taken."


def _in(told: str, quantity: Quantity, unit: Unit) -> float:
    """The number as it would be in a unit, whichever mark its decimals have."""
    read = [float(figures([told], quantity, unit, mark).values[0]) for mark in (".", ",")]
    return next((value for value in read if quantity.likely(value)), read[0])


def last(facts: Iterable[Fact], quantity: str, when: str = "") -> Fact | None:
    """What was said last of a quantity, and taken."""
    found = [
        each
        for each in facts
        if (each.quantity, each.when) == (quantity, when) and (np.isfinite(each.value) or each.moment)
    ]
    return found[-1] if found else None
