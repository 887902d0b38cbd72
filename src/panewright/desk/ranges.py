"""A range for a page: its text made out of an order and a few lists, and its price list in words."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf
from panewright.errors import OrderError, Problem

if TYPE_CHECKING:
    from panewright.catalogue.offer import Offer
    from panewright.catalogue.row import Figures, Row
    from panewright.price.actuals import Actuals

_ONES_OWN = ("order.customer", "order.serial")
_BATTERY = ("load.battery", "load.controller")
_NUMBERS = ("columns", "rows", "quantities")


@dataclass(frozen=True, slots=True)
class Held:
    """A size of which every check holds, in words."""

    cells: str
    kind: str
    glass: str
    watts: str
    size: str
    mass: str
    wind: str
    goes: str  #: parcel or freight
    why: str
    prices: tuple[str, ...]
    per_watt: str
    sent: str = ""  #: crate and carriage of one; "" where nobody knows


@dataclass(frozen=True, slots=True)
class Failed:
    """A size that does not hold, with the worst reason."""

    what: str
    fails: str
    cure: str


@dataclass(frozen=True, slots=True)
class Priced:
    """A whole price list for a page, with the files to take along."""

    name: str
    sentence: str
    where: str
    cautions: tuple[str, ...]
    heads: tuple[str, ...]  #: of the prices
    held: tuple[Held, ...]
    failed: tuple[Failed, ...]
    files: tuple[tuple[str, bytes], ...]


def lists() -> Mapping[str, tuple[str, ...]]:
    """What the lists of a range can be chosen from."""
    shelf = own_shelf()
    return {
        "cells": tuple(row.name for row in shelf.cells),
        "glass": tuple(row.name for row in shelf.sheets),
    }


def range_text(order: str, said: Mapping[str, Sequence[str]], *, battery: bool = False) -> str:
    """The text of a range: an order without what varies and without its customer, and the lists as typed.

    Without its `battery` and controller the sizes are for any load.

    >>> print(range_text("[order]\\npanels = 4\\nname = 'Sheds'", {"columns": ["2", "4"], "rows": ["9"]}))
    [order]
    name = "Sheds"
    <BLANKLINE>
    [range]
    columns = [2, 4]
    rows = [9]
    <BLANKLINE>
    """
    from panewright.catalogue.family import written
    from panewright.catalogue.keys import ALWAYS_BARRED, LISTS

    found = {name: list(map(_entry(name), each)) for name, each in said.items() if each}
    barred = {*ALWAYS_BARRED, *LISTS["quantities"].bars, *_ONES_OWN}
    for name, key in LISTS.items():
        barred |= set(key.bars) if name in found or key.required else set()
    tables = {
        section: {
            key: value
            for key, value in table.items()
            if f"{section}.{key}" not in barred and (battery or not f"{section}.{key}".startswith(_BATTERY))
        }
        for section, table in _tables(order).items()
        if isinstance(table, dict)
    }
    return written({**{name: table for name, table in tables.items() if table}, "range": found})


def _entry(name: str) -> Callable[[str], int | str]:
    return _whole if name in _NUMBERS else str


def _whole(typed: str) -> int:
    if not (typed.strip().isdecimal() and len(typed.strip()) < 7):
        cure = "Write whole numbers with commas between, such as 4, 6, 9."
        raise OrderError([Problem("This is no whole number.", cure, key="range", value=typed[:40])])
    return int(typed)


def _tables(order: str) -> Mapping[str, object]:
    try:
        return tomllib.loads(order)
    except tomllib.TOMLDecodeError as wrong:
        raise OrderError(
            [Problem("The order's text cannot be read.", "Mend it first.", key="order")]
        ) from wrong


def priced(text: str, own: Actuals | None = None) -> Priced:
    """A range reckoned, in words and in every form; `OrderError` with every mistake in it."""
    from panewright.desk import catalogue
    from panewright.desk.progress import at

    offer = catalogue.catalogue(text.encode(), "the range", own, told=lambda done, of: at(90 * done // of))
    files = []
    for n, name in enumerate(catalogue.NAMES, start=1):
        files.append((name, catalogue.content(offer, name)))
        at(90 + 2 * n)
    return _shown(offer, tuple(files))


def _shown(offer: Offer, files: tuple[tuple[str, bytes], ...]) -> Priced:
    from panewright.catalogue.offer import NOT_LISTED, PRICES, WIND, where
    from panewright.desk.catalogue import told_in_short

    return Priced(
        offer.job.name or offer.job.number,
        told_in_short(offer),
        where(offer),
        (PRICES, WIND, NOT_LISTED),
        tuple("One" if n == 1 else f"Each of {n}" for n in offer.family.quantities),
        tuple(_held(row, row.figures, offer) for row in offer.holding if row.figures),
        tuple(_failed(offer.failing)),
        files,
    )


def _held(row: Row, found: Figures, offer: Offer) -> Held:
    from panewright.catalogue.offer import format_of
    from panewright.price.money import amount
    from panewright.units import show

    say, currency = offer.job.units, offer.job.currency
    wind = found.safe_wind_m_s
    return Held(
        f"{row.columns} × {row.rows}",
        format_of(row),
        row.glass,
        show(found.pmp_w, "W", say),
        f"{show(found.long_mm, 'mm', say)} × {show(found.short_mm, 'mm', say)}",
        show(found.mass_kg, "kg", say),
        "not covered" if wind is None else show(wind, "m/s", say),
        found.carried.way if found.carried else "",
        found.carried.why if found.carried else "",
        tuple(amount(each, currency) for each in found.prices),
        amount(found.per_watt, currency),
        amount(cost, currency) if (cost := found.carried.cost if found.carried else None) is not None else "",
    )


def _failed(rows: Sequence[Row]) -> Iterator[Failed]:
    from panewright.catalogue.offer import format_of

    for row in rows:
        yield Failed(f"{row.columns} × {row.rows}, {format_of(row)}, {row.glass}", row.fails, row.cure)
