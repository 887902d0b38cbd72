"""A mapping as TOML: kept beside a lot, changed by hand if need be, read again."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import tomlkit

from panewright.errors import Problem, SheetError
from panewright.intake.accuracy import accuracies_of, accuracy_words
from panewright.intake.light import in_light
from panewright.intake.mapping import GIVEN, LIGHT, SIGNED, Bound, Mapping
from panewright.intake.measure import UNITS
from panewright.intake.quantity import QUANTITIES

_LIGHT = 'STC, a light such as "850 W/m2", or unknown'
_KEYS = (
    "header",
    "quantity",
    "unit",
    "full_sun",
    "turned",
    "reading",
    "at_v",
    "written",
    "why",
    "doubt",
    "choices",
)


def as_toml(mapping: Mapping) -> str:
    """A mapping as a person can read, change and keep it.

    >>> print(as_toml(Mapping((Bound(1, "Isc", "isc_a", "A", "names it"),), ",")))
    decimal_mark = ","
    light = "" # STC, a light such as "850 W/m2", or unknown
    <BLANKLINE>
    [[column]]
    header = "Isc"
    quantity = "isc_a"
    unit = "A"
    why = "names it"
    <BLANKLINE>
    """
    text = tomlkit.document()
    text["decimal_mark"] = mapping.decimal_mark
    if mapping.light or mapping.open_light:
        text["light"] = tomlkit.string(mapping.light).comment(_LIGHT)
    if mapping.given:
        text["given"] = dict(mapping.given)
    if mapping.errors:
        text["errors"] = dict(accuracy_words(mapping.errors))
    columns = tomlkit.aot()
    for each in mapping.bound:
        table = tomlkit.table()
        for key in _KEYS:
            value = getattr(each, key)
            said = value is not False and value not in ("", (), None) and (key, value) != ("reading", 0)
            if said or key in ("header", "quantity"):
                table[key] = list(value) if isinstance(value, tuple) else value
        columns.append(table)
    text["column"] = columns
    return tomlkit.dumps(text)


def from_toml(text: str, file: str = "") -> Mapping:
    """A mapping out of its text, or every mistake in it at once."""
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        reason = f"The mapping is no TOML: {broken}."
        raise SheetError([Problem(reason, "Write it as it was kept.", file=file)]) from broken
    problems = list(_problems(table, file))
    if problems:
        raise SheetError(problems)
    columns = table.get("column", [])
    bound = tuple(_bound(place, each) for place, each in enumerate(columns, start=1))
    given = {name: float(value) for name, value in table.get("given", {}).items()}
    errors, _ = accuracies_of(table.get("errors", {}), "errors", file)
    mapping = Mapping(bound, table.get("decimal_mark", "."), given, errors=errors)
    return in_light(mapping, table["light"], file) if table.get("light") else mapping


def _bound(place: int, each: dict[str, Any]) -> Bound:
    told = {key: value for key, value in each.items() if key not in ("choices", "at_v")}
    if each.get("turned") or "full_sun" in each:  # what was asked of the column is answered
        told |= {"why": "as settled", "doubt": ""}
    at_v = each.get("at_v")
    return Bound(
        place, choices=tuple(each.get("choices", ())), at_v=None if at_v is None else float(at_v), **told
    )


def _problems(table: dict[str, Any], file: str) -> Iterator[Problem]:
    if strange := sorted(set(table) - {"decimal_mark", "light", "given", "errors", "column"}):
        yield Problem("No such key of a mapping.", "Leave it out.", file=file, key=strange[0])
    if table.get("decimal_mark", ".") not in (".", ","):
        said = str(table["decimal_mark"])
        yield Problem(
            "Decimals are marked by a point or a comma.",
            'Write "." or ",".',
            file=file,
            key="decimal_mark",
            value=said,
        )
    if not isinstance(table.get("light", ""), str):
        cure = f"Write {_LIGHT}."
        yield Problem("The light is words.", cure, file=file, key="light", value=str(table["light"])[:40])
    errors = table.get("errors", {})
    if isinstance(errors, dict):
        yield from accuracies_of(errors, "errors", file)[1]
    else:
        yield Problem("Errors are a table.", "Write them under [errors].", file=file, key="errors")
    yield from _given_problems(table.get("given", {}), file)
    columns = table.get("column", [])
    if not isinstance(columns, list) or not columns:
        yield Problem(
            "The mapping names no column.", "Write each column as [[column]].", file=file, key="column"
        )
        return
    for place, each in enumerate(columns, start=1):
        yield from _column_problems(f"column {place}", each, file)


def _given_problems(given: object, file: str) -> Iterator[Problem]:
    if not isinstance(given, dict):
        yield Problem(
            "What is given for all rows is a table.", "Write it under [given].", file=file, key="given"
        )
        return
    for name, value in given.items():
        if name not in GIVEN:
            cure = f"Write one of: {', '.join(GIVEN)}."
            yield Problem(
                "This cannot be given for all rows.", cure, file=file, key=f"given.{name}", value=str(value)
            )
        elif not _number(value):
            yield Problem(
                "This is no number.",
                "Write a number in SI.",
                file=file,
                key=f"given.{name}",
                value=str(value),
            )


def _column_problems(place: str, each: object, file: str) -> Iterator[Problem]:
    if not isinstance(each, dict):
        yield Problem("A column is a table.", "Write it as [[column]].", file=file, key=place)
        return
    for key, value in each.items():
        if key not in _KEYS:
            cure = f"Write one of: {', '.join(_KEYS)}."
            yield Problem("No such key of a column.", cure, file=file, key=f"{place}.{key}", value=str(value))
        elif not _right(key, value):
            cure = "Write it as the proposed mapping does."
            yield Problem(
                "This is of the wrong kind.", cure, file=file, key=f"{place}.{key}", value=str(value)
            )
    yield from _meaning_problems(place, each, file)


def _right(key: str, value: object) -> bool:
    if key == "reading":
        return isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= 99
    if key == "at_v":
        return _number(value)
    if key == "full_sun":
        return _number(value) and value > 0  # type: ignore[operator]
    if key == "turned":
        return isinstance(value, bool)
    if key == "choices":
        return isinstance(value, list) and all(isinstance(each, str) for each in value)
    return isinstance(value, str)


def _number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 1e12


def _meaning_problems(place: str, each: dict[str, Any], file: str) -> Iterator[Problem]:
    if "header" not in each or "quantity" not in each:
        yield Problem(
            "A column has a header and a quantity.", "Write both; either may be empty.", file=file, key=place
        )
        return
    quantity, unit = each["quantity"], each.get("unit", "")
    if quantity and quantity not in QUANTITIES:
        cure = f"Write one of: {', '.join(QUANTITIES)}; or leave it empty."
        yield Problem("No such quantity.", cure, file=file, key=f"{place}.quantity", value=str(quantity))
        return
    kind = QUANTITIES[quantity].kind if quantity else ""
    units = [known.name for known in UNITS.get(kind, ())]
    if each.get("turned") is True and kind not in SIGNED:
        yield Problem("This has no sign to turn.", "Leave it out.", file=file, key=f"{place}.turned")
    if "full_sun" in each and (quantity != LIGHT or unit):
        cure = f'Write quantity = "{LIGHT}", and no unit: what it shows in full sun tells its scale.'
        yield Problem("Full sun is of a reference cell.", cure, file=file, key=f"{place}.full_sun")
        return
    if unit and unit not in units:
        cure = f"Write one of: {', '.join(units)}." if units else "Leave it out."
        if quantity == LIGHT:
            cure += " Of a reference cell leave it out, and write full_sun, what the cell shows in 1000 W/m2."
        yield Problem(
            f"This is no unit of {quantity or 'what is not read'}.",
            cure,
            file=file,
            key=f"{place}.unit",
            value=str(unit),
        )
