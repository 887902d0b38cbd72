"""Where a panel lay and lies: one line for each place that it had, from a day to a day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from panewright.ledger.arrays.layings import LayingKept, layings_with
from panewright.ledger.open import Ledger


@dataclass(frozen=True, slots=True)
class Stay:
    """A panel at one place of one array."""

    array: str
    string: int
    place: int
    since: date
    by: str
    until: date | None = None  #: None while it lies there
    why: str = ""  #: it left


def stays(ledger: Ledger, serial: str) -> tuple[Stay, ...]:
    """Every place that a panel had, oldest first; the last one has no end while it lies there."""
    return tuple(sorted(_stays(layings_with(ledger, serial), serial), key=lambda stay: stay.until is None))


def _stays(told: tuple[LayingKept, ...], serial: str) -> Iterator[Stay]:
    """Layings of several arrays stand in the order in which they were told: a place goes on or ends."""
    stands: dict[str, Stay] = {}
    for each in told:
        now = next(
            (_stay(each, lies.string, lies.place) for lies in each.places if lies.panel == serial), None
        )
        before = stands.get(each.array)
        if before and now and (before.string, before.place) == (now.string, now.place):
            continue
        if before:
            yield replace(before, until=each.day, why=each.reason)
        if now:
            stands[each.array] = now
        else:
            stands.pop(each.array, None)
    yield from stands.values()


def _stay(each: LayingKept, string: int, place: int) -> Stay:
    return Stay(each.array, string, place, each.day, each.by)
