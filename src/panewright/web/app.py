"""The application: every place in the shop, behind who may come in."""

from __future__ import annotations

import contextlib
import sys
import traceback
from collections.abc import AsyncIterator, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import BaseRoute
from starlette.types import ASGIApp, Receive, Scope, Send

from panewright.errors import AwayError, PanewrightError, Problem, RecordError
from panewright.web.address import address
from panewright.web.answer import is_tap, page, parts
from panewright.web.doing import NoAnswer
from panewright.web.floor import Floor
from panewright.web.guard import TooMuch
from panewright.web.pages import (
    array,
    array_text,
    arrays,
    build,
    built,
    buy,
    catalogue,
    cells,
    charts,
    customers,
    cutting,
    days,
    dealing,
    deals,
    erase,
    fault,
    here,
    instruments,
    look,
    lots,
    need,
    offer,
    offers,
    order,
    order_text,
    orders,
    panel,
    papers,
    rate,
    records,
    rules,
    scan,
    serial,
    shelf,
)
from panewright.web.session import Session

_OPEN = ("/enter", "/look/")  #: what is seen before the pass phrase


@dataclass(frozen=True, slots=True)
class Others:
    """How other screens come in."""

    address: str
    code: str  #: the same as a picture to photograph
    fingerprint: str = ""


_ROUTES: list[BaseRoute] = [  # of two that fit a path the first answers
    *orders.ROUTES,
    *offer.ROUTES,
    *days.ROUTES,
    *order.ROUTES,
    *order_text.ROUTES,
    *customers.ROUTES,
    *erase.ROUTES,
    *panel.ROUTES,
    *build.ROUTES,
    *scan.ROUTES,
    *deals.ROUTES,
    *built.ROUTES,
    *papers.ROUTES,
    *shelf.ROUTES,
    *cutting.ROUTES,
    *buy.ROUTES,
    *catalogue.ROUTES,
    *lots.ROUTES,
    *dealing.ROUTES,
    *need.ROUTES,
    *offers.ROUTES,
    *cells.ROUTES,
    *instruments.ROUTES,
    *rules.ROUTES,
    *arrays.ROUTES,
    *array_text.ROUTES,
    *array.ROUTES,
    *serial.ROUTES,
    *rate.ROUTES,
    *charts.ROUTES,
    *fault.ROUTES,
    *records.ROUTES,
    *here.ROUTES,
    *look.ROUTES,
]


def make_app(floor: Floor, others: Others | None = None) -> Starlette:
    """The shop's pages."""

    @contextlib.asynccontextmanager
    async def whole_day(_: Starlette) -> AsyncIterator[None]:
        floor.begin()
        yield
        floor.end()

    app = Starlette(
        routes=_ROUTES,
        lifespan=whole_day,
        middleware=[
            Middleware(GZipMiddleware, minimum_size=600, compresslevel=4),
            Middleware(Entrance, floor=floor),
        ],
        exception_handlers={
            404: _nowhere,
            405: _nowhere,
            TooMuch: _too_much,
            PanewrightError: _mistaken,
            AwayError: _away,
            NoAnswer: _away,
            Exception: _broken,
        },
    )
    app.state.floor, app.state.others = floor, others
    return app


class Entrance:
    """Gives every request its session, or shows it to the door."""

    def __init__(self, app: ASGIApp, floor: Floor) -> None:
        self.app, self.floor = app, floor

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope)
        known = self.floor.sessions.read(request)
        scope["state"]["session"] = known or Session("")
        if known is None and not scope["path"].startswith(_OPEN):
            await _to_the_door(request)(scope, receive, send)
            return
        await self.app(scope, receive, send)


def _to_the_door(request: Request) -> Response:
    """A person is asked for the pass phrase; a script is told that it must ask the person."""
    if (
        is_tap(request)
        or "x-parts" in request.headers
        or request.method != "GET"
        or request.url.path == "/live"
    ):
        return PlainTextResponse("Come in first.", 401)
    return RedirectResponse(f"/enter?to={quote(address(request))}", 303)


async def _mistaken(request: Request, mistake: Exception) -> Response:
    """A person's mistake, in sentences."""
    assert isinstance(mistake, PanewrightError)
    status = 404 if isinstance(mistake, RecordError) and request.method == "GET" else 422
    return _wrong(request, "That did not work", mistake.problems, status)


async def _away(request: Request, mistake: Exception) -> Response:
    """The records do not answer: a page's script keeps the tap and sends it again."""
    assert isinstance(mistake, (AwayError, NoAnswer))
    return _wrong(request, "The records do not answer", mistake.problems, 503)


async def _nowhere(request: Request, _: Exception) -> Response:
    gone = Problem("There is nothing here.", "Look how the address is written.")
    return _wrong(request, "Nothing here", [gone], 404)


async def _too_much(request: Request, _: Exception) -> Response:
    large = Problem("This is too large.", "Send less, or a smaller file.")
    return _wrong(request, "Too large", [large], 413)


async def _broken(request: Request, mistake: Exception) -> Response:
    """Our own mistake: where it happened goes to the log, and nothing of what was typed."""
    places = [f"{frame.name}:{frame.lineno}" for frame in traceback.extract_tb(mistake.__traceback__)[-4:]]
    print(f"a page broke: {type(mistake).__name__} at {' > '.join(places)}", file=sys.stderr, flush=True)
    ours = Problem(
        "The shop's program has a fault here.", "What you typed is kept; try once more, or go on elsewhere."
    )
    return _wrong(request, "A fault", [ours], 500)


def _wrong(request: Request, head: str, problems: Sequence[Problem], status: int) -> Response:
    if is_tap(request) or "x-parts" in request.headers:
        return parts(request, ["told"], {"told": problems}, status)
    known = {"head": head, "problems": problems}
    return page(request, "wrong.html", known, status)
