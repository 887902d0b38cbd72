"""The text of an array as tables: sections that stand several times become 'panel 1', 'panel 2'.

So one reader of sections with keys reads them too, and tells the line of each. Lists of words may be written
in brackets or in one line with commas; yes and no as true and false; angles without their degrees.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from panewright.errors import OrderError, Problem
from panewright.order.places import key_lines
from panewright.order.questions import Questions
from panewright.order.site.schema import EVERY, ROWS, SECTIONS, keys_of
from panewright.order.source import Source, read_source
from panewright.shelf.key import Key

MOST_ROWS = 400  #: of one section: an array is built by hand
BEGIN = "Begin with one of the examples, such as the boathouse."
_HEAD = re.compile(rf"^(\s*)\[\[?\s*({'|'.join(ROWS)})\s*\]\]?(?=\s*(?:#|$))")
_HEADS = ", ".join(f"[[{name}]]" if name in ROWS else f"[{name}]" for name in SECTIONS)
_ANGLES = {(key.section, key.name) for key in EVERY if key.kind == "angle"}


@dataclass(frozen=True)
class Rows:
    """The tables, with how many rows each section of several has."""

    source: Source
    questions: Questions
    counts: Mapping[str, int]

    def of(self, section: str) -> tuple[str, ...]:
        """Names of a section's rows."""
        return tuple(f"{section} {number}" for number in range(1, self.counts.get(section, 0) + 1))


@dataclass(frozen=True)
class _Source(Source):
    """Lines are looked for in the text with its rows numbered."""

    @cached_property
    def numbered(self) -> dict[str, int]:
        """Line of each key and table."""
        return key_lines(_numbered(self.text))

    def line(self, dotted: str) -> int | None:
        """Line of a key, of its row, or of the section that its row should stand in."""
        section, _, name = dotted.partition(".")
        word = section.rpartition(" ")[0]
        for each in (dotted, section, f"{word}.{name}", word):
            if each in self.numbered:
                return self.numbered[each]
        return None


def read_rows(text: str, file: str) -> Rows:
    """The tables of a text; `OrderError` where it is no TOML."""
    if not text.removeprefix("\ufeff").strip():
        raise OrderError([Problem("The text is empty.", BEGIN, file, key="array")])
    read = read_source(text, file)
    tables, counts = {}, {}
    for name, table in read.tables.items():
        if name not in ROWS:
            tables[name] = _plain(name, table)
            continue
        rows = table if isinstance(table, list) else [table]
        if len(rows) > MOST_ROWS:
            reason = f"There are {len(rows)} of [[{name}]]."
            raise OrderError([Problem(reason, f"Write {MOST_ROWS} at most.", file, key=name)])
        counts[name] = len(rows)
        tables |= {f"{name} {n}": _plain(name, row) for n, row in enumerate(rows, 1)}
    return Rows(_Source(read.file, text, tables), _questions(counts), counts)


def _questions(counts: Mapping[str, int]) -> Questions:
    """The keys that may stand in a text with so many rows."""
    names = [
        each
        for name in SECTIONS
        for each in ([f"{name} {n}" for n in range(1, counts.get(name, 0) + 1)] if name in ROWS else [name])
    ]
    keys = {key.dotted: key for name in names for key in _keys(name)}
    return Questions(keys, tuple(names), _HEADS, BEGIN)


def _keys(name: str) -> Iterator[Key]:
    for key in keys_of(name.partition(" ")[0]):
        yield replace(key, section=name)


def _plain(section: str, table: object) -> object:
    """A table with its lists as lines, and yes and no as words."""
    if not isinstance(table, dict):
        return table
    return {name: _value(section, name, value) for name, value in table.items()}


def _value(section: str, name: str, value: object) -> object:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list) and value and all(isinstance(each, str) for each in value):
        return ", ".join(value)
    if isinstance(value, list) and value and all(_is_number(each) for each in value):
        return " ".join(str(each) for each in value)
    return f"{value!r} deg" if _is_number(value) and (section, name) in _ANGLES else value


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _numbered(text: str) -> str:
    """The text with its rows' heads numbered, line by line."""
    seen: dict[str, int] = {}

    def head(line: str) -> str:
        if (found := _HEAD.match(line)) is None:
            return line
        name = found.group(2)
        seen[name] = seen.get(name, 0) + 1
        return f'{found.group(1)}["{name} {seen[name]}"]'

    return "\n".join(head(line) for line in text.split("\n"))
