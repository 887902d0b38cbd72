"""One array: strings put together by touch or keys, what they do at once, its year, where panels lie."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import UTC, datetime
from functools import partial
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who, whole
from panewright.web.reckoner import digest
from panewright.web.workers import WorkerGone

if TYPE_CHECKING:
    from panewright.array.plan.tried import Basis
    from panewright.desk.arrays.strings import Strings
    from panewright.desk.shop.who import Who
    from panewright.ledger.arrays.texts import ArrayVersion
    from panewright.order.site.site import Site
    from panewright.web.floor import Floor

_MEDIA = {"pdf": "application/pdf", "svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}
_ARRANGING = "arranging: "  #: stands before the name where strings are arranged
_BOARD = ["told", "strung", "limits"]


async def array(request: Request) -> Response:
    """The page of one array; what is not reckoned yet is begun."""
    here, version = floor(request), await _version(request)
    if not here.planned.year(version.text) and not here.planned.refused(version.text):
        await _begin(here, version, wait=False)
    return page(request, "array.html", await _known(request, version))


async def _version(request: Request) -> ArrayVersion:
    here = floor(request)
    return await here.asks(here.shop.array, request.path_params["name"])


async def _site(request: Request, version: ArrayVersion) -> Site:
    from panewright.desk.shop.arrays import site_of

    return await floor(request).asks(site_of, version)


async def _known(request: Request, version: ArrayVersion, chosen: str = "") -> dict[str, Any]:
    """All that its page shows; where the text has mistakes, these."""
    here, name = floor(request), version.name
    known: dict[str, Any] = {
        "name": name,
        "version": version,
        "chosen": chosen,
        "mistakes": (),
        "site": None,
        "laying": await here.asks(here.shop.laying, name),
        "layings": await here.asks(here.shop.layings, name),
        "today": datetime.now(UTC).date().isoformat(),
        "said": {},
        **_year_known(here, version),
    }
    try:
        site = await _site(request, version)
    except PanewrightError as mistake:
        return known | {"mistakes": mistake.problems}
    return known | {"site": site} | await _strung_known(here, version, site)


def _year_known(here: Floor, version: ArrayVersion) -> dict[str, Any]:
    work = here.works.arrays
    mine = work.doing == _job(version.name)
    return {
        "doing": mine,
        "arranging": mine and work.note.startswith(_ARRANGING),
        "unarranged": _unarranged(here, version),
        "far": work.far,
        "busy": work.note.removeprefix(_ARRANGING) if work.doing and not mine else "",
        "year": here.planned.year(version.text),
        "failed": () if mine else here.planned.refused(version.text),
    }


def _job(name: str) -> str:
    """What the work on an array is called: a log holds nothing that was typed."""
    return f"array {digest(name)[:12]}"


def _unarranged(here: Floor, version: ArrayVersion) -> Sequence[Problem]:
    """Why strings were not arranged, where that was asked for last."""
    work = here.works.arrays
    last = work.outcomes.get(_job(version.name))
    return last.problems if last and last.note.startswith(_ARRANGING) and not work.doing else ()


async def _strung_known(here: Floor, version: ArrayVersion, site: Site) -> dict[str, Any]:
    """Strings and what they do, as far as the panels are known."""
    from panewright.desk.arrays import shown

    tried = await here.asks(here.shop.tried_strings, version.name, site)
    strings = tried if tried is not None else _stands(here, version, site)
    basis = here.planned.basis(version.text)
    outcome = None
    if basis is not None and strings:
        outcome = await here.asks(here.planned.outcome, version.text, basis, strings)
    return {
        "tried": tried is not None and tried != _stands(here, version, site),
        "board": await here.asks(shown.board, site, strings, basis, outcome),
        "limits": await here.asks(shown.limits, site, outcome) if outcome else None,
        "basis": basis is not None,
    }


def _stands(here: Floor, version: ArrayVersion, site: Site) -> Strings:
    """The strings of the text; where it leaves them to the program, those that it found."""
    from panewright.desk.arrays.strings import strings_of

    if site.strings:
        return strings_of(site)
    year = here.planned.year(version.text)
    return year.strings if year else ()


async def move(request: Request) -> Response:
    """A panel put into a place, or out of all."""
    here, version, typed = floor(request), await _version(request), await typed_of(request)
    site, hand = await _site(request, version), who(request)
    panel, to = typed.get("panel", ""), typed.get("to", "")
    if not panel:
        none = Problem("No panel is chosen.", "Tap a panel first, then the place for it.", key="panel")
        return await _again(request, [none], 422)
    try:
        stands = _stands(here, version, site)
        await here.asks(here.shop.move_panel, version.name, site, stands, (panel, to), hand)
    except PanewrightError as mistake:
        return await _again(request, mistake.problems, 422, panel)
    here.live.tell(f"strings:{part(version.name)}", hand.tap)
    return await _again(request, (), 200, panel)


async def arrange(request: Request) -> Response:
    """The strings that give most, found by a worker, put in the place of what is tried."""
    here, version = floor(request), await _version(request)
    hand = who(request)
    basis = here.planned.basis(version.text)
    work = here.works.arrays
    if basis is None:
        early = Problem("The panels are still being looked at.", "Try once more when their watts stand here.")
        return await _again(request, [early], 409)
    steps = partial(_arranged, here, version, basis, hand)
    if not await work.do(_job(version.name), steps, tap=hand.tap, note=_ARRANGING + version.name):
        return await _again(request, [work.words.busy], 409)
    return await _again(request, (), 200)


async def _arranged(here: Floor, version: ArrayVersion, basis: Basis, hand: Who) -> Any:
    found = await here.works.arrays.ask("array_arranged", basis)
    if found is None:
        return None
    if not found:
        reason = "No string of these panels stays within the controller's voltages."
        cure = "Take another controller, another bank, or other panels."
        raise RecordError([Problem(reason, cure, key="string")])
    await here.asks(here.shop.put_strings, version.name, found, hand)
    here.live.tell(f"strings:{part(version.name)}")
    return version.name


async def drop(request: Request) -> Response:
    """What is tried let go: the strings of the text stand."""
    here, name, hand = floor(request), request.path_params["name"], who(request)
    await here.asks(here.shop.put_strings, name, None, hand)
    here.live.tell(f"strings:{part(name)}", hand.tap)
    return await _again(request, (), 200)


async def keep(request: Request) -> Response:
    """What is tried written into the text; an older version that was looked at is refused."""
    here, name, typed = floor(request), request.path_params["name"], await typed_of(request)
    try:
        kept = await here.asks(here.shop.keep_strings, name, whole(typed.get("seen")), who(request))
    except StaleError as stale:
        return await _again(request, stale.problems, 409)
    except PanewrightError as mistake:
        return await _again(request, mistake.problems, 422)
    here.live.tell(f"array:{name}")
    await _begin(here, kept, wait=False)
    return go(request, f"/arrays/{part(name)}")


async def _again(request: Request, told: Sequence[Problem], status: int, chosen: str = "") -> Response:
    if not is_tap(request) and status == 200:
        at = "#strung" if not chosen else f"?chosen={part(chosen)}#strung"
        return go(request, f"/arrays/{part(request.path_params['name'])}{at}")
    known = {**await _known(request, await _version(request), chosen), "told": told}
    if is_tap(request):
        return parts(request, _BOARD, known, status)
    return page(request, "array.html", known, status)


async def reckon(request: Request) -> Response:
    """The year, reckoned anew."""
    here, version = floor(request), await _version(request)
    here.planned.drop(version.text)
    if not await _begin(here, version, wait=True):
        return await _year_again(request, [here.works.arrays.words.busy], 409)
    return await _year_again(request, (), 200)


async def stop(request: Request) -> Response:
    """Give it up."""
    here, name = floor(request), request.path_params["name"]
    if here.works.arrays.doing == _job(name):
        await here.works.arrays.stop()
    return await _year_again(request, (), 200)


async def _year_again(request: Request, told: Sequence[Problem], status: int) -> Response:
    if not is_tap(request):
        return go(request, f"/arrays/{part(request.path_params['name'])}")
    known = {**await _known(request, await _version(request)), "told": told}
    return parts(request, [*_BOARD, "arrayyear"], known, status)


async def _begin(here: Floor, version: ArrayVersion, *, wait: bool) -> bool:
    """Panels, then the year, by a worker; False where another array is being reckoned."""
    from panewright.desk.arrays.shown import mistakes

    if await here.asks(mistakes, version.name, version.text):
        return True
    work = here.works.arrays
    if work.doing:
        return bool(work.doing == _job(version.name))
    doing = work.do(_job(version.name), partial(_steps, here, version), note=version.name)
    if wait:
        return await doing
    here.later(doing)
    return True


async def _steps(here: Floor, version: ArrayVersion) -> Any:
    """Each step is shown as soon as it is there."""
    work, text = here.works.arrays, version.text
    try:
        basis = here.planned.basis(text)
        if basis is None:
            basis = await work.ask("array_basis", here.place, version.name, text)
            if basis is None:
                return None
            here.planned.keep_basis(text, basis)
            here.live.tell(f"strings:{part(version.name)}")
        year = await work.ask("array_year", version.name, text, basis)
    except PanewrightError as mistake:
        here.planned.refuse(text, mistake.problems)
        raise
    except Exception as ours:  # else whoever looks at the page would begin it again
        print(f"an array broke: {type(ours).__name__}", file=sys.stderr, flush=True)
        here.planned.refuse(text, (work.words.gone,))
        raise WorkerGone from ours
    if year is None:
        here.planned.refuse(text, (work.words.stopped,))
        return None
    here.planned.keep_year(text, year)
    here.live.tell(f"strings:{part(version.name)}")
    return version.name


async def lay(request: Request) -> Response:
    """The panels lie so, from a day on."""
    from panewright.desk.arrays.laid import lain_of

    here, version, typed = floor(request), await _version(request), await typed_of(request)
    hand = who(request)
    try:
        site = await _site(request, version)
        tried = await here.asks(here.shop.tried_strings, version.name, site)
        strings = tried if tried is not None else _stands(here, version, site)
        lain = lain_of(typed)
        await here.asks(here.shop.lay_array, version.name, site, strings, lain, hand)
    except StaleError as stale:
        return await _lying_again(request, stale.problems, 409, typed)
    except PanewrightError as mistake:
        return await _lying_again(request, mistake.problems, 422, typed)
    here.live.tell(f"array:{version.name}", hand.tap)
    return await _lying_again(request, (), 200, {})


async def _lying_again(
    request: Request, told: Sequence[Problem], status: int, said: dict[str, str]
) -> Response:
    if not is_tap(request) and status == 200:
        return go(request, f"/arrays/{part(request.path_params['name'])}")
    known = {**await _known(request, await _version(request)), "told": told, "said": said}
    if is_tap(request):
        return parts(request, ["told", "lying"], known, status)
    return page(request, "array.html", known, status)


async def paper(request: Request) -> Response:
    """One of its papers, made by a worker of the year that is reckoned."""
    here, version, file = floor(request), await _version(request), request.path_params["file"]
    year = here.planned.year(version.text)
    if year is None:
        reason = "The year of this array is not reckoned yet, so there is nothing to print."
        raise RecordError([Problem(reason, "Reckon the year on its page first.", key="array")])
    made = await here.work(f"paper:{version.name}", "array_paper", year.kept, file)
    if made is None:
        return Response("It was given up. Ask for it again.", 404)
    kind = file.rpartition(".")[2]
    way = "inline" if kind in ("pdf", "svg") else "attachment"
    called = quote(f"{version.name} {file}", safe="")
    head = {
        "cache-control": "no-store",
        "content-disposition": f"{way}; filename*=UTF-8''{called}",
    }
    return Response(made, media_type=_MEDIA.get(kind, "application/octet-stream"), headers=head)


ROUTES = [
    Route("/arrays/{name:name}", array),
    Route("/arrays/{name:name}/string", move, methods=["POST"]),
    Route("/arrays/{name:name}/arrange", arrange, methods=["POST"]),
    Route("/arrays/{name:name}/drop", drop, methods=["POST"]),
    Route("/arrays/{name:name}/keep", keep, methods=["POST"]),
    Route("/arrays/{name:name}/year", reckon, methods=["POST"]),
    Route("/arrays/{name:name}/stop", stop, methods=["POST"]),
    Route("/arrays/{name:name}/lie", lay, methods=["POST"]),
    Route("/arrays/{name:name}/papers/{file}", paper),
]
