"""Boxes of kits as they are packed: every line ticked under the serial of its box."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger

LINE = "kit"  #: how the keys of lines begin, beside those of the steps at the bench


def boxes(ledger: Ledger, number: str) -> tuple[str, ...]:
    """The serials of an order that are begun; each is one box."""
    from panewright.ledger.serials import serials

    return tuple(each.serial for each in serials(ledger, order=number))


def ticked(ledger: Ledger, box: str) -> dict[str, tuple[str, datetime]]:
    """The lines that lie in a box: who put them there, and when."""
    from panewright.ledger.steps import ticks

    return {
        each.step: (each.by, each.at)
        for each in ticks(ledger, box)
        if each.done and each.step.startswith(LINE)
    }


def tick(ledger: Ledger, number: str, box: str, line: str, *, done: bool, who: Who) -> None:
    """A line lies in the box, or is taken out again."""
    from panewright.ledger.steps import tick as keep

    if box not in boxes(ledger, number) or not line.startswith(LINE):
        raise RecordError([Problem("This order has no such box or line.", "Load the page again.", key="box")])
    keep(ledger, box, line, by=who.by, at=who.at, done=done, tap=who.tap)
