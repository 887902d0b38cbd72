"""The orders as every place lists them: the ones saved last, and the way to the others."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request

from panewright.web.answer import floor
from panewright.web.hand import whole

LEAF = 40  #: orders at once


async def listed(request: Request, base: str) -> dict[str, Any]:
    """One leaf of the list; `base` is the address that shows it."""
    here, first = floor(request), whole(request.query_params.get("from"))
    found = await here.asks(here.shop.orders, LEAF + 1, first)
    return {
        "orders": found[:LEAF],
        "seen": {number: made.seen for number, made in here.reckoner.last.items()},
        "base": base,
        "newer": max(0, first - LEAF) if first else None,
        "older": first + LEAF if len(found) > LEAF else None,
    }
