"""One order as a form, and what comes of it while one types."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import OrderError, PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import Undo, who, whole

if TYPE_CHECKING:
    from panewright.desk.jobs import Reckoned
    from panewright.desk.shop.orders import Theirs


async def order(request: Request) -> Response:
    """One order as a form, with what comes of it beside."""
    known = await _known(request)
    if request.headers.get("x-parts", "seen") == "seen" and request.query_params.get("wait"):
        known |= await _seen(request, known["text"])
    return page(request, "order.html", known)


async def _known(request: Request, theirs: Theirs | None = None) -> dict[str, Any]:
    """All that the page of an order shows."""
    here, number = floor(request), request.path_params["number"]
    version = await here.asks(here.shop.order, number)
    await here.own()
    known = here.reckoner.known(version.text)
    return {
        "number": number,
        "version": version,
        "text": version.text,
        "theirs": theirs,
        **await here.asks(_form_of, version.text, known),
        **_seen_now(known, here.reckoner.last.get(number), number, version.version),
    }


def _form_of(text: str, reckoned: Reckoned | None) -> dict[str, Any]:
    """The form, with the mistakes beside their questions."""
    from panewright.desk.orders import form as forms

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
    from panewright.desk.shop.orders import Theirs

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
    from panewright.desk.orders import form as forms

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
    Route("/orders/{number}", order),
    Route("/orders/{number}/say", say, methods=["POST"]),
    Route("/orders/{number}/try", try_out, methods=["POST"]),
    Route("/orders/{number}/stop", stop, methods=["POST"]),
    Route("/orders/{number}/earlier", earlier, methods=["POST"]),
]
