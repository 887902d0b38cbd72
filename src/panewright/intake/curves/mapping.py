"""Which column of a curve's file is what: proposed, shown to a person, settled, kept.

A file may hold tables of several shapes: each shape of headings has its columns. A mapping is kept as TOML
and used again for every file of the same headings. Light, heat and time whose unit is open are left unread
and told; a voltage or a current whose unit is open must be settled first.
"""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Mapping as Table
from dataclasses import dataclass, field, replace
from typing import ClassVar, Literal

from panewright.errors import Problem, SheetError
from panewright.intake.column import Column
from panewright.intake.curves.blocks import Block, Blocks
from panewright.intake.curves.naming import unit_in, units_of
from panewright.intake.curves.quantity import GIVEN, OF_A_LINE, OF_A_POINT, QUANTITIES
from panewright.intake.measure import Unit
from panewright.intake.quantity import Quantity

CLOCK = "clock"  #: the unit of a time that is written as a time of day or a moment
Counted = Literal["find", "generator", "load"]  #: which way round a current counts as positive


@dataclass(frozen=True, slots=True)
class Taken(Column):
    """One column of a curve's table and what it is taken for."""

    nth: int = 0  #: of several sweeps side by side; 0 where it is of all

    quantities: ClassVar[Table[str, Quantity]] = {
        name: each for name, each in QUANTITIES.items() if name not in OF_A_LINE
    }
    bare: ClassVar[str] = CLOCK

    @staticmethod
    def units_of(kind: str) -> tuple[Unit, ...]:
        """Those of a lot's columns, and those of time."""
        return units_of(kind)

    @property
    def which(self) -> str:
        """Which sweep, where several stand side by side."""
        return f", sweep {self.nth} side by side" if self.nth else ""


Columns = tuple[Taken, ...]


@dataclass(frozen=True, slots=True)
class CurveMapping:
    """The columns of every shape of table in a file, and what holds for all its points."""

    tables: tuple[Columns, ...]
    decimal_mark: str = "."
    given: Table[str, float] = field(default_factory=dict)  #: of GIVEN, in SI
    counted: Counted = "find"

    def __post_init__(self) -> None:
        if self.decimal_mark not in (".", ","):
            raise ValueError(f"decimals are marked by a point or a comma, got {self.decimal_mark!r}")
        if strange := set(self.given) - set(GIVEN):
            raise ValueError(f"cannot be given for all points: {sorted(strange)}")

    @property
    def doubts(self) -> tuple[str, ...]:
        """What a person should look at."""
        return tuple(str(each) for table in self.tables for each in table if each.doubt)

    def columns_of(self, block: Block) -> Columns | None:
        """The columns of a block, by its headings; None where the mapping was made for others."""
        return next((table for table in self.tables if shape(table) == block.header), None)

    def settle(
        self,
        column: int,
        quantity: str | None = None,
        unit: str | None = None,
        *,
        table: int = 1,
        nth: int = -1,
    ) -> CurveMapping:
        """The same, with one column as a person says it is; what is not said stays. Its doubt is then gone.

        A column that becomes another quantity keeps the unit written over it, if that is one of its kind.
        """
        columns = self.tables[table - 1]
        old = columns[column - 1]
        what = old.quantity if quantity is None else quantity
        if unit is None:
            unit = old.unit if what == old.quantity else _written_unit(old.written, what)
        plain = replace(old, quantity="", unit="", why="as settled", doubt="", choices=())
        new = replace(plain, quantity=what, unit=unit, nth=old.nth if nth < 0 else nth)
        changed = (*columns[: column - 1], new, *columns[column:])
        return replace(self, tables=(*self.tables[: table - 1], changed, *self.tables[table:]))

    def giving(self, **figures: float) -> CurveMapping:
        """The same, with light, heat or a shunt, in SI, that holds for every point.

        >>> CurveMapping(()).giving(irradiance_w_m2=812.0).given
        {'irradiance_w_m2': 812.0}
        """
        return replace(self, given={**self.given, **figures})


def shape(columns: Columns) -> tuple[str, ...]:
    """The headings, in order."""
    return tuple(each.header for each in columns)


def _written_unit(written: str, quantity: str) -> str:
    unit = unit_in(written, QUANTITIES[quantity].kind) if quantity and written else None
    return unit.name if unit else ""


def groups(columns: Columns) -> tuple[int, ...]:
    """The numbers of the sweeps that stand side by side; (0,) where there is one."""
    numbers = {
        name: sorted({each.nth for each in columns if each.quantity == name and each.settled})
        for name in OF_A_POINT
    }
    most = max(numbers.values(), key=len)
    return tuple(nth for nth in most if nth) if len(most) > 1 else (0,)


