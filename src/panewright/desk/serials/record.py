"""The record of a serial for a page: its life, in the units that its order has."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.bench.hours import span
from panewright.desk.bench.readings import TAKEN_BACK

if TYPE_CHECKING:
    from panewright.desk.shop.shop import Shop
    from panewright.ledger.bench.readings import ReadingKept
    from panewright.ledger.serials.laid import Laid
    from panewright.ledger.serials.life import Life
    from panewright.ledger.serials.steps import Tick


@dataclass(frozen=True, slots=True)
class Row:
    """One reading."""

    key: str
    step: str
    what: str
    value: str
    around: str  #: light, heat and instrument
    wrong: str  #: with the instrument's calibration
    stands: bool
    ended: str  #: why it no longer stands
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Record:
    """Everything that is known of a panel."""

    life: Life
    readings: tuple[Row, ...]
    built: tuple[str, ...]  #: as it was told last, in lines
    lying: tuple[Laid, ...]  #: cells by their marks, by their places
    broken: tuple[Laid, ...]  #: cells that broke as they were laid
    minutes: str  #: in all; empty where nobody told any


def record(shop: Shop, serial: str) -> Record:
    """A panel's record."""
    from panewright.desk.orders.form import value_of
    from panewright.ledger.serials.telling_built import lines_of

    life = shop.life(serial)
    texts = {each.version: each.text for each in shop.versions(life.serial.order)}
    units = value_of(texts.get(life.design.version, ""), "order.units") or "metric"
    built = tuple(lines_of(life.builts[-1])) if life.builts else ()
    last = {each.place: each for each in life.laid}
    lying = tuple(each for _, each in sorted(last.items()) if each.what == "laid")
    broken = tuple(each for each in life.laid if each.what == "broken")
    rows = tuple(_row(each, units) for each in life.readings)
    return Record(life, rows, built, lying, broken, _minutes(life))


def _row(kept: ReadingKept, units: str) -> Row:
    from panewright.units import show

    reading = kept.reading
    around = [show(reading.light_w_m2, "W/m2", units)] if reading.light_w_m2 is not None else []
    around += [show(reading.heat_c, "degC", units)] if reading.heat_c is not None else []
    around += [reading.instrument] if reading.instrument else []
    back = reading.note == TAKEN_BACK
    return Row(
        reading.quantity,
        reading.step,
        _words(reading.quantity.partition(".")[2] or reading.quantity),
        show(reading.value, reading.unit, units),
        ", ".join(around),
        "its calibration had run out" if kept.overdue else "",
        not kept.corrected and not back,
        TAKEN_BACK if back else "corrected later" if kept.corrected else "",
        kept.by,
        kept.at,
    )


def _words(key: str) -> str:
    return key.replace("-", " ").capitalize()


def _minutes(life: Life) -> str:
    """Minutes of the ticks that stand and those beside them, added up."""
    told: dict[str, Decimal] = {each.step: each.minutes for each in _last(life) if each.minutes is not None}
    for each in life.hours:
        told[each.step] = told.get(each.step, Decimal(0)) + each.minutes
    steps = [minutes for minutes in told.values() if minutes > 0]
    over = f"{len(steps)} {'step' if len(steps) == 1 else 'steps'}"
    return f"{span(sum(steps, Decimal(0)))} over {over}" if steps else ""


def _last(life: Life) -> Iterator[Tick]:
    """The ticks that stand."""
    return (each for each in {each.step: each for each in life.ticks}.values() if each.done)
