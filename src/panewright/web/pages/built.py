"""A serial as it was built: what went in, what is not as designed, and what that makes of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import Undo, typed_of, who, whole

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.built.noted import Noted
    from panewright.desk.shop.who import Who
    from panewright.ledger.stores.lots import LotVersion
    from panewright.panel.happened import Happened

_TRIES = 4


@dataclass(frozen=True, slots=True)
class Bench:
    """The serial that is told of."""

    serial: str
    number: str
    text: str
    made: Made
    noted: Noted | None

    @property
    def told(self) -> Happened:
        """What was told so far."""
        from panewright.panel.happened import Happened

        return self.noted.built.happened if self.noted else Happened(self.serial)


async def bench_of(request: Request) -> Bench:
    """The serial that a page tells of."""
    from panewright.desk.built.noted import happened
    from panewright.web.pages.build import made_by

    here, serial = floor(request), request.path_params["serial"]
    at_bench = await here.asks(here.shop.bench, serial)
    made = await made_by(request, at_bench.text)
    noted = await here.asks(happened, here.shop.ledger, serial)
    return Bench(serial, at_bench.serial.order, at_bench.text, made, noted)


async def built(request: Request) -> Response:
    """What was told of it, and the forms to tell more."""
    return page(request, "built.html", await _known(request, await bench_of(request)))


async def _known(request: Request, bench: Bench) -> dict[str, Any]:
    here = floor(request)
    return {
        "number": bench.number,
        "serial": bench.serial,
        "said": {},
        "form": "",
        "ask": None,
        **await here.asks(_words, here.shop.ledger, bench),
    }


def _words(ledger: Any, bench: Bench) -> dict[str, Any]:
    from panewright.desk.built import as_built, telling
    from panewright.desk.stores.lots import newest

    found, day = newest(ledger), datetime.now(UTC).date()
    inside = as_built.inside(bench.told)
    return {
        "built": as_built.as_built(bench.made, bench.noted) if bench.noted else None,
        "lots": tuple(as_built.lot_words(each, day) for each in found),
        "proposed": as_built.proposed(found, inside, day),
        "may_be": as_built.may_be(bench.made),
        "kinds": telling.KINDS,
        "joints": telling.JOINTS,
        "cells": len(bench.made.design.layup.cells),
    }


async def lot(request: Request) -> Response:
    """A lot that goes in; what speaks against it is told before it is used."""
    from panewright.desk.built.scanned import asked
    from panewright.desk.built.telling import used

    here, typed, bench = floor(request), await typed_of(request), await bench_of(request)
    found = await lot_of(request, typed.get("lot", ""))
    if found is None:
        return await _again(request, bench, form="lot", said=typed, told=[UNKNOWN])
    typed["lot"] = found.mark
    ask = await here.asks(asked, bench.made, found, "", datetime.now(UTC).date())
    if ask and typed.get("sure") != "yes":
        return await _again(request, bench, form="lot", said=typed, ask=ask)
    count = len(bench.made.design.layup.cells)
    return await _tell(
        request, bench, lambda told: used(told, found.mark, found.lot, typed, cells=count), "lot", typed
    )


UNKNOWN = Problem("The shelf knows no such lot.", "Write it down on the shelf first.", key="lot")


async def lot_of(request: Request, code: str) -> LotVersion | None:
    """The lot that a scanned or typed code names."""
    from panewright.desk.stores.lots import find, mark_of

    here = floor(request)
    mark = await here.asks(mark_of, here.shop.ledger, code)
    return await here.asks(find, here.shop.ledger, mark) if mark else None


async def tell(request: Request) -> Response:
    """Something else that happened, or something taken out again."""
    from panewright.desk.built.telling import ADDED

    typed, what = await typed_of(request), request.path_params["what"]
    if what not in ADDED:
        raise RecordError([Problem("There is nothing of that kind to tell.", "Load the page again.")])
    bench = await bench_of(request)
    if what == "cell":
        await _mark(request, typed)
    return await _tell(request, bench, lambda told: ADDED[what](told, typed), what, typed)


async def _mark(request: Request, typed: dict[str, str]) -> None:
    """A cell that has a mark of its own gets its line in the records, once."""
    from panewright.desk.stores.lots import mark_cell

    here, hand = floor(request), who(request)
    lot, mark = typed.get("lot", "").strip(), " ".join(typed.get("mark", "").split())[:40]
    if lot and mark:
        await here.asks(mark_cell, here.shop.ledger, lot, mark, hand)


async def earlier(request: Request) -> Response:
    """What was told before, once more; version 0 is nothing told."""
    typed, before = await typed_of(request), await told_before(request)
    return await _tell(request, await bench_of(request), lambda _: before, "", typed, undo=False)


async def told_before(request: Request) -> Happened:
    """What was told in the version that a page names."""
    from panewright.desk.built.noted import versions
    from panewright.panel.happened import Happened

    here, serial, typed = floor(request), request.path_params["serial"], await typed_of(request)
    known = {each.version: each for each in await here.asks(versions, here.shop.ledger, serial)}
    wanted = known.get(whole(typed.get("version")))
    return wanted.built.happened if wanted else Happened(serial)


async def _tell(
    request: Request,
    bench: Bench,
    change: Callable[[Happened], Happened],
    form: str,
    typed: dict[str, str],
    *,
    undo: bool = True,
) -> Response:
    """What is told, kept, and shown with its verdict."""
    from panewright.desk.built.as_built import verdict_of

    try:
        noted = await told_anew(request, bench, change)
    except PanewrightError as mistake:
        return await _again(request, bench, form=form, said=typed, told=mistake.problems)
    to = f"/build/{bench.number}/{part(bench.serial)}/built/earlier"
    words = await floor(request).asks(verdict_of, noted)
    back = Undo(f"Kept. {words}", to, (("version", f"{noted.version - 1}"),)) if undo else None
    return await _again(request, replace(bench, noted=noted), undo=back)


async def told_anew(request: Request, bench: Bench, change: Callable[[Happened], Happened]) -> Noted:
    """What is told judged by a worker and kept; told once more where another hand was faster."""
    for _ in range(_TRIES):
        try:
            return await _keep(request, bench, change(bench.told), who(request))
        except StaleError:
            bench = await bench_of(request)
    raise RecordError([Problem("Too many tell of this panel at once.", "Try again.")])


async def _keep(request: Request, bench: Bench, told: Happened, hand: Who) -> Noted:
    from panewright.desk.built.noted import keep

    here = floor(request)
    judged = await here.workers.ask("built", bench.text, f"{bench.number}.toml", told)
    seen = bench.noted.version if bench.noted else 0
    kept = await here.asks(keep, here.shop.ledger, judged, seen=seen, by=hand.by, at=hand.at, tap=hand.tap)
    here.live.tell(f"built:{bench.serial}", hand.tap)
    return kept


async def _again(
    request: Request,
    bench: Bench,
    *,
    form: str = "",
    said: dict[str, str] | None = None,
    told: Sequence[Problem] = (),
    ask: Any = None,
    undo: Undo | None = None,
) -> Response:
    if not is_tap(request) and not told and ask is None:
        return go(request, f"/build/{bench.number}/{part(bench.serial)}/built")
    known = await _known(request, bench)
    known |= {"form": form, "said": said or {}, "told": told, "ask": ask, "undo": undo}
    status = 422 if told else 409 if ask else 200
    if is_tap(request):
        return parts(request, ["told", "asbuilt", "tells", "undo"], known, status)
    return page(request, "built.html", known, status)


ROUTES = [
    Route("/build/{number}/{serial:name}/built", built),
    Route("/build/{number}/{serial:name}/built/lot", lot, methods=["POST"]),
    Route("/build/{number}/{serial:name}/built/earlier", earlier, methods=["POST"]),
    Route("/build/{number}/{serial:name}/built/{what}", tell, methods=["POST"]),
]
