"""The text of a range becomes a `Family`, or every mistake in it at once.

[range] lists what varies; all other sections are those of an order and are read as such, by the same keys.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import product
from typing import Any

from panewright.catalogue.family import Family, Member, Tables, with_member, written
from panewright.catalogue.keys import ALWAYS_BARRED, LISTS, MOST_CELLS, MOST_SIZES, SECTION, ListKey
from panewright.errors import OrderError, Problem
from panewright.order.order import Order
from panewright.order.parse import parse_order
from panewright.order.source import Source, decoded, read_source
from panewright.shelf.key import Fault, described, nearest
from panewright.shelf.shelf import Shelf

_LONGEST_SHOWN = 60
_MOST_LISTED = 8
_MOST_TOLD = 5  # of one list
Entry = str | int


def parse_family(data: bytes, file: str, shelf: Shelf) -> Family:
    """The range in a file's bytes; `OrderError` tells every mistake with its place, reason and cure."""
    source = read_source(decoded(data, file), file)
    reading = _Reading(source, shelf)
    order = reading.order()
    if reading.problems or order is None:
        raise OrderError(sorted(reading.problems, key=lambda each: (each.line or 1_000_000_000, each.key)))
    lists = reading.lists
    return Family(
        tables=reading.tables,
        order=replace(order, text=source.text),
        cells=lists.get("cells", (None,)),
        cuts=lists.get("cuts", (None,)),
        columns=lists["columns"],
        rows=lists["rows"],
        glass=lists.get("glass", (None,)),
        rails=lists.get("rails", (None,)),
        quantities=tuple(sorted(lists.get("quantities", (1,)))),
    )


