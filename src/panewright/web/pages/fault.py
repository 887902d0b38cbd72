"""What is wrong with a serial: suspects, the spot on the drawing, what to measure next, what was mended."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Literal

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who

if TYPE_CHECKING:
    from panewright.bench.fault.rework import Spare
    from panewright.desk.fault.found import Tell
    from panewright.desk.shop.at_bench import AtBench
    from panewright.ledger.bench.ratings import Found, RatingKept

Lies = Literal["closed", "open"]


async def fault(request: Request) -> Response:
    """What its last curve says, and what was told since."""
    return page(request, "fault.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = (), said: Any = None) -> dict[str, Any]:
    from panewright.desk.fault import lines
    from panewright.desk.lots.kept import lots_measured

    here, serial = floor(request), request.path_params["serial"]
    at_bench = await here.asks(here.shop.bench, serial)
    kept, found = await here.asks(_kept, here.shop.ledger, serial)
    lies: Lies = "open" if request.query_params.get("lies") == "open" else "closed"
    lot = request.query_params.get("spares", "")[:60]
    lots = dict.fromkeys(each.lot for each in await here.asks(lots_measured, here.shop.ledger))
    known = {
        "serial": serial,
        "number": at_bench.serial.order,
        "kept": kept,
        "found": [each for each in found if each.rating is None or (kept and each.rating == kept.id)][::-1],
        "lies": lies,
        "lot": lot,
        "lots": tuple(lots),
        "side": "front" if request.query_params.get("side") == "front" else "bench",
        "seen": None,
        "drawing": "",
        "failed": (),
        "looking": False,
        "say": lines,
        "told": told,
        "said": said or {},
    }
    return known if kept is None else {**known, **await _seen(request, at_bench, (kept, found), (lies, lot))}


def _kept(ledger: Any, serial: str) -> tuple[RatingKept | None, tuple[Found, ...]]:
    """The rating that holds, and all that was told of what is wrong."""
    from panewright.ledger.bench.ratings import findings, ratings, that_holds

    return that_holds(ratings(ledger, serial)), findings(ledger, serial)


async def _seen(
    request: Request,
    at_bench: AtBench,
    records: tuple[RatingKept, tuple[Found, ...]],
    how: tuple[Lies, str],
) -> dict[str, Any]:
    """What is found, or what kept it from being found; looked for by a process beside the server.

    `how` the panel lies, and of which lot a spare may be, '' where nobody has said.
    """
    from panewright.desk.deals.kept import taken
    from panewright.desk.fault.kept import tells_of
    from panewright.desk.rating.shop_words import shares_words

    here, (kept, found), (lies, lot) = floor(request), records, how
    tells = tells_of(found, kept.id)
    asks_part = "faultseen" in request.headers.get("x-parts", "").split()
    wait = asks_part or "wait" in request.query_params or request.method == "POST"

    async def look() -> Any:
        return await _look(request, at_bench, kept, (tells, lies, lot))

    try:
        shares = await here.asks(shares_words, here.shop.folder)
        gone = len(await here.asks(taken, here.shop.ledger, lot)) if lot else 0
        asked = f"fault {kept.id} {tells} {lies} {shares} {lot} {gone}"
        seen: Any = await here.scales.weighed(asked, look, wait=wait)
    except PanewrightError as mistake:
        return {"failed": mistake.problems}
    if seen is None:
        return {"looking": True}
    return {"seen": seen, "drawing": await _drawing(request, at_bench, seen)}


async def _look(
    request: Request, at_bench: AtBench, kept: RatingKept, how: tuple[tuple[Tell, ...], Lies, str]
) -> Any:
    import json

    from panewright.desk.rating.kept import shop_instruments, told_of
    from panewright.desk.rating.shop_words import shares_words, with_shares

    here, serial = floor(request), request.path_params["serial"]
    told, ledger = json.loads(kept.rating.text), here.shop.ledger
    data = await here.asks(here.shop.file, kept.rating.curve)
    looked = await here.bounded("curve_looked", data, told["file"], told["mapping"], serial)
    if looked.read is None:
        raise PanewrightError(looked.problems)
    panel = at_bench.text, at_bench.serial.order, serial, await here.asks(told_of, ledger, serial)
    shop = await here.asks(shop_instruments, ledger)
    tells, lies, lot = how
    further = tells, lies, await _spares(request, at_bench, lot) if lot else None
    words = with_shares(told["words"], await here.asks(shares_words, here.shop.folder))
    return await here.workers.ask("fault_found", panel, looked.read, words, shop, further)


async def _spares(request: Request, at_bench: AtBench, lot: str) -> tuple[Spare, ...]:
    """Cells of a lot that may go in, behind this panel's pane."""
    from panewright.desk.fault.spares import spares_of

    here = floor(request)
    made = await here.reckoner.made(at_bench.serial.order, at_bench.text)
    if made is None:
        raise PanewrightError([Problem("The order has no design any more.", "Mend the order.", key="spares")])
    found: tuple[Spare, ...] = await here.asks(spares_of, here.shop.ledger, lot, made.design)
    return found


