"""How many cells to buy, before there is an offer: asked and answered on one page."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError
from panewright.web.answer import page
from panewright.web.hand import whole

_MOST_LETTERS = 2000
_BLANK = {"good": "36", "lost": "soldering: 3 of 100", "sure": "95 %", "pack": ""}


async def need(request: Request) -> Response:
    """The question, and its answer where it was asked."""
    from panewright.desk.lots import need as needs

    typed = request.query_params
    said = {name: typed.get(name, blank)[:_MOST_LETTERS] for name, blank in _BLANK.items()}
    if "good" not in typed:
        return page(request, "need.html", {"said": said, "told": (), "answer": ()})
    lost = [line for line in said["lost"].splitlines() if line.strip()]
    try:
        asked = needs.need(whole(said["good"]), lost, said["sure"], whole(said["pack"]) or 1)
    except PanewrightError as mistake:
        return page(request, "need.html", {"said": said, "told": mistake.problems, "answer": ()}, 422)
    return page(request, "need.html", {"said": said, "told": (), "answer": tuple(needs.told(asked))})


ROUTES = [Route("/need", need)]
