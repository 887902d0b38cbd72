"""What an array's text names beside itself, out of the records: orders by number, weather files."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger


def beside(ledger: Ledger) -> Callable[[str], bytes]:
    """The text of an order by its number, or a file that was kept under that name."""
    from panewright.ledger.files import fetch, newest_named
    from panewright.ledger.orders.orders import find_order

    def found(name: str) -> bytes:
        with suppress(RecordError):
            return find_order(ledger, name).text.encode()
        with suppress(RecordError):
            return find_order(ledger, name.rpartition("/")[2].removesuffix(".toml")).text.encode()
        file = newest_named(ledger, name)
        if file is not None:
            return fetch(ledger, file.sha256)
        cure = 'Name an order by its number: order = "JL-7"; give a weather file on the page of this text.'
        raise RecordError([Problem("The shop has no order and no file of that name.", cure, value=name)])

    return found


def keep_weather(ledger: Ledger, data: bytes, name: str, who: Who) -> str:
    """A weather file kept under its name, once it was read by `looked`; its name."""
    from panewright.ledger.files import store

    kept = store(ledger, data, name=name, media="application/octet-stream", by=who.by, at=who.at, tap=who.tap)
    return kept.name


def looked(data: bytes, name: str) -> tuple[str, ...]:
    """What a weather file says of itself; `SheetError` where it is no year of weather."""
    from panewright.intake.weather.weather import read_weather

    return tuple(read_weather(data, name).said)