async def _drawing(request: Request, at_bench: AtBench, seen: dict[str, Any]) -> str:
    """The lay-up with the cells marked that may be it."""
    from panewright import desk
    from panewright.desk.fault.drawn import classes

    made = await floor(request).reckoner.made(at_bench.serial.order, at_bench.text)
    if made is None:
        return ""
    side: Literal["front", "bench"] = "front" if request.query_params.get("side") == "front" else "bench"
    return await floor(request).asks(desk.drawing, made, side, classes(seen))


async def tell(request: Request) -> Response:
    """What a measurement that was proposed gave."""
    from panewright.desk.fault.kept import keep_tell

    return await _keep(request, keep_tell)


async def back(request: Request) -> Response:
    """The last of them counts no more."""
    from panewright.desk.fault.kept import take_back

    return await _keep(
        request, lambda ledger, serial, rating, _, hand: take_back(ledger, serial, rating, hand)
    )


async def mended(request: Request) -> Response:
    """What was mended."""
    from panewright.desk.fault.kept import keep_mended

    return await _keep(request, keep_mended)


async def found(request: Request) -> Response:
    """What is found stays with the panel's record."""
    from panewright.desk.fault.kept import keep_found

    known = await _known(request)
    if known["seen"] is None:
        return page(request, "fault.html", {**known, "told": known["failed"]}, 422)
    here, hand = floor(request), who(request)
    await here.asks(keep_found, here.shop.ledger, known["seen"], known["kept"].id, hand)
    return _on(request, hand.tap)


async def _keep(request: Request, keep: Callable[..., None]) -> Response:
    here, serial, typed = floor(request), request.path_params["serial"], await typed_of(request)
    hand = who(request)
    kept, _ = await here.asks(_kept, here.shop.ledger, serial)
    try:
        if kept is None:
            raise PanewrightError([Problem("It is not rated yet.", "Rate it first.", key="serial")])
        await here.asks(keep, here.shop.ledger, serial, kept.id, typed, hand)
    except PanewrightError as mistake:
        if is_tap(request):
            return parts(request, ["told"], {"told": mistake.problems}, 422)
        return page(request, "fault.html", await _known(request, mistake.problems, typed), 422)
    return _on(request, hand.tap)


def _on(request: Request, tap: str) -> Response:
    serial = request.path_params["serial"]
    floor(request).live.tell(f"finding:{serial}", tap)
    lies = "?lies=open" if request.query_params.get("lies") == "open" else ""
    return go(request, f"/fault/{part(serial)}{lies}")


ROUTES = [
    Route("/fault/{serial:name}", fault),
    Route("/fault/{serial:name}/told", tell, methods=["POST"]),
    Route("/fault/{serial:name}/back", back, methods=["POST"]),
    Route("/fault/{serial:name}/found", found, methods=["POST"]),
    Route("/fault/{serial:name}/mended", mended, methods=["POST"]),
]
