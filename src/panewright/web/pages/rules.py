"""The bench's rules: how the shop labels and judges, and how many of its panels have which fault."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who


async def rules(request: Request) -> Response:
    """As they stand."""
    try:
        return page(request, "rules.html", await _known(request))
    except PanewrightError as mistake:  # a file with a mistake is shown as such, and mended by hand
        return page(request, "rules.html", _shown(None, mistake.problems), 422)


async def _known(
    request: Request, told: Sequence[Problem] = (), said: Mapping[str, str] | None = None
) -> dict[str, Any]:
    from panewright.desk.rating.shop_rules import shop_rules

    here = floor(request)
    return _shown(await here.asks(shop_rules, here.shop.folder), told, said)


def _shown(standing: Any, told: Sequence[Problem], said: Mapping[str, str] | None = None) -> dict[str, Any]:
    from panewright.desk.rating.shop_rules import asked

    words = said if said is not None else standing.words if standing else {}
    return {"rules": standing, "said": words, "told": told, **asked()}


async def keep(request: Request) -> Response:
    """What was typed kept, or told what to mend."""
    from panewright.desk.rating.shop_rules import keep_rules

    here, typed, hand = floor(request), await typed_of(request), who(request)
    try:
        await here.asks(keep_rules, here.shop.folder, typed)
    except PanewrightError as mistake:
        if is_tap(request):
            return parts(request, ["told"], {"told": mistake.problems}, 422)
        return page(request, "rules.html", await _known(request, mistake.problems, typed), 422)
    here.live.tell("rules", hand.tap)
    return go(request, "/rules")


ROUTES = [Route("/rules", rules), Route("/rules", keep, methods=["POST"])]
