"""The shelf: what is there, what is left over, what it costs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import Undo, who, whole


async def shelf(request: Request) -> Response:
    """Stock, pieces and prices."""
    return page(request, "shelf.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.own_shelf import own_tables
    from panewright.desk.stores import shelved
    from panewright.desk.stores.moved import recent

    here = floor(request)
    return {
        "there": await here.asks(here.shop.stock),
        "groups": await here.asks(shelved.prices),
        "names": await here.asks(shelved.item_names),
        "reasons": shelved.REASONS,
        "tables": await here.asks(own_tables),
        "moved": await here.asks(recent, here.shop.ledger),
        "size": shelved.size,
        "many": shelved.many,
        "told": told,
    }


async def _typed(request: Request) -> dict[str, str]:
    return {name: str(value)[:200] for name, value in (await request.form()).items()}


async def _kept(request: Request, keep: Callable[[dict[str, str]], Any]) -> Response:
    """What was typed kept, or told what to mend."""
    here, typed = floor(request), await _typed(request)
    try:
        await here.asks(keep, typed)
    except PanewrightError as mistake:
        known = await _known(request, mistake.problems)
        if is_tap(request):
            return parts(request, ["told"], known, 422)
        return page(request, "shelf.html", known, 422)
    for what in ("stock:shelf", "purchase"):  # a receipt taken back is on order again
        here.live.tell(what, request.headers.get("x-tap", ""))
    if is_tap(request):
        known = await _known(request)
        known["undo"] = _undo(request, known["moved"])
        return parts(request, ["told", "stock", "pieces", "moved", "undo"], known)
    return go(request, "/shelf")


def _undo(request: Request, moved: Sequence[Any]) -> Undo | None:
    """How the movement that was just kept is taken back."""
    if not request.url.path.endswith(("/move", "/count")) or not moved:
        return None
    return Undo(moved[0].words, "/shelf/back", (("number", str(moved[0].number)),))


async def back(request: Request) -> Response:
    """A movement taken back, by a row of its own."""
    from panewright.desk.stores.moved import take_back

    shop, hand = floor(request).shop, who(request)
    return await _kept(request, lambda typed: take_back(shop.ledger, whole(typed.get("number")), hand))


async def move(request: Request) -> Response:
    """Something came in or went out."""
    from panewright.desk.stores.shelved import movement_of

    shop, hand = floor(request).shop, who(request)
    return await _kept(request, lambda typed: shop.move(movement_of(typed), hand))


async def count(request: Request) -> Response:
    """What was counted."""
    from panewright.desk.stores.shelved import amount_of, line_of

    shop, hand = floor(request).shop, who(request)

    def keep(typed: dict[str, str]) -> None:
        amount = amount_of(typed.get("amount", ""))
        shop.count(line_of(typed, "item"), line_of(typed, "unit"), amount, hand)

    return await _kept(request, keep)


async def piece(request: Request) -> Response:
    """A piece left over."""
    from panewright.desk.stores.shelved import remnant_of

    shop, hand = floor(request).shop, who(request)
    return await _kept(request, lambda typed: shop.keep_remnant(remnant_of(typed), hand))


async def cut_up(request: Request) -> Response:
    """A piece that is gone."""
    from panewright.desk.stores.shelved import line_of

    shop, hand = floor(request).shop, who(request)
    state = {"wasted": "wasted"}
    return await _kept(
        request,
        lambda typed: shop.use_remnant(
            line_of(typed, "mark"), state.get(typed.get("state", ""), "used"), hand
        ),
    )


ROUTES = [
    Route("/shelf", shelf),
    Route("/shelf/move", move, methods=["POST"]),
    Route("/shelf/count", count, methods=["POST"]),
    Route("/shelf/back", back, methods=["POST"]),
    Route("/shelf/piece", piece, methods=["POST"]),
    Route("/shelf/gone", cut_up, methods=["POST"]),
]
