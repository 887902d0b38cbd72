"""Boxes of kits as they are packed: every line ticked under the serial of its box."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger

LINE = "kit"  #: how the keys of lines begin
MOST_LETTERS = 200  #: of a key


def boxes(ledger: Ledger, number: str) -> tuple[str, ...]:
    """The serials of an order that are begun; each is one box."""
    from panewright.ledger.serials.serials import serials

    return tuple(each.serial for each in serials(ledger, order=number))


def ticked(ledger: Ledger, box: str) -> dict[str, tuple[str, datetime]]:
    """The lines that lie in a box: who put them there, and when."""
    from panewright.ledger.orders.kits import packed

    return {each.line: (each.by, each.at) for each in packed(ledger, box) if each.done}


def tick(ledger: Ledger, number: str, box: str, line: str, *, done: bool, who: Who) -> None:
    """A line lies in the box, or is taken out again."""
    from panewright.ledger.orders.kits import pack

    if box not in boxes(ledger, number) or not line.startswith(LINE) or len(line) > MOST_LETTERS:
        raise RecordError([Problem("This order has no such box or line.", "Load the page again.", key="box")])
    pack(ledger, box, line, by=who.by, at=who.at, done=done, tap=who.tap)
