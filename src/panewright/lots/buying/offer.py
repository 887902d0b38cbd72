"""A lot as it is offered: what it costs, and what is believed of its cells."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from decimal import Decimal

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.model import CellModel
from panewright.circuit.mismatch.spread import Spread, drawn
from panewright.lots.buying.rate import Rate
from panewright.lots.buying.sample import Believed, Sample


@dataclass(frozen=True, slots=True)
class Grade:
    """Cells of one grade within a lot: where their middle lies about the kind, and how they scatter."""

    share: float  #: of the lot; the shares of a lot add to one
    light: float = 0.0  #: of the light current, as a share above the kind's
    voltage: float = 0.0  #: of the junction's voltage at equal light
    shunt_times: float = 1.0  #: the shunt, in times of the kind's
    spread: Spread = field(default_factory=Spread)

    def __post_init__(self) -> None:
        if not (0 <= self.share <= 1 and self.light > -1 and self.voltage > -1 and self.shunt_times > 0):
            raise ValueError(f"a grade has a share within 0..1 and cells that work, got {self}")


@dataclass(frozen=True, slots=True)
class Offer:
    """One lot of one seller."""

    name: str
    kind: CellModel
    price: Decimal  #: of a pack
    pack: int  #: cells in it
    carriage: Decimal  #: of a delivery
    grades: tuple[Grade, ...] = (Grade(1.0),)
    defects: Rate = field(default_factory=lambda: Rate.known("defects on arrival", 0.0))
    measured: bool = False  #: every cell comes with its figures, or will be measured: it can be sorted
    measuring: Decimal = Decimal(0)  #: what measuring one cell costs the maker
    sample: Sample | Believed | None = None  #: cells measured of it, which count in place of its grades

    def __post_init__(self) -> None:
        if self.pack < 1 or min(self.price, self.carriage, self.measuring) < 0:
            raise ValueError(f"a pack holds a cell or more and costs nothing below zero, got {self}")
        if not self.grades or abs(sum(grade.share for grade in self.grades) - 1) > 1e-6:
            raise ValueError(f"the shares of an offer's grades add to 1, got {self.grades}")

    def cost(self, packs: int) -> Decimal:
        """So many packs in one delivery, measured if they are to be; nothing for none."""
        if packs == 0:
            return Decimal(0)
        measuring = self.measuring * self.pack * packs if self.measured else Decimal(0)
        return self.price * packs + self.carriage + measuring


def believed(offer: Offer, dice: np.random.Generator) -> Offer:
    """The offer as it may be: what a sample leaves open is drawn, once for all its cells."""
    if isinstance(offer.sample, Sample):
        return replace(offer, sample=offer.sample.believed(dice))
    return offer


def drawn_cells(offer: Offer, count: int, dice: np.random.Generator) -> Diodes:
    """So many cells drawn from the lot, grades mixed: arrays (count,)."""
    if offer.sample is not None:
        lot = offer.sample.believed(dice) if isinstance(offer.sample, Sample) else offer.sample
        return lot.drawn(count, dice)
    grade = dice.choice(len(offer.grades), count, p=[each.share for each in offer.grades])
    base = Diodes.of((offer.kind.stc,))
    tables = [_of_grade(base, each, count, dice) for each in offer.grades]
    names = Diodes.__slots__
    return Diodes(*(np.choose(grade, [getattr(table, name) for table in tables]) for name in names))


def _of_grade(base: Diodes, grade: Grade, count: int, dice: np.random.Generator) -> Diodes:
    """Cells of one grade."""
    junction = base.ideality_v * np.log(base.light_a / base.saturation_a)
    middle = replace(
        base,
        light_a=base.light_a * (1 + grade.light),
        saturation_a=base.saturation_a * np.exp(-junction * grade.voltage / base.ideality_v),
        shunt_ohm=base.shunt_ohm * grade.shunt_times,
    )
    lot = drawn(middle, grade.spread, count, dice)
    return Diodes(*(getattr(lot, name)[:, 0] for name in Diodes.__slots__))
