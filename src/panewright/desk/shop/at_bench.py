"""The bench of an open shop: steps ticked and clocks run."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.bench.readings import ReadingKept
    from panewright.ledger.files import Attached
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials.hours import Spent
    from panewright.ledger.serials.serials import Serial
    from panewright.ledger.serials.steps import Tick, Timer


@dataclass(frozen=True, slots=True)
class AtBench:
    """What the records say of a panel on the bench."""

    serial: Serial
    text: str  #: of the order's version that it is built by
    ticks: tuple[Tick, ...]
    clocks: tuple[Timer, ...]
    read: tuple[ReadingKept, ...]
    papers: tuple[Attached, ...]
    hours: tuple[Spent, ...]  #: minutes beside the ticks


class Bench:
    """What an open shop does at the bench."""

    ledger: Ledger

    def bench(self, serial: str) -> AtBench:
        """All that the bench page asks of the records."""
        from panewright.desk.bench.readings import standing
        from panewright.ledger.files import attached
        from panewright.ledger.orders.designs import design_of_serial
        from panewright.ledger.orders.orders import versions
        from panewright.ledger.serials.hours import hours
        from panewright.ledger.serials.serials import find_serial
        from panewright.ledger.serials.steps import ticks, timers

        found = find_serial(self.ledger, serial)
        design = design_of_serial(self.ledger, serial)
        text = next(
            each.text for each in versions(self.ledger, found.order) if each.version == design.version
        )
        return AtBench(
            found,
            text,
            ticks(self.ledger, serial),
            timers(self.ledger, serial),
            standing(self.ledger, serial),
            attached(self.ledger, serial=serial),
            hours(self.ledger, serial),
        )

    def tick(self, serial: str, step: str, done: bool, who: Who, minutes: Decimal | None = None) -> None:
        """Tick a step, with the minutes where somebody tells them, or take the tick back."""
        from panewright.ledger.serials.steps import tick

        told = minutes if done else None
        tick(self.ledger, serial, step, by=who.by, at=who.at, done=done, minutes=told, tap=who.tap)

    def start_clock(self, serial: str, step: str, wait: timedelta, who: Who) -> None:
        """Start a step's clock."""
        from panewright.ledger.serials.steps import start_timer

        start_timer(self.ledger, serial, step, by=who.by, at=who.at, ends=who.at + wait, tap=who.tap)

    def stop_clock(self, serial: str, step: str, who: Who) -> None:
        """Stop it."""
        from panewright.ledger.serials.steps import stop_timer

        stop_timer(self.ledger, serial, step, by=who.by, at=who.at, tap=who.tap)
