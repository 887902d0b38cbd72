"""The plan of an order over days: how many panels, how many people, from which day."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page


async def plan(request: Request) -> Response:
    """Bars over days, and who does what on each."""
    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    asked = {name: request.query_params.get(name, "")[:20] for name in ("panels", "people", "start")}
    known: dict[str, Any] = {
        "number": number,
        "plan": None,
        "refused": (),
        "wants": f"/orders/{part(number)}/plan?{urlencode({**asked, 'wait': '1'})}",
    }
    if request.query_params.get("wait"):
        known |= {"wants": "", **await _planned(request, text)}
    return page(request, "days.html", known)


async def _planned(request: Request, text: str) -> dict[str, Any]:
    here, number = floor(request), request.path_params["number"]
    try:
        return {"plan": await here.work(f"plan:{number}", "day_plan", *await _told(request, text))}
    except PanewrightError as mistake:
        return {"refused": mistake.problems}


async def _told(request: Request, text: str) -> tuple[Any, ...]:
    from panewright.desk.orders.planned import asked_of

    asked = asked_of(request.query_params, datetime.now(UTC).date())
    return text, f"{request.path_params['number']}.toml", await floor(request).own(), asked


async def pdf(request: Request) -> Response:
    """The plan to hang up."""
    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    made = await here.work(f"plan:{number}", "day_plan_pdf", *await _told(request, text))
    if made is None:
        return Response("It was given up. Ask for it again.", 404)
    head = {
        "cache-control": "no-store",
        "content-disposition": f"inline; filename*=UTF-8''{part(f'plan {number}.pdf')}",
    }
    return Response(made, media_type="application/pdf", headers=head)


async def stop(request: Request) -> Response:
    """Give it up."""
    number = request.path_params["number"]
    floor(request).give_up(f"plan:{number}")
    return Response(status_code=204) if is_tap(request) else go(request, f"/orders/{part(number)}")


ROUTES = [
    Route("/orders/{number:name}/plan", plan),
    Route("/orders/{number:name}/plan.pdf", pdf),
    Route("/orders/{number:name}/plan/stop", stop, methods=["POST"]),
]
