"""A supplier as the shop knows it: where, whom to ask, how soon, and the least sum it delivers for."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.shelf.key import Fault, Key
from panewright.shelf.reading import Reading


@dataclass(frozen=True, slots=True)
class Supplier:
    """One who sells parts; rows of the shelf name it."""

    name: str
    address: str = ""
    contact: str = ""  #: whom to ask, and how
    lead_days: int | None = None  #: of parts whose row names none
    least: Decimal = Decimal(0)  #: sum of an order, in the shelf's currency; 0 where it asks for none
    note: str = ""


SUPPLIER = (
    Key("supplier", "name", "text", "as rows name it", "Marsh Glass (invented)", True, most=80),
    Key("supplier", "address", "text", "where it is", "3 Sluice Lane, Reedham (invented)", most=200),
    Key("supplier", "contact", "text", "whom to ask, and how", "sales desk, sales@marsh.example", most=120),
    Key(
        "supplier",
        "lead_days",
        "count",
        "of parts whose row names none, Sundays counted",
        7,
        least=0,
        most=400,
    ),
    Key("supplier", "least", "money", "least sum of an order, in the shelf's currency", "50.00"),
    Key("supplier", "note", "text", "what to know", "closed in August", most=200),
)


def supplier(name: str, row: Reading) -> Supplier:
    """A supplier of the table."""
    if not name.strip():
        raise Fault("A supplier has a name.", 'Write name = "Marsh Glass (invented)".', "name")
    days, least = row.values.get("lead_days"), row.values.get("least")
    return Supplier(
        name,
        row.word("address"),
        row.word("contact"),
        days if isinstance(days, int) else None,
        least if isinstance(least, Decimal) else Decimal(0),
        row.word("note"),
    )
