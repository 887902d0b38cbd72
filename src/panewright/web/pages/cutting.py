"""Cutting across open orders: what is chosen, the plan as pictures, and rows ticked as they are cut."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import Undo, who, whole
from panewright.web.pages.listed import listed

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.desk.stores.cut_plan import Job
    from panewright.web.floor import Floor

_MOST_OPEN = 200  #: orders from which one chooses; one plan may take all of them
_MEDIA = {"pdf": "application/pdf", "csv": "text/csv; charset=utf-8"}


async def choose(request: Request) -> Response:
    """Which orders, from what, with which saw."""
    return page(request, "cut.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.stores import cut_shown

    here = floor(request)
    found = await here.asks(cut_shown.choices, here.shop.ledger)
    wanted = request.query_params.get("order", "")
    listing = await listed(request, "/cut", which="open", leaf=_MOST_OPEN)
    orders = listing["orders"]
    return {
        **listing,
        "wanted": wanted if any(each.number == wanted for each in orders) else "",
        "choices": found,
        "past": await here.asks(cut_shown.past, here.shop.ledger),
        "told": told,
        **_going(request),
    }


def _going(request: Request) -> dict[str, Any]:
    work = floor(request).works.cutting
    return {
        "doing": work.doing,
        "far": work.far,
        "failed": work.last.problems if work.last else (),
        "wants": "/cut/wait" if work.doing else "",
    }


def _ready(request: Request) -> int:
    """The number of the plan that was made last; 0 where it was stopped, or is being made."""
    last = floor(request).works.cutting.last
    return int(last.came or 0) if last else 0


async def plan(request: Request) -> Response:
    """Make a plan of what is chosen."""
    from panewright.desk.stores import cut_shown, cutting

    here, hand, form = floor(request), who(request), await request.form()
    typed = {name: str(value)[:400] for name, value in form.items()}
    numbers = tuple(dict.fromkeys(str(each) for each in form.getlist("order")))
    keys = frozenset(str(each) for each in form.getlist("there"))

    def told() -> Job:
        tools = cut_shown.tools_of(typed, cutting.tools_now(here.shop.ledger))
        bought = {"buys": "buys" in typed, "buys_sheets": "sheets" in typed}
        return cutting.job(here.shop.ledger, numbers, keys, tools, **bought)

    try:
        job = await here.asks(told)
    except PanewrightError as mistake:
        return await _chosen_again(request, mistake.problems)
    work = here.works.cutting
    if not await work.do("a cutting plan", partial(_made, here, job, hand), tap=hand.tap):
        return await _chosen_again(request, (work.words.busy,))
    if _ready(request):
        return go(request, f"/cut/{_ready(request)}")
    if is_tap(request):
        return parts(request, ["told", "cutting"], {"told": (), **_going(request)})
    return go(request, "/cut")


async def _made(here: Floor, job: Job, hand: Who) -> int | None:
    """The plan made and kept; its number."""
    from panewright.desk.stores.cutting import keep

    plan = await here.works.cutting.ask("cut_plan", job)
    return None if plan is None else await here.asks(keep, here.shop.ledger, plan, hand)


async def _chosen_again(request: Request, told: Sequence[Problem]) -> Response:
    known = await _known(request, told)
    if is_tap(request):
        return parts(request, ["told", "cutting"], known, 422)
    return page(request, "cut.html", known, 422)


async def wait(request: Request) -> Response:
    """The plan that is being made, as soon as it is there."""
    if "x-parts" in request.headers:
        await floor(request).works.cutting.wait()
        if _ready(request):
            return _onward(_ready(request))
        return parts(request, ["cutting"], _going(request))
    return go(request, f"/cut/{_ready(request)}" if _ready(request) else "/cut")


def _onward(number: int) -> Response:
    return Response("", headers={"x-go": f"/cut/{number}", "cache-control": "no-store"})


async def stop(request: Request) -> Response:
    """Give it up."""
    await floor(request).works.cutting.stop()
    if is_tap(request):
        return parts(request, ["cutting"], _going(request))
    return go(request, "/cut")


async def look(request: Request) -> Response:
    """A plan as pictures."""
    return page(request, "cutplan.html", await _plan_known(request))


async def _plan_known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.stores import cut_shown, cutting

    here, number = floor(request), whole(request.path_params["number"])
    found = await here.asks(cutting.kept, here.shop.ledger, number)
    return {"plan": await here.asks(cut_shown.shown, found), "told": told}


async def tick(request: Request) -> Response:
    """A row was cut, or was not after all."""
    from panewright.desk.stores import cut_ticked

    here, hand, form = floor(request), who(request), await request.form()
    number, row = whole(request.path_params["number"]), whole(form.get("row"))
    done = form.get("done") != "no"
    try:
        await here.asks(cut_ticked.tick if done else cut_ticked.untick, here.shop.ledger, number, row, hand)
    except PanewrightError as mistake:
        known = await _plan_known(request, mistake.problems)
        if is_tap(request):
            return parts(request, ["told", "cutrows"], known, 422)
        return page(request, "cutplan.html", known, 422)
    for what in (f"cut:{number}", "stock:shelf"):
        here.live.tell(what, request.headers.get("x-tap", ""))
    if not is_tap(request):
        return go(request, f"/cut/{number}#row-{row}")
    undo = Undo(f"{row} is cut", f"/cut/{number}/tick", (("row", str(row)), ("done", "no"))) if done else None
    return parts(request, ["told", "cutrows", "undo"], {**await _plan_known(request), "undo": undo})


async def paper(request: Request) -> Response:
    """A plan to print or to take along."""
    from panewright.desk.stores import cut_papers, cutting

    here, number, kind = floor(request), whole(request.path_params["number"]), request.path_params["kind"]
    if kind not in _MEDIA:
        return Response("There is no such paper.", 404)
    found = await here.asks(cutting.kept, here.shop.ledger, number)
    marks = await here.asks(cut_papers.marks_of, found)
    made = await here.work(f"cut:{number}", "cut_paper", number, found.plan, kind, marks)
    if made is None:
        raise RecordError([Problem("It was given up.", "Ask for it again.", key="paper")])
    way = "attachment" if request.query_params.get("take") else "inline"
    head = {
        "cache-control": "no-cache",
        "content-disposition": f'{way}; filename="cutting plan {number}.{kind}"',
    }
    return Response(made, media_type=_MEDIA[kind], headers=head)


ROUTES = [
    Route("/cut", choose),
    Route("/cut", plan, methods=["POST"]),
    Route("/cut/wait", wait),
    Route("/cut/stop", stop, methods=["POST"]),
    Route("/cut/{number}", look),
    Route("/cut/{number}/tick", tick, methods=["POST"]),
    Route("/cut/{number}/plan.{kind}", paper),
]
