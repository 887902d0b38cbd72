"""The shop's records looked after by command; what a page asks stands in `keeping.py`."""

from __future__ import annotations

import json
from dataclasses import asdict
from datetime import date, datetime
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.records.place import Place, opened

if TYPE_CHECKING:
    from panewright.ledger.kept.backup import Backup
    from panewright.ledger.kept.check import Soundness
    from panewright.ledger.kept.restore import Restored
    from panewright.ledger.orders.erasing import Erased
    from panewright.price.actuals import Actuals


def backup(shop: Place, to: Path | None, *, at: datetime) -> Backup:
    """Write a backup, into the shop's own folder where no other is named."""
    from panewright.ledger.kept.backup import backup as write

    file = to or shop.folder / "backups" / f"{at:%Y%m%dT%H%M%S}.zip"
    with opened(shop) as ledger:
        return write(ledger, file, program=version("panewright"), at=at)


def restore(shop: Place, file: Path, *, at: datetime) -> Restored:
    """Put a backup back."""
    from panewright.ledger.kept.restore import restore as put_back

    return put_back(file, shop.records, files=shop.files, at=at)


def check(shop: Place) -> Soundness:
    """Look the records over."""
    from panewright.ledger.kept.check import check as look_over

    with opened(shop) as ledger:
        return look_over(ledger)


def export(shop: Place, folder: Path) -> int:
    """Everything in open formats; how many rows."""
    from panewright.ledger.kept.export import export as write

    with opened(shop) as ledger:
        return write(ledger, folder)


def show(shop: Place, serial: str) -> str:
    """A panel's whole life."""
    from panewright.ledger.serials.life import life
    from panewright.ledger.serials.telling import told

    with opened(shop) as ledger:
        return told(life(ledger, serial))


def batch(shop: Place, name: str) -> tuple[str, ...]:
    """The panels that a bad batch or lot is in, a line each."""
    from panewright.ledger.serials.affected import serials_of

    with opened(shop) as ledger:
        return tuple(map(str, serials_of(ledger, name)))


def instrument(shop: Place, name: str, since: date | None, until: date | None) -> tuple[str, ...]:
    """The panels that an instrument was used on, a line each."""
    from panewright.ledger.serials.affected import serials_of_instrument

    with opened(shop) as ledger:
        return tuple(map(str, serials_of_instrument(ledger, name, since=since, until=until)))


def actuals(shop: Place) -> Actuals:
    """What this shop's own work says of breakage, waste and hours."""
    from panewright.desk.actuals import actuals as own

    with opened(shop) as ledger:
        return own(ledger)


def customer(shop: Place, mark: str) -> str:
    """All that is known of a customer, as JSON."""
    from panewright.ledger.orders.customers import all_of_customer

    with opened(shop) as ledger:
        return (
            json.dumps(asdict(all_of_customer(ledger, mark)), indent=1, default=str, ensure_ascii=False)
            + "\n"
        )


def erase(shop: Place, mark: str, *, reason: str, by: str, at: datetime) -> Erased:
    """Erase a customer's details."""
    from panewright.ledger.orders.erasing import erase_customer

    with opened(shop) as ledger:
        return erase_customer(ledger, mark, reason=reason, by=by, at=at)
