"""What a page is dressed in: style, script, faces; and the line of events."""

from __future__ import annotations

from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route

from panewright.web.answer import floor
from panewright.web.live import events

LOOK = Path(__file__).parents[1] / "look"
_MEDIA = {"page.css": "text/css", "page.js": "text/javascript", "mark.svg": "image/svg+xml"}
_LONG = "private, max-age=86400"


async def plain(request: Request) -> Response:
    """A file of the look; asked for again whenever it may have changed."""
    name = request.path_params["name"]
    if name not in _MEDIA:
        return Response("There is no such file.", 404)
    content = (LOOK / name).read_bytes()
    return Response(content, media_type=_MEDIA[name], headers={"cache-control": "no-cache"})


async def drawn(request: Request) -> Response:
    """How the drawings look."""
    from panewright import desk

    style = (await floor(request).asks(desk.drawing_style)).replace("Source Sans Pro", "Shop Sans")
    return Response(style, media_type="text/css", headers={"cache-control": _LONG})


async def face(request: Request) -> Response:
    """The face in one weight, cut to the letters a page needs; cut once, and kept in the shop's folder."""
    weight, here = request.path_params["weight"], floor(request)
    if weight not in {"regular", "strong"}:
        return Response("There is no such weight.", 404)
    if weight not in here.faces:
        here.faces[weight] = await here.face(weight)
    return Response(here.faces[weight], media_type="font/woff", headers={"cache-control": _LONG})


async def live(request: Request) -> Response:
    """What changes, as it changes."""
    await floor(request).marked()
    head = {"cache-control": "no-store", "x-accel-buffering": "no"}
    return StreamingResponse(events(floor(request).live), media_type="text/event-stream", headers=head)


ROUTES = [
    Route("/look/drawn.css", drawn),
    Route("/look/{weight:str}.woff", face),
    Route("/look/{name:str}", plain),
    Route("/live", live),
]
