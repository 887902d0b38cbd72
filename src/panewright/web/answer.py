"""From what is known to a page, or to the parts of it that the page asks for."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from functools import cache
from pathlib import Path
from string import punctuation
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from panewright.array.sign import sign_of
from panewright.web.address import address, part
from panewright.web.floor import Floor
from panewright.web.session import Session

TEMPLATES = Path(__file__).parent / "templates"


@cache
def _environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters["seg"] = part
    made.filters["when"] = when
    made.filters["sign"] = lambda number: sign_of(number - 1)
    made.filters["svg"] = Markup
    return made


def floor(request: Request) -> Floor:
    """The running shop."""
    found: Floor = request.app.state.floor
    return found


def session(request: Request) -> Session:
    """Who asks."""
    found: Session = request.state.session
    return found


def when(moment: datetime) -> str:
    """A moment as one says it in the shop, in the shop's own time.

    >>> from datetime import UTC
    >>> len(when(datetime(2026, 3, 4, 12, 30, tzinfo=UTC)))
    16
    """
    return moment.astimezone().strftime("%Y-%m-%d %H:%M")


def is_tap(request: Request) -> bool:
    """Whether the page's own script asks, which wants parts and no page."""
    return "x-tap" in request.headers


def tap_of(request: Request) -> str:
    """The key of a tap; without one each request is a tap of its own."""
    from secrets import token_hex

    sent = request.headers.get("x-tap", "")
    return sent if 8 <= len(sent) <= 64 and sent.isalnum() else token_hex(12)


def page(request: Request, template: str, known: Mapping[str, Any], status: int = 200) -> Response:
    """A whole page, or only the parts that are asked for by their ids."""
    wanted = [name for name in request.headers.get("x-parts", "").split() if name.isidentifier()]
    if wanted:
        return parts(request, wanted, known)
    html = _environment().get_template(template).render({**_common(request), **known})
    return HTMLResponse(html, status, headers={"cache-control": "no-store", "vary": "x-parts"})


def parts(request: Request, names: list[str], known: Mapping[str, Any], status: int = 200) -> Response:
    """Parts of a page, each with its id; a part that is none is left out."""
    made = []
    for name in dict.fromkeys(names):
        if (TEMPLATES / "parts" / f"{name}.html").is_file():
            made.append(
                _environment().get_template(f"parts/{name}.html").render({**_common(request), **known})
            )
    return HTMLResponse("\n".join(made), status, headers={"cache-control": "no-store"})


def go(request: Request, where: str) -> Response:
    """On to another page: told to the page's script, or by the browser itself."""
    where = quote(where, safe=punctuation)  # a head bears no other letters
    if is_tap(request):
        return HTMLResponse("", headers={"x-go": where})
    return RedirectResponse(where, 303)


def _common(request: Request) -> dict[str, Any]:
    return {
        "who": session(request),
        "door": request.state.door,
        "undo": None,
        "told": None,
        "path": address(request),
    }
