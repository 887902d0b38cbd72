"""The shelf for a page: what can be had at which price, and what a person types of stock and pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.ledger.stores.stock import Movement, Remnant

GROUPS = {
    "cells": "Cells",
    "tabs": "Tabbing ribbon",
    "buses": "Bus ribbon",
    "sheets": "Panes",
    "rails": "Rails",
    "sealants": "Sealants",
    "bypasses": "Bypass diodes",
    "sundries": "Sundries",
    "posts": "Posts",
    "wood_screws": "Wood screws",
    "blocks": "Ballast blocks",
    "foams": "Foam",
    "cartons": "Board for cartons",
    "pours": "Silicones to pour",
    "films": "Laminating films",
    "backs": "Back sheets",
}
MOST_LETTERS = 200  #: of one line of words
_WORDS = (
    "cartridge",
    "tin",
    "bottle",
    "roll",
    "can",
    "tube",
    "reel",
    "sausage",
    "bar",
    "sheet",
    "piece",
    "pack",
)
REASONS = ("received", "used", "broken", "wasted", "sold", "returned")


@dataclass(frozen=True, slots=True)
class Priced:
    """One part that can be had."""

    name: str
    price: str
    sold_by: str
    source: str


@dataclass(frozen=True, slots=True)
class Group:
    """Parts of one kind."""

    name: str
    rows: tuple[Priced, ...]


def prices() -> tuple[Group, ...]:
    """Every part of the shelf, kind by kind."""
    from panewright.price.money import amount

    shelf = own_shelf()
    return tuple(
        Group(
            words,
            tuple(
                Priced(row.name, amount(row.price, shelf.currency), row.sold_by, row.source)
                for row in getattr(shelf, group)
            ),
        )
        for group, words in GROUPS.items()
    )


def item_names() -> tuple[str, ...]:
    """Names of parts, to choose from."""
    return tuple(row.name for group in prices() for row in group.rows)


def amount_of(typed: str) -> Decimal:
    """An amount as typed."""
    try:
        value = Decimal(typed.strip().replace(",", "."))
    except InvalidOperation:
        value = Decimal("NaN")
    if not value.is_finite() or value < 0:
        cure = "Write a number, such as 12 or 0.5."
        raise RecordError([Problem("This is no amount.", cure, key="amount", value=typed[:40])])
    return value


def movement_of(typed: Mapping[str, str]) -> Movement:
    """Something that came in or went out, as typed."""
    from panewright.ledger.stores.stock import Movement

    return Movement(
        item=line_of(typed, "item"),
        amount=amount_of(typed.get("amount", "")),
        unit=line_of(typed, "unit"),
        reason=typed.get("reason", ""),
        lot=" ".join(typed.get("lot", "").split())[:60],
        note=typed.get("note", "").strip()[:200],
    )


def remnant_of(typed: Mapping[str, str]) -> Remnant:
    """A piece left over, as typed, with units."""
    from panewright.ledger.stores.stock import Remnant

    width = typed.get("width", "").strip()
    return Remnant(
        line_of(typed, "mark"),
        line_of(typed, "item"),
        _size_mm(typed.get("length", ""), "length"),
        _size_mm(width, "width") if width else None,
    )


def many(amount: Decimal, unit: str) -> str:
    """A unit as it stands after an amount: words that people count by have their plural, signs none.

    >>> many(Decimal(12), "cartridge"), many(Decimal(1), "cartridge"), many(Decimal(12), "m")
    ('cartridges', 'cartridge', 'm')
    >>> many(Decimal("2.5"), "box"), many(Decimal(3), "rolls")
    ('boxes', 'rolls')
    """
    if abs(amount) == 1:
        return unit
    return "boxes" if unit == "box" else f"{unit}s" if unit in _WORDS else unit


def size(length_mm: float, width_mm: float | None) -> str:
    """Sides of a piece, in both measures: the shelf serves orders of either kind.

    >>> print(size(840.0, None).replace("\u2009", " "))
    840 mm (33 1/16 in)
    """
    from panewright.units import show

    sides = (length_mm,) if width_mm is None else (length_mm, width_mm)
    metric = " × ".join(show(side, "mm", "metric") for side in sides)
    return f"{metric} ({' × '.join(show(side, 'mm', 'us').split(' (')[0] for side in sides)})"


def line_of(typed: Mapping[str, str], name: str) -> str:
    """One line of words that must be there."""
    words = short_of(typed, name)
    if not words:
        raise RecordError([Problem(f"Nothing is written for the {name}.", "Write it.", key=name)])
    return words


def short_of(typed: Mapping[str, str], name: str) -> str:
    """One line of words, if there is one; `RecordError` where it is longer than is kept."""
    words = " ".join(typed.get(name, "").split())
    if len(words) > MOST_LETTERS:
        long = f"The {name} is longer than {MOST_LETTERS} letters, and nothing was kept of it."
        cure = f"Write {MOST_LETTERS} letters at most."
        raise RecordError([Problem(long, cure, key=name, value=f"{words[:40]}…")])
    return words


def _size_mm(typed: str, name: str) -> float:
    from panewright.units import UnitError, read

    try:
        length = float(read(typed, "size"))
    except UnitError as mistake:
        raise RecordError([Problem(mistake.reason, mistake.cure, key=name, value=typed[:40])]) from mistake
    if not 0 < length < 1e5:
        cure = "Write a length such as 840 mm."
        raise RecordError([Problem("No piece is so long.", cure, key=name, value=typed[:40])])
    return length
