"""What comes after a panel left the shop: claims and repairs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger

_MOST = 2000


def keep_claim(ledger: Ledger, serial: str, typed: Mapping[str, str], hand: Who) -> None:
    """What the customer says is wrong."""
    from panewright.ledger.serials.repairs import claim

    claim(ledger, serial, _words(typed), by=hand.by, at=hand.at, tap=hand.tap)


def keep_repair(ledger: Ledger, serial: str, typed: Mapping[str, str], hand: Who) -> None:
    """What was done, and which claim it answers."""
    from panewright.ledger.serials.repairs import repair

    said = typed.get("claim", "")
    answers = int(said) if said.isdecimal() and len(said) < 10 else None
    repair(ledger, serial, _words(typed), claim=answers, by=hand.by, at=hand.at, tap=hand.tap)


def _words(typed: Mapping[str, str]) -> str:
    words = typed.get("words", "").strip()
    cure = f"Write it in a sentence or two, {_MOST} letters at most."
    if not words:
        raise RecordError([Problem("Nothing is written.", cure, key="words")])
    if len(words) > _MOST:
        long = f"This is longer than {_MOST} letters, and nothing was kept of it."
        raise RecordError([Problem(long, cure, key="words", value=f"{words[:40]}…")])
    return words
