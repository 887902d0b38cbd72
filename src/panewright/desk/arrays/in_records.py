"""What an array's text names beside itself, out of the records: orders by number, weather files."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.order.site.site import Site
    from panewright.sky.hours import Hours


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
        cure = 'Name an order of the shop by its number: order = "JL-7".'
        raise RecordError([Problem("The shop has no order and no file of that name.", cure, value=name)])

    return found


def hours_of(ledger: Ledger, site: Site) -> Hours | None:
    """The hours of the weather file that a site names; None where it names none."""
    from panewright.intake.weather.weather import read_weather
    from panewright.order.site.site import OfFile

    if not isinstance(site.weather, OfFile):
        return None
    name = site.weather.file
    return read_weather(_weather(ledger, name), name)


def _weather(ledger: Ledger, name: str) -> bytes:
    from panewright.ledger.files import fetch, newest_named

    file = newest_named(ledger, name)
    if file is None:
        cure = "Give it to the shop on the page of the array's text, or write twelve means."
        raise RecordError(
            [Problem("The shop keeps no weather file of that name.", cure, key="sky.weather", value=name)]
        )
    return fetch(ledger, file.sha256)


def keep_weather(ledger: Ledger, data: bytes, name: str, who: Who) -> str:
    """A weather file kept under its name, once it was read by `looked`; its name."""
    from panewright.ledger.files import store

    kept = store(ledger, data, name=name, media="application/octet-stream", by=who.by, at=who.at, tap=who.tap)
    return kept.name


def looked(data: bytes, name: str) -> tuple[str, ...]:
    """What a weather file says of itself; `SheetError` where it is no year of weather."""
    from panewright.intake.weather.weather import read_weather

    return tuple(read_weather(data, name).said)
