"""Building: the steps of one serial, ticked, timed, and read against what is expected."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.guard import MOST_UPLOAD_BYTES
from panewright.web.hand import Undo, typed_of, who, whole
from panewright.web.pages.listed import listed

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.bench.steps import StepShown
    from panewright.desk.shop.at_bench import AtBench
    from panewright.panel.happened import Happened


async def pick(request: Request) -> Response:
    """Which order is on the bench?"""
    known = {"place": "Build", "to": "/build/", **await listed(request, "/build")}
    return page(request, "pick.html", known)


async def order(request: Request) -> Response:
    """The panels of an order, or the button that begins them."""
    return page(request, "serials.html", await _order_known(request))


async def _order_known(request: Request) -> dict[str, Any]:
    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    begun = await here.asks(here.shop.serials, number)
    made = await here.reckoner.made(number, version.text)
    steps = await here.asks(_count_steps, made) if made else 0
    shown = here.reckoner.shown(version.text) if made else None
    dealt = await here.asks(_dealt, here.shop.ledger, number)
    return {"number": number, "begun": begun, "shown": shown, "steps": steps, "dealt": dealt}


def _dealt(ledger: Any, number: str) -> Any:
    """Deals of cells to this order."""
    from panewright.ledger.cells.deals import deals

    return deals(ledger, order=number)


def _count_steps(made: Made) -> int:
    from panewright import desk

    return len(desk.steps(made))


async def begin(request: Request) -> Response:
    """Begin every panel of an order."""
    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    made = await here.reckoner.made(number, version.text)
    if made is None:
        problem = Problem("The order has answers missing or wrong.", "Mend them first.", key="order")
        raise RecordError([problem])
    await here.asks(here.shop.begin_serials, number, version.version, made, who(request))
    here.live.tell(f"serials:{number}")
    return go(request, f"/build/{number}")


async def bench(request: Request) -> Response:
    """The steps of one serial."""
    return page(request, "bench.html", await bench_known(request))


async def bench_known(request: Request) -> dict[str, Any]:
    """All that the bench page shows."""
    from panewright.desk.stores.instruments import at_hand, meters

    here, serial = floor(request), request.path_params["serial"]
    at_bench = await here.asks(here.shop.bench, serial)
    made, ledger = await made_by(request, at_bench.text), here.shop.ledger
    steps = await here.asks(
        steps_of,
        made,
        at_bench,
        meters=await here.asks(at_hand, ledger),
        told=await here.asks(_told, ledger, serial),
    )
    return {
        "number": at_bench.serial.order,
        "meters": await here.asks(meters, ledger),
        "serial": serial,
        "steps": steps,
        "done": sum(step.done for step in steps),
        "papers": at_bench.papers,
        "ask": None,
    }


def _told(ledger: Any, serial: str) -> Happened | None:
    """What was told of how it is built; nothing where another Panewright wrote it."""
    from panewright.desk.built.noted import happened

    try:
        noted = happened(ledger, serial)
    except RecordError:
        return None
    return noted.built.happened if noted else None


def steps_of(made: Made, at_bench: AtBench, **more: Any) -> Sequence[StepShown]:
    """Its steps as they stand."""
    from panewright.desk.bench.steps import bench_steps

    now, told = datetime.now(UTC), (at_bench.ticks, at_bench.clocks, at_bench.read)
    return bench_steps(made, *told, now=now, hours=at_bench.hours, **more)


async def made_by(request: Request, text: str) -> Made:
    """The design by which a panel was begun."""
    made = await floor(request).reckoner.made(f"{request.path_params['number']}", text)
    if made is None:
        cure = "Look at the order's earlier texts."
        raise RecordError([Problem("Its design can no longer be made.", cure, key="serial")])
    return made


async def tick(request: Request) -> Response:
    """A step done, or not done after all."""
    from panewright.desk.bench.typed import minutes_of

    here, serial, form = floor(request), request.path_params["serial"], await request.form()
    step, done = str(form.get("step", ""))[:80], form.get("done") != "no"
    await _known_step(request, step)
    try:
        minutes = minutes_of(str(form.get("minutes", "")))
    except PanewrightError as mistake:
        return await again(request, told=mistake.problems)
    await here.asks(here.shop.tick, serial, step, done, who(request), minutes)
    undo = Undo(
        "Step ticked" if done else "Tick taken back",
        to(request, "tick"),
        (("step", step), ("done", "no" if done else "yes")),
    )
    return await again(request, undo=undo)


async def hours(request: Request) -> Response:
    """Minutes at a step, told without a tick."""
    from panewright.desk.bench.hours import keep

    here, serial, typed = floor(request), request.path_params["serial"], await typed_of(request)
    step = typed.get("step", "")[:80]
    await _known_step(request, step)
    try:
        number = await here.asks(keep, here.shop.ledger, serial, step, typed=typed, hand=who(request))
    except PanewrightError as mistake:
        return await again(request, told=mistake.problems)
    return await again(
        request, undo=Undo("Minutes kept", to(request, "hours/back"), (("number", f"{number}"),))
    )


async def hours_back(request: Request) -> Response:
    """Minutes that do not count after all."""
    from panewright.desk.bench.hours import take_back

    here, serial, typed = floor(request), request.path_params["serial"], await typed_of(request)
    await here.asks(take_back, here.shop.ledger, serial, whole(typed.get("number")), who(request))
    return await again(request)


async def clock(request: Request) -> Response:
    """A step's clock started or stopped."""
    from panewright.desk.bench.steps import wait_of

    here, serial, form = floor(request), request.path_params["serial"], await request.form()
    step = str(form.get("step", ""))[:80]
    made = await _known_step(request, step)
    wait = wait_of(made, step)
    if form.get("stop"):
        await here.asks(here.shop.stop_clock, serial, step, who(request))
    elif wait is not None:
        await here.asks(here.shop.start_clock, serial, step, wait, who(request))
    return await again(request)


