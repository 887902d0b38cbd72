"""A family of sizes as a price list: read, reckoned by whoever is at hand, written in every form."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf

if TYPE_CHECKING:
    from panewright.catalogue.family import Family
    from panewright.catalogue.offer import Offer
    from panewright.catalogue.work import Crew
    from panewright.price.actuals import Actuals

Told = Callable[[int, int], None]  #: how many sizes are done, of how many
Stopping = Callable[[], bool]  #: whether somebody has called it off
NAMES = ("catalogue.pdf", "catalogue.html", "catalogue.xlsx", "catalogue.csv", "catalogue.json")


def _nobody(_done: int, _of: int) -> None:
    return None


def _never() -> bool:
    return False


def catalogue(
    data: bytes,
    file: str,
    actuals: Actuals | None = None,
    *,
    processes: int = 1,
    cluster: str = "",
    told: Told = _nobody,
    stopping: Stopping = _never,
) -> Offer:
    """Every size of a range, designed and priced; `OrderError` with every mistake where the range is wrong.

    `actuals` is what this shop's own work says of breakage, waste and hours. So many processes of this
    machine do it, or the Dask cluster at an address; the rows are the same. `told` hears how far it is;
    once `stopping` says so, `panewright.catalogue.work.Stopped` is raised.
    """
    from panewright.catalogue.reading import parse_family

    shelf = own_shelf()
    family = parse_family(data, file, shelf)
    with _hands(family, processes, cluster) as hands:  # processes open their books while this one does
        from panewright.catalogue.offer import offer_of
        from panewright.catalogue.row import Asked
        from panewright.catalogue.work import rows_of
        from panewright.desk.carried import travels

        asked = Asked(shelf, family.quantities, travels, actuals)
        return offer_of(family, rows_of(family, asked, hands, told, stopping), shelf)


def _hands(family: Family, processes: int, cluster: str) -> AbstractContextManager[Crew]:
    """Whoever does the work."""
    if cluster:
        from panewright.catalogue.cluster import cluster as workers

        return nullcontext(workers(cluster))
    from panewright.catalogue.crew import crew
    from panewright.catalogue.part import how_many

    return crew(processes, how_many(family))


def content(offer: Offer, name: str) -> bytes:
    """The bytes of one of its files; the same catalogue gives the same."""
    return _MAKERS[name](offer)


def write_catalogue(offer: Offer, folder: Path) -> tuple[str, ...]:
    """Write the price list in every form, whole or not at all; the names of its files.

    Two at a time: whoever sets the PDF keeps nobody else from working meanwhile.
    """
    from concurrent.futures import ThreadPoolExecutor

    from panewright.desk.folder import write_all

    with ThreadPoolExecutor(max_workers=2) as hands:
        made = tuple(hands.map(partial(content, offer), NAMES))
    write_all(folder, dict(zip(NAMES, made, strict=True)))
    return NAMES


def as_json(offer: Offer) -> str:
    """Everything a program needs."""
    return content(offer, "catalogue.json").decode()


def told_in_short(offer: Offer) -> str:
    """What a maker reads on the screen."""
    held, rows = len(offer.holding), len(offer.rows)
    return f"{held} of {rows} sizes hold every check."


def _pdf(offer: Offer) -> bytes:
    from panewright.catalogue.pages import book
    from panewright.paper.pdf import book_pdf

    return book_pdf(book(offer))


def _html(offer: Offer) -> bytes:
    from panewright.catalogue.pages import book
    from panewright.paper.web_page import web_page

    return web_page(book(offer))


def _xlsx(offer: Offer) -> bytes:
    from panewright.catalogue.listing import listing
    from panewright.paper.workbook import xlsx

    return xlsx((listing(offer),))


def _csv(offer: Offer) -> bytes:
    from panewright.catalogue.listing import listing
    from panewright.paper.text import csv_bytes

    return csv_bytes(listing(offer))


def _json(offer: Offer) -> bytes:
    from panewright.catalogue.record import record
    from panewright.paper.record import json_bytes

    return json_bytes(record(offer))


_MAKERS: dict[str, Callable[[Offer], bytes]] = dict(
    zip(NAMES, (_pdf, _html, _xlsx, _csv, _json), strict=True)
)
