"""The orders as every place lists them: the ones saved last, what is sought, and the way to the others."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.requests import Request

from panewright.web.answer import floor
from panewright.web.hand import whole

if TYPE_CHECKING:
    from panewright.ledger.orders.orders import Which

LEAF = 40  #: orders at once


async def listed(request: Request, base: str, *, which: Which = "all", leaf: int = LEAF) -> dict[str, Any]:
    """One leaf of the list; `base` is the address that shows it."""
    here, first = floor(request), whole(request.query_params.get("from"))
    sought = " ".join(request.query_params.get("find", "").split())[:60]
    found = await here.asks(here.shop.orders, leaf + 1, first, which=which, find=sought)
    return {
        "orders": found[:leaf],
        "seen": {number: made.seen for number, made in here.reckoner.last.items()},
        "base": base,
        "find": sought,
        "also": f"&find={quote(sought)}" if sought else "",
        "newer": max(0, first - leaf) if first else None,
        "older": first + leaf if len(found) > leaf else None,
    }
