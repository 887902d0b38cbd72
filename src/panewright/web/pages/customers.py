"""Customers: who they are, whose an order is, and what is handed out on request."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, StaleError
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who


async def customers(request: Request) -> Response:
    """All of them."""
    from panewright.desk.orders.customers import every

    here = floor(request)
    found = await here.asks(every, here.shop.ledger)
    return page(request, "customers.html", {"customers": found, **_form()})


def _form(typed: dict[str, str] | None = None, to: str = "/customers") -> dict[str, Any]:
    return {"said": typed or {}, "to": to}


async def add(request: Request) -> Response:
    """A customer written down, or anew."""
    here, typed = floor(request), await typed_of(request)
    told = await _keep(request, typed)
    if not told:
        return go(request, f"/customers/{typed['mark'].strip()}")
    if is_tap(request):
        return parts(request, ["told", "person"], {"told": told, **_form(typed)}, 422)
    from panewright.desk.orders.customers import every

    found = await here.asks(every, here.shop.ledger)
    return page(request, "customers.html", {"customers": found, "told": told, **_form(typed)}, 422)


async def _keep(request: Request, typed: dict[str, str], number: str = "") -> Sequence[Problem]:
    """What is to be mended; nothing where it is kept."""
    from panewright.desk.orders.customers import give, keep

    here, hand = floor(request), who(request)
    try:
        if typed.get("name") is not None:
            await here.asks(keep, here.shop.ledger, typed, hand)
        if number:
            await here.asks(give, here.shop.ledger, number, typed.get("mark", "").strip(), hand)
    except StaleError:
        words = "Somebody wrote of this customer meanwhile, or the mark is taken."
        return [Problem(words, "Look at it again, or take another mark.", key="mark")]
    except PanewrightError as mistake:
        return mistake.problems
    here.live.tell("customer", hand.tap)
    return ()


async def customer(request: Request) -> Response:
    """One of them."""
    from panewright.desk.orders.customers import known

    here, mark = floor(request), request.path_params["mark"]
    found = await here.asks(known, here.shop.ledger, mark)
    newest = found.versions[0]
    person = newest.person
    said = {"mark": mark, "seen": str(newest.version), "name": person.name, "address": person.address}
    said |= {"mail": person.mail, "phone": person.phone}
    return page(request, "customer.html", {"known": found, "newest": newest, **_form(said)})


async def taken(request: Request) -> Response:
    """Everything that is known of a customer, as a file."""
    from panewright.desk.orders.customers import taken_along

    here, mark = floor(request), request.path_params["mark"]
    content = await here.asks(taken_along, here.shop.ledger, mark)
    name = quote(f"customer {mark}.json", safe="")
    head = {"cache-control": "no-store", "content-disposition": f"attachment; filename*=UTF-8''{name}"}
    return Response(content, media_type="application/json", headers=head)


async def of_order(request: Request) -> Response:
    """Whose an order is."""
    return page(request, "order_customer.html", await _order_known(request))


async def _order_known(request: Request, typed: dict[str, str] | None = None) -> dict[str, Any]:
    from panewright.desk.orders import customers as desk

    here, number = floor(request), request.path_params["number"]
    await here.asks(here.shop.order, number)
    return {
        "number": number,
        "its": await here.asks(desk.of_order, here.shop.ledger, number),
        "customers": await here.asks(desk.every, here.shop.ledger),
        **_form(typed, f"/orders/{number}/customer"),
    }


async def give_order(request: Request) -> Response:
    """An order given to a customer, known or new."""
    number, typed = request.path_params["number"], await typed_of(request)
    told = await _keep(request, typed, number)
    if not told:
        return go(request, f"/orders/{number}/customer")
    known = {**await _order_known(request, typed), "told": told}
    if is_tap(request):
        return parts(request, ["told", "person"], known, 422)
    return page(request, "order_customer.html", known, 422)


ROUTES = [
    Route("/customers", customers),
    Route("/customers", add, methods=["POST"]),
    Route("/customers/{mark}", customer),
    Route("/customers/{mark}/all.json", taken),
    Route("/orders/{number}/customer", of_order),
    Route("/orders/{number}/customer", give_order, methods=["POST"]),
]
