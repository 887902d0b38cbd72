"""The shop: one folder with the records, the files, the keys, and what is being tried.

Everything that a page does to the records goes through here, each thing one function.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.actuals import OwnFigures
from panewright.desk.shop.arrays import Arrays
from panewright.desk.shop.at_bench import Bench
from panewright.desk.shop.drafts import Drafts
from panewright.desk.shop.orders import Orders
from panewright.desk.shop.serials import Serials
from panewright.desk.shop.stock import Stores

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.changes import Change
    from panewright.ledger.open import Ledger


class Shop(Orders, Serials, Bench, Stores, Arrays):
    """An open shop: all that can be asked of it, noun by noun."""

    def __init__(self, folder: Path, ledger: Ledger, drafts: Drafts) -> None:
        self.folder, self.ledger, self.drafts = folder, ledger, drafts
        self.own = OwnFigures(ledger)

    @classmethod
    def open(cls, folder: Path, records: str = "") -> Shop:
        """The shop in a folder, made where it is missing; `records` may be another database's URL."""
        from panewright.desk.records.place import refuse_lost
        from panewright.ledger.open import open_ledger

        refuse_lost(records or str(folder / "shop.db"))
        for each in (folder, folder / "files", folder / "keys", folder / "backups"):
            each.mkdir(parents=True, exist_ok=True, mode=0o700)
        ledger = open_ledger(records or folder / "shop.db", files=folder / "files")
        return cls(folder, ledger, Drafts(folder / "drafts.db"))

    def close(self) -> None:
        """Close the files."""
        self.drafts.close()
        self.ledger.close()

    # What is tried on a panel

    def cells(self, number: str) -> dict[int, str]:
        """The cells that somebody tries something on."""
        return self.drafts.cells(number)

    def try_cells(self, number: str, cells: Mapping[int, str], who: Who) -> bool:
        """Shade, crack, swap or mend cells; False where this tap came before."""
        return self.drafts.mark(number, cells, tap=who.tap, now_s=who.at.timestamp())

    # What pages follow

    def newest_change(self) -> int:
        """The number of the last thing written."""
        from panewright.ledger.changes import newest

        return newest(self.ledger)

    def changes(self, since_number: int) -> tuple[Change, ...]:
        """What was written after that."""
        from panewright.ledger.changes import since

        return since(self.ledger, since_number)
