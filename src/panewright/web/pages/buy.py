"""What to buy for all accepted orders: from whom, what came in, and what can leave when."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who, whole
from panewright.web.pages.listed import listed

if TYPE_CHECKING:
    from panewright.ledger.orders.orders import Which

_KEY = "buying"
_OPEN: tuple[str, Which] = ("/buy", "open")
_DELIVERED: tuple[str, Which] = ("/buy?closed=yes", "closed")
_MEDIA = {
    "pdf": "application/pdf",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv; charset=utf-8",
}
STATES = ("accepted", "delivered", "called off")


async def buy(request: Request) -> Response:
    """What is missing, what is on order, and where the orders stand."""
    known = await _known(request)
    if request.query_params.get("wait"):
        known |= await _reckoned(request)
    return page(request, "buy.html", known)


async def _known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.stores import bought

    here = floor(request)
    closed = request.query_params.get("closed") == "yes"
    base, which = _DELIVERED if closed else _OPEN
    listing = await listed(request, base, which=which)
    orders = {each.number: each.name for each in listing["orders"]}
    return {
        **listing,
        "closed": closed,
        "orders": await here.asks(bought.stands, here.shop.ledger, orders),
        "coming": await here.asks(bought.coming, here.shop.ledger),
        "states": STATES,
        "found": None,
        "wants": _waiting(request),
        "far": here.far.get(_KEY, 0),
        "told": told,
    }


async def _reckoned(request: Request) -> dict[str, Any]:
    here = floor(request)
    return {"wants": "", "found": await here.work(_KEY, "to_buy", here.place, _today())}


def _waiting(request: Request) -> str:
    """The same page with all that is to buy."""
    asked = [(name, value) for name, value in request.query_params.items() if name != "wait"]
    return f"/buy?{urlencode([*asked, ('wait', '1')])}"


def _today() -> Any:
    return datetime.now(UTC).date()


async def stop(request: Request) -> Response:
    """Give up what is being reckoned."""
    floor(request).give_up(_KEY)
    if is_tap(request):
        return parts(request, ["tobuy"], {**await _known(request), "wants": ""})
    return go(request, "/buy")


async def _kept(request: Request, keep: Callable[[dict[str, str]], Any]) -> Response:
    """What was typed kept, or told what to mend."""
    here, typed = floor(request), await typed_of(request)
    try:
        done = keep(typed)
        if hasattr(done, "__await__"):
            await done
    except PanewrightError as mistake:
        known = await _known(request, mistake.problems)
        if is_tap(request):
            return parts(request, ["told"], known, 422)
        return page(request, "buy.html", known, 422)
    for what in ("promise", "purchase", "stock:shelf"):
        here.live.tell(what, request.headers.get("x-tap", ""))
    if is_tap(request):
        return parts(request, ["told", "stands", "coming", "tobuy"], await _known(request))
    return go(request, "/buy")


async def promise(request: Request) -> Response:
    """Where an order stands from now on."""
    from panewright.desk.stores import bought, buying

    here, hand = floor(request), who(request)

    def keep(typed: dict[str, str]) -> Any:
        day, ledger = bought.day_of(typed.get("day", "")), here.shop.ledger
        return here.asks(buying.promise, ledger, typed.get("order", ""), typed.get("state", ""), day, hand)

    return await _kept(request, keep)


async def order(request: Request) -> Response:
    """All that is to buy from one supplier is ordered."""
    here, hand = floor(request), who(request)

    def keep(typed: dict[str, str]) -> Any:
        number = " ".join(typed.get("number", "").split())
        if not number:
            cure = "Write the number under which you ordered them."
            raise RecordError([Problem("These goods have no number.", cure, key="number")])
        told = (here.place, typed.get("supplier", ""), number, hand, _today())
        return here.work("ordering", "order_goods", *told)

    return await _kept(request, keep)


async def came(request: Request) -> Response:
    """Goods came in, whole or in part."""
    from panewright.desk.stores import buying
    from panewright.desk.stores.shelved import amount_of

    here, hand = floor(request), who(request)

    def keep(typed: dict[str, str]) -> Any:
        line, lot = whole(typed.get("line")), " ".join(typed.get("lot", "").split())[:60]
        told = here.shop.ledger, typed.get("purchase", ""), line, amount_of(typed.get("amount", "")), hand
        return here.asks(buying.receive, *told, lot)

    return await _kept(request, keep)


async def over(request: Request) -> Response:
    """Nothing more will come of a line."""
    from panewright.desk.stores import buying

    here, hand = floor(request), who(request)

    def keep(typed: dict[str, str]) -> Any:
        told = here.shop.ledger, typed.get("purchase", ""), whole(typed.get("line"))
        return here.asks(buying.end, *told, typed.get("reason", "") or "said on the page", hand)

    return await _kept(request, keep)


async def paper(request: Request) -> Response:
    """The lists to take along."""
    here, name = floor(request), request.path_params["name"]
    made = await here.work("buying papers", "buying_papers", here.place, _today())
    content = (made or {}).get(name)
    if content is None:
        return Response("There is no such paper.", 404)
    inline = name.endswith(".pdf") and not request.query_params.get("take")
    head = {
        "cache-control": "no-store",
        "content-disposition": f'{"inline" if inline else "attachment"}; filename="{name}"',
    }
    return Response(content, media_type=_MEDIA[name.rpartition(".")[2]], headers=head)


ROUTES = [
    Route("/buy", buy),
    Route("/buy/stop", stop, methods=["POST"]),
    Route("/buy/promise", promise, methods=["POST"]),
    Route("/buy/order", order, methods=["POST"]),
    Route("/buy/came", came, methods=["POST"]),
    Route("/buy/over", over, methods=["POST"]),
    Route("/buy/papers/{name}", paper),
]
