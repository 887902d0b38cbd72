"""A deal: its panels, one cell of it explained or exchanged, and a panel laid cell by cell at the bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import Undo, typed_of, who, whole
from panewright.web.pages.built import bench_of, told_anew

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.deals.kept import KeptDeal

SIDES = {"bench": "From the bench", "front": "From the sun"}
_MEDIA = {
    "pdf": "application/pdf",
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "svg": "image/svg+xml",
    "json": "application/json",
}
_WHATS = {"laid": "laid", "sound": "lifted", "lifted": "lifted", "broken": "broken"}


async def deal(request: Request) -> Response:
    """A deal as a whole; with a cell named, that cell."""
    return page(request, "deal.html", await _known(request, await _found(request)))


async def _found(request: Request) -> KeptDeal:
    from panewright.desk.deals.kept import find

    here = floor(request)
    return await here.asks(find, here.shop.ledger, whole(request.path_params["number"]))


async def _known(
    request: Request, kept: KeptDeal, told: Sequence[Problem] = (), cell: str = ""
) -> dict[str, Any]:
    from panewright.desk.deals.seen import seen

    here, mark = floor(request), cell or request.query_params.get("cell", "")[:60]
    return {
        "deal": kept,
        "seen": await here.asks(seen, kept),
        "told": told,
        **await _cell(request, kept, mark),
    }


async def _cell(request: Request, kept: KeptDeal, mark: str) -> dict[str, Any]:
    """One cell, where it is asked for: worked out beside the page, for it takes a moment."""
    known: dict[str, Any] = {"deal": kept, "cell": mark, "shown": None, "wants": "", "failed": ()}
    asks_part = "dealcell" in request.headers.get("x-parts", "").split()
    if not mark:
        return known
    if not (asks_part or "wait" in request.query_params or is_tap(request)):
        return known | {"wants": f"/deals/{kept.number}?cell={part(mark)}"}
    try:
        taken = await _elsewhere(request, kept)
        shown = await floor(request).workers.ask("deal_cell", kept.text, mark, taken)
    except PanewrightError as mistake:
        return known | {"failed": mistake.problems}
    return known | {"shown": shown}


async def _taken(request: Request, kept: KeptDeal) -> tuple[str, ...]:
    """Cells of the lot that lie in panels or broke, in this deal or another."""
    from panewright.desk.deals.kept import taken

    here = floor(request)
    return await here.asks(taken, here.shop.ledger, kept.lot)


async def _elsewhere(request: Request, kept: KeptDeal) -> tuple[str, ...]:
    """Those, and cells that another deal waits for."""
    from panewright.desk.deals.held import held

    here = floor(request)
    wait = await here.asks(held, here.shop.ledger, kept.lot, but=(kept.number,))
    return (*await _taken(request, kept), *(mark for each in wait for mark in each.cells))


async def swap(request: Request) -> Response:
    """Another cell in one place; where cells are laid already, the old one is told as broken."""
    from panewright.desk.deals import kept as deals
    from panewright.desk.deals.deal import from_text

    here, hand, typed = floor(request), who(request), await typed_of(request)
    found, mark, into = await _found(request), typed.get("cell", "")[:60], typed.get("into", "")[:60]
    why = " ".join(typed.get("why", "").split())[:200]
    try:
        await _refuse_elsewhere(request, found, into)
        text = await here.workers.ask("deal_swapped", found.text, mark, into, why)
        after = await here.asks(from_text, text)
        told = await here.asks(deals.keep_swap, here.shop.ledger, found, after, hand)
    except (StaleError, PanewrightError) as mistake:
        known = await _known(request, found, mistake.problems, mark)
        if is_tap(request):
            return parts(request, ["told", "dealcell"], known, 422)
        return page(request, "deal.html", known, 422)
    await _broke(request, found, (told.panel, told.place, mark), why)
    here.live.tell("deal", hand.tap)
    return go(request, f"/deals/{found.number}/{told.panel}?new={told.place}")


async def _refuse_elsewhere(request: Request, found: KeptDeal, into: str) -> None:
    cure = "Take another of those that are listed."
    if into in await _taken(request, found):
        raise RecordError([Problem("This cell lies elsewhere, or broke.", cure, key="into", value=into)])
    if into in await _elsewhere(request, found):
        raise RecordError([Problem("Another deal waits for this cell.", cure, key="into", value=into)])


async def _broke(request: Request, found: KeptDeal, where: tuple[int, int, str], why: str) -> None:
    """A cell that lay in its place already is told as broken there, so that its story stays."""
    from panewright.desk.deals.kept import lay
    from panewright.desk.shop.who import Who

    panel, place, mark = where
    there, hand, here = found.laid_in(panel).get(place), who(request), floor(request)
    if there and there.cell == mark:
        again = Who(hand.by, hand.at, f"{hand.tap}b")
        await here.asks(lay, here.shop.ledger, found, panel, (place, "broken", why), again)


async def panel(request: Request) -> Response:
    """One panel at the bench."""
    return page(request, "laying.html", await _panel_known(request, await _found(request)))


async def _panel_known(
    request: Request, kept: KeptDeal, told: Sequence[Problem] = (), undo: Undo | None = None
) -> dict[str, Any]:
    from panewright.desk.deals import seen

    here, number, made = floor(request), _panel_number(request, kept), await _made(request, kept)
    side = request.query_params.get("side", "bench")
    side = side if side in SIDES else "bench"
    shown = await here.asks(seen.panel_seen, kept, number, made)
    cells = kept.deal.panels[number - 1].cells
    drawn = "" if is_tap(request) else await here.asks(seen.picture, made, cells, side, {})
    begun = await here.asks(here.shop.serials, kept.order)
    taken = {serial for panel, serial in kept.serials.items() if panel != number}
    return {
        "deal": kept,
        "panel": shown,
        "marks": shown.marks,
        "words": shown.words,
        "follows": "laid deal",
        "number": kept.order,
        "side": side,
        "sides": SIDES,
        "picture": drawn,
        "serials": [each.serial.serial for each in begun if each.serial.serial not in taken],
        "new": whole(request.query_params.get("new")),
        "told": told,
        "undo": undo,
    }


def _panel_number(request: Request, kept: KeptDeal) -> int:
    number = whole(request.path_params["panel"])
    if not 1 <= number <= len(kept.deal.panels):
        cure = f"It has panels 1 to {len(kept.deal.panels)}."
        raise RecordError([Problem("This deal has no such panel.", cure, key="panel")])
    return number


async def _made(request: Request, kept: KeptDeal) -> Made:
    """The design that the cells were dealt to."""
    made = await floor(request).reckoner.made(kept.order, kept.deal.order)
    if made is None:
        cure = "Match the lot again."
        raise RecordError([Problem("Its design can no longer be made.", cure, key="deal")])
    return made


async def give(request: Request) -> Response:
    """Which serial the panel is."""
    from panewright.desk.deals import kept as deals

    here, found, typed = floor(request), await _found(request), await typed_of(request)
    number, hand = _panel_number(request, found), who(request)
    try:
        serial = typed.get("serial", "")[:60]
        await _same_panel(request, found, serial)
        await here.asks(deals.give, here.shop.ledger, found, number, serial, hand)
    except PanewrightError as mistake:
        return await _panel_again(request, found, mistake.problems)
    here.live.tell("deal", hand.tap)
    return go(request, f"/deals/{found.number}/{number}")


async def _same_panel(request: Request, found: KeptDeal, serial: str) -> None:
    """A serial that was begun by another lay-up than the deal's has other places."""
    here = floor(request)
    begun = await here.asks(here.shop.bench, serial)
    ours, theirs = await _made(request, found), await here.reckoner.made(found.order, begun.text)
    if theirs is None or theirs.design.layup.plan != ours.design.layup.plan:
        cure = "Match the lot to the order as it stands."
        why = "It was begun by a design with other places for cells."
        raise RecordError([Problem(why, cure, key="serial", value=serial)])


