"""One array as its text, and every text it had."""

from __future__ import annotations

from typing import Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.guard import MOST_UPLOAD_BYTES
from panewright.web.hand import who, whole


async def text(request: Request) -> Response:
    """The array's text."""
    return page(request, "array_text.html", await _known(request))


async def _known(request: Request, mine: str | None = None, clash: Any = None) -> dict[str, Any]:
    from panewright.desk.arrays.shown import mistakes

    here, name = floor(request), request.path_params["name"]
    version = await here.asks(here.shop.array, name)
    problems = await here.asks(mistakes, name, version.text if mine is None else mine)
    return {
        "name": name,
        "version": version,
        "mine": mine,
        "clash": clash,
        "problems": problems,
        "weather": None,
    }


async def write(request: Request) -> Response:
    """The text as it was changed; two hands at one array are shown to each other."""
    here, name, form = floor(request), request.path_params["name"], await request.form()
    mine, seen = str(form.get("text", "")).replace("\r\n", "\n"), whole(form.get("seen"))
    try:
        await here.asks(here.shop.write_array, name, mine, seen, who(request))
    except StaleError as stale:
        return _again(request, await _known(request, mine, stale.stands), 409)
    except PanewrightError as mistake:
        return _again(request, {**await _known(request, mine), "told": mistake.problems}, 422)
    here.live.tell(f"array:{name}")
    return go(request, f"/arrays/{part(name)}")


def _again(request: Request, known: dict[str, Any], status: int) -> Response:
    if is_tap(request):
        return parts(request, ["told", "arraytext"], known, status)
    return page(request, "array_text.html", known, status)


async def weather(request: Request) -> Response:
    """A weather file that the text may name, read by a process of its own and kept."""
    from panewright.desk.arrays.in_records import keep_weather

    here = floor(request)
    async with request.form(max_files=1, max_fields=2) as form:
        file = form.get("file")
        data = await file.read(MOST_UPLOAD_BYTES) if isinstance(file, UploadFile) else b""
        called = " ".join((file.filename or "").split())[:120] if isinstance(file, UploadFile) else ""
    try:
        said = await here.bounded("weather_looked", data, called or "the file")
        await here.asks(keep_weather, here.shop.ledger, data, called, who(request))
    except PanewrightError as mistake:
        return page(request, "array_text.html", {**await _known(request), "told": mistake.problems}, 422)
    return page(request, "array_text.html", {**await _known(request), "weather": (called, said)})


async def versions(request: Request) -> Response:
    """Every text that this array had."""
    here, name = floor(request), request.path_params["name"]
    found = await here.asks(here.shop.array_versions, name)
    return page(request, "array_versions.html", {"name": name, "versions": found})


async def earlier(request: Request) -> Response:
    """An earlier text written once more, on top."""
    here, name, form = floor(request), request.path_params["name"], await request.form()
    wanted, hand = whole(form.get("version")), who(request)
    found = await here.asks(here.shop.array_versions, name)
    text = next((each.text for each in found if each.version == wanted), found[-1].text)
    await here.asks(here.shop.write_array, name, text, found[-1].version, hand)
    here.live.tell(f"array:{name}", hand.tap)
    return go(request, f"/arrays/{part(name)}")


ROUTES = [
    Route("/arrays/{name:name}/text", text),
    Route("/arrays/{name:name}/text", write, methods=["POST"]),
    Route("/arrays/{name:name}/weather", weather, methods=["POST"]),
    Route("/arrays/{name:name}/versions", versions),
    Route("/arrays/{name:name}/earlier", earlier, methods=["POST"]),
]
