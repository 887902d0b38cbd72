"""The record of a serial: found by typing, scanning or a photograph of its code."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from typing import Any
from urllib.parse import quote

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.guard import MOST_UPLOAD_BYTES
from panewright.web.hand import typed_of, who


async def search(request: Request) -> Response:
    """Where a code is typed, scanned or photographed."""
    code = request.query_params.get("code", "")
    if code:
        return await _found(request, (code,))
    return page(request, "search.html", await _known(request))


async def _known(request: Request, told: tuple[Problem, ...] = ()) -> dict[str, Any]:
    here = floor(request)
    return {"begun": await here.asks(here.shop.serials), "told": told, "code": ""}


async def _found(request: Request, codes: tuple[str, ...]) -> Response:
    """On to the serial, or else the lot or the order, that one of the codes names."""
    from panewright.desk.stores.lots import mark_of

    here = floor(request)
    for code in codes:
        found = await here.asks(here.shop.find_serial, code[:200])
        if found is not None:
            return go(request, f"/serial/{part(found.serial)}")
    for code in codes:
        if mark := await here.asks(mark_of, here.shop.ledger, code[:200]):
            return go(request, f"/lots/{part(mark)}")
    for code in codes:
        with suppress(RecordError):
            return go(
                request, f"/orders/{part((await here.asks(here.shop.order, code.strip()[:60])).number)}"
            )
    said = ", ".join(codes)[:60] or "no code in the picture"
    problem = Problem(f"No panel bears it: {said}.", "Look how it is written; begun panels stand below.")
    return page(request, "search.html", await _known(request, (problem,)), 404)


async def photograph(request: Request) -> Response:
    """A photograph of the label, read by a process with limits."""
    async with request.form(max_files=1, max_fields=2) as form:
        file = form.get("file")
        data = await file.read(MOST_UPLOAD_BYTES) if isinstance(file, UploadFile) else b""
    try:
        codes = await floor(request).bounded("codes", data)
    except PanewrightError as mistake:
        return page(request, "search.html", await _known(request, mistake.problems), 422)
    return await _found(request, codes)


async def serial(request: Request) -> Response:
    """Everything that is known of one panel."""
    return page(request, "serial.html", await _record_known(request))


async def _record_known(request: Request, told: Sequence[Problem] = (), said: Any = None) -> dict[str, Any]:
    from panewright.desk.orders.customers import of_order
    from panewright.desk.serials.record import record
    from panewright.desk.shop.serials import PAPERS

    here, name = floor(request), request.path_params["serial"]
    found = await here.asks(record, here.shop, name)
    number = found.life.serial.order
    return {
        "record": found,
        "life": found.life,
        "number": number,
        "customer": await here.asks(of_order, here.shop.ledger, number),
        "code": await here.asks(_code, found.life.serial.serial),
        "paper_kinds": PAPERS,
        "today": datetime.now(UTC).date().isoformat(),
        "told": told,
        "said": said or {},
    }


async def claim(request: Request) -> Response:
    """What the customer says is wrong."""
    from panewright.desk.serials.after import keep_claim

    return await _kept(request, keep_claim, "claim")


async def repair(request: Request) -> Response:
    """What was done about it."""
    from panewright.desk.serials.after import keep_repair

    return await _kept(request, keep_repair, "repair")


async def _kept(request: Request, keep: Callable[..., None], form: str) -> Response:
    here, name, typed = floor(request), request.path_params["serial"], await typed_of(request)
    hand = who(request)
    try:
        await here.asks(keep, here.shop.ledger, name, typed, hand)
    except PanewrightError as mistake:
        known = await _record_known(request, mistake.problems, {**typed, "form": form})
        if is_tap(request):
            return parts(request, ["told", "after"], known, 422)
        return page(request, "serial.html", known, 422)
    here.live.tell(f"{form}:{name}", hand.tap)
    if is_tap(request):
        return parts(request, ["told", "after"], await _record_known(request))
    return go(request, f"/serial/{part(name)}")


def _code(serial: str) -> str:
    from panewright.desk.orders.shown import code_svg

    return code_svg(serial)


async def paper(request: Request) -> Response:
    """A raw file of readings, a report or a certificate of this panel, kept as it came."""
    from panewright.desk.shop.serials import Paper

    here, name = floor(request), request.path_params["serial"]
    async with request.form(max_files=1, max_fields=3) as form:
        file, kind, title = form.get("file"), str(form.get("kind", "")), str(form.get("title", ""))
        data = await file.read(MOST_UPLOAD_BYTES) if isinstance(file, UploadFile) else b""
        called = " ".join((file.filename or "").split()) if isinstance(file, UploadFile) else ""
    try:
        await here.asks(here.shop.keep_paper, name, Paper(kind, title, called, data), who(request))
    except PanewrightError as mistake:
        return page(request, "serial.html", await _record_known(request, mistake.problems), 422)
    here.live.tell(f"step:{name}")
    return go(request, f"/serial/{part(name)}")


async def file(request: Request) -> Response:
    """A photograph to look at; any other paper only to take along, whatever is in it."""
    here, digest = floor(request), request.path_params["sha256"]
    known, content = await here.asks(here.shop.kept_file, digest), await here.asks(here.shop.file, digest)
    head = {"cache-control": "private, max-age=86400"}
    if known.media != "image/jpeg":
        head["content-disposition"] = f"attachment; filename*=UTF-8''{quote(known.name, safe='')}"
    return Response(content, media_type=known.media, headers=head)


ROUTES = [
    Route("/serial", search),
    Route("/serial/photo", photograph, methods=["POST"]),
    Route("/serial/{serial:name}", serial),
    Route("/serial/{serial:name}/claim", claim, methods=["POST"]),
    Route("/serial/{serial:name}/repair", repair, methods=["POST"]),
    Route("/files/{serial:name}", paper, methods=["POST"]),
    Route("/kept/{sha256}", file),
]
