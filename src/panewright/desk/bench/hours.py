"""Minutes at a step told beside its tick: written down, taken back, and added up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.bench.typed import minutes_of
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials.hours import Spent
    from panewright.ledger.serials.steps import Tick

_MOST = Decimal(24 * 60)


@dataclass(frozen=True, slots=True)
class Wrote:
    """Minutes that somebody wrote down at a step."""

    number: int
    minutes: str
    note: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Took:
    """What a step took so far."""

    total: str = ""  #: in words; empty where nobody told any
    wrote: tuple[Wrote, ...] = ()  #: beside the tick


def keep(ledger: Ledger, serial: str, step: str, *, typed: Mapping[str, str], hand: Who) -> int:
    """Minutes written down; the number by which they are taken back."""
    from panewright.ledger.stores.actuals import add_minutes

    minutes = minutes_of(typed.get("minutes", ""))
    if minutes is None or not 0 < minutes <= _MOST:
        cure = "Write minutes, such as 25, or 1:20; a day at most."
        raise RecordError([Problem("No minutes are written.", cure, key="minutes")])
    note = " ".join(typed.get("note", "").split())[:200]
    return add_minutes(ledger, step, minutes, serial=serial, by=hand.by, at=hand.at, note=note, tap=hand.tap)


def take_back(ledger: Ledger, serial: str, number: int, hand: Who) -> None:
    """Those minutes do not count after all."""
    from panewright.ledger.serials.hours import take_back as back

    back(ledger, serial, number, by=hand.by, at=hand.at, tap=hand.tap)


def took(step: str, ticks: Sequence[Tick], hours: Sequence[Spent]) -> Took:
    """What a step took: with its tick, where that stands, and beside it."""
    mine = [each for each in hours if each.step == step]
    told = [each.minutes for each in ticks if each.step == step and each.done and each.minutes is not None]
    total = sum((each.minutes for each in mine), sum(told, Decimal(0)))
    wrote = tuple(Wrote(each.number, span(each.minutes), each.note, each.by, each.at) for each in mine)
    return Took(span(total) if total else "", wrote)


def span(minutes: Decimal) -> str:
    """Minutes in words.

    >>> span(Decimal(25)), span(Decimal("80.0")), span(Decimal("7.5"))
    ('25 min', '1 h 20 min', '7.5 min')
    """
    hours, rest = divmod(minutes, 60)
    said = f"{rest.normalize():f} min"
    return f"{hours:f} h {said}" if hours else said
