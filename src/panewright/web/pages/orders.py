"""Orders: the list, the form, the text, and what comes of it while one types."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import OrderError, PanewrightError, Problem, StaleError
from panewright.web.answer import floor, go, is_tap, page, parts, session, tap_of

if TYPE_CHECKING:
    from panewright.desk.jobs import Reckoned
    from panewright.desk.shop import Theirs, Who

_MOST_FILE = 1_000_000
_LISTED = 12  #: orders of the list that are designed unasked


@dataclass(frozen=True, slots=True)
class Undo:
    """How the last tap is taken back."""

    words: str
    to: str
    values: tuple[tuple[str, str], ...] = ()


def who(request: Request) -> Who:
    """Who taps, now."""
    from panewright.desk.shop import Who

    return Who.now(session(request).by, tap_of(request))


async def orders(request: Request) -> Response:
    """The list of orders."""
    known = await _list_known(request)
    floor(request).later(_reckon_listed(request, [each.number for each in known["orders"][:_LISTED]]))
    return page(request, "orders.html", known)


async def _reckon_listed(request: Request, numbers: Sequence[str]) -> None:
    """Design what the list shows and nobody has looked at yet, one after the other."""
    here = floor(request)
    for number in numbers:
        if number not in here.reckoner.last and number not in here.looked_at:
            here.looked_at.add(number)
            text = (await here.asks(here.shop.order, number)).text
            await here.reckoner.of(number, text)
            here.live.tell(f"design:{number}")


async def _list_known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    here = floor(request)
    found = await here.asks(lambda: here.shop.orders())
    seen = {number: made.seen for number, made in here.reckoner.last.items()}
    mend = here.reckoner.to_mend
    return {
        "orders": found,
        "seen": seen,
        "mend": mend,
        "told": told,
        "next": _next([each.number for each in found]),
    }


def _next(numbers: Sequence[str]) -> str:
    """The first whole number that no order bears."""
    taken = set(numbers)
    return next(str(n) for n in range(1, len(taken) + 2) if str(n) not in taken)


async def begin(request: Request) -> Response:
    """A new order."""
    here, form = floor(request), await request.form()
    number, name = str(form.get("number", "")).strip(), str(form.get("name", "")).strip()
    try:
        await here.asks(here.shop.begin_order, number, name, who(request))
    except StaleError:
        taken = Problem(f"There is an order {number} already.", "Take another number.", key="number")
        return _back(request, await _list_known(request, [taken]))
    except PanewrightError as mistake:
        return _back(request, await _list_known(request, mistake.problems))
    return go(request, f"/orders/{number}")


async def take(request: Request) -> Response:
    """An order file from elsewhere, read in a process of its own."""
    here = floor(request)
    async with request.form(max_files=1, max_fields=2) as form:
        file = form.get("file")
        data = await file.read(_MOST_FILE + 1) if isinstance(file, UploadFile) else b""
    try:
        text = await here.bounded("order_text", data)
        order = await here.asks(here.shop.take_order, text, who(request))
    except StaleError:
        taken = Problem(
            "There is an order of that number already.", "Give the file another number.", key="number"
        )
        return _back(request, await _list_known(request, [taken]))
    except PanewrightError as mistake:
        return _back(request, await _list_known(request, mistake.problems))
    return go(request, f"/orders/{order.number}")


def _back(request: Request, known: dict[str, Any]) -> Response:
    if is_tap(request):
        return parts(request, ["told", "orderlist"], known, 422)
    return page(request, "orders.html", known, 422)


async def order(request: Request) -> Response:
    """One order as a form, with what comes of it beside."""
    known = await _known(request)
    if request.headers.get("x-parts") == "seen" and request.query_params.get("wait"):
        known |= await _seen(request, known["text"])
    return page(request, "order.html", known)


async def _known(request: Request, theirs: Theirs | None = None) -> dict[str, Any]:
    """All that the page of an order shows."""
    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    return {
        "number": number,
        "version": version,
        "text": version.text,
        "theirs": theirs,
        **await here.asks(_form_of, version.text, here.reckoner.known(version.text)),
        **_seen_now(
            here.reckoner.known(version.text), here.reckoner.last.get(number), number, version.version
        ),
    }


def _form_of(text: str, reckoned: Reckoned | None) -> dict[str, Any]:
    """The form, with the mistakes beside their questions."""
    from panewright.desk import form as forms

    problems = getattr(reckoned.seen, "problems", ()) if reckoned else forms.problems(text)
    try:
        sections = forms.form(text, problems)
    except OrderError as mistake:
        return {"sections": (), "stray": mistake.problems, "fields": {}, "title": ""}
    fields = {field.key: field.label for section in sections for field in section.fields}
    title = next(field.value for section in sections for field in section.fields if field.key == "order.name")
    return {
        "sections": sections,
        "stray": tuple(each for each in problems if forms.at(each) not in fields),
        "fields": fields,
        "title": title,
    }


def _seen_now(known: Reckoned | None, last: Reckoned | None, number: str, version: int) -> dict[str, Any]:
    """What can be shown at once: this text's design, or the last one marked as old."""
    if known is None:
        wants = f"/orders/{number}?wait={version}"
        return {"shown": last.seen if last else None, "old": True, "wants": wants, "refused": ()}
    refused = getattr(known.seen, "problems", ())
    if refused:
        return {
            "shown": last.seen if last else None,
            "old": last is not None,
            "wants": "",
            "refused": refused,
        }
    return {"shown": known.seen, "old": False, "wants": "", "refused": ()}


