"""Papers: every document of an order, looked at and taken along."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import Problem, RecordError
from panewright.web.answer import floor, go, page, parts
from panewright.web.hand import whole
from panewright.web.pages.listed import listed

_INLINE = {"application/pdf", "image/svg+xml", "text/csv; charset=utf-8", "application/json"}


async def pick(request: Request) -> Response:
    """Of which order?"""
    known = {"place": "Papers", "to": "/papers/", **await listed(request, "/papers")}
    return page(request, "pick.html", known)


async def papers(request: Request) -> Response:
    """The documents of one order."""
    known = await _known(request)
    if request.query_params.get("wait"):
        known |= await _made(request)
    return page(request, "papers.html", known)


async def _known(request: Request) -> dict[str, Any]:
    from panewright.desk.paper import GROUPS

    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    shown = here.reckoner.shown(text)
    return {
        "number": number,
        "text": text,
        "shown": shown if hasattr(shown, "sentence") else None,
        "papers": (),
        "groups": GROUPS,
        "wants": f"/papers/{number}?wait=1",
        "refused": False,
        "far": here.far.get(f"papers:{number}", 0),
    }


async def _made(request: Request) -> dict[str, Any]:
    """What documents there are, when the design is made."""
    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    await here.own()
    known = await here.reckoner.of(number, text)
    if known is None or not known.kept:
        return {"wants": "", "refused": known is not None}
    found = await here.work(f"papers:{number}", "papers", text, f"{number}.toml", await here.own())
    return {"papers": found or (), "wants": "", "shown": known.seen}


async def paper(request: Request) -> Response:
    """One document's bytes; to look at or to take along."""
    here, number, name = floor(request), request.path_params["number"], request.path_params["name"]
    text = (await here.asks(here.shop.order, number)).text
    look = bool(request.query_params.get("look"))
    asked = (text, f"{number}.toml", name, await here.own())
    made = await here.work(f"papers:{number}", "look" if look else "paper", *asked)
    if made is None:
        raise RecordError([Problem("It was given up.", "Ask for it again.", key="paper")])
    media, content = made
    if not media:
        return Response("There is no such paper.", 404)
    way = "inline" if look or (media in _INLINE and not request.query_params.get("take")) else "attachment"
    head = {
        "cache-control": "no-cache",
        "content-disposition": f"{way}; filename*=UTF-8''{quote(f'{number} {name}', safe='')}",
    }
    return Response(content, media_type=media, headers=head)


async def leafed(request: Request) -> Response:
    """One page of a document, large, and the way to the others."""
    here, number, name = floor(request), request.path_params["number"], request.path_params["name"]
    text = (await here.asks(here.shop.order, number)).text
    key, at = f"papers:{number}", max(1, whole(request.query_params.get("page")) or 1)
    address = f"/papers/{quote(number, safe='')}/{quote(name, safe='')}/pages?page={at}"
    wants = f"{address}&wait=1"
    await here.own()
    found: tuple[bytes, ...] | None = here.paged_now(text, name)
    if not found and request.query_params.get("wait"):
        found, wants = await here.pages(key, text, f"{number}.toml", name), ""
        if found == ():
            raise RecordError([Problem("This paper has no pages to leaf through.", "Open it.", key="paper")])
    known = {"number": number, "name": name, "at": at, "pages": len(found or ()), "wants": wants}
    return page(request, "leafed.html", {**known, "far": here.far.get(key, 0), "back": address})


async def one_page(request: Request) -> Response:
    """The picture of one page."""
    here, number, name = floor(request), request.path_params["number"], request.path_params["name"]
    text, at = (await here.asks(here.shop.order, number)).text, whole(request.path_params["at"])
    await here.own()
    found = await here.pages(f"papers:{number}", text, f"{number}.toml", name) or ()
    if not 1 <= at <= len(found):
        return Response("There is no such page.", 404)
    return Response(found[at - 1], media_type="image/png", headers={"cache-control": "no-cache"})


async def stop(request: Request) -> Response:
    """Give up the papers that are being made."""
    here, number = floor(request), request.path_params["number"]
    here.give_up(f"papers:{number}")
    if "x-tap" in request.headers:
        return parts(request, ["paperlist"], {**await _known(request), "wants": ""})
    return go(request, f"/papers/{number}")


ROUTES = [
    Route("/papers", pick),
    Route("/papers/{number}", papers),
    Route("/papers/{number}/stop", stop, methods=["POST"]),
    Route("/papers/{number}/{name}", paper),
    Route("/papers/{number}/{name}/pages", leafed),
    Route("/papers/{number}/{name}/pages/{at}", one_page),
]
