"""One order as its text, and every text it had."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, StaleError
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import who, whole


async def text(request: Request) -> Response:
    """The order's text."""
    return page(request, "text.html", await _text_known(request))


async def _text_known(request: Request, mine: str | None = None, clash: Any = None) -> dict[str, Any]:
    from panewright.desk.orders import form as forms

    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    problems = await here.asks(forms.problems, version.text if mine is None else mine)
    return {"number": number, "version": version, "mine": mine, "clash": clash, "problems": problems}


async def write(request: Request) -> Response:
    """The text as it was changed; two hands at one order are shown to each other."""
    here, number, form = floor(request), request.path_params["number"], await request.form()
    mine, seen = str(form.get("text", "")).replace("\r\n", "\n"), whole(form.get("seen"))
    try:
        await here.asks(here.shop.write_text, number, mine, seen, who(request))
    except StaleError as stale:
        return _text_again(request, await _text_known(request, mine, stale.stands), 409)
    except PanewrightError as mistake:
        known = await _text_known(request, mine)
        return _text_again(request, {**known, "told": mistake.problems}, 422)
    here.live.tell(f"order:{number}")
    return go(request, f"/orders/{number}")


def _text_again(request: Request, known: dict[str, Any], status: int) -> Response:
    if is_tap(request):
        return parts(request, ["told", "textform"], known, status)
    return page(request, "text.html", known, status)


async def versions(request: Request) -> Response:
    """Every text that this order had."""
    here, number = floor(request), request.path_params["number"]
    found = await here.asks(lambda: here.shop.versions(number))
    return page(request, "versions.html", {"number": number, "versions": found})


ROUTES = [
    Route("/orders/{number}/text", text),
    Route("/orders/{number}/text", write, methods=["POST"]),
    Route("/orders/{number}/versions", versions),
]
