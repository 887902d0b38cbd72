"""A customer erased on request: what goes, what stays, and where the name may still stand."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import Problem
from panewright.web.answer import floor, go, page
from panewright.web.hand import typed_of, who


async def ask(request: Request) -> Response:
    """What would go and what would stay; or what went."""
    return page(request, "erase.html", await _known(request))


async def _known(
    request: Request, told: Sequence[Problem] = (), typed: dict[str, str] | None = None
) -> dict[str, Any]:
    from panewright.desk.orders.customers import known
    from panewright.desk.records.kept import copies

    here, mark = floor(request), request.path_params["mark"]
    work, what = here.works.records, f"erase:{mark}"
    return {
        "known": await here.asks(known, here.shop.ledger, mark),
        "copies": await here.asks(copies, here.place),
        "came": work.outcomes.get(what),
        "doing": work.doing == what,
        "far": work.far,
        "said": typed or {},
        "told": told,
    }


async def erase(request: Request) -> Response:
    """Erase a customer, for whoever has typed their mark."""
    here, mark, typed = floor(request), request.path_params["mark"], await typed_of(request)
    if told := _to_mend(mark, typed):
        return page(request, "erase.html", await _known(request, told, typed), 422)
    hand = who(request)
    reason = " ".join(typed["reason"].split())
    work = here.works.records
    arguments = (here.place, mark, reason, hand.by, hand.at, hand.tap)
    if not await work.do(f"erase:{mark}", partial(work.ask, "records", "erase", *arguments)):
        return page(request, "erase.html", await _known(request, (work.words.busy,), typed), 409)
    here.forget()
    return go(request, f"/customers/{quote(mark, safe='')}/erase")


def _to_mend(mark: str, typed: dict[str, str]) -> list[Problem]:
    """What is missing before anybody is erased."""
    told = []
    if not typed.get("reason", "").strip():
        told.append(Problem("Nobody was erased: say why.", "Such as: asked by letter.", key="reason"))
    if typed.get("word", "").strip() != mark:
        told.append(Problem("Nobody was erased: the mark was not typed.", f"Type: {mark}", key="word"))
    return told


ROUTES = [
    Route("/customers/{mark}/erase", ask),
    Route("/customers/{mark}/erase", erase, methods=["POST"]),
]
