"""A lot scanned at the bench: straight into the panel, at the step that is due."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError
from panewright.web.address import part
from panewright.web.answer import floor, go, tap_of
from panewright.web.hand import Undo, typed_of
from panewright.web.pages.build import again, steps_of, to
from panewright.web.pages.built import UNKNOWN, Bench, bench_of, lot_of, told_anew, told_before

if TYPE_CHECKING:
    from panewright.desk.built.noted import Noted
    from panewright.ledger.stores.lots import LotVersion


async def scan(request: Request) -> Response:
    """A lot that goes in now; what speaks against it is asked first. A panel's code opens its record."""
    from panewright.desk.built.scanned import asked, put

    here, typed, bench = floor(request), await typed_of(request), await bench_of(request)
    found = await lot_of(request, typed.get("lot", ""))
    if found is None:
        serial = await here.asks(here.shop.find_serial, typed.get("lot", ""))
        return (
            go(request, f"/serial/{part(serial.serial)}") if serial else await again(request, told=[UNKNOWN])
        )
    sent_before: bool = await here.asks(here.shop.written, tap_of(request))
    if bench.noted and sent_before:
        return await again(request, undo=_undo(request, found, bench.noted))
    step = typed.get("step", "")[:80] or await _due(request, bench)
    ask = await here.asks(asked, bench.made, found, step, datetime.now(UTC).date())
    if ask and typed.get("sure") != "yes":
        return await again(request, ask=ask)
    cells = len(bench.made.design.layup.cells)
    try:
        noted = await told_anew(request, bench, lambda told: put(told, found, cells))
    except PanewrightError as mistake:
        return await again(request, told=mistake.problems)
    return await again(request, undo=_undo(request, found, noted))


def _undo(request: Request, found: LotVersion, noted: Noted) -> Undo:
    words = f"{found.lot.kind.capitalize()} {found.mark} is in"
    return Undo(words, to(request, "scan/back"), (("version", f"{noted.version - 1}"),))


async def _due(request: Request, bench: Bench) -> str:
    """The step that is done next; empty where all are done."""
    here = floor(request)
    at_bench = await here.asks(here.shop.bench, bench.serial)
    steps = await here.asks(steps_of, bench.made, at_bench)
    return next((step.key for step in steps if step.now), "")


async def back(request: Request) -> Response:
    """As it was before the lot went in."""
    before = await told_before(request)
    try:
        await told_anew(request, await bench_of(request), lambda _: before)
    except PanewrightError as mistake:
        return await again(request, told=mistake.problems)
    return await again(request)


ROUTES = [
    Route("/build/{number}/{serial:name}/scan", scan, methods=["POST"]),
    Route("/build/{number}/{serial:name}/scan/back", back, methods=["POST"]),
]
