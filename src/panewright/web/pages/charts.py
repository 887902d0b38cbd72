"""Charts over many panels: rating, string Voc, joint pull; peel samples are written down here."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who, whole


async def charts(request: Request) -> Response:
    """All three."""
    return page(request, "charts.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = (), said: Any = None) -> dict[str, Any]:
    from panewright.desk.charts import kept
    from panewright.desk.stores.instruments import meters

    here = floor(request)
    order, good = request.query_params.get("order", "")[:60], whole(request.query_params.get("good"))
    known = await here.asks(kept.for_charts, here.shop.ledger, order)
    return {
        "charts": await here.workers.ask("charts_seen", known, min(good, 500)),
        "order": order,
        "good": good,
        "meters": await here.asks(meters, here.shop.ledger),
        "told": told,
        "said": said or {},
    }


async def peeled(request: Request) -> Response:
    """Joints peeled from one sample."""
    from panewright.desk.charts.kept import keep_pulls

    here, typed, hand = floor(request), await typed_of(request), who(request)
    try:
        await here.asks(keep_pulls, here.shop.ledger, typed, hand)
    except PanewrightError as mistake:
        if is_tap(request):
            return parts(request, ["told"], {"told": mistake.problems}, 422)
        return page(request, "charts.html", await _known(request, mistake.problems, typed), 422)
    here.live.tell("reading", hand.tap)
    return go(request, "/charts")


ROUTES = [
    Route("/charts", charts),
    Route("/charts/peeled", peeled, methods=["POST"]),
]
