"""A process that puts a backup back, and says on its standard output how far it is: 0 to 100.

    python putter.py open|closed SHOP BACKUP NUMBER

'open' works as under open pages, and keeps what stood as BACKUP's neighbour; 'closed' as the command does.
"""

from __future__ import annotations

import os
import sys
from datetime import UTC, datetime
from pathlib import Path

from panewright.ledger.kept.put_back import Aside, put_back
from panewright.ledger.kept.restore import restore
from panewright.ledger.open import open_ledger

NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)


def aside(backup: Path, number: str) -> Path:
    """Where what stood is kept."""
    return backup.with_name(f"{number}-before.zip")


def _far(percent: int) -> None:
    os.write(1, f"{percent}\n".encode())


def main(how: str, shop: Path, backup: Path, number: str) -> None:
    """Put it back."""
    _far(0)
    if how == "open":
        ledger = open_ledger(shop / "shop.db", files=shop / "files")
        told = Aside(aside(backup, number), "0.1", "Ann", NOON)
        put_back(ledger, backup, told, room=shop / "scratch", told=_far)
    else:
        restore(backup, shop / "shop.db", files=shop / "files", at=datetime.now(UTC))
    _far(100)


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]), sys.argv[4])