async def lay(request: Request) -> Response:
    """A cell laid, lifted or broken; or looked at."""
    from panewright.desk.deals import kept as deals

    here, found, typed = floor(request), await _found(request), await typed_of(request)
    number, hand, place = _panel_number(request, found), who(request), whole(typed.get("cell"))
    what, cells = _WHATS.get(typed.get("state", ""), ""), found.deal.panels[number - 1].cells
    if typed.get("state") == "look" and 1 <= place <= len(cells):
        return go(request, f"/deals/{found.number}?cell={part(cells[place - 1])}#dealcell")
    try:
        told = place, what, typed.get("why", "")
        mark = await here.asks(deals.lay, here.shop.ledger, found, number, told, hand)
    except PanewrightError as mistake:
        return await _panel_again(request, found, mistake.problems)
    here.live.tell(f"laid:{found.serials[number]}", hand.tap)
    if what == "broken":
        return go(request, f"/deals/{found.number}?cell={part(mark)}#dealcell")
    if not is_tap(request):
        return go(request, f"/deals/{found.number}/{number}")
    back = (("cell", str(place)), ("state", "lifted" if what == "laid" else "laid"))
    words = f"{mark} {'laid' if what == 'laid' else 'lifted'} at place {place}"
    undo = Undo(words, f"/deals/{found.number}/{number}/lay", back)
    known = await _panel_known(request, await _found(request), undo=undo)
    return parts(request, ["told", "states", "laying", "places", "undo"], known)


