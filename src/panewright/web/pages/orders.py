"""Orders: the list, a new one, and one from a file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, StaleError
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import who
from panewright.web.pages.listed import listed

_MOST_FILE = 1_000_000
_LISTED = 12  #: orders of the list that are designed unasked


async def orders(request: Request) -> Response:
    """The list of orders."""
    known = await _list_known(request)
    floor(request).later(_reckon_listed(request, [each.number for each in known["orders"][:_LISTED]]))
    return page(request, "orders.html", known)


async def _reckon_listed(request: Request, numbers: Sequence[str]) -> None:
    """Design what the list shows and nobody has looked at yet, one after the other; or price it anew."""
    here = floor(request)
    await here.own()
    for number in numbers:
        last = here.reckoner.last.get(number)
        if here.reckoner.fresh(last) if last else number in here.looked_at:
            continue
        here.looked_at.add(number)
        text = (await here.asks(here.shop.order, number)).text
        if here.reckoner.known(text) is None and await here.reckoner.of(number, text):
            here.live.tell(f"design:{number}")


async def _list_known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    here = floor(request)
    return {
        **await listed(request, "/"),
        "mend": here.reckoner.to_mend,
        "told": told,
        "next": await here.asks(here.shop.next_number),
    }


async def begin(request: Request) -> Response:
    """A new order."""
    here, form = floor(request), await request.form()
    number, name = str(form.get("number", "")).strip(), str(form.get("name", "")).strip()
    try:
        await here.asks(here.shop.begin_order, number, name, who(request))
    except StaleError:
        taken = Problem(f"There is an order {number} already.", "Take another number.", key="number")
        return _back(request, await _list_known(request, [taken]))
    except PanewrightError as mistake:
        return _back(request, await _list_known(request, mistake.problems))
    return go(request, f"/orders/{number}")


async def take(request: Request) -> Response:
    """An order file from elsewhere, read in a process of its own."""
    here = floor(request)
    async with request.form(max_files=1, max_fields=2) as form:
        file = form.get("file")
        data = await file.read(_MOST_FILE + 1) if isinstance(file, UploadFile) else b""
    try:
        text = await here.bounded("order_text", data)
        order = await here.asks(here.shop.take_order, text, who(request))
    except StaleError:
        taken = Problem(
            "There is an order of that number already.", "Give the file another number.", key="number"
        )
        return _back(request, await _list_known(request, [taken]))
    except PanewrightError as mistake:
        return _back(request, await _list_known(request, mistake.problems))
    return go(request, f"/orders/{order.number}")


def _back(request: Request, known: dict[str, Any]) -> Response:
    if is_tap(request):
        return parts(request, ["told", "orderlist"], known, 422)
    return page(request, "orders.html", known, 422)


ROUTES = [
    Route("/", orders),
    Route("/orders", begin, methods=["POST"]),
    Route("/orders/take", take, methods=["POST"]),
]
