"""Offers of cells compared for an order: written or taken out of a file, played through, the best first."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, SheetError
from panewright.web.answer import floor, go, is_tap, page, parts, tap_of
from panewright.web.floor import Floor
from panewright.web.hand import whole
from panewright.web.pages.listed import listed

_MOST, _MOST_OPEN, _MOST_FIELDS = 60_000, 200, 140
CAUTION = {"no": 0.0, "some": 0.5, "much": 1.0}  #: how much bad luck counts


async def offers(request: Request) -> Response:
    """The offers, and what came of comparing them last."""
    return page(request, "offers.html", await _known(request))


async def _known(
    request: Request, told: Sequence[Problem] = (), text: str | None = None, order: str = ""
) -> dict[str, Any]:
    from panewright.desk.lots.invented_offers import SAMPLE
    from panewright.desk.lots.offer_rows import rows_of

    listing = await listed(request, "/offers", which="open", leaf=_MOST_OPEN)
    work = floor(request).works.offers
    last = work.note.partition("\n")[2]
    return {
        **listing,
        "wanted": order or work.note.partition("\n")[0] or request.query_params.get("order", ""),
        "text": last or SAMPLE if text is None else text,
        "rows": rows_of(last if text is None else text),
        "told": told,
        **_going(request),
    }


def _going(request: Request) -> dict[str, Any]:
    work = floor(request).works.offers
    last = work.last
    return {
        "doing": work.doing,
        "far": work.far,
        "failed": last.problems if last else (),
        "ranking": last.came if last else None,
    }


async def compare(request: Request) -> Response:
    """Rank what is filled in, or written, or what a file says."""
    from panewright.desk.lots.offer_rows import written

    here = floor(request)
    async with request.form(max_files=1, max_fields=_MOST_FIELDS) as form:
        file, order = form.get("file"), str(form.get("order", ""))[:60]
        text = str(form.get("text", ""))[:_MOST].replace("\r\n", "\n")
        panels, caution = whole(form.get("panels")), CAUTION.get(str(form.get("caution")), 0.0)
        if form.get("by") == "rows":
            text = written({name: value[:200] for name, value in form.items() if isinstance(value, str)})
        if isinstance(file, UploadFile) and (data := await file.read(_MOST + 1)):
            text = data[:_MOST].decode("utf-8", "replace")
    try:
        if not text.strip():
            raise SheetError([Problem("There is no offer.", "Fill in a name and a price.", key="offer")])
        found = await here.asks(here.shop.order, order)
    except PanewrightError as mistake:
        return await _again(request, mistake.problems, text, order)
    work = here.works.offers
    steps = partial(_ranked, here, text, (found.number, found.text), (panels, caution))
    if not await work.do("offers", steps, tap=tap_of(request), note=f"{order}\n{text}"):
        return await _again(request, (work.words.busy,), text, order)
    if is_tap(request):
        return parts(request, ["told", "ranking"], {"told": (), **_going(request)})
    return go(request, "/offers")


async def _ranked(here: Floor, text: str, order: tuple[str, str], asked: tuple[int, float]) -> Any:
    number, design = order
    return await here.works.offers.ask("offers_ranked", text, design, f"{number}.toml", *asked)


async def _again(request: Request, told: Sequence[Problem], text: str, order: str) -> Response:
    known = await _known(request, told, text, order)
    if is_tap(request):
        return parts(request, ["told"], known, 422)
    return page(request, "offers.html", known, 422)


async def stop(request: Request) -> Response:
    """Give it up."""
    await floor(request).works.offers.stop()
    if is_tap(request):
        return parts(request, ["ranking"], _going(request))
    return go(request, "/offers")


ROUTES = [
    Route("/offers", offers),
    Route("/offers", compare, methods=["POST"]),
    Route("/offers/stop", stop, methods=["POST"]),
]
