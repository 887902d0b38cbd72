"""The stock of an open shop: what came, went, was counted, and is left over."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.stores.lots import LotVersion
    from panewright.ledger.stores.stock import Movement, Remnant, Stock


@dataclass(frozen=True, slots=True)
class Shelved:
    """What lies on the shelf."""

    stock: tuple[Stock, ...]
    remnants: tuple[Remnant, ...]
    lots: tuple[LotVersion, ...]
    expiring: tuple[str, ...]  #: marks of lots past their day within a month


class Stores:
    """What an open shop does with its stock."""

    ledger: Ledger

    def stock(self) -> Shelved:
        """What is there, the pieces left over, and the lots."""
        from panewright.ledger.stores.lots import expiring, lots
        from panewright.ledger.stores.stock import remnants, stock

        today = datetime.now(UTC).date()
        return Shelved(
            stock(self.ledger),
            remnants(self.ledger),
            lots(self.ledger),
            tuple(each.mark for each in expiring(self.ledger, today + timedelta(days=30))),
        )

    def move(self, movement: Movement, who: Who) -> None:
        """Something came in or went out."""
        from panewright.ledger.stores.stock import move

        move(self.ledger, movement, by=who.by, at=who.at, tap=who.tap)

    def count(self, item: str, unit: str, amount: Decimal, who: Who) -> None:
        """What was counted."""
        from panewright.ledger.stores.stock import count

        count(self.ledger, item, unit, amount, by=who.by, at=who.at, tap=who.tap)

    def keep_remnant(self, remnant: Remnant, who: Who) -> None:
        """A piece left over."""
        from panewright.ledger.stores.stock import keep_remnant

        keep_remnant(self.ledger, remnant, by=who.by, at=who.at, tap=who.tap)

    def use_remnant(self, mark: str, state: str, who: Who) -> None:
        """A piece cut up or thrown away."""
        from panewright.ledger.stores.stock import use_remnant

        use_remnant(self.ledger, mark, state=state, by=who.by, at=who.at, tap=who.tap)