async def _panel_again(request: Request, found: KeptDeal, told: Sequence[Problem]) -> Response:
    known = await _panel_known(request, found, told)
    if is_tap(request):
        return parts(request, ["told", "states", "laying", "places"], known, 422)
    return page(request, "laying.html", known, 422)


async def told(request: Request) -> Response:
    """All cells are laid: what lies there becomes the panel as it is built, judged afresh."""
    from panewright.desk.deals.built import cells_told
    from panewright.desk.deals.kept import find

    here, typed, bench = floor(request), await typed_of(request), await bench_of(request)
    ledger = here.shop.ledger
    deal = await here.asks(find, ledger, whole(typed.get("deal")))
    cells = await here.asks(cells_told, ledger, deal, bench.serial, bench.made, who(request))
    await told_anew(request, bench, lambda before: replace(before, cells=cells))
    return go(request, f"/build/{bench.number}/{part(bench.serial)}/built")


async def paper(request: Request) -> Response:
    """A paper of the deal, to print or to take along."""
    found, name = await _found(request), request.path_params["name"]
    kind = name.rpartition(".")[2]
    if kind not in _MEDIA:
        return Response("There is no such paper.", 404)
    try:
        made = await floor(request).work(f"deal:{found.number}", "deal_paper", found.text, name)
    except KeyError:
        return Response("There is no such paper.", 404)
    if made is None:
        raise RecordError([Problem("It was given up.", "Ask for it again.", key="paper")])
    way = "inline" if kind in ("pdf", "svg") and not request.query_params.get("take") else "attachment"
    head = {
        "cache-control": "no-cache",
        "content-disposition": f'{way}; filename="deal {found.number} {name}"',
    }
    return Response(made, media_type=_MEDIA[kind], headers=head)


ROUTES = [
    Route("/deals/{number}", deal),
    Route("/deals/{number}/swap", swap, methods=["POST"]),
    Route("/deals/{number}/papers/{name}", paper),
    Route("/deals/{number}/{panel}", panel),
    Route("/deals/{number}/{panel}/give", give, methods=["POST"]),
    Route("/deals/{number}/{panel}/lay", lay, methods=["POST"]),
    Route("/build/{number}/{serial:name}/built/cells-laid", told, methods=["POST"]),
]
