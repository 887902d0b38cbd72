"""One column of a table and what it is taken for, whichever table it is: a lot's or a curve's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from panewright.intake.measure import UNITS, Unit
from panewright.intake.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Column:
    """A column, what it holds, in which unit, and why; each sort of table knows its own quantities."""

    column: int  #: from 1, as people count
    header: str
    quantity: str  #: '' where it is left unread
    unit: str = ""  #: '' for words, and where it is not settled
    why: str = ""
    doubt: str = ""  #: what a person should look at; '' where all is plain
    choices: tuple[str, ...] = ()  #: quantities, or units, that it may be
    written: str = ""  #: letters of a unit in the heading or under it, whatever they mean

    quantities: ClassVar[Mapping[str, Quantity]] = {}
    bare: ClassVar[str] = ""  #: what may stand for a unit and is none

    def __post_init__(self) -> None:
        if self.quantity and self.quantity not in self.quantities:
            raise ValueError(f"no such quantity of a column: {self.quantity}")
        if self.unit and self.unit != self.bare and self.unit_known is None:
            raise ValueError(f"{self.unit} is no unit of {self.quantity}")

    @staticmethod
    def units_of(kind: str) -> tuple[Unit, ...]:
        """The units that a kind of quantity is written in."""
        return UNITS.get(kind, ())

    @property
    def kind(self) -> str:
        """The kind of unit its quantity has; '' for words."""
        return self.quantities[self.quantity].kind if self.quantity else ""

    @property
    def unit_known(self) -> Unit | None:
        """Its unit, if it is settled."""
        return next((unit for unit in self.units_of(self.kind) if unit.name == self.unit), None)

    @property
    def settled(self) -> bool:
        """Whether it can be read."""
        return not self.kind or bool(self.unit)

    @property
    def which(self) -> str:
        """Which of several alike it is, as words behind its quantity; '' where it is the only one."""
        return ""

    def __str__(self) -> str:
        what = self.quantities[self.quantity].said if self.quantity else "not read"
        unit = f" in {self.unit}" if self.unit and self.unit != self.bare else ""
        doubt = f" LOOK: {self.doubt}" if self.doubt else ""
        return f"{self.header or f'column {self.column}'}: {what}{unit}{self.which} ({self.why}).{doubt}"
