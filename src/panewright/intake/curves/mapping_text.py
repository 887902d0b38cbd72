"""The mapping of a curve's file as TOML: kept beside it, changed by hand if need be, read again."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any, get_args

import tomlkit

from panewright.errors import Problem, SheetError
from panewright.intake.curves.mapping import CLOCK, Counted, CurveMapping, Taken
from panewright.intake.curves.naming import units_of
from panewright.intake.curves.quantity import GIVEN, OF_A_LINE, QUANTITIES

_WORDS = ("header", "quantity", "unit", "written", "why", "doubt")
_KEYS = (*_WORDS[:3], "nth", *_WORDS[3:], "choices")
_COLUMN = [name for name in QUANTITIES if name not in OF_A_LINE]


def as_toml(mapping: CurveMapping) -> str:
    """A mapping as a person can read, change and keep it.

    >>> print(as_toml(CurveMapping(((Taken(1, "U", "voltage_v", "V", why="names it"),),), ",")))
    decimal_mark = ","
    counted = "find"
    <BLANKLINE>
    [[table]]
    [[table.column]]
    header = "U"
    quantity = "voltage_v"
    unit = "V"
    why = "names it"
    <BLANKLINE>
    """
    text = tomlkit.document()
    text["decimal_mark"], text["counted"] = mapping.decimal_mark, mapping.counted
    if mapping.given:
        text["given"] = dict(mapping.given)
    tables = tomlkit.aot()
    for columns in mapping.tables:
        table, each_column = tomlkit.table(), tomlkit.aot()
        for each in columns:
            each_column.append(_column(each))
        table["column"] = each_column
        tables.append(table)
    text["table"] = tables
    return tomlkit.dumps(text)


def _column(each: Taken) -> tomlkit.items.Table:
    column = tomlkit.table()
    for key in _KEYS:
        value = getattr(each, key)
        if value not in ("", (), 0) or key in ("header", "quantity"):
            column[key] = list(value) if isinstance(value, tuple) else value
    return column


def from_toml(text: str, file: str = "") -> CurveMapping:
    """A mapping out of its text, or every mistake in it at once."""
    try:
        kept = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        reason = f"The mapping is no TOML: {broken}."
        raise SheetError([Problem(reason, "Write it as it was kept.", file=file)]) from broken
    problems = [
        Problem(reason, cure, file=file, key=key, value=value) for key, value, reason, cure in _wrong(kept)
    ]
    if problems:
        raise SheetError(problems)
    tables = tuple(
        tuple(_taken(place, each) for place, each in enumerate(table["column"], start=1))
        for table in kept["table"]
    )
    given = {name: float(value) for name, value in kept.get("given", {}).items()}
    return CurveMapping(tables, kept.get("decimal_mark", "."), given, kept.get("counted", "find"))


def _taken(place: int, each: dict[str, Any]) -> Taken:
    told = {key: value for key, value in each.items() if key != "choices"}
    return Taken(place, choices=tuple(each.get("choices", ())), **told)


Wrong = tuple[str, str, str, str]  #: key, value, reason, cure


def _wrong(kept: dict[str, Any]) -> Iterator[Wrong]:
    for key in sorted(set(kept) - {"decimal_mark", "counted", "given", "table"}):
        yield key, str(kept[key])[:80], "No such key of a mapping.", "Leave it out."
    if kept.get("decimal_mark", ".") not in (".", ","):
        reason = "Decimals are marked by a point or a comma."
        yield "decimal_mark", str(kept["decimal_mark"]), reason, 'Write "." or ",".'
    if kept.get("counted", "find") not in get_args(Counted):
        cure = f"Write one of: {', '.join(get_args(Counted))}."
        yield "counted", str(kept["counted"]), "A current counts in no such way.", cure
    yield from _wrong_given(kept.get("given", {}))
    tables = kept.get("table", [])
    if not isinstance(tables, list) or not tables:
        yield (
            "table",
            "",
            "The mapping has no table.",
            "Write each as [[table]], its columns as [[table.column]].",
        )
        return
    for nth, table in enumerate(tables, start=1):
        columns = table.get("column", []) if isinstance(table, dict) else []
        if not isinstance(columns, list) or not columns:
            cure = "Write each column as [[table.column]]."
            yield f"table {nth}", "", "The table names no column.", cure
            continue
        for place, each in enumerate(columns, start=1):
            yield from _wrong_column(f"table {nth}, column {place}", each)


def _wrong_given(given: object) -> Iterator[Wrong]:
    if not isinstance(given, dict):
        yield "given", str(given)[:80], "What is given for all points is a table.", "Write it under [given]."
        return
    for name, value in given.items():
        if name not in GIVEN:
            cure = f"Write one of: {', '.join(GIVEN)}."
            yield f"given.{name}", str(value)[:80], "This cannot be given for all points.", cure
        elif isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < 1e12:
            yield f"given.{name}", str(value)[:80], "This is no number.", "Write a number in SI."


def _wrong_column(place: str, each: object) -> Iterator[Wrong]:
    if not isinstance(each, dict):
        yield place, str(each)[:80], "A column is a table.", "Write it as [[table.column]]."
        return
    kinds = {**dict.fromkeys(_WORDS, str), "nth": int, "choices": list}
    for key, value in each.items():
        if key not in kinds:
            cure = f"Write one of: {', '.join(_KEYS)}."
            yield f"{place}.{key}", str(value)[:80], "No such key of a column.", cure
        elif not isinstance(value, kinds[key]) or isinstance(value, bool):
            cure = "Write it as the proposed mapping does."
            yield f"{place}.{key}", str(value)[:80], "This is of the wrong kind.", cure
    if not {"header", "quantity"} <= set(each):
        yield place, "", "A column has a header and a quantity.", "Write both; either may be empty."
        return
    yield from _wrong_meaning(place, each)


def _wrong_meaning(place: str, each: dict[str, Any]) -> Iterator[Wrong]:
    quantity, unit = str(each["quantity"]), str(each.get("unit", ""))
    if quantity and quantity not in _COLUMN:
        cure = f"Write one of: {', '.join(_COLUMN)}; or leave it empty."
        yield f"{place}.quantity", quantity, "No such quantity of a column.", cure
        return
    units = [known.name for known in units_of(QUANTITIES[quantity].kind)] if quantity else []
    units += [CLOCK] * (quantity == "time")
    if unit and unit not in units:
        cure = f"Write one of: {', '.join(units)}." if units else "Leave it out."
        yield f"{place}.unit", unit, f"This is no unit of {quantity or 'what is not read'}.", cure
