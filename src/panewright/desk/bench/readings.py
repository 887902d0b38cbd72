"""Readings of a panel: kept, corrected and taken back, each by a row of its own."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.bench.typed import Typed
    from panewright.desk.shop.who import Who
    from panewright.ledger.bench.readings import ReadingKept
    from panewright.ledger.open import Ledger

TAKEN_BACK = "taken back"


def standing(ledger: Ledger, serial: str) -> tuple[ReadingKept, ...]:
    """The readings of a panel that nobody has corrected or taken back."""
    from panewright.ledger.bench.readings import readings

    return tuple(
        each
        for each in readings(ledger, serial=serial)
        if not each.corrected and each.reading.note != TAKEN_BACK
    )


def keep(ledger: Ledger, serial: str, step: str, key: str, *, typed: Typed, hand: Who) -> None:
    """Keep a reading; one that was kept before stays in the records and is corrected."""
    from panewright.ledger.bench.readings import Reading, read

    before = _last(ledger, serial, step, key)
    reading = Reading(
        key,
        typed.value,
        typed.unit,
        serial=serial,
        step=step,
        light_w_m2=typed.light_w_m2,
        heat_c=typed.heat_c,
        instrument=typed.meter,
        corrects=before.id if before else None,
    )
    read(ledger, reading, by=hand.by, at=hand.at, tap=hand.tap)


def take_back(ledger: Ledger, serial: str, step: str, key: str, hand: Who) -> None:
    """The reading before the last once more; where there is none, the last no longer counts."""
    from panewright.ledger.bench.readings import read, readings

    last = _last(ledger, serial, step, key)
    if last is None:
        problem = Problem("There is no such reading.", "Load the page again.", key="reading", value=key[:40])
        raise RecordError([problem])
    known = {each.id: each for each in readings(ledger, serial=serial)}
    before = known.get(last.reading.corrects or 0)
    if before is None or before.reading.note == TAKEN_BACK:
        fresh = replace(last.reading, corrects=last.id, note=TAKEN_BACK)
    else:
        fresh = replace(before.reading, corrects=last.id, note="as before")
    read(ledger, fresh, by=hand.by, at=hand.at, tap=hand.tap)


def _last(ledger: Ledger, serial: str, step: str, key: str) -> ReadingKept | None:
    """The row that stands for a reading, one that takes it back among them."""
    from panewright.ledger.bench.readings import readings

    rows = [
        each
        for each in readings(ledger, serial=serial)
        if (each.reading.step, each.reading.quantity) == (step, key) and not each.corrected
    ]
    return rows[-1] if rows else None