async def _seen(request: Request, text: str) -> dict[str, Any]:
    """The same, when it is reckoned."""
    here, number = floor(request), request.path_params["number"]
    known = await here.reckoner.of(number, text)
    if known is None:
        return {"wants": ""}
    here.live.tell(f"design:{number}")
    return _seen_now(known, here.reckoner.last.get(number), number, 0)


async def say(request: Request) -> Response:
    """One answer."""
    from panewright.desk.shop import Theirs

    here, number, form = floor(request), request.path_params["number"], await request.form()
    key, typed, was = (str(form.get(name, "")) for name in ("key", "value", "was"))
    before = (await here.asks(here.shop.order, number)).version
    try:
        said = await here.asks(here.shop.say, number, key, typed, was, who(request))
    except PanewrightError as mistake:
        return await _form_again(request, told=mistake.problems)
    if isinstance(said, Theirs):
        return await _form_again(request, theirs=said, status=409)
    here.live.tell(f"order:{number}")
    undo = None
    if said.version > before:
        name = key.partition(".")[2].replace("_", " ")
        undo = Undo(f"{name} kept", f"/orders/{number}/earlier", (("version", str(before)),))
    return await _form_again(request, undo=undo)


async def _form_again(
    request: Request,
    *,
    told: Sequence[Problem] = (),
    theirs: Theirs | None = None,
    undo: Undo | None = None,
    status: int = 200,
) -> Response:
    known = {**await _known(request, theirs), "told": told, "undo": undo}
    if is_tap(request):
        return parts(request, ["told", "form", "seen", "undo"], known, 422 if told else status)
    return page(request, "order.html", known, 422 if told else status)


async def try_out(request: Request) -> Response:
    """What would come of what is typed, before it is kept; only the newest is answered."""
    from panewright.desk import form as forms

    here, number, form = floor(request), request.path_params["number"], await request.form()
    text = (await here.asks(here.shop.order, number)).text
    try:
        for key, typed in form.multi_items():
            text = await here.asks(forms.edited, text, key, str(typed))
    except (PanewrightError, ValueError):
        return Response(status_code=204)
    known = await here.reckoner.of(number, text)
    if known is None:
        return Response(status_code=204)
    fields = (await here.asks(_form_of, text, known))["fields"]
    shown = _seen_now(known, here.reckoner.last.get(number), number, 0)
    return parts(request, ["seen"], {"number": number, "fields": fields, **shown})


async def stop(request: Request) -> Response:
    """Give up what is being reckoned."""
    here, number = floor(request), request.path_params["number"]
    here.reckoner.stop(number)
    known = await _known(request)
    if is_tap(request):
        return parts(request, ["seen"], {**known, "wants": ""})
    return go(request, f"/orders/{number}")


async def text(request: Request) -> Response:
    """The order's text."""
    return page(request, "text.html", await _text_known(request))


async def _text_known(request: Request, mine: str | None = None, clash: Any = None) -> dict[str, Any]:
    from panewright.desk import form as forms

    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    problems = await here.asks(forms.problems, version.text if mine is None else mine)
    return {"number": number, "version": version, "mine": mine, "clash": clash, "problems": problems}


async def write(request: Request) -> Response:
    """The text as it was changed; two hands at one order are shown to each other."""
    here, number, form = floor(request), request.path_params["number"], await request.form()
    mine, seen = str(form.get("text", "")).replace("\r\n", "\n"), whole(form.get("seen"))
    try:
        await here.asks(here.shop.write_text, number, mine, seen, who(request))
    except StaleError as stale:
        return _text_again(request, await _text_known(request, mine, stale.stands), 409)
    except PanewrightError as mistake:
        known = await _text_known(request, mine)
        return _text_again(request, {**known, "told": mistake.problems}, 422)
    here.live.tell(f"order:{number}")
    return go(request, f"/orders/{number}")


def _text_again(request: Request, known: dict[str, Any], status: int) -> Response:
    if is_tap(request):
        return parts(request, ["told", "textform"], known, status)
    return page(request, "text.html", known, status)


def whole(typed: object) -> int:
    """A whole number that a page sends; 0 where it is none."""
    return int(typed) if isinstance(typed, str) and typed.isdecimal() and len(typed) < 10 else 0


async def versions(request: Request) -> Response:
    """Every text that this order had."""
    here, number = floor(request), request.path_params["number"]
    found = await here.asks(lambda: here.shop.versions(number))
    return page(request, "versions.html", {"number": number, "versions": found})


async def earlier(request: Request) -> Response:
    """An earlier text once more."""
    here, number, form = floor(request), request.path_params["number"], await request.form()
    before = (await here.asks(here.shop.order, number)).version
    await here.asks(here.shop.earlier, number, whole(form.get("version")), who(request))
    here.live.tell(f"order:{number}")
    if is_tap(request) and request.headers.get("referer", "").endswith("/versions"):
        return go(request, f"/orders/{number}")
    undo = Undo("Taken back", f"/orders/{number}/earlier", (("version", str(before)),))
    return await _form_again(request, undo=undo)


ROUTES = [
    Route("/", orders),
    Route("/orders", begin, methods=["POST"]),
    Route("/orders/take", take, methods=["POST"]),
    Route("/orders/{number}", order),
    Route("/orders/{number}/say", say, methods=["POST"]),
    Route("/orders/{number}/try", try_out, methods=["POST"]),
    Route("/orders/{number}/stop", stop, methods=["POST"]),
    Route("/orders/{number}/text", text),
    Route("/orders/{number}/text", write, methods=["POST"]),
    Route("/orders/{number}/versions", versions),
    Route("/orders/{number}/earlier", earlier, methods=["POST"]),
]
