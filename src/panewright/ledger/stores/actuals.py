"""What the work really took: minutes a step, what broke and what was wasted, for the next estimate.

Only the panels begun last count: hands get quicker, and a shop's habits of three years ago say little.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Connection, case, func, select

from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.columns import Amount
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.tables.serials import StepRow as Steps
from panewright.ledger.tables.stock import HoursRow as Hours
from panewright.ledger.tables.stock import MovementRow as Movements
from panewright.ledger.writing import add, known, write

PANELS = 200  #: begun last, that count
MOVEMENTS = 5_000  #: of material, the last, that count


@dataclass(frozen=True, slots=True)
class StepTook:
    """Minutes that a step took, over the panels on which they were told."""

    step: str
    panels: int
    minutes: Decimal  #: in all

    @property
    def each(self) -> Decimal:
        """Minutes a panel."""
        return self.minutes / self.panels


@dataclass(frozen=True, slots=True)
class Told:
    """Minutes that a step took on one panel."""

    serial: str
    design: int  #: id of the design that the panel was begun by
    step: str
    minutes: Decimal


@dataclass(frozen=True, slots=True)
class Lost:
    """How much of an item went into panels, broke, and was wasted."""

    item: str
    unit: str
    used: Decimal
    broken: Decimal
    wasted: Decimal

    @property
    def lost(self) -> Decimal:
        """Broken and wasted."""
        return self.broken + self.wasted

    @property
    def broken_share(self) -> Decimal:
        """Share that broke of all that was taken up."""
        taken = self.used + self.broken + self.wasted
        return self.broken / taken if taken else Decimal(0)

    @property
    def wasted_share(self) -> Decimal:
        """Share that was wasted of all that was taken up."""
        taken = self.used + self.broken + self.wasted
        return self.wasted / taken if taken else Decimal(0)


def minutes_by_step(ledger: Ledger, *, panels: int = PANELS) -> tuple[StepTook, ...]:
    """Minutes told with the ticks that stand, step by step, with those told beside them."""
    found: dict[str, list[Decimal]] = {}
    for each in minutes_of_panels(ledger, panels=panels):
        found.setdefault(each.step, []).append(each.minutes)
    return tuple(StepTook(step, len(told), sum(told, Decimal(0))) for step, told in found.items())


def minutes_of_panels(ledger: Ledger, *, panels: int = PANELS) -> tuple[Told, ...]:
    """The same panel by panel, in the order in which steps were first told."""
    told = (Serials.serial, Serials.design_id)
    ticked = select(*told, Steps.step, Steps.minutes, Steps.done).join(Serials, Steps.serial_id == Serials.id)
    beside = (
        select(*told, Hours.step, func.sum(Hours.minutes))
        .join(Serials, Serials.id == Hours.serial_id)
        .group_by(Serials.id, *told, Hours.step)
        .order_by(Serials.id, Hours.step)
    )
    with ledger.reading() as db:
        first = _first_that_counts(db, panels)
        ticks = db.execute(ticked.where(Steps.serial_id >= first).order_by(Steps.id)).all()
        rows = [*_standing(ticks), *db.execute(beside.where(Hours.serial_id >= first))]
    minutes: dict[tuple[str, int, str], Decimal] = {}
    for serial, design, step, took in rows:
        minutes[serial, design, step] = minutes.get((serial, design, step), Decimal(0)) + took
    return tuple(Told(*key, took) for key, took in minutes.items() if took > 0)


def _first_that_counts(db: Connection, panels: int) -> int:
    """The key of the panel so many before the newest: a range of keys is read by its index anywhere."""
    begun = select(Serials.id).order_by(Serials.id.desc())
    return db.scalar(begun.offset(max(0, panels - 1)).limit(1)) or 0


def _standing(ticks: Iterable[Any]) -> Iterator[tuple[str, int, str, Decimal]]:
    """Of each step of each panel the tick that came last, where it is done and tells its minutes."""
    last = {(serial, step): (design, minutes, done) for serial, design, step, minutes, done in ticks}
    for (serial, step), (design, minutes, done) in last.items():
        if done and minutes is not None:
            yield serial, design, step, minutes


def losses(ledger: Ledger) -> tuple[Lost, ...]:
    """What broke and what was wasted, item by item, over the movements of material that came last."""
    gone = ("used", "broken", "wasted")
    last = (
        select(Movements.item, Movements.unit, Movements.reason, Movements.amount)
        .where(Movements.reason.in_(gone))
        .order_by(Movements.id.desc())
        .limit(MOVEMENTS)
        .subquery()
    )
    sums = [
        func.sum(case((last.c.reason == reason, -last.c.amount), else_=0), type_=Amount()) for reason in gone
    ]
    wanted = select(last.c.item, last.c.unit, *sums).group_by(last.c.item, last.c.unit)
    with ledger.reading() as db:
        return tuple(sorted(all_of(db, wanted, Lost), key=lambda each: (each.item, each.unit)))


def add_minutes(
    ledger: Ledger,
    step: str,
    minutes: Decimal,
    *,
    by: str,
    at: datetime,
    serial: str = "",
    order: str = "",
    note: str = "",
    tap: str = "",
) -> int:
    """Keep time spent beside a ticked step, on a panel or on an order; the number of its row.

    Below zero takes some back; `ledger.hours.take_back` does so row by row.
    """

    def work(db: Connection) -> int:
        keys = {
            "serial_id": known(db, Serials.serial, serial, "serial") if serial else None,
            "order_id": known(db, Orders.number, order, "order") if order else None,
        }
        return add(db, Hours, step=step, minutes=minutes, note=note, who=by, at=at, **keys)

    return write(ledger, work, kind="hours", key=serial or order or step, at=at, tap=tap)
