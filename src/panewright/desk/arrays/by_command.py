"""What the command asks: an array's file planned, told, and its lists written."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.arrays.known import Sources, in_folder
from panewright.desk.arrays.planned import Told, planned, site_of
from panewright.desk.folder import read, write_all

if TYPE_CHECKING:
    from collections.abc import Iterator

    from panewright.array.plan.plan import Plan
    from panewright.desk.records.place import Place
    from panewright.ledger.open import Ledger
    from panewright.order.site.site import Site

REPORT = "array.txt"


def plan(path: Path, shop: Place, told: Told) -> Plan:
    """The array in a file; the shop's records are opened where it names serials."""
    from panewright.order.source import decoded

    text = decoded(read(path, "array"), path.name)
    with _records(site_of(text, path.name), shop) as ledger:
        return planned(text, Sources(in_folder(path.parent), ledger, path.name), told)


@contextmanager
def _records(site: Site, shop: Place) -> Iterator[Ledger | None]:
    from panewright.desk.records.place import opened
    from panewright.order.site.site import BySerial

    if not any(isinstance(panel.known, BySerial) for panel in site.panels):
        yield None
        return
    with opened(shop) as ledger:
        yield ledger


def write(made: Plan, folder: Path) -> tuple[str, ...]:
    """The report, the book with its drawings and lists, all or none; their names."""
    from panewright.desk.arrays.lines import lines
    from panewright.desk.arrays.papers import documents_of

    files = {REPORT: ("\n".join(lines(made)) + "\n").encode(), **documents_of(made)}
    write_all(folder, files)
    return tuple(files)
