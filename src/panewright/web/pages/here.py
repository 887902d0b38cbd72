"""This screen: who is at it, and how other screens come in."""

from __future__ import annotations

from dataclasses import replace

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from panewright.errors import Problem
from panewright.web.answer import floor, page, session
from panewright.web.session import ELSEWHERE, fresh


async def here(request: Request) -> Response:
    """Who is at this screen, and the address for others."""
    return page(request, "here.html", {"others": request.app.state.others})


async def name(request: Request) -> Response:
    """Write down who is at this screen."""
    said = " ".join(str((await request.form()).get("who", "")).split())[:40]
    answer = RedirectResponse("/here", 303)
    floor(request).sessions.write(answer, replace(session(request), who=said), request.state.door)
    return answer


async def enter(request: Request) -> Response:
    """Asks for the pass phrase."""
    return page(request, "enter.html", {"to": _inside(request.query_params.get("to", "/"))})


async def come_in(request: Request) -> Response:
    """A pass phrase: in, or asked again."""
    shop, form = floor(request), await request.form()
    to = _inside(str(form.get("to", "/")))
    if not shop.sessions.may_try():
        return _again(request, to, Problem("Too many tries.", "Wait a minute.", key="pass phrase"), 429)
    if not await shop.asks(shop.keys.knows, str(form.get("phrase", ""))):
        wrong = Problem("That is not the pass phrase.", "Ask at the shop's own computer.", key="pass phrase")
        return _again(request, to, wrong, 403)
    answer = RedirectResponse(to, 303)
    shop.sessions.write(answer, fresh(ELSEWHERE, str(form.get("who", ""))), request.state.door)
    return answer


def _again(request: Request, to: str, problem: Problem, status: int) -> Response:
    return page(request, "enter.html", {"to": to, "told": [problem]}, status)


def _inside(to: str) -> str:
    """Only a place of this shop."""
    return to if to.startswith("/") and not to.startswith(("//", "/\\")) and to.isprintable() else "/"


ROUTES = [
    Route("/here", here),
    Route("/here", name, methods=["POST"]),
    Route("/enter", enter),
    Route("/enter", come_in, methods=["POST"]),
]
