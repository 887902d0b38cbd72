"""Columns of a curve's file on a page: shown with samples, and settled by what a form says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from panewright.desk.curves.table import CurveTable
from panewright.errors import Problem, SheetError
from panewright.intake.curves.mapping import CLOCK, CurveMapping, Taken, shape
from panewright.intake.curves.mapping_text import as_toml, from_toml
from panewright.intake.curves.naming import units_of
from panewright.intake.curves.quantity import OF_A_LINE, QUANTITIES
from panewright.intake.written import figures

_SAMPLES, _LETTERS, _ROWS = 3, 40, 200


@dataclass(frozen=True, slots=True)
class CurveColumn:
    """A column as a picker shows it."""

    key: str  #: table and column, '1-3'
    header: str
    quantity: str
    unit: str
    why: str
    doubt: str
    samples: tuple[str, ...]


def columns(table: CurveTable) -> tuple[CurveColumn, ...]:
    """Every column of every shape of table."""
    return tuple(_columns(table))


def _columns(table: CurveTable) -> Iterator[CurveColumn]:
    for nth, taken in enumerate(table.mapping.tables, start=1):
        block = next((each for each in table.blocks.blocks if each.header == shape(taken)), None)
        for each in taken:
            fields = block.columns[each.column - 1][:_ROWS] if block else ()
            some = tuple(text.strip()[:_LETTERS] for text in fields if text.strip())[:_SAMPLES]
            header = each.header or f"column {each.column}"
            yield CurveColumn(
                f"{nth}-{each.column}", header, each.quantity, each.unit, each.why, each.doubt, some
            )


def quantities() -> tuple[tuple[str, str], ...]:
    """What a column may be: key and words."""
    return tuple((name, each.said) for name, each in QUANTITIES.items() if name not in OF_A_LINE)


def units() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Units kind by kind."""
    kinds = dict.fromkeys(each.kind for each in QUANTITIES.values() if each.kind)
    return tuple((kind, tuple(unit.name for unit in units_of(kind))) for kind in kinds if units_of(kind))


def settled(text: str, typed: Mapping[str, str]) -> str:
    """A mapping with what a form says of its columns; every mistake in it at once."""
    mapping, problems = from_toml(text), list[Problem]()
    for nth, taken in enumerate(mapping.tables, start=1):
        for each in taken:
            try:
                mapping = _with(mapping, nth, each, typed)
            except SheetError as mistake:
                problems += mistake.problems
    try:
        mapping = _with_capacitor(mapping, typed.get("capacity", "").strip())
    except SheetError as mistake:
        problems += mistake.problems
    if problems:
        raise SheetError(problems)
    return as_toml(mapping)


def _with_capacitor(mapping: CurveMapping, text: str) -> CurveMapping:
    """With the capacitor of a sweep that bears no current."""
    if not text:
        return mapping
    own, unit = QUANTITIES["capacity_f"], units_of("capacitance")[0]
    mark = "," if "," in text else "."
    value = float(figures([text], own, unit, mark).values[0])
    if not (text[-1].isalpha() and own.likely(value)):
        cure = "Write it with its unit: 4.7 mF."
        raise SheetError([Problem("This is no capacitor.", cure, key="capacity", value=text[:40])])
    return mapping.giving(capacity_f=value)


def _with(mapping: CurveMapping, nth: int, each: Taken, typed: Mapping[str, str]) -> CurveMapping:
    key = f"{nth}-{each.column}"
    if f"quantity-{key}" not in typed:
        return mapping
    quantity, unit = typed[f"quantity-{key}"], typed.get(f"unit-{key}", "")
    if (quantity, unit) == (each.quantity, each.unit):
        return mapping
    header = each.header or f"column {each.column}"
    if quantity and (quantity not in QUANTITIES or quantity in OF_A_LINE):
        problem = Problem(
            "This is nothing that a column holds.", "Choose from the list.", key=header, value=quantity[:40]
        )
        raise SheetError([problem])
    known = [one.name for one in units_of(QUANTITIES[quantity].kind)] if quantity else []
    known += [CLOCK] if quantity == "time" else []
    if unit and unit not in known and quantity == each.quantity:
        cure = f"Choose of: {', '.join(known)}." if known else "It has none."
        raise SheetError(
            [Problem("This unit is not one of that quantity.", cure, key=header, value=unit[:40])]
        )
    return mapping.settle(each.column, quantity, unit if unit in known else None, table=nth)


def same_shape(text: str, other: str) -> bool:
    """Whether two mappings are of the same headings."""
    one, two = from_toml(text), from_toml(other)
    return [shape(each) for each in one.tables] == [shape(each) for each in two.tables]
