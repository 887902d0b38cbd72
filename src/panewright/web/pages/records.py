"""The records kept safe: backed up, looked over, written out, and put back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any
from urllib.parse import quote

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.hand import typed_of, who

WORDS = "put back"  #: typed by whoever means it


async def records(request: Request) -> Response:
    """How the records stand, and what can be done with them."""
    return page(request, "records.html", await _known(request))


async def _known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.records.kept import stands

    here = floor(request)
    found = await here.asks(lambda: stands(here.place, here.shop.ledger, datetime.now(UTC)))
    known = {"stands": found, "told": told}
    work = here.works.records
    return {**known, "doing": work.doing, "far": work.far, "came": work.outcomes}


async def back_up(request: Request) -> Response:
    """One more backup."""
    return await _do(request, "back_up", datetime.now(UTC))


async def look_over(request: Request) -> Response:
    """Every row and file looked over."""
    return await _do(request, "look_over")


async def write_out(request: Request) -> Response:
    """Everything in open formats."""
    return await _do(request, "write_out")


async def _do(request: Request, what: str, *arguments: Any) -> Response:
    here, tap = floor(request), request.headers.get("x-tap", "")
    work = here.works.records
    steps = partial(work.ask, "records", what, here.place, *arguments)
    begun = await work.do(what, steps, tap=tap)
    if is_tap(request) or not begun:
        known = await _known(request, () if begun else (work.words.busy,))
        status = 200 if begun else 409
        if is_tap(request):
            return parts(request, ["told", "keeping"], known, status)
        return page(request, "records.html", known, status)
    return go(request, "/records")


async def stop(request: Request) -> Response:
    """Give up what is being done."""
    await floor(request).works.records.stop()
    if is_tap(request):
        return parts(request, ["keeping"], await _known(request))
    return go(request, "/records")


async def backup(request: Request) -> Response:
    """A backup, to be taken along."""
    from panewright.desk.records.kept import path_of

    here, name = floor(request), request.path_params["name"]
    return _sent(await here.asks(path_of, here.place, name), name)


async def out(request: Request) -> Response:
    """What was written out, to be taken along."""
    from panewright.desk.records.keeping import written_out

    here = floor(request)
    path = await here.asks(written_out, here.place)
    if not path.is_file():
        gone = Problem("What was written out is gone.", "Write it out once more.")
        return page(request, "records.html", await _known(request, (gone,)), 404)
    return _sent(path, f"records {datetime.now(UTC):%Y-%m-%d}.zip")


def _sent(path: Path, name: str) -> Response:
    head = {
        "cache-control": "no-store",
        "content-encoding": "identity",  # it is squeezed already
        "content-disposition": f"attachment; filename*=UTF-8''{quote(name, safe='')}",
    }
    return FileResponse(path, media_type="application/zip", headers=head)


async def take(request: Request) -> Response:
    """A backup from elsewhere: looked into by a process with limits, then laid beside the others."""
    from panewright.desk.records import keeping as desk

    here = floor(request)
    async with request.form(max_files=1, max_fields=2) as form:
        file = form.get("file")
        if not isinstance(file, UploadFile) or not file.filename:
            none = Problem("No file was chosen.", "Choose a backup first.", key="file")
            return page(request, "records.html", await _known(request, (none,)), 422)
        path = await here.asks(desk.take, here.place, file.file)
    try:
        await here.bounded("look_into", str(path))
        kept = await here.asks(desk.keep_taken, here.place, path, datetime.now(UTC))
    except PanewrightError as mistake:
        return page(request, "records.html", await _known(request, mistake.problems), 422)
    finally:
        path.unlink(missing_ok=True)
    here.live.tell("records")
    return go(request, f"/records/backups/{kept.name}/back")


async def look(request: Request) -> Response:
    """What a backup holds, before it is put back."""
    known = await _look_known(request)
    if request.query_params.get("wait"):
        known |= await _looked(request)
    return page(request, "back.html", known)


async def _look_known(request: Request, told: Sequence[Problem] = ()) -> dict[str, Any]:
    from panewright.desk.records.kept import path_of, stands

    here, name = floor(request), request.path_params["name"]
    await here.asks(path_of, here.place, name)
    found = await here.asks(lambda: stands(here.place, here.shop.ledger, datetime.now(UTC)))
    return {
        "name": name,
        "stands": found,
        "backup": next((each for each in found.backups if each.name == name), None),
        "inside": None,
        "spoilt": (),
        "wants": f"/records/backups/{quote(name, safe='')}/back?wait=1",
        "far": here.far.get(f"look:{name}", 0),
        "words": WORDS,
        "told": told,
    }


async def _looked(request: Request) -> dict[str, Any]:
    from panewright.desk.records.kept import path_of

    here, name = floor(request), request.path_params["name"]
    path = await here.asks(path_of, here.place, name)
    try:
        inside = await here.work(f"look:{name}", "records", "look_into", str(path))
    except PanewrightError as mistake:
        return {"wants": "", "spoilt": mistake.problems}
    return {"wants": "", "inside": inside}


async def stop_look(request: Request) -> Response:
    """Give up the look into a backup."""
    here, name = floor(request), request.path_params["name"]
    here.give_up(f"look:{name}")
    return go(request, "/records")


async def put_back(request: Request) -> Response:
    """A backup in the place of what stands, for whoever has typed that they mean it."""
    from panewright.desk.records.kept import path_of

    here, name, typed = floor(request), request.path_params["name"], await typed_of(request)
    await here.asks(path_of, here.place, name)
    if " ".join(typed.get("word", "").split()).lower() != WORDS:
        told = Problem("Nothing was put back: the words were not typed.", f"Type: {WORDS}", key="word")
        known = {**await _look_known(request, (told,)), **await _looked(request)}
        return page(request, "back.html", known, 422)
    hand = who(request)
    work = here.works.records
    steps = partial(work.ask, "records", "put_back", here.place, name, hand.by, hand.at)
    if not await work.do("put_back", steps):
        return page(request, "records.html", await _known(request, (work.words.busy,)), 409)
    return go(request, "/records")


ROUTES = [
    Route("/records", records),
    Route("/records/backup", back_up, methods=["POST"]),
    Route("/records/check", look_over, methods=["POST"]),
    Route("/records/out", write_out, methods=["POST"]),
    Route("/records/out.zip", out),
    Route("/records/stop", stop, methods=["POST"]),
    Route("/records/take", take, methods=["POST"]),
    Route("/records/backups/{name}", backup),
    Route("/records/backups/{name}/back", look),
    Route("/records/backups/{name}/back", put_back, methods=["POST"]),
    Route("/records/backups/{name}/stop", stop_look, methods=["POST"]),
]