def of_group(columns: Columns, quantity: str, nth: int) -> Taken | None:
    """The column of a quantity in one group: its own, or the only one, which all share."""
    found = [each for each in columns if each.quantity == quantity and each.settled]
    own = next((each for each in found if each.nth == nth), None)
    return own or next((each for each in found if len(found) == 1 or not each.nth), None)


def refuse_unfit(mapping: CurveMapping, blocks: Blocks) -> None:
    """What must be settled before anything is read, all at once."""
    problems: list[Problem] = []
    for block in {block.header: block for block in blocks.blocks}.values():
        columns = mapping.columns_of(block)
        if columns is None:
            problems.append(_other_shape(block, blocks.name))
            continue
        problems += _open(columns, block, blocks.name)
        problems += _twice(columns, block, blocks.name)
        problems += _lacking(columns, block, blocks, mapping.given) if not problems else []
    problems = problems or list(_without_shunt(mapping, blocks))
    if problems:
        raise SheetError(problems)


def _other_shape(block: Block, file: str) -> Problem:
    line, said = int(block.row_numbers[0]), " | ".join(block.header)[:200]
    reason = "The table has other headings than the mapping was made for."
    cure = "Let a mapping be proposed for this file, and settle it afresh."
    return Problem(reason, cure, file=file, line=line, key="header", value=said)


def _open(columns: Columns, block: Block, file: str) -> Iterator[Problem]:
    """A voltage or a current without a unit: the curve hangs on it."""
    for each in columns:
        if each.quantity in OF_A_POINT[:2] and not each.settled:
            units = ", ".join(each.choices or [unit.name for unit in units_of(each.kind)])
            shown = next((text for text in block.columns[each.column - 1] if text.strip()), "")
            reason = f"The unit of the {QUANTITIES[each.quantity].said} is not settled. {each.doubt}".strip()
            key = block.called(each.column - 1)
            yield Problem(reason, f"Say which: {units}.", file=file, key=key, value=shown)


def _twice(columns: Columns, block: Block, file: str) -> Iterator[Problem]:
    taken: dict[tuple[str, int], Taken] = {}
    for each in columns:
        if each.kind and (before := taken.setdefault((each.quantity, each.nth), each)) is not each:
            names = f"{block.called(before.column - 1)} and {block.called(each.column - 1)}"
            reason = f"{names} are both the {QUANTITIES[each.quantity].said} of the same sweep."
            yield Problem(reason, "Leave one unread, or give each a sweep of its own.", file=file)


def _lacking(columns: Columns, block: Block, blocks: Blocks, given: Table[str, float]) -> Iterator[Problem]:
    """A table needs a voltage, and a current or what gives one."""
    said = " | ".join(filter(None, block.header))[:200]
    where = {"file": blocks.name, "line": int(block.row_numbers[0]), "key": "header", "value": said}
    if not any(each.quantity == "voltage_v" for each in columns):
        cure = "Say in a kept mapping which column is the voltage."
        yield Problem("No column is known as the voltage.", cure, **where)  # type: ignore[arg-type]
    got = {each.quantity for each in columns if each.settled}
    if not got & {"current_a", "load_ohm", "shunt_v"} and not ("time" in got and _charges(block, given)):
        cure = (
            "Say in a kept mapping which is the current, or the voltage over a shunt, or the load in ohm; "
            "of a capacitor's sweep write 'Capacitor: 22 mF' above a table that has a time."
        )
        yield Problem("No column is known as the current.", cure, **where)  # type: ignore[arg-type]


def _without_shunt(mapping: CurveMapping, blocks: Blocks) -> Iterator[Problem]:
    """A block whose current is a voltage over a shunt says the shunt, or the mapping does."""
    for block in blocks.blocks:
        got = {each.quantity for each in mapping.columns_of(block) or () if each.settled}
        by_shunt = "shunt_v" in got and "current_a" not in got
        if by_shunt and "shunt_ohm" not in mapping.given and not _says_shunt(block):
            reason = "The current is a voltage over a shunt whose resistance is not said."
            cure = "Write a line 'Shunt: 10 mohm' above the table, or give shunt_ohm in the mapping."
            yield Problem(reason, cure, file=blocks.name, line=int(block.row_numbers[0]), key="shunt")
            return


def _charges(block: Block, given: Table[str, float]) -> bool:
    """Whether it is said which capacitor the panel charges."""
    return "capacity_f" in given or any(
        fact.quantity == "capacity_f" and fact.value > 0 for fact in block.facts
    )


def _says_shunt(block: Block) -> bool:
    return any(fact.quantity == "shunt_ohm" and fact.value > 0 for fact in block.facts)
