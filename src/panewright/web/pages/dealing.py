"""A lot matched to an order's panels: what is wished, how far the work is, and the deals that came of it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who
from panewright.web.pages.listed import listed

if TYPE_CHECKING:
    from panewright.desk.deals.wish import Wish
    from panewright.desk.lots.kept import Kept
    from panewright.desk.shop.who import Who
    from panewright.web.floor import Floor

_MOST_OPEN = 200
_BLANK = dict.fromkeys(
    (
        "rating",
        "sure",
        "panels",
        "steps",
        "spares",
        "leaky",
        "most_leaky",
        "soldered",
        "reverse",
        "reverse_most",
    ),
    "",
)
_BLANK |= {"aim": "watts"}
NOT_READ = Problem("The cells of this lot are not read yet.", "Settle its columns first.", key="lot")


async def choose(request: Request) -> Response:
    """For which order, to what end."""
    known = await _known(request)
    return page(request, "match.html", known)


async def _known(request: Request, told: Sequence[Problem] = (), said: Any = None) -> dict[str, Any]:
    from panewright.desk.deals import kept
    from panewright.desk.deals.held import held
    from panewright.desk.deals.wish import AIMS

    here, mark = floor(request), request.path_params["mark"]
    listing = await listed(request, f"/cells/{part(mark)}/match", which="open", leaf=_MOST_OPEN)
    wanted = request.query_params.get("order", "")
    return {
        **listing,
        "mark": mark,
        "aims": AIMS,
        "said": {**_BLANK, "order": wanted, **(said or {})},
        "deals": await here.asks(kept.of_lot, here.shop.ledger, mark),
        "held": await here.asks(held, here.shop.ledger, mark),
        "told": told,
        **_going(request),
    }


def _going(request: Request) -> dict[str, Any]:
    work, mark = floor(request).works.dealing, request.path_params["mark"]
    return {
        "mark": mark,
        "doing": work.doing,
        "far": work.far,
        "failed": work.last.problems if work.last else (),
        "wants": f"/cells/{part(mark)}/match/wait" if work.doing else "",
    }


def _ready(request: Request) -> int:
    """The number of the deal that was made last; 0 where it was stopped, or is being made."""
    last = floor(request).works.dealing.last
    return int(last.came or 0) if last else 0


async def match(request: Request) -> Response:
    """Match what is wished."""
    from panewright.desk.deals.typed import freed, wish_of
    from panewright.desk.lots.kept import find

    here, hand, typed = floor(request), who(request), await typed_of(request)
    mark = request.path_params["mark"]
    try:
        wish = await here.asks(wish_of, typed)
        order = await here.asks(here.shop.order, typed.get("order", ""))
        lot = await here.asks(find, here.shop.ledger, mark)
        if lot is None or not lot.read:
            raise RecordError([NOT_READ])
    except PanewrightError as mistake:
        return await _again(request, mistake.problems, typed)
    work = here.works.dealing
    steps = partial(_made, here, (lot, order.number, order.text), (wish, freed(typed)), hand)
    if not await work.do(f"lot {mark}", steps, tap=hand.tap):
        return await _again(request, (work.words.busy,), typed)
    if _ready(request):
        return go(request, f"/deals/{_ready(request)}")
    if is_tap(request):
        return parts(request, ["told", "matching"], {"told": (), **_going(request)})
    return go(request, f"/cells/{part(mark)}/match")


async def _made(
    here: Floor, asked: tuple[Kept, str, str], wished: tuple[Wish, frozenset[int]], hand: Who
) -> int | None:
    """The deal made and kept; its number."""
    from panewright.desk.deals import kept as deals
    from panewright.desk.deals.held import Barred, held
    from panewright.desk.lots import kept as lots

    (lot, number, text), (wish, free), ledger = asked, wished, here.shop.ledger

    async def weigh() -> Any:
        rows = await here.asks(lots.rows_of, ledger, lot)
        return await here.workers.ask("cells_weighed", rows, lot.mapping.kind, lots.settled_of(lot))

    weighed = await here.scales.weighed(lot.key, weigh, wait=True)
    assert weighed is not None
    mark = lot.table.lot
    there = await here.asks(deals.taken, ledger, mark), await here.asks(held, ledger, mark, number, free)
    job = "deal_made", (text, f"{number}.toml"), mark, weighed.kept, wish, Barred(*there)
    made = await here.works.dealing.ask(*job)
    return None if made is None else await here.asks(deals.keep, ledger, mark, number, made, hand)


async def _again(request: Request, told: Sequence[Problem], typed: dict[str, str]) -> Response:
    known = await _known(request, told, typed)
    if is_tap(request):
        return parts(request, ["told", "matching"], known, 422)
    return page(request, "match.html", known, 422)


async def wait(request: Request) -> Response:
    """The deal that is being made, as soon as it is there."""
    home = f"/cells/{part(request.path_params['mark'])}/match"
    if "x-parts" in request.headers:
        await floor(request).works.dealing.wait()
        if _ready(request):
            head = {"x-go": f"/deals/{_ready(request)}", "cache-control": "no-store"}
            return Response("", headers=head)
        return parts(request, ["matching"], _going(request))
    return go(request, f"/deals/{_ready(request)}" if _ready(request) else home)


async def stop(request: Request) -> Response:
    """Give it up."""
    await floor(request).works.dealing.stop()
    if is_tap(request):
        return parts(request, ["matching"], _going(request))
    return go(request, f"/cells/{part(request.path_params['mark'])}/match")


ROUTES = [
    Route("/cells/{mark:name}/match", choose),
    Route("/cells/{mark:name}/match", match, methods=["POST"]),
    Route("/cells/{mark:name}/match/wait", wait),
    Route("/cells/{mark:name}/match/stop", stop, methods=["POST"]),
]
