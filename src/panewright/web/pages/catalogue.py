"""The catalogue: a range of sizes chosen or written, reckoned, looked at and taken along."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import OrderError, PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts, tap_of

if TYPE_CHECKING:
    from panewright.web.floor import Floor

_MOST_ORDERS = 200  #: of which a range can be made; an older one is taken in as its file
_MOST = 200_000
_MEDIA = {
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "csv": "text/csv; charset=utf-8",
    "json": "application/json",
}


async def catalogue(request: Request) -> Response:
    """The range, and the price list that came of the last."""
    return page(request, "catalogue.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = (), text: str | None = None) -> dict[str, Any]:
    from panewright.desk import price_lists, ranges

    here, going = floor(request), await _going(request)
    last = going["work"].note or (going["offer"].text if going["offer"] else "")
    return {
        "orders": await here.asks(here.shop.orders, _MOST_ORDERS),
        "lists": await here.asks(ranges.lists),
        "past": await here.asks(price_lists.kept, here.folder),
        "text": last if text is None else text,
        "told": told,
        **going,
    }


async def _going(request: Request) -> dict[str, Any]:
    """How far the work is, or the price list that is looked at: the last one, where none is named."""
    from panewright.desk import price_lists

    here, mark = floor(request), request.path_params.get("mark", "")
    work = here.works.catalogue
    failed = work.last.problems if work.last and not mark else ()
    offer = None
    if not work.doing and not failed:
        found = (price_lists.find, here.folder, mark) if mark else (price_lists.newest, here.folder)
        offer = await here.asks(*found)
    return {"work": work, "doing": work.doing, "far": work.far, "offer": offer, "failed": failed}


async def look(request: Request) -> Response:
    """A price list that was made before, with its range."""
    from panewright.desk import price_lists

    here = floor(request)
    found = await here.asks(price_lists.find, here.folder, request.path_params["mark"])
    known = await _known(request, text=found.text)
    return page(request, "catalogue.html", known)


async def write(request: Request) -> Response:
    """The range's text, made of an order and a few lists, or taken out of a file; nothing is reckoned yet."""
    async with request.form(max_files=1, max_fields=40) as form:
        try:
            text = await _text_of(request, form)
        except PanewrightError as mistake:
            return page(request, "catalogue.html", await _known(request, mistake.problems), 422)
    return page(request, "catalogue.html", await _known(request, text=text))


async def _text_of(request: Request, form: FormData) -> str:
    from panewright.desk import ranges

    here, file = floor(request), form.get("file")
    if isinstance(file, UploadFile):
        data = await file.read(_MOST + 1)
        if not data or len(data) > _MOST:
            raise OrderError(
                [Problem("This file is no range.", "Choose a text file of a range.", key="file")]
            )
        return data.decode("utf-8", "replace")
    order = await here.asks(here.shop.order, str(form.get("order", "")))
    said: dict[str, list[str]] = {name: _listed(str(form.get(name, ""))) for name in ("columns", "rows")}
    said["quantities"] = _listed(str(form.get("quantities", "")))
    said |= {name: [str(each) for each in form.getlist(name)] for name in ("cells", "glass")}
    return await here.asks(ranges.range_text, order.text, said, battery="battery" in form)


def _listed(typed: str) -> list[str]:
    return [each for each in re.split(r"[,;\s]+", typed.strip()) if each][:200]


async def reckon(request: Request) -> Response:
    """Every size of the range."""
    here, form = floor(request), await request.form()
    text = str(form.get("text", ""))[:_MOST].replace("\r\n", "\n")
    if not text.strip():
        none = Problem("There is no range yet.", "Write one, or make one of an order.", key="text")
        return await _again(request, (none,), text, 422)
    work = here.works.catalogue
    if not await work.do("a catalogue", partial(_made, here, text), tap=tap_of(request), note=text):
        return await _again(request, (work.words.busy,), text, 409)
    if is_tap(request):
        return parts(request, ["told", "offered"], {"told": (), **await _going(request)})
    return go(request, "/catalogue")


async def _made(here: Floor, text: str) -> str | None:
    """The price list reckoned and kept; its mark."""
    from panewright.desk import price_lists

    seen = await here.works.catalogue.ask("price_list", text, await here.own())
    return None if seen is None else await here.asks(price_lists.keep, here.folder, text, seen)


async def _again(request: Request, told: Sequence[Problem], text: str, status: int) -> Response:
    known = await _known(request, told, text)
    if is_tap(request):
        return parts(request, ["told"], known, status)
    return page(request, "catalogue.html", known, status)


async def stop(request: Request) -> Response:
    """Give it up."""
    await floor(request).works.catalogue.stop()
    if is_tap(request):
        return parts(request, ["offered"], await _going(request))
    return go(request, "/catalogue")


async def file(request: Request) -> Response:
    """A price list in one form: of the list that is named, or of the last."""
    from panewright.desk import price_lists

    here, name, mark = floor(request), request.path_params["name"], request.path_params.get("mark", "")
    try:
        if not mark:
            last = await here.asks(price_lists.newest, here.folder)
            mark = last.mark if last else ""
        content = await here.asks(price_lists.file, here.folder, mark, name)
    except PanewrightError as mistake:
        request.path_params.pop("mark", None)
        return page(request, "catalogue.html", await _known(request, mistake.problems), 404)
    inline = name.endswith(".pdf") and not request.query_params.get("take")
    way = "inline" if inline else "attachment"
    head = {"cache-control": "no-store", "content-disposition": f'{way}; filename="{name}"'}
    return Response(content, media_type=_MEDIA[name.rpartition(".")[2]], headers=head)


ROUTES = [
    Route("/catalogue", catalogue),
    Route("/catalogue", reckon, methods=["POST"]),
    Route("/catalogue/range", write, methods=["POST"]),
    Route("/catalogue/stop", stop, methods=["POST"]),
    Route("/catalogue/list/{mark}", look),
    Route("/catalogue/list/{mark}/{name}", file),
    Route("/catalogue/{name}", file),
]
