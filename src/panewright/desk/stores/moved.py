"""What came and went last, in words, and how it is taken back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.stores.taken_back import Numbered

_COUNTED = "counted"


@dataclass(frozen=True, slots=True)
class Went:
    """One movement."""

    number: int
    words: str
    by: str
    at: datetime


def recent(ledger: Ledger) -> tuple[Went, ...]:
    """The last ones, newest first."""
    from panewright.ledger.stores.taken_back import recent as found

    return tuple(Went(each.number, _words(each), each.moved.by, each.moved.at) for each in found(ledger))


def take_back(ledger: Ledger, number: int, hand: Who) -> None:
    """One of them taken back, by a row of its own."""
    from panewright.ledger.stores.taken_back import take_back as back

    back(ledger, number, by=hand.by, at=hand.at, tap=hand.tap)


def _words(each: Numbered) -> str:
    said, amount = each.moved.movement, each.moved.movement.amount
    lot = f", lot {said.lot}" if said.lot else ""
    if said.reason == _COUNTED:
        way = "more" if amount >= 0 else "fewer"
        return f"Counted {said.item}: {abs(amount):f} {said.unit} {way} than written{lot}"
    return f"{said.reason.capitalize()} {abs(amount):f} {said.unit} {said.item}{lot}"
