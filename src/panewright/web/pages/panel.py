"""The panel: the drawing from either side, and what it does while cells are shaded, cracked and swapped."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import Undo, who, whole
from panewright.web.pages.listed import listed

if TYPE_CHECKING:
    from panewright.desk import Made

SIDES = {"front": "From the sun", "bench": "From the bench"}


@dataclass(frozen=True, slots=True)
class Tool:
    """What a tap does to a cell."""

    name: str
    state: str
    mark: str  #: class of a cell that it was done to


TOOLS = (
    Tool("Half shade", "shade-50", "half"),
    Tool("Full shade", "shade-100", "shaded"),
    Tool("Crack, a third off", "crack-33", "cracked"),
    Tool("Swap for a weaker one", "swap-90", "swapped"),
    Tool("Make sound", "sound", ""),
)


async def pick(request: Request) -> Response:
    """Which order's panel?"""
    known = {"place": "Panel", "to": "/panel/", **await listed(request, "/panel")}
    return page(request, "pick.html", known)


async def panel(request: Request) -> Response:
    """One order's panel."""
    known = await _known(request)
    return page(request, "panel.html", known)


async def _known(request: Request, undo: Undo | None = None) -> dict[str, Any]:
    """The drawing, the curve, and what the cells do."""
    here, number = floor(request), request.path_params["number"]
    side = request.query_params.get("side", "front")
    text, made = await _design(request)
    known: dict[str, Any] = {
        "number": number,
        "side": side if side in SIDES else "front",
        "sides": SIDES,
        "tools": TOOLS,
        "undo": undo,
        "shown": None,
        "tried": None,
    }
    if made is None:
        return known
    marks = await here.asks(here.shop.cells, number)
    tried = await here.asks(here.try_out, made, text, marks)
    here.quicken()
    shown = here.reckoner.shown(text)
    return known | {
        "shown": shown,
        "picture": "" if is_tap(request) else await here.asks(_picture, shown, known["side"], tried.looks),
        "tried": tried,
        "marks": json.dumps({str(cell): look for cell, look in tried.looks.items()}),
        "words": json.dumps({str(cell): words for cell, words in tried.words.items()}),
    }


def _picture(shown: Any, side: str, looks: dict[int, str]) -> str:
    from panewright.desk.orders.tried import dressed

    return dressed(shown.front if side == "front" else shown.bench, looks)


async def _design(request: Request) -> tuple[str, Made | None]:
    """The design of an order as it stands; where that has mistakes, the last that could be made."""
    here, number = floor(request), request.path_params["number"]
    text = (await here.asks(here.shop.order, number)).text
    made = await here.reckoner.made(number, text)
    if made is None and (last := here.reckoner.last.get(number)):
        text = last.seen.text
        made = await here.reckoner.made(number, text)
    return text, made


async def cell(request: Request) -> Response:
    """One or more cells given a state."""
    from panewright.desk.orders.tried import state_of

    here, number, form = floor(request), request.path_params["number"], await request.form()
    asked = dict(zip(form.getlist("cell"), form.getlist("state"), strict=False))
    cells = {whole(cell): str(state) for cell, state in asked.items()}
    try:
        for state in cells.values():
            state_of(state)
        _refuse_no_cell(cells, (await _design(request))[1])
        before = await here.asks(here.shop.cells, number)
        done_by = who(request)
        await here.asks(here.shop.try_cells, number, cells, done_by)
    except PanewrightError as mistake:
        return await _again(request, {"told": mistake.problems}, 422)
    here.live.tell(f"panel:{number}", done_by.tap)
    return await _again(request, {"undo": _undo(number, cells, before)})


def _refuse_no_cell(cells: dict[int, str], made: Made | None) -> None:
    """A cell that the panel has not, or has not yet, is nothing to try on."""
    last = len(made.design.layup.cells) if made else 0
    strange = next((cell for cell in cells if not 1 <= cell <= last), None)
    if cells and strange is None:
        return
    told = f"The panel has cells 1 to {last}." if last else "The order has no panel yet."
    cure = "Tap a cell of the drawing." if last else "Mend the order first."
    value = "" if strange is None else str(strange)
    raise PanewrightError([Problem(f"There is no such cell. {told}", cure, key="cell", value=value)])


def _undo(number: str, cells: dict[int, str], before: dict[int, str]) -> Undo:
    back = tuple(
        pair for cell in cells for pair in (("cell", str(cell)), ("state", before.get(cell, "sound")))
    )
    words = f"Cell {next(iter(cells))}" if len(cells) == 1 else f"{len(cells)} cells"
    return Undo(f"{words} changed", f"/panel/{number}/cell", back)


async def mend(request: Request) -> Response:
    """Every cell sound again."""
    here, number = floor(request), request.path_params["number"]
    before = await here.asks(here.shop.cells, number)
    done_by = who(request)
    await here.asks(here.shop.try_cells, number, dict.fromkeys(before, "sound"), done_by)
    here.live.tell(f"panel:{number}", done_by.tap)
    back = tuple(pair for each, state in before.items() for pair in (("cell", str(each)), ("state", state)))
    return await _again(
        request, {"undo": Undo("All cells sound", f"/panel/{number}/cell", back) if back else None}
    )


async def _again(request: Request, more: dict[str, Any], status: int = 200) -> Response:
    if not is_tap(request) and status == 200:
        return go(request, f"/panel/{request.path_params['number']}")
    known = {**await _known(request), **more}
    if is_tap(request):
        return parts(request, ["told", "states", "watts", "curve", "undo"], known, status)
    return page(request, "panel.html", known, status)


ROUTES = [
    Route("/panel", pick),
    Route("/panel/{number}", panel),
    Route("/panel/{number}/cell", cell, methods=["POST"]),
    Route("/panel/{number}/mend", mend, methods=["POST"]),
]