class _Reading:
    """One range's text held against the lists and against the order's schema."""

    def __init__(self, source: Source, shelf: Shelf) -> None:
        self.source = source
        self.problems: list[Problem] = []
        self._names = {
            "cells": [row.name for row in shelf.cells],
            "glass": [row.name for row in shelf.sheets],
            "rails": [row.name for row in shelf.rails],
        }
        self._shelf = shelf
        self.raw = self._section()
        self.lists: dict[str, tuple[Any, ...]] = {}
        for name, key in LISTS.items():
            self._list(key, self.raw.get(name))
        self._unknown()
        self.tables = self._order_tables()
        self._bounds()

    def wrong(self, dotted: str, reason: str, cure: str, value: object = None) -> None:
        """Tells a mistake at a key."""
        shown = "" if value is None else _shown(value)
        line = self.source.line(dotted)
        problem = Problem(_clean(reason), _clean(cure), self.source.file, line, _clean(dotted)[:120], shown)
        if problem not in self.problems:
            self.problems.append(problem)

    def _section(self) -> Mapping[str, object]:
        found = self.source.tables.get(SECTION)
        if isinstance(found, dict):
            return found
        if found is None:
            near = [name for name in self.source.tables if SECTION in nearest(name, [SECTION])]
            hint = f" Is [{_clean(near[0])[:40]}] meant for it?" if near else ""
            cure = "Add [range] with columns = [2, 4] and rows = [6, 9], and lists of cells and glass."
            self.wrong(SECTION, f"There is no section range.{hint}", cure)
        else:
            cure = "Write [range] on a line of its own, and its lists below."
            self.wrong(SECTION, f"range is a section, not {described(found)}.", cure)
        return {}

    def _unknown(self) -> None:
        names = [name for name in self.raw if name not in LISTS]
        for name in names[:_MOST_TOLD]:
            cure = f"The lists of [range] are {', '.join(LISTS)}."
            dotted = f"{SECTION}.{name}"
            self.wrong(dotted, f"There is no list {name[:60]}.{nearest(name, LISTS)}", cure, self.raw[name])
        if len(names) > _MOST_TOLD:
            more = f"{len(names) - _MOST_TOLD} further lists here are unknown too."
            self.wrong(f"{SECTION}.{names[_MOST_TOLD]}", more, f"The lists are {', '.join(LISTS)}.")

    def _list(self, key: ListKey, raw: object) -> None:
        """One list, every entry read by the order's own key."""
        if raw is None:
            if key.required and isinstance(self.source.tables.get(SECTION), dict):
                because = "a range says which are made"
                self.wrong(key.dotted, f"{key.name} is missing: {because}.", _add(key))
            return
        if not isinstance(raw, list):
            self.wrong(key.dotted, f"{key.name} is a list, not {described(raw)}.", _as(key), raw)
        elif not raw:
            self.wrong(key.dotted, "The list is empty.", _as(key), raw)
        elif len(raw) > key.most:
            reason = f"The list has {len(raw)} entries; a range takes up to {key.most}."
            self.wrong(key.dotted, reason, "Make a catalogue of each part of it.", raw)
        else:
            self._entries(key, raw)

    def _entries(self, key: ListKey, raw: list[object]) -> None:
        found: list[Entry] = []
        faults = 0
        for value in raw:
            try:
                entry = self._entry(key, value)
                if entry in found:
                    raise Fault("This entry stands twice.", "Keep one of them.")
                found.append(entry)
            except Fault as fault:
                faults += 1
                if faults <= _MOST_TOLD:
                    self.wrong(key.dotted, fault.reason, fault.cure, value)
        if faults > _MOST_TOLD:
            self.wrong(key.dotted, f"{faults - _MOST_TOLD} further entries are wrong too.", _as(key))
        if not faults:
            self.lists[key.name] = tuple(found)

    def _entry(self, key: ListKey, value: object) -> Entry:
        """A sound entry: a part by its name on the shelf, or what the order's key reads."""
        if key.name not in self._names:
            try:
                read = key.entry.read(value)
            except Fault as fault:
                raise Fault(fault.reason, fault.cure if key.entry.choices else _as(key)) from fault
            return read if isinstance(read, int) else str(read)
        names = self._names[key.name]
        if not isinstance(value, str):
            raise Fault(f"An entry is a name in quotes, not {described(value)}.", _as(key))
        for name in names:
            if _plain(name) == _plain(value):
                return name
        more = ", ..." if len(names) > _MOST_LISTED else ""
        cure = f"The shelf has {', '.join(names[:_MOST_LISTED])}{more}."
        raise Fault(f"The shelf has no {value.strip()[:60]}.{nearest(value, names)}", cure)

    def _order_tables(self) -> Tables:
        """The order's own sections; what the range varies is told and left out."""
        tables = {name: table for name, table in self.source.tables.items() if name != SECTION}
        for dotted, why in self._barred():
            section, _, name = dotted.partition(".")
            table = tables.get(section)
            if isinstance(table, dict) and name in table:
                self.wrong(dotted, *why, table[name])
                tables[section] = {key: value for key, value in table.items() if key != name}
        return tables  # type: ignore[return-value]

    def _barred(self) -> Iterator[tuple[str, tuple[str, str]]]:
        for name, key in LISTS.items():
            if name in self.raw or key.required or name == "quantities":
                for dotted in key.bars:
                    yield dotted, (f"The range says it: {name} in [range].", f"List it in [range] {name}.")
        for dotted in ALWAYS_BARRED:
            yield dotted, ("It follows from columns and rows of each size.", "Leave it out.")

    def _bounds(self) -> None:
        """No more sizes, and none larger, than a catalogue can be asked for."""
        count = 1
        for name in LISTS:
            count *= len(self.lists.get(name, (1,))) if name != "quantities" else 1
        if count > MOST_SIZES:
            reason = f"The lists make {count} sizes; a catalogue has up to {MOST_SIZES}."
            self.wrong(SECTION, reason, "Shorten the lists, or make several catalogues of them.")
        columns, rows = (max(self.lists.get(name, (1,))) for name in ("columns", "rows"))
        if columns * rows > MOST_CELLS:
            reason = f"The largest size has {columns} columns of {rows}, {columns * rows} cells."
            cure = f"Keep the largest columns times the largest rows within {MOST_CELLS}."
            self.wrong(f"{SECTION}.rows", reason, cure)
        self._shared()

    def _shared(self) -> None:
        """Every size must share its cells by the strings and the diodes that the order pins."""
        layout = self.tables.get("layout", {})
        pinned = layout if isinstance(layout, dict) else {}
        for name in ("strings", "bypass_diodes"):
            parts = pinned.get(name)
            if not isinstance(parts, int) or isinstance(parts, bool) or parts < 1:
                continue  # told as the order's own mistake
            pairs = product(self.lists.get("columns", ()), self.lists.get("rows", ()))
            odd = next((pair for pair in pairs if pair[0] * pair[1] % parts), None)
            if odd:
                reason = f"{odd[0]} columns of {odd[1]} cannot be shared by {parts}."
                cure = "List only columns and rows that can, or leave it out."
                self.wrong(f"layout.{name}", reason, cure, parts)

    def order(self) -> Order | None:
        """The order of the first size; what is wrong in the order's sections is told where it stands."""
        tables = with_member(_sound_tables(self.tables), self._first())
        strange = {n: t for n, t in self.source.tables.items() if n != SECTION and not isinstance(t, dict)}
        for name, value in strange.items():
            cure = f"Write [{name}] on a line of its own, and its keys below."
            self.wrong(name, f"{name} is a section, not {described(value)}.", cure)
        try:
            return parse_order(written(tables), self.source.file, self._shelf)
        except OrderError as mistake:
            self.problems += [self._placed(each) for each in mistake.problems]
            return None

    def _placed(self, problem: Problem) -> Problem:
        """A mistake of the first size's order, at its line in the range."""
        return replace(problem, file=self.source.file, line=self.source.line(problem.key))

    def _first(self) -> Member:
        """A sound first size, so that every other mistake is found."""

        def first(name: str, instead: Any = None) -> Any:
            return self.lists.get(name, (instead,))[0] if name in self.raw or instead else None

        described_cell = "cells" not in self.raw
        return Member(
            columns=first("columns", 4),
            rows=first("rows", 9),
            cell=None if described_cell else first("cells", self._names["cells"][0]),
            cut=first("cuts"),
            glass=first("glass"),
            rail=first("rails"),
        )


def _sound_tables(tables: Mapping[str, Any]) -> Tables:
    return {name: table for name, table in tables.items() if isinstance(table, dict)}


def _add(key: ListKey) -> str:
    return f"Add {key.name} = {key.example} to [{SECTION}]."


def _as(key: ListKey) -> str:
    return f"Write it as in {key.name} = {key.example}."


def _plain(name: str) -> str:
    return "".join(name.lower().replace("×", "x").split())


def _shown(value: object) -> str:
    try:
        words = f'"{value}"' if isinstance(value, str) else str(value)
    except ValueError:  # Python prints no number of more than 4300 digits
        return "a very long number"
    words = _clean(words)
    return words if len(words) <= _LONGEST_SHOWN else f"{words[: _LONGEST_SHOWN - 3]}..."


def _clean(text: str) -> str:
    """The text without letters that would upset a screen, shortened."""
    safe = "".join(letter if letter.isprintable() else "?" for letter in text[:601])
    return safe if len(safe) <= 600 else f"{safe[:597]}..."
