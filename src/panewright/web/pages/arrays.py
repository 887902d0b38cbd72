"""Arrays: the list, a new one from a form, and one from a file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who

_MOST_FILE = 1_000_000
_TAKEN = Problem("There is an array of that name already.", "Give this one another name.", key="array.name")


async def arrays(request: Request) -> Response:
    """The list of arrays."""
    return page(request, "arrays.html", await _known(request))


async def _known(
    request: Request, told: Sequence[Problem] = (), said: Mapping[str, str] | None = None
) -> dict[str, Any]:
    from panewright.desk.arrays.form import GROUPS, wrong

    here = floor(request)
    find = " ".join(request.query_params.get("find", "").split())[:60]
    return {
        "arrays": await here.asks(here.shop.arrays, find),
        "find": find,
        "groups": GROUPS,
        "free": await here.asks(here.shop.free_serials),
        "said": said,
        "wrong": wrong(said, told) if said is not None else {},
        "told": told,
    }


async def begin(request: Request) -> Response:
    """A new array from the form; with a mistake nothing of it is written."""
    from panewright.desk.arrays.form import text_of
    from panewright.desk.shop.arrays import name_in
    from panewright.order.site.parse import parse_site

    typed, here = await typed_of(request), floor(request)
    try:
        text = text_of(typed)
        await here.asks(parse_site, text, "the form")
        made = await here.asks(here.shop.begin_array, text, who(request))
    except StaleError:
        return await _back(request, [_TAKEN], typed)
    except PanewrightError as mistake:
        return await _back(request, mistake.problems, typed)
    here.live.tell("arrays")
    return go(request, f"/arrays/{part(name_in(made.text))}")


async def take(request: Request) -> Response:
    """An array's text from elsewhere; mistakes in it are told on its page."""
    here = floor(request)
    async with request.form(max_files=1, max_fields=2) as form:
        file = form.get("file")
        data = await file.read(_MOST_FILE + 1) if isinstance(file, UploadFile) else b""
    try:
        text = await here.bounded("order_text", data)
        made = await here.asks(here.shop.begin_array, text, who(request))
    except StaleError:
        return await _back(request, [_TAKEN])
    except PanewrightError as mistake:
        return await _back(request, mistake.problems)
    here.live.tell("arrays")
    return go(request, f"/arrays/{part(made.name)}")


async def take_out(request: Request) -> Response:
    """A panel lies in no array from a day on: told on its own page."""
    from panewright.desk.arrays.laid import day_of

    here, typed, serial = floor(request), await typed_of(request), request.path_params["serial"]
    hand = who(request)
    reason = " ".join(typed.get("reason", "").split())
    if not reason:
        raise RecordError([Problem("No reason is told.", "Say why it was taken out.", key="reason")])
    array = await here.asks(here.shop.take_out, serial, day_of(typed.get("day", "")), reason, hand)
    here.live.tell(f"array:{array}", hand.tap)
    return go(request, f"/serial/{part(serial)}")


async def _back(request: Request, told: Sequence[Problem], said: Mapping[str, str] | None = None) -> Response:
    known = await _known(request, told, said)
    if is_tap(request):
        return parts(request, ["told", "newarray"], known, 422)
    return page(request, "arrays.html", known, 422)


ROUTES = [
    Route("/arrays", arrays),
    Route("/arrays", begin, methods=["POST"]),
    Route("/arrays/take", take, methods=["POST"]),
    Route("/serial/{serial:name}/taken-out", take_out, methods=["POST"]),
]
