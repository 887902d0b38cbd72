"""What is offered to a customer: the quote of an order, and the box of a kit."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts, when
from panewright.web.hand import typed_of, who


async def quote(request: Request) -> Response:
    """Prices in several numbers, tax, deposit, days, and what a market asks."""
    return page(request, "quote.html", await _quote_known(request))


async def _quote_known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.orders import offered

    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    known: dict[str, Any] = {
        "number": number,
        "sent": await here.asks(offered.sent, here.shop.ledger, number),
        "day": _today().isoformat(),
        "far": here.far.get(f"quote:{number}", 0),
        "offer": None,
        "refused": (),
        "wants": f"/orders/{part(number)}/quote?wait=1",
        "told": told,
    }
    if request.query_params.get("wait") or request.method == "POST":
        known |= {"wants": "", **await _offered(request, version.text, _today())}
    return known


async def _offered(request: Request, text: str, day: date) -> dict[str, Any]:
    here, number = floor(request), request.path_params["number"]
    told = text, f"{number}.toml", await here.own(), day
    try:
        return {"offer": await here.work(f"quote:{number}", "offered", *told)}
    except PanewrightError as mistake:
        return {"refused": mistake.problems}


def _today() -> date:
    return datetime.now(UTC).date()


async def quote_pdf(request: Request) -> Response:
    """The quote of today, to print or to send."""
    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    told = text, f"{number}.toml", await here.own(), _today()
    made = await here.work(f"quote:{number}", "quote_pdf", *told)
    if made is None:
        return Response("It was given up. Ask for it again.", 404)
    way = "attachment" if request.query_params.get("take") else "inline"
    head = {
        "cache-control": "no-cache",
        "content-disposition": f"{way}; filename*=UTF-8''{part(f'quote {number} {_today()}.pdf')}",
    }
    return Response(made, media_type="application/pdf", headers=head)


async def went_out(request: Request) -> Response:
    """The quote was sent: kept with its day and its total."""
    from panewright.desk.orders import offered

    here, number, hand = floor(request), request.path_params["number"], who(request)
    text = (await here.asks(here.shop.order, number)).text
    found = (await _offered(request, text, _today())).get("offer")
    if found is None:
        wrong = Problem("The order has no quote yet.", "Mend what is wrong in it first.")
        return page(request, "quote.html", await _quote_known(request, (wrong,)), 422)
    await here.asks(offered.went_out, here.shop.ledger, number, found, _today(), hand)
    here.live.tell(f"quote:{number}", request.headers.get("x-tap", ""))
    if is_tap(request):
        return parts(request, ["told", "quote"], await _quote_known(request))
    return go(request, f"/orders/{part(number)}/quote")


async def stop(request: Request) -> Response:
    """Give it up."""
    here, number = floor(request), request.path_params["number"]
    here.give_up(f"quote:{number}")
    if is_tap(request):
        return Response(status_code=204)
    return go(request, f"/orders/{part(number)}")


async def kit(request: Request) -> Response:
    """What goes into a box, ticked box by box."""
    return page(request, "kit.html", await _kit_known(request))


async def _kit_known(request: Request, box: str = "") -> dict[str, Any]:
    from panewright.desk.orders import packing

    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    boxes = await here.asks(packing.boxes, here.shop.ledger, number)
    wanted = box or request.query_params.get("box", "")
    chosen = wanted if wanted in boxes else (boxes[0] if boxes else "")
    known: dict[str, Any] = {
        "number": number,
        "boxes": boxes,
        "box": chosen,
        "ticked": await here.asks(packing.ticked, here.shop.ledger, chosen) if chosen else {},
        "kit": None,
        "refused": (),
        "far": here.far.get(f"quote:{number}", 0),
        "wants": f"/orders/{part(number)}/kit?wait=1&box={part(chosen)}",
    }
    if request.query_params.get("wait") or request.method == "POST":
        known["wants"] = ""
        try:
            told = text, f"{number}.toml", await here.own()
            known["kit"] = await here.work(f"quote:{number}", "kit", *told)
        except PanewrightError as mistake:
            known["refused"] = mistake.problems
    return known


async def packed(request: Request) -> Response:
    """A line lies in the box, or does not after all."""
    from panewright.desk.orders import packing

    here, number, hand = floor(request), request.path_params["number"], who(request)
    typed = await typed_of(request)
    box, key, done = typed.get("box", ""), typed.get("line", ""), typed.get("done") != "no"
    await here.asks(packing.tick, here.shop.ledger, number, box, key, done=done, who=hand)
    here.live.tell(f"packed:{box}", request.headers.get("x-tap", ""))
    if is_tap(request):
        return parts(request, ["told", "kitlist"], {"told": (), **await _kit_known(request, box)})
    return go(request, f"/orders/{part(number)}/kit?box={part(box)}")


async def box_pdf(request: Request) -> Response:
    """The packing list of one box, printed with what lies in it."""
    from panewright.desk.orders import packing

    here, number = floor(request), request.path_params["number"]
    text, box = (await here.asks(here.shop.order, number)).text, request.path_params["box"]
    boxes = await here.asks(packing.boxes, here.shop.ledger, number)
    if box not in boxes:
        return Response("There is no such box.", 404)
    lies = await here.asks(packing.ticked, here.shop.ledger, box)
    told = {line: f"{by}, {when(at)}" for line, (by, at) in lies.items()}
    asked = text, f"{number}.toml", await here.own(), (box, boxes.index(box) + 1, told)
    made = await here.work(f"quote:{number}", "box_pdf", *asked)
    if made is None:
        return Response("It was given up. Ask for it again.", 404)
    name = part(f"box {box}.pdf")
    head = {"cache-control": "no-store", "content-disposition": f"inline; filename*=UTF-8''{name}"}
    return Response(made, media_type="application/pdf", headers=head)


ROUTES = [
    Route("/orders/{number:name}/kit/{box:name}.pdf", box_pdf),
    Route("/orders/{number:name}/quote", quote),
    Route("/orders/{number:name}/quote.pdf", quote_pdf),
    Route("/orders/{number:name}/quote/sent", went_out, methods=["POST"]),
    Route("/orders/{number:name}/quote/stop", stop, methods=["POST"]),
    Route("/orders/{number:name}/kit", kit),
    Route("/orders/{number:name}/kit/packed", packed, methods=["POST"]),
]
