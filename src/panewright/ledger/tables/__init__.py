"""Every table of the records; to import this room is to know them all."""

from panewright.ledger.tables import changes, orders, serials
from panewright.ledger.tables.table import Row

METADATA = Row.metadata

__all__ = ["METADATA", "changes", "orders", "serials"]