async def reading(request: Request) -> Response:
    """A reading, judged at once."""
    from panewright.desk.bench.readings import keep
    from panewright.desk.bench.typed import typed_reading

    here, serial, form = floor(request), request.path_params["serial"], await request.form()
    step, key = str(form.get("step", ""))[:80], str(form.get("key", ""))[:40]
    made = await _known_step(request, step)
    said = {name: str(form.get(name, ""))[:80] for name in ("value", "light", "heat", "meter")}
    try:
        typed = await here.asks(typed_reading, made, step, key, said)
    except PanewrightError as mistake:
        return await again(request, told=mistake.problems)
    hand = who(request)
    await here.asks(keep, here.shop.ledger, serial, step, key, typed=typed, hand=hand)
    undo = Undo("Reading kept", to(request, "reading/back"), (("step", step), ("key", key)))
    return await again(request, undo=undo)


async def reading_back(request: Request) -> Response:
    """A reading as it was before, or none."""
    from panewright.desk.bench.readings import take_back

    here, serial, typed = floor(request), request.path_params["serial"], await typed_of(request)
    step, key = typed.get("step", "")[:80], typed.get("key", "")[:40]
    await here.asks(take_back, here.shop.ledger, serial, step, key, who(request))
    if typed.get("to") == "record":
        return go(request, f"/serial/{part(serial)}")
    return await again(request)


async def photograph(request: Request) -> Response:
    """A photograph of this panel, unpacked and made small by a process with limits."""
    here, serial = floor(request), request.path_params["serial"]
    async with request.form(max_files=1, max_fields=3) as form:
        file, step = form.get("file"), str(form.get("step", ""))[:80]
        data = await file.read(MOST_UPLOAD_BYTES) if isinstance(file, UploadFile) else b""
        record = form.get("to") == "record"
    picture = await here.bounded("photograph", data)
    await here.asks(here.shop.keep_photograph, serial, picture, step.replace("-", " "), who(request))
    here.live.tell(f"step:{serial}")
    return go(request, f"/serial/{part(serial)}" if record else to(request, ""))


async def _known_step(request: Request, step: str) -> Made:
    """The design, where it has such a step."""
    here = floor(request)
    at_bench = await here.asks(here.shop.bench, request.path_params["serial"])
    made = await made_by(request, at_bench.text)
    if step not in {each.key for each in await here.asks(steps_of, made, at_bench)}:
        raise RecordError([Problem("This panel has no such step.", "Load the page again.", key="step")])
    return made


def to(request: Request, what: str = "") -> str:
    """Where something of this panel's bench is sent."""
    here = f"/build/{request.path_params['number']}/{part(request.path_params['serial'])}"
    return f"{here}/{what}" if what else here


async def again(
    request: Request, *, told: Sequence[Problem] = (), undo: Undo | None = None, ask: Any = None
) -> Response:
    """The bench page once more, with what is to be told, taken back or asked."""
    floor(request).live.tell(f"step:{request.path_params['serial']}", request.headers.get("x-tap", ""))
    if not is_tap(request) and not told and not ask:
        return go(request, to(request, ""))
    known = {**await bench_known(request), "told": told, "undo": undo, "ask": ask}
    if is_tap(request):
        return parts(request, ["told", "steps", "undo"], known, 422 if told or ask else 200)
    return page(request, "bench.html", known, 422)


ROUTES = [
    Route("/build", pick),
    Route("/build/{number}", order),
    Route("/build/{number}/begin", begin, methods=["POST"]),
    Route("/build/{number}/{serial:name}", bench),
    Route("/build/{number}/{serial:name}/tick", tick, methods=["POST"]),
    Route("/build/{number}/{serial:name}/hours", hours, methods=["POST"]),
    Route("/build/{number}/{serial:name}/hours/back", hours_back, methods=["POST"]),
    Route("/build/{number}/{serial:name}/clock", clock, methods=["POST"]),
    Route("/build/{number}/{serial:name}/reading", reading, methods=["POST"]),
    Route("/build/{number}/{serial:name}/reading/back", reading_back, methods=["POST"]),
    Route("/photos/{number}/{serial:name}", photograph, methods=["POST"]),
]
