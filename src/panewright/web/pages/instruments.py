"""Instruments: what the shop reads with, when they were calibrated, and every panel that one of them read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who


async def instruments(request: Request) -> Response:
    """All of them."""
    return page(request, "instruments.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = (), said: Any = None) -> dict[str, Any]:
    from panewright.desk.stores.instruments import KINDS, meters

    here = floor(request)
    found = await here.asks(meters, here.shop.ledger)
    return {"meters": found, "kinds": KINDS, "told": told, "said": said or {}}


async def add(request: Request) -> Response:
    """One more."""
    from panewright.desk.stores.instruments import keep_meter

    here, typed, hand = floor(request), await typed_of(request), who(request)
    try:
        await here.asks(keep_meter, here.shop.ledger, typed, hand)
    except PanewrightError as mistake:
        known = await _known(request, mistake.problems, typed)
        if is_tap(request):
            return parts(request, ["told", "meters"], known, 422)
        return page(request, "instruments.html", known, 422)
    here.live.tell("instrument", hand.tap)
    return go(request, "/instruments")


async def instrument(request: Request) -> Response:
    """One of them, and the panels it read."""
    from panewright.desk.stores.instruments import FIGURES, meter, panels_read_by

    here, name = floor(request), request.path_params["name"]
    typed = {key: value[:40] for key, value in request.query_params.items()}
    known: dict[str, Any] = {"meter": await here.asks(meter, here.shop.ledger, name), "asked": typed}
    known["figures"] = FIGURES
    try:
        known["panels"] = await here.asks(panels_read_by, here.shop.ledger, name, typed)
    except PanewrightError as mistake:
        return page(request, "instrument.html", {**known, "panels": (), "told": mistake.problems}, 422)
    return page(request, "instrument.html", known)


async def calibrated(request: Request) -> Response:
    """A calibration more."""
    from panewright.desk.stores.instruments import keep_calibration

    return await _kept(request, keep_calibration)


async def accurate(request: Request) -> Response:
    """What is written of its accuracy."""
    from panewright.desk.stores.instruments import keep_accuracy

    return await _kept(request, keep_accuracy)


async def _kept(request: Request, keep: Callable[..., None]) -> Response:
    here, name, typed = floor(request), request.path_params["name"], await typed_of(request)
    hand = who(request)
    try:
        await here.asks(keep, here.shop.ledger, name, typed, hand)
    except PanewrightError as mistake:
        if is_tap(request):
            return parts(request, ["told"], {"told": mistake.problems}, 422)
        raise
    here.live.tell("instrument", hand.tap)
    return go(request, f"/instruments/{part(name)}")


ROUTES = [
    Route("/instruments", instruments),
    Route("/instruments", add, methods=["POST"]),
    Route("/instruments/{name:name}", instrument),
    Route("/instruments/{name:name}/calibrated", calibrated, methods=["POST"]),
    Route("/instruments/{name:name}/accurate", accurate, methods=["POST"]),
]
