"""Which column of a table is which reading, in which unit: proposed, shown to a person, settled, kept.

A mapping is kept as TOML beside the lot and used again for every file of the same shape: the same headings in
the same order. What could not be told stands in it as a doubt; what has no unit yet must be settled first.
"""

from __future__ import annotations

from collections.abc import Mapping as Table
from dataclasses import dataclass, field, replace
from typing import ClassVar

from panewright.errors import Problem, SheetError
from panewright.intake.column import Column
from panewright.intake.measure import UNITS, Unit, unit_of
from panewright.intake.quantity import QUANTITIES, Quantity
from panewright.intake.sheet import Sheet

#: what may hold for every row alike, where no column says it: light, heat, the fixed voltages
GIVEN = ("irradiance_w_m2", "cell_c", "at_v", "reverse_v")
UNKNOWN = "unknown"  #: of the light: a person was asked, and nobody knows
#: what a cell shows by its light alone
LIT = frozenset({"isc_a", "voc_v", "at_a", "imp_a", "vmp_v", "pmp_w", "efficiency"})
#: what tells a cell: light, heat or a voltage put on are alike for a good one and a bad one
OF_A_CELL = LIT | {"fill_factor", "shunt_ohm", "reverse_a"}
LIGHT_CURE = (
    "Say which: STC of a seller's flash list (1000 W/m2 at 25 degC), the light they were read in, such as "
    f'"850 W/m2", or {UNKNOWN}.'
)
#: shared by all readings of a row, unless a reading has a column of its own
SHARED = frozenset({"mark", "grade", "remark", "time", "irradiance_w_m2", "cell_c"})
LIGHT = "irradiance_w_m2"
#: kinds of quantities that a meter shows below zero where its leads are turned round
SIGNED = frozenset({"current", "voltage", "power", "light"})
_FULL_SUN_W_M2 = 1000.0  # in which reference cells are calibrated, IEC 60904-2, recalled


@dataclass(frozen=True, slots=True)
class Bound(Column):
    """One column of a lot's table and what it holds."""

    reading: int = 0  #: which of a row's several readings; 0 for the first, and for what all share
    at_v: float | None = None  #: the fixed voltage its heading says, below zero if put on backwards
    turned: bool = False  #: its sign is turned: read as a load counts it, or with the leads turned round
    full_sun: float | None = None  #: what a reference cell shows in 1000 W/m2, as its column is written

    quantities: ClassVar[Table[str, Quantity]] = QUANTITIES

    def __post_init__(self) -> None:
        Column.__post_init__(self)
        if self.full_sun is not None and (self.quantity != LIGHT or self.unit or self.full_sun <= 0):
            raise ValueError(f"a reference cell's light has a full sun above 0 and no unit: {self}")
        if self.turned and self.kind not in SIGNED:
            raise ValueError(f"{self.quantity or 'what is not read'} has no sign to turn")

    @property
    def settled(self) -> bool:
        """Whether it can be read."""
        return not self.kind or bool(self.unit) or self.full_sun is not None

    @property
    def read_in(self) -> Unit | None:
        """Its unit with the sign and the scale that a person said; None where it is not settled."""
        unit = self.unit_known
        if self.full_sun is not None:
            unit = Unit(self.written, "light", _FULL_SUN_W_M2 / self.full_sun)
        return replace(unit, factor=-unit.factor) if unit and self.turned else unit

    @property
    def may_be_reference(self) -> bool:
        """Whether it may be a reference cell's light: volts or amperes that nothing else is read of."""
        electric = unit_of(self.written, "voltage") or unit_of(self.written, "current")
        return self.full_sun is not None or (self.quantity in ("", LIGHT) and electric is not None)

    @property
    def which(self) -> str:
        """Its sign and scale where they are not as written; which reading of a row, after the first."""
        sun = "" if self.full_sun is None else f", {self.full_sun:g} {self.written}".rstrip() + " is full sun"
        nth = f", reading {self.reading}" if self.reading > 1 else ""
        return f"{sun}{', its sign turned' if self.turned else ''}{nth}"


