"""Where a shop's records lie, and how they are opened to be looked after."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger


@dataclass(frozen=True, slots=True)
class Place:
    """A shop's folder, and where its records lie: a file in it, or a database by its URL."""

    folder: Path
    records: str

    @property
    def files(self) -> Path:
        """Where raw readings, photographs and reports lie."""
        return self.folder / "files"


def place(folder: Path | None, records: str = "") -> Place:
    """The shop meant: the folder said, or the one at home."""
    shop = (folder or Path.home() / "panewright").expanduser()
    return Place(shop, records or str(shop / "shop.db"))


def refuse_lost(records: str) -> None:
    """Refuse a file that is there and holds nothing: records that were lost are no new shop."""
    if "://" in records or not (file := Path(records)).is_file() or file.stat().st_size:
        return
    cure = (
        "Move it away, then put a backup back with panewright ledger restore; without it a new shop begins."
    )
    raise RecordError([Problem("the file of the records is empty: 0 bytes.", cure, file=records)])


@contextmanager
def opened(shop: Place) -> Iterator[Ledger]:
    """The records of a shop that is there: looking after them never begins a new one."""
    from panewright.ledger.open import open_ledger

    if "://" not in shop.records and not Path(shop.records).is_file():
        cure = "Name the shop's folder with --shop."
        raise RecordError([Problem("there are no records.", cure, file=shop.records)])
    refuse_lost(shop.records)
    ledger = open_ledger(shop.records, files=shop.files)
    try:
        yield ledger
    finally:
        ledger.close()
