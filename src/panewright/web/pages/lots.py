"""Lots: what came in which batch, until when it is good, and every panel that holds something of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who, whole

_MOST_LABELS = 60


async def lots(request: Request) -> Response:
    """All of them, and a new one."""
    return page(request, "lots.html", await known(request))


async def known(request: Request, told: Sequence[Problem] = (), said: Any = None) -> dict[str, Any]:
    """What the page of all lots shows."""
    from panewright.desk.lots import kept as measured
    from panewright.desk.stores import lots as desk_lots
    from panewright.desk.stores import shelved

    here = floor(request)
    return {
        "lots": await here.asks(desk_lots.every, here.shop.ledger),
        "names": await here.asks(shelved.item_names),
        "kinds": await here.asks(desk_lots.kinds),
        "measured": await here.asks(measured.lots_measured, here.shop.ledger),
        "told": told,
        "said": said or {},
        "to": "/lots",
    }


async def keep(request: Request) -> Response:
    """A lot written down, or described better; what another hand wrote meanwhile is told."""
    from panewright.desk.stores.lots import keep_lot

    here, typed, hand = floor(request), await typed_of(request), who(request)
    try:
        kept = await here.asks(keep_lot, here.shop.ledger, typed, hand)
    except StaleError:
        words = "Somebody wrote of this lot meanwhile, or its mark is taken."
        told: Sequence[Problem] = [Problem(words, "Look at it again, or take another mark.", key="mark")]
    except PanewrightError as mistake:
        told = mistake.problems
    else:
        here.live.tell("lot", hand.tap)
        return go(request, f"/lots/{part(kept.mark)}")
    shown = await known(request, told, typed)
    if is_tap(request):
        return parts(request, ["told", "lotform"], shown, 422)
    return page(request, "lots.html", shown, 422)


async def lot(request: Request) -> Response:
    """One of them, and the panels that hold it."""
    from panewright.desk.stores.lots import label_code, panels_of_lot, shown_lot

    here, mark = floor(request), request.path_params["mark"]
    found = await here.asks(shown_lot, here.shop.ledger, mark)
    shown = {
        **await known(request),
        "lot": found,
        "said": found.typed,
        "code": await here.asks(label_code, mark),
        "panels": await here.asks(panels_of_lot, here.shop.ledger, mark),
    }
    return page(request, "lot.html", shown)


async def labels(request: Request) -> Response:
    """Labels with the lot's code, to be printed and cut apart."""
    from panewright.desk.stores.lots import label_code, shown_lot

    here, mark = floor(request), request.path_params["mark"]
    found = await here.asks(shown_lot, here.shop.ledger, mark)
    count = min(max(1, whole(request.query_params.get("n")) or found.pieces), _MOST_LABELS)
    known = {"lot": found, "count": count, "code": await here.asks(label_code, mark)}
    return page(request, "labels.html", known)


async def batch(request: Request) -> Response:
    """Every panel that holds something of a maker's batch, in however many lots it came."""
    from panewright.desk.stores.lots import panels_of_batch

    here, name = floor(request), request.path_params["batch"]
    panels = await here.asks(panels_of_batch, here.shop.ledger, name)
    return page(request, "batch.html", {"batch": name, "panels": panels})


ROUTES = [
    Route("/lots", lots),
    Route("/lots", keep, methods=["POST"]),
    Route("/lots/{mark:name}", lot),
    Route("/lots/{mark:name}/labels", labels),
    Route("/batches/{batch:name}", batch),
]
