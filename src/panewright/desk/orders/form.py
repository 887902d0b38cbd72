"""An order's text as a form, and a form's answer back in the text.

The text stays the truth: one answer changes one value in it, and every remark, blank line and other key
stays as it was written.
"""

from __future__ import annotations

from collections.abc import MutableMapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Table

from panewright.desk.own_shelf import Stand, own_shelf, stand
from panewright.errors import OrderError, Problem
from panewright.order.places import FORMERLY
from panewright.order.schema import KEYS, SECTIONS, keys_of
from panewright.order.source import read_source
from panewright.order.template import stated
from panewright.shelf.key import Key

_GROUP_OF = {
    "cell.name": "cells",
    "parts.tab": "tabs",
    "parts.bus": "buses",
    "parts.glass": "sheets",
    "parts.rail": "rails",
    "parts.sealant": "sealants",
    "mounting.screw": "wood_screws",
    "mounting.post": "posts",
    "mounting.block": "blocks",
}
_SMALL_WORDS = {"isc": "Isc", "voc": "Voc", "imp": "Imp", "vmp": "Vmp"}


@dataclass(frozen=True, slots=True)
class Field:
    """One question of the form, with what the order answers to it."""

    key: str  #: dotted
    label: str
    hint: str  #: what it means, in a few words
    kind: str
    value: str = ""  #: as it stands in the order; empty where it is left out
    given: bool = False
    asked_first: bool = False
    left_out: str = ""  #: what becomes of it when it is left out
    example: str = ""
    choices: tuple[str, ...] = ()
    names: tuple[str, ...] = ()  #: parts on the shelf that may be named
    problems: tuple[Problem, ...] = ()
    in_full: bool = False  #: described in the text as a table, which the form only shows

    @property
    def id(self) -> str:
        """The key as a name that a page can point to."""
        return self.key.replace(".", "-")


@dataclass(frozen=True, slots=True)
class Section:
    """Questions about one thing."""

    name: str
    words: str
    fields: tuple[Field, ...]

    @property
    def first(self) -> tuple[Field, ...]:
        """What everybody is asked, and what this order answers."""
        return tuple(field for field in self.fields if field.asked_first or field.given or field.problems)

    @property
    def further(self) -> tuple[Field, ...]:
        """What may stay open."""
        return tuple(field for field in self.fields if field not in self.first)


def form(text: str, problems: tuple[Problem, ...] = ()) -> tuple[Section, ...]:
    """The form of an order's text, `OrderError` where it is no TOML; problems go beside their fields."""
    tables = read_source(text, "").tables
    told: dict[str, list[Problem]] = {}
    for problem in problems:
        told.setdefault(at(problem), []).append(problem)
    return tuple(
        Section(name, words, tuple(_filled(key, tables.get(name), told) for key in keys_of(name)))
        for name, words in SECTIONS.items()
    )


def value_of(text: str, dotted: str) -> str:
    """What an order's text says at a key, as one types it; empty where it says nothing."""
    section, _, name = dotted.partition(".")
    table = read_source(text, "").tables.get(section)
    return _typed(table.get(name)) if isinstance(table, dict) else ""


def edited(text: str, dotted: str, typed: str) -> str:
    """The text with one answer changed, or taken out where nothing is typed; all else stays as it is."""
    if dotted not in KEYS:
        raise OrderError([Problem("An order has no such key.", "Load the page again.", key=dotted[:80])])
    section, _, name = dotted.partition(".")
    try:
        document = tomlkit.parse(text)
    except TOMLKitError as mistake:
        cure = "Mend the text first; the form can read it then."
        raise OrderError([Problem("The text is no order that can be read.", cure, key="order")]) from mistake
    section = next((old for old, new in FORMERLY.items() if new == section and old in document), section)
    if section not in document:
        document[section] = tomlkit.table()
    table: Any = document[section]
    if not isinstance(table, MutableMapping):
        cure = f"Write [{section}] on a line of its own in the text."
        raise OrderError([Problem(f"{section} is no section there.", cure, key=section)])
    if typed.strip():
        _put(table, name, _raw(KEYS[dotted], typed))
    elif name in table:
        del table[name]
    return tomlkit.dumps(document)


def problems(text: str) -> tuple[Problem, ...]:
    """What is wrong in an order's text, as far as can be told without designing."""
    from panewright.order.parse import parse_order

    try:
        parse_order(text, "", own_shelf())
    except OrderError as mistake:
        return mistake.problems
    return ()


def at(problem: Problem) -> str:
    """The key of the form at which a problem stands: that of a described part is the part's."""
    return ".".join(problem.key.split(".")[:2])


def _put(table: Any, name: str, value: object) -> None:
    """A value at a key; a new key stands behind the last one, not behind the blank line after it."""
    fresh = name not in table
    table[name] = value
    if fresh and isinstance(table, Table):
        table[name].trivia.trail = "\n"


def _raw(key: Key, typed: str) -> object:
    """What stands in the text: a bare number where the key counts and a number was typed."""
    words = " ".join(typed.replace("\x00", "").split())
    if key.kind == "count" and words.isdecimal() and len(words) < 10:
        return int(words)
    return words


def _filled(key: Key, table: object, told: dict[str, list[Problem]]) -> Field:
    blank = _blank(key)
    raw = table.get(key.name) if isinstance(table, dict) else None
    return replace(
        blank,
        value=_typed(raw),
        given=raw is not None,
        problems=tuple(told.get(key.dotted, ())),
        in_full=isinstance(raw, dict),
    )


def _typed(raw: object) -> str:
    if raw is None:
        return ""
    if isinstance(raw, bool):
        return str(raw).lower()
    if isinstance(raw, dict):
        return ", ".join(f"{name} {_typed(value)}" for name, value in raw.items())
    if isinstance(raw, list):
        return ", ".join(_typed(value) for value in raw)
    return str(raw)


def _blank(key: Key) -> Field:
    return _made_blank(key, stand())


@cache
def _made_blank(key: Key, _shelf: Stand) -> Field:
    default = "" if key.default in (None, "") else str(key.default)
    reason = f"{default}: {key.reason}" if default and key.reason else default or key.reason
    return Field(
        key=key.dotted,
        label=label(key.name),
        hint=key.comment,
        kind=key.kind,
        asked_first=stated(key),
        left_out=reason or ("" if stated(key) else "the tool chooses"),
        example=str(key.example),
        choices=key.choices,
        names=_names(_GROUP_OF.get(key.dotted, "")),
    )


def label(name: str) -> str:
    """A key's name as a person reads it.

    >>> label("record_cold"), label("isc_per_k")
    ('Record cold', 'Isc per k')
    """
    words = [_SMALL_WORDS.get(word, word) for word in name.split("_")]
    return words[0][0].upper() + words[0][1:] + "".join(f" {word}" for word in words[1:])


def _names(group: str) -> tuple[str, ...]:
    """What the shelf has of one kind."""
    return tuple(row.name for row in getattr(own_shelf(), group)) if group else ()
