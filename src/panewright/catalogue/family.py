"""A range of sizes, and each of its sizes as the order that it is."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Any

from panewright.order.order import Order

Tables = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Member:
    """One size: what the range's lists say of it; None is what the order says, or the tool's choice."""

    columns: int
    rows: int
    cell: str | None = None
    cut: str | None = None
    glass: str | None = None
    rail: str | None = None


@dataclass(frozen=True, slots=True)
class Family:
    """A range as records: the order that all sizes share, and what is varied."""

    tables: Tables  #: of the order, without what the range varies
    order: Order  #: of the first size: who, where, how to write things down
    cells: tuple[str | None, ...]
    cuts: tuple[str | None, ...]
    columns: tuple[int, ...]
    rows: tuple[int, ...]
    glass: tuple[str | None, ...]
    rails: tuple[str | None, ...]
    quantities: tuple[int, ...]

    @property
    def size(self) -> int:
        """How many designs it is."""
        lists = self.cells, self.cuts, self.columns, self.rows, self.glass, self.rails
        count = 1
        for each in lists:
            count *= len(each)
        return count

    def layups(self) -> Iterator[tuple[Member, ...]]:
        """Sizes that differ in their glass alone, together: they share most of what is reckoned."""
        grid = sorted(product(self.columns, self.rows), key=lambda pair: (pair[0] * pair[1], pair))
        for cell, cut, rail, (columns, rows) in product(self.cells, self.cuts, self.rails, grid):
            yield tuple(Member(columns, rows, cell, cut, glass, rail) for glass in self.glass)

    def text(self, member: Member) -> str:
        """The order of one size, as a person could have written it."""
        return written(with_member(self.tables, member))


def with_member(tables: Tables, member: Member) -> Tables:
    """The order's tables with what makes one size of them."""
    said: dict[str, dict[str, Any]] = {name: dict(table) for name, table in tables.items()}

    def put(section: str, key: str, value: str | int | None) -> None:
        if value is not None:
            said.setdefault(section, {})[key] = value

    put("cell", "name", member.cell)
    put("cell", "cut", member.cut)
    put("layout", "columns", member.columns)
    put("layout", "rows", member.rows)
    put("parts", "glass", member.glass)
    put("parts", "rail", member.rail)
    strings = said["layout"].get("strings", 1)
    if "battery" not in said.get("load", {}) and isinstance(strings, int) and strings > 0:
        put("load", "cells", max(1, member.columns * member.rows // strings))
    return said


def written(tables: Tables) -> str:
    """Tables as TOML text.

    >>> written({"layout": {"rows": 9}, "parts": {"tab": {"width": "2 mm"}}})
    '[layout]\\nrows = 9\\n\\n[parts]\\ntab = { width = "2 mm" }\\n'
    """
    parts = []
    for name, table in tables.items():
        lines = (f"{_key(key)} = {_value(value)}" for key, value in table.items())
        parts.append("\n".join((f"[{_key(name)}]", *lines)) + "\n")
    return "\n".join(parts)


def _key(name: str) -> str:
    plain = name.isascii() and name.replace("_", "").replace("-", "").isalnum()
    return name if plain else json.dumps(name)


def _value(value: Any) -> str:
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{_key(key)} = {_value(each)}' for key, each in value.items())} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007F")
    if isinstance(value, bool):
        return str(value).lower()
    try:
        return str(value)
    except ValueError:  # Python prints no number of more than 4300 digits, but in other bases
        return hex(value)