@dataclass(frozen=True, slots=True)
class Mapping:
    """Every column of a table, and what holds for all its rows."""

    bound: tuple[Bound, ...]
    decimal_mark: str = "."
    given: Table[str, float] = field(default_factory=dict)  #: of GIVEN, in SI
    light: str = (
        ""  #: UNKNOWN where a person says so; '' where a column or `given` tells it, or nobody was asked
    )
    errors: Table[str, float] = field(default_factory=dict)  #: of the readings, as `accuracy` keeps them

    def __post_init__(self) -> None:
        if self.light not in ("", UNKNOWN):
            raise ValueError(f"a light that is told stands in given, got {self.light!r}")
        if self.decimal_mark not in (".", ","):
            raise ValueError(f"decimals are marked by a point or a comma, got {self.decimal_mark!r}")
        if strange := set(self.given) - set(GIVEN):
            raise ValueError(f"cannot be given for all rows: {sorted(strange)}")

    @property
    def shape(self) -> tuple[str, ...]:
        """The headings, in order."""
        return tuple(each.header for each in self.bound)

    @property
    def open_light(self) -> bool:
        """Whether a person must say in which light the cells were read."""
        quantities = {each.quantity for each in self.bound}
        told = "irradiance_w_m2" in quantities or "irradiance_w_m2" in self.given or self.light == UNKNOWN
        return bool(quantities & LIT) and not told

    @property
    def doubts(self) -> tuple[str, ...]:
        """What a person should look at before the lot is read."""
        return tuple(str(each) for each in self.bound if each.doubt)

    def settle(
        self,
        column: int,
        quantity: str | None = None,
        unit: str | None = None,
        *,
        reading: int | None = None,
        at_v: float | None = None,
        turned: bool | None = None,
        full_sun: float | None = None,
    ) -> Mapping:
        """The same, with one column as a person says it is; what is not said stays. Its doubt is then gone.

        A column that becomes another quantity keeps the unit written over it, if that is one of its kind. A
        full sun makes a reference cell's light of it, one of 0 no more.
        """
        old = self.bound[column - 1]
        sun = old.full_sun if full_sun is None else full_sun
        what = LIGHT if full_sun else old.quantity if quantity is None else quantity
        sun = sun if sun and what == LIGHT and not unit else None
        if unit is None:
            unit = old.unit if what == old.quantity else _written_unit(old.written, what)
        nth, volts = old.reading if reading is None else reading, old.at_v if at_v is None else at_v
        is_turned = (old.turned if turned is None else turned) and what and QUANTITIES[what].kind in SIGNED
        plain = replace(old, why="as settled", doubt="", choices=(), reading=nth, at_v=volts, turned=False)
        new = replace(plain, quantity=what, unit="" if sun else unit, full_sun=sun, turned=bool(is_turned))
        return replace(self, bound=(*self.bound[: column - 1], new, *self.bound[column:]))

    def giving(self, **figures: float) -> Mapping:
        """The same, with light, heat or a voltage, in SI, that holds for every row alike.

        >>> Mapping(()).giving(at_v=0.5).given
        {'at_v': 0.5}
        """
        light = "" if "irradiance_w_m2" in figures else self.light
        return replace(self, given={**self.given, **figures}, light=light)

    def unlit(self) -> Mapping:
        """The same, for cells of which nobody knows in which light they were read."""
        given = {name: value for name, value in self.given.items() if name != "irradiance_w_m2"}
        return replace(self, given=given, light=UNKNOWN)


def _written_unit(written: str, quantity: str) -> str:
    unit = unit_of(written, QUANTITIES[quantity].kind) if quantity else None
    return unit.name if unit else ""


def refuse_unfit(mapping: Mapping, sheet: Sheet) -> None:
    """A table of another shape than the mapping was made for is not read by it."""
    if mapping.shape == sheet.header:
        return
    gone = [each for each in mapping.shape if each not in sheet.header]
    new = [each for each in sheet.header if each not in mapping.shape]
    told = [f"it lacks {', '.join(map(repr, gone[:6]))}"] * bool(gone)
    told += [f"it has {', '.join(map(repr, new[:6]))} instead"] * bool(new)
    reason = (
        f"The table has other columns than the mapping: {'; '.join(told) or 'the same in another order'}."
    )
    cure = "Let a mapping be proposed for this table, and settle it afresh."
    raise SheetError(
        [Problem(reason, cure, file=sheet.name, key="header", value=", ".join(sheet.header)[:200])]
    )


def refuse_unsettled(mapping: Mapping, sheet: Sheet) -> None:
    """What must be settled before anything is read, all at once."""
    problems = [_unsettled(each, sheet) for each in mapping.bound if not each.settled]
    if not any(each.quantity in OF_A_CELL for each in mapping.bound):
        cure = (
            "Say of at least one column which reading it holds: on the page of the lot, or in the file that "
            "`lot read --keep` writes and `--mapping` names."
        )
        problems.append(Problem("No column of the table is a reading of a cell.", cure, file=sheet.name))
    if sum(each.quantity == "mark" for each in mapping.bound) > 1:
        cure = "Leave all but one of them unread."
        problems.append(Problem("More than one column is the cell's mark.", cure, file=sheet.name))
    problems += list(_twice(mapping, sheet)) + list(_voltages(mapping, sheet))
    if mapping.open_light:
        problems.append(light_open(sheet.name))
    if problems:
        raise SheetError(problems)


def light_open(file: str) -> Problem:
    """The question in which light a table was read, as its other open columns are asked."""
    reason = "No row tells in which light the cells were read: how good they are hangs on it."
    return Problem(reason, LIGHT_CURE, file=file, key="light")


def _unsettled(each: Bound, sheet: Sheet) -> Problem:
    units = ", ".join(each.choices or [unit.name for unit in UNITS[each.kind]])
    shown = next((text for text in sheet.columns[each.column - 1] if text.strip()), "")
    reason = f"The unit of {QUANTITIES[each.quantity].said} is not settled. {each.doubt}".strip()
    return Problem(
        reason, f"Say which: {units}.", file=sheet.name, key=sheet.called(each.column - 1), value=shown
    )


def _twice(mapping: Mapping, sheet: Sheet) -> list[Problem]:
    taken: dict[tuple[str, int], Bound] = {}
    problems = []
    for each in mapping.bound:
        if not each.kind:
            continue
        before = taken.setdefault((each.quantity, max(each.reading, 1)), each)
        if before is not each:
            names = f"{sheet.called(before.column - 1)} and {sheet.called(each.column - 1)}"
            reason = f"{names} are both {QUANTITIES[each.quantity].said} of the same reading."
            problems.append(
                Problem(reason, "Leave one unread, or give it a reading of its own.", file=sheet.name)
            )
    return problems


def _voltages(mapping: Mapping, sheet: Sheet) -> list[Problem]:
    """A current at a fixed voltage needs that voltage; one backwards is read without, and tells less."""
    column = any(each.quantity == "at_v" for each in mapping.bound)
    return [
        Problem(
            "It is a current at a fixed voltage, but no column, heading or given figure says which.",
            "Give at_v for all rows, or say that it is another current.",
            file=sheet.name,
            key=sheet.called(each.column - 1),
        )
        for each in mapping.bound
        if each.quantity == "at_a" and each.at_v is None and not column and "at_v" not in mapping.given
    ]
