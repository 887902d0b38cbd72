"""Every table of the records; to import this room is to know them all."""

from panewright.ledger.tables import (
    arrays,
    built,
    changes,
    customers,
    cuts,
    deals,
    kits,
    lots,
    measured,
    orders,
    promises,
    purchases,
    ratings,
    readings,
    repairs,
    serials,
    stock,
)
from panewright.ledger.tables.table import Row

METADATA = Row.metadata

__all__ = [
    "METADATA",
    "arrays",
    "built",
    "changes",
    "customers",
    "cuts",
    "deals",
    "kits",
    "lots",
    "measured",
    "orders",
    "promises",
    "purchases",
    "ratings",
    "readings",
    "repairs",
    "serials",
    "stock",
]
