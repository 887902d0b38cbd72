"""Measured cells of a lot: a table dropped, its columns settled, how the cells spread, what is suspected."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from panewright.errors import PanewrightError, Problem, RecordError, StaleError
from panewright.web.address import part
from panewright.web.answer import floor, go, is_tap, page, parts
from panewright.web.guard import MOST_UPLOAD_BYTES
from panewright.web.hand import Undo, typed_of, who, whole

if TYPE_CHECKING:
    from panewright.desk.lots.kept import Kept
    from panewright.desk.lots.looked import Looked
    from panewright.desk.lots.seen import Weighed
    from panewright.web.floor import Floor

_MOST_FIELDS = 3000  # of a form: a table has at most 500 columns
_MEDIA = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


async def take(request: Request) -> Response:
    """A table dropped: kept as it is, its columns proposed, and read where nothing is open."""
    from panewright.desk.lots import kept

    here, hand = floor(request), who(request)
    async with request.form(max_files=1, max_fields=4) as form:
        file, mark = form.get("file"), " ".join(str(form.get("lot", "")).split())[:60]
        data = await file.read(MOST_UPLOAD_BYTES) if isinstance(file, UploadFile) else b""
        name = (file.filename or "cells") if isinstance(file, UploadFile) else "cells"
    try:
        if not mark or not data:
            raise RecordError([Problem("A mark or the file is missing.", "Give both.", key="lot")])
        looked: Looked = await here.bounded("cells_looked", data, name)
        if before := await here.asks(kept.known_mapping, here.shop.ledger, looked):
            looked = await here.bounded("cells_looked", data, name, before)
        await here.asks(kept.take, here.shop.ledger, mark, data, looked, hand)
    except PanewrightError as mistake:
        from panewright.web.pages.lots import known

        return page(request, "lots.html", await known(request, mistake.problems), 422)
    here.live.tell("lot", hand.tap)
    return go(request, f"/cells/{part(mark)}")


async def cells(request: Request) -> Response:
    """How the cells stand; where a column is open, that first."""
    found = await _found(request)
    if found is None:
        return go(request, f"/lots/{part(request.path_params['mark'])}")
    return page(request, "cells.html", await _known(request, found))


async def _found(request: Request) -> Kept | None:
    from panewright.desk.lots.kept import find

    here = floor(request)
    return await here.asks(find, here.shop.ledger, request.path_params["mark"])


async def _known(
    request: Request, found: Kept, told: Sequence[Problem] = (), text: str = "", undo: Undo | None = None
) -> dict[str, Any]:
    from panewright.desk.lots import kinds, looked

    here, kept_text = floor(request), text or found.mapping.text
    samples = await _samples(here, found) if not found.read or "columns" in request.query_params else ()
    return {
        "mark": found.table.lot,
        "kept": found,
        "columns": looked.columns(kept_text, samples),
        "quantities": looked.quantities(),
        "units": looked.units(),
        "given": looked.given(kept_text),
        "errors": looked.errors(kept_text),
        "light": looked.light(kept_text),
        "light_open": looked.light_open(kept_text),
        "decimal_mark": "," if 'decimal_mark = ","' in kept_text else ".",
        "kinds": await here.asks(kinds.names),
        "told": told,
        "undo": undo,
        **await _standing(request, found),
    }


async def _samples(here: Floor, found: Kept) -> tuple[tuple[str, ...], ...]:
    """The first fields of each column."""
    from panewright.desk.lots import kept

    data = await here.asks(kept.file_of, here.shop.ledger, found)
    looked: Looked = await here.bounded("cells_looked", data, found.table.name, found.mapping.text)
    return looked.samples


async def _standing(request: Request, found: Kept) -> dict[str, Any]:
    """The weighed lot, or what kept it from being weighed."""
    if not found.read:
        return {"seen": None, "failed": (), "weighing": False}
    asks_part = "standing" in request.headers.get("x-parts", "").split()
    try:
        made = await _weighed(request, found, wait=asks_part or "wait" in request.query_params)
    except PanewrightError as mistake:
        return {"seen": None, "failed": mistake.problems, "weighing": False}
    return {"seen": made.seen if made else None, "failed": (), "weighing": made is None}


async def _weighed(request: Request, found: Kept, *, wait: bool) -> Weighed | None:
    from panewright.desk.lots import kept

    here = floor(request)

    async def weigh() -> Any:
        rows = await here.asks(kept.rows_of, here.shop.ledger, found)
        return await here.workers.ask("cells_weighed", rows, found.mapping.kind, kept.settled_of(found))

    return await here.scales.weighed(found.key, weigh, wait=wait)


async def columns(request: Request) -> Response:
    """Columns as a hand settled them; the rows are read anew."""
    from panewright.desk.lots import kept, looked

    here, found = floor(request), await _found(request)
    form = await request.form(max_fields=_MOST_FIELDS)
    typed = {name: str(value)[:200] for name, value in form.items()}
    if found is None:
        return go(request, "/lots")
    text = found.mapping.text
    try:
        text = looked.settled(text, typed)
        data = await here.asks(kept.file_of, here.shop.ledger, found)
        made: Looked = await here.bounded("cells_looked", data, found.table.name, text)
        if made.rows is None:
            return await _again(request, found, made.problems, text)
        hand, seen = who(request), whole(typed.get("seen"))
        kind = typed.get("kind", "")[:120]
        await here.asks(kept.keep_columns, here.shop.ledger, found, made, kind, hand, seen=seen)
    except StaleError as stale:
        return await _again(request, found, stale.problems, text)
    except PanewrightError as mistake:
        return await _again(request, found, mistake.problems, text)
    here.live.tell("lot", hand.tap)
    return go(request, f"/cells/{part(found.table.lot)}")


async def _again(request: Request, found: Kept, told: Sequence[Problem], text: str = "") -> Response:
    known = await _known(request, found, told, text)
    if is_tap(request):
        return parts(request, ["told"], known, 422)
    return page(request, "cells.html", known, 422)


async def settle(request: Request) -> Response:
    """What a maker says of a cell: kept, left out, put right, or open again."""
    from panewright.desk.lots import kept

    here, found, typed = floor(request), await _found(request), await typed_of(request)
    if found is None:
        return go(request, "/lots")
    try:
        told = await here.asks(kept.settle, here.shop.ledger, found, typed, who(request))
    except PanewrightError as mistake:
        return await _again(request, found, mistake.problems)
    here.live.tell("lot", who(request).tap)
    if not is_tap(request):
        return go(request, f"/cells/{part(found.table.lot)}")
    back = None if told.what == "open" else _undo(found, told.mark, told.row, told.what)
    now = await _found(request)
    assert now is not None
    return parts(request, ["told", "standing", "undo"], await _known(request, now, undo=back))


def _undo(found: Kept, mark: str, row: int, what: str) -> Undo:
    words = {"keep": "stays as it is", "leave out": "is left out", "correct": "is put right"}
    values = (("cell", mark), ("row", str(row)), ("what", "open"))
    return Undo(f"Cell {mark} {words[what]}", f"/cells/{part(found.table.lot)}/settle", values)


async def listed(request: Request) -> Response:
    """Every cell in figures, to take along."""
    found, kind = await _found(request), request.path_params["kind"]
    if found is None or kind not in _MEDIA:
        raise RecordError([Problem("There is no such list.", "Take one that the page offers.")])
    made = await _weighed(request, found, wait=True)
    assert made is not None
    content = await floor(request).workers.ask("cells_listed", made.kept, f"cells.{kind}")
    name = f'attachment; filename="cells.{kind}"'
    head = {"cache-control": "no-store", "content-disposition": name}
    return Response(content, media_type=_MEDIA[kind], headers=head)


async def not_read(request: Request) -> Response:
    """Every row that was not read, to take along."""
    from panewright.desk.lots import kept

    here, found = floor(request), await _found(request)
    if found is None or not found.read:
        raise RecordError([Problem("There is no such list.", "Take one that the page offers.")])
    data = await here.asks(kept.file_of, here.shop.ledger, found)
    content = await here.bounded("cells_not_read", data, found.table.name, found.mapping.text, "not-read.csv")
    head = {"cache-control": "no-store", "content-disposition": 'attachment; filename="not-read.csv"'}
    return Response(content, media_type=_MEDIA["csv"], headers=head)


ROUTES = [
    Route("/cells/take", take, methods=["POST"]),
    Route("/cells/{mark:name}", cells),
    Route("/cells/{mark:name}/columns", columns, methods=["POST"]),
    Route("/cells/{mark:name}/settle", settle, methods=["POST"]),
    Route("/cells/{mark:name}/cells.{kind}", listed),
    Route("/cells/{mark:name}/not-read.csv", not_read),
]
