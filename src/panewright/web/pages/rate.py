"""The bench of one serial: a curve dropped or a meter's readings typed, rated at once, looked at, kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.address import part
from panewright.web.answer import floor, go, page
from panewright.web.guard import MOST_UPLOAD_BYTES
from panewright.web.hand import typed_of, who, whole

if TYPE_CHECKING:
    from panewright.desk.rating.looked import CurveLooked

_MOST_FIELDS = 1200
_LETTERS, _DOCUMENT = 300, 200_000


@dataclass(frozen=True, slots=True)
class Dropped:
    """The curve that a form brings: just now, or before and kept since."""

    name: str
    data: bytes
    digest: str
    mapping: str


async def bench(request: Request) -> Response:
    """What was rated last, and the form for the next."""
    return page(request, "rate.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = (), **more: Any) -> dict[str, Any]:
    from panewright.desk.curves import settled
    from panewright.desk.rating import form
    from panewright.desk.stores.instruments import meters

    here, name = floor(request), request.path_params["serial"]
    at_bench = await here.asks(here.shop.bench, name)
    last = await here.asks(_last, here.shop.ledger, name)
    return {
        "serial": name,
        "number": at_bench.serial.order,
        "fields": form.fields(),
        "loads": range(1, form.LOADS + 1),
        "meters": await here.asks(meters, here.shop.ledger),
        "quantities": settled.quantities(),
        "units": settled.units(),
        "said": {},
        "dropped": None,
        "looked": None,
        "fresh": False,
        "told": told,
        **last,
        **more,
    }


def _last(ledger: Any, serial: str) -> dict[str, Any]:
    """The rating that holds, as it is told; and those before it."""
    import json

    from panewright.desk.rating.seen import seen
    from panewright.ledger.bench.ratings import ratings, that_holds

    every = ratings(ledger, serial)
    kept = that_holds(every)
    shown = seen(json.loads(kept.rating.text)) if kept else None
    return {"seen": shown, "kept": kept, "before": [each for each in every[::-1] if each is not kept]}


async def rate(request: Request) -> Response:
    """A curve and what stands beside it: looked at, or kept."""
    here, serial = floor(request), request.path_params["serial"]
    async with request.form(max_files=1, max_fields=_MOST_FIELDS) as sent:
        typed = _typed(sent)
        try:
            dropped = await _dropped(request, sent, typed)
            looked = await _looked(request, dropped, typed)
        except PanewrightError as mistake:
            return page(request, "rate.html", await _known(request, mistake.problems, said=typed), 422)
    shown: dict[str, Any] = {"said": typed, "dropped": _with_mapping(dropped, looked), "looked": looked}
    if looked.read is None:
        return page(request, "rate.html", await _known(request, looked.problems, **shown), 422)
    try:
        told, report = await _rated(request, looked, typed)
        if typed.get("what") == "keep":
            await here.asks(_keep, here.shop.ledger, told, (dropped.data, report), who(request))
    except PanewrightError as mistake:
        return page(request, "rate.html", await _known(request, mistake.problems, **shown), 422)
    if typed.get("what") == "keep":
        here.live.tell(f"rating:{serial}", who(request).tap)
        return go(request, f"/rate/{part(serial)}")
    from panewright.desk.rating.seen import seen

    fresh = {**shown, "seen": seen(told), "fresh": True}
    return page(request, "rate.html", await _known(request, **fresh))


def _typed(sent: FormData) -> dict[str, str]:
    return {
        name: str(value)[: _DOCUMENT if name == "mapping" else _LETTERS]
        for name, value in sent.items()
        if isinstance(value, str)
    }


async def _dropped(request: Request, sent: FormData, typed: Mapping[str, str]) -> Dropped:
    """The file dropped now, else the readings typed now, else the file that was dropped before."""
    from panewright.desk.rating.form import meter_text
    from panewright.ledger.files import store

    here, hand, file = floor(request), who(request), sent.get("file")
    data = await file.read(MOST_UPLOAD_BYTES) if isinstance(file, UploadFile) else b""
    name = " ".join((file.filename or "curve.csv").split())[:120] if isinstance(file, UploadFile) else ""
    if not data and (text := await here.asks(meter_text, typed, request.path_params["serial"])):
        data, name = text.encode(), "meter.toml"
    if data:
        kept = await here.asks(
            lambda: store(
                here.shop.ledger, data, name=name, media="application/octet-stream", by=hand.by, at=hand.at
            )
        )
        return Dropped(name, data, kept.sha256, "")
    if not (digest := typed.get("curve", "")):
        cure = "Drop a curve, or type Voc, Isc and a resistor or more."
        raise RecordError([Problem("There is nothing to rate.", cure, key="curve")])
    known = await here.asks(here.shop.kept_file, digest)
    return Dropped(known.name, await here.asks(here.shop.file, digest), digest, typed.get("mapping", ""))


async def _looked(request: Request, dropped: Dropped, typed: Mapping[str, str]) -> CurveLooked:
    """The curve by its columns: as settled here, else as the like was settled before."""
    from panewright.desk.curves.settled import settled
    from panewright.desk.rating.kept import known_mapping

    here, serial = floor(request), request.path_params["serial"]
    mapping = dropped.mapping
    if mapping:
        mapping = await here.asks(settled, mapping, typed)
    found: CurveLooked = await here.bounded("curve_looked", dropped.data, dropped.name, mapping, serial)
    if not mapping and found.doubts and found.mapping:
        before = await here.asks(known_mapping, here.shop.ledger, found.mapping)
        if before:
            found = await here.bounded("curve_looked", dropped.data, dropped.name, before, serial)
    return found


def _with_mapping(dropped: Dropped, looked: CurveLooked) -> Dropped:
    return Dropped(dropped.name, b"", dropped.digest, looked.mapping)


async def _rated(
    request: Request, looked: CurveLooked, typed: Mapping[str, str]
) -> tuple[dict[str, Any], bytes]:
    """By a process beside the server, for the panel as it was built."""
    from panewright.desk.rating.form import words_of
    from panewright.desk.rating.kept import shop_instruments, told_of
    from panewright.desk.rating.shop_words import shop_words

    here, serial = floor(request), request.path_params["serial"]
    words = {**await here.asks(shop_words, here.shop.folder), **words_of(typed)}
    at_bench = await here.asks(here.shop.bench, serial)
    built = await here.asks(told_of, here.shop.ledger, serial)
    panel = at_bench.text, at_bench.serial.order, serial, built
    shop = await here.asks(shop_instruments, here.shop.ledger)
    made: tuple[dict[str, Any], bytes] = await here.workers.ask(
        "panel_rated", panel, looked.read, words, shop
    )
    return made


def _keep(ledger: Any, told: dict[str, Any], files: tuple[bytes, bytes], hand: Any) -> None:
    from panewright.desk.rating.kept import keep_told

    keep_told(ledger, told, files, hand)


async def aside(request: Request) -> Response:
    """A kept rating set aside, or counted again."""
    from panewright.desk.rating.aside import count_again, set_aside

    here, serial, typed = floor(request), request.path_params["serial"], await typed_of(request)
    hand, number, ledger = who(request), whole(typed.get("rating")), here.shop.ledger
    try:
        if typed.get("what") == "again":
            await here.asks(count_again, ledger, serial, number, hand)
        else:
            await here.asks(set_aside, ledger, serial, number, typed.get("why", ""), hand)
    except PanewrightError as mistake:
        return page(request, "rate.html", await _known(request, mistake.problems, said=typed), 422)
    here.live.tell(f"rating:{serial}", hand.tap)
    return go(request, f"/rate/{part(serial)}")


ROUTES = [
    Route("/rate/{serial:name}/aside", aside, methods=["POST"]),
    Route("/rate/{serial:name}", bench),
    Route("/rate/{serial:name}", rate, methods=["POST"]),
]
