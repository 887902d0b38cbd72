"""Records that many tests begin with."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from panewright.ledger.open import Ledger
from panewright.ledger.orders.designs import DesignMade, record_design
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.serials import open_serials

NOON = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)


def later(minutes: float) -> datetime:
    return NOON + timedelta(minutes=minutes)


def begun(ledger: Ledger, order: str = "JL-9", panels: int = 2, stem: str = "JL") -> tuple[str, ...]:
    """An order saved, designed, and its panels begun; their serials."""
    save_order(ledger, order, f'number = "{order}"', seen=0, by="Ann", at=NOON)
    record_design(ledger, design(order, panels, stem), by="Ann", at=NOON)
    return open_serials(ledger, order, by="Ann", at=NOON)


def design(order: str = "JL-9", panels: int = 2, stem: str = "JL", version: int = 1) -> DesignMade:
    serials = tuple(f"{stem}-{number:04d}" for number in range(1, panels + 1))
    return DesignMade(
        order, version, "ABCDEFGH", "0.1.0", '{"cells": []}', '{"pmp_w": 103.4}', "[]", serials, True
    )
