"""Cutting for a page: what can be chosen, and a plan as rows with pictures; words only."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from typing import TYPE_CHECKING

from panewright.desk.stores import cut_plan, cut_ticked, cutting
from panewright.desk.stores.cut_papers import notes, place, said
from panewright.desk.stores.cut_pictures import picture
from panewright.desk.stores.cut_rows import part_units
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.stores.cut_plan import Plan
    from panewright.desk.stores.cut_rows import Row
    from panewright.desk.stores.cutting import Kept
    from panewright.desk.stores.racks import Source
    from panewright.ledger.open import Ledger
    from panewright.price.buying.cuts_together import Tools

_FORMS = {"bar": "Bars", "sheet": "Sheets", "spool": "Ribbon"}


@dataclass(frozen=True, slots=True)
class Pick:
    """Something that lies there, to be taken or left."""

    key: str
    words: str
    part: str


@dataclass(frozen=True, slots=True)
class Setting:
    """One of the shop's own figures for saw, cutter and rests."""

    name: str
    label: str
    hint: str
    value: str


@dataclass(frozen=True, slots=True)
class Choices:
    """All that can be chosen for a plan."""

    picks: tuple[tuple[str, tuple[Pick, ...]], ...]  #: form by form
    settings: tuple[Setting, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """So many pieces alike, in the order of the picture."""

    numbers: str
    pieces: str
    size: str
    order: str


@dataclass(frozen=True, slots=True)
class ShownRow:
    """One bar, sheet or spool."""

    number: int
    place: str
    size: str
    picture: str  #: svg; '' for a spool
    lines: tuple[Line, ...]
    steps: tuple[str, ...]  #: of a sheet, cut by cut
    rests: tuple[tuple[str, str], ...]  #: mark and size of what goes back
    left: str  #: of what is on a spool, or is thrown away
    done: bool
    by: str
    at: datetime | None


@dataclass(frozen=True, slots=True)
class ShownPart:
    """One part with its rows."""

    item: str
    form: str
    said: str
    proven: bool
    rows: tuple[ShownRow, ...]


@dataclass(frozen=True, slots=True)
class ShownPlan:
    """A plan for a page."""

    number: int
    by: str
    at: datetime
    orders: tuple[str, ...]  #: each with the revision that it was cut for
    parts: tuple[ShownPart, ...]
    notes: tuple[str, ...]
    left: int  #: rows that are not ticked
    saw: str  #: with what it is cut, in words


@dataclass(frozen=True, slots=True)
class Past:
    """A plan made earlier."""

    number: int
    words: str
    by: str
    at: datetime


def choices(ledger: Ledger) -> Choices:
    """What lies there, and the shop's own figures."""
    from panewright.desk.stores.racks import sources

    found = sorted(sources(ledger), key=lambda each: list(_FORMS).index(each.form))
    picks = tuple(
        (_FORMS[form], tuple(Pick(cut_plan.key_of(each), _picked(each), each.item) for each in group))
        for form, group in groupby(found, key=lambda each: each.form)
    )
    return Choices(picks, tuple(_settings(cutting.tools_now(ledger))))


def _picked(each: Source) -> str:
    from panewright.desk.stores.shelved import size

    if each.form == "spool":
        return f"{_metres(each.length_mm)}, {each.key}"
    many = f"{each.have} × " if each.form == "bar" and not each.mark else ""
    return f"{many}{size(each.length_mm, each.width_mm)}, {each.key}"


def _metres(length_mm: float) -> str:
    from panewright.units import show

    return show(length_mm / 1000, "m", "metric")


_SETTINGS = (
    ("kerf", "Saw cut", "as wide as the blade"),
    ("trim", "Ends trimmed", "of a bar as delivered, each"),
    ("clamp", "Held by the clamp", "the last bit that cannot be sawn"),
    ("edge", "Edges of a sheet", "trimmed off, each"),
    ("keep_bar", "A rest of a bar is kept from", "shorter ones are thrown away"),
    ("keep_spool", "Ribbon on a spool is kept from", ""),
)


def _settings(tools: Tools) -> Iterator[Setting]:
    from panewright.units import show

    values = (
        tools.saw.kerf_mm,
        tools.saw.trim_mm,
        tools.saw.clamp_mm,
        tools.cutter.trim_mm,
        tools.keep_bar_mm,
        tools.keep_spool_mm,
    )
    for (name, label, hint), value in zip(_SETTINGS, values, strict=True):
        yield Setting(name, label, hint, show(value, "mm", "metric").replace("\u2009", " "))


def tools_of(typed: Mapping[str, str], now: Tools) -> Tools:
    """The shop's own figures as typed; what is left open stays as it is."""
    from dataclasses import replace

    said_mm = {
        name: _length(typed, name, label) for name, label, _ in _SETTINGS if typed.get(name, "").strip()
    }
    saw = replace(
        now.saw,
        kerf_mm=said_mm.get("kerf", now.saw.kerf_mm),
        trim_mm=said_mm.get("trim", now.saw.trim_mm),
        clamp_mm=said_mm.get("clamp", now.saw.clamp_mm),
    )
    cutter = replace(now.cutter, trim_mm=said_mm.get("edge", now.cutter.trim_mm))
    return replace(
        now,
        saw=saw,
        cutter=cutter,
        keep_bar_mm=said_mm.get("keep_bar", now.keep_bar_mm),
        keep_spool_mm=said_mm.get("keep_spool", now.keep_spool_mm),
    )


def _length(typed: Mapping[str, str], name: str, label: str) -> float:
    from panewright.units import UnitError, read

    words = typed[name].strip()
    try:
        length = float(read(words, "size"))
    except UnitError as wrong:
        raise RecordError(
            [Problem(f"{label}: {wrong.reason}", wrong.cure, key=name, value=words[:40])]
        ) from wrong
    if not 0 <= length <= 10_000:
        cure = "Write a length such as 3 mm."
        raise RecordError([Problem(f"{label}: no saw takes so much.", cure, key=name, value=words[:40])])
    return length


def past(ledger: Ledger) -> tuple[Past, ...]:
    """The plans made last."""
    import json

    from panewright.ledger.stores.cuts import plans, rows_done

    return tuple(
        Past(
            each.number,
            f"for {', '.join(json.loads(each.text).get('orders', ())) or 'nothing'}; "
            f"{sum(row.done for row in rows_done(ledger, each.number))} ticked",
            each.by,
            each.at,
        )
        for each in plans(ledger)
    )


def shown(found: Kept) -> ShownPlan:
    """A plan for its page."""
    from panewright.desk.stores.shelved import size
    from panewright.pack.pages.cut_list import order_told, unproven_words

    plan, sure = found.plan, dict(said(found.plan))
    proven = cut_plan.proven(plan)
    parts = tuple(
        ShownPart(item, _FORMS[group[0].form], sure[item], proven[item], tuple(_row(found, r) for r in group))
        for item, rows in groupby(found.rows, key=lambda row: row.source.item)
        for group in (tuple(rows),)
    )
    saw = plan.tools.saw
    tools = f"Saw cut {size(saw.kerf_mm, None)}, ends trimmed by {size(saw.trim_mm, None)}"
    clamp = f", the clamp holds {size(saw.clamp_mm, None)}" if saw.clamp_mm else ""
    left = sum(not row.done for part in parts for row in part.rows)
    told = (*unproven_words(plan.unproven), *notes(plan))
    orders = tuple(order_told(each, dict(plan.revisions)) for each in plan.orders)
    return ShownPlan(found.number, found.by, found.at, orders, parts, told, left, f"{tools}{clamp}.")


def _row(found: Kept, row: Row) -> ShownRow:
    from panewright.pack.pages.cutting import sides, step_words

    units, stands = part_units(found.plan, row.source.item), found.done.get(row.number)
    done = bool(stands and stands.done)
    marks = cut_ticked.marks(found, row)
    return ShownRow(
        row.number,
        _upper(place(row)),
        _metres(row.source.length_mm)
        if row.form == "spool"
        else sides(row.source.length_mm, row.source.width_mm, units),
        picture(row, found.plan),
        tuple(_lines(row, found.plan)),
        step_words(row.cut, units) if row.form == "sheet" else (),  # type: ignore[arg-type]
        tuple((mark, sides(long, wide, units)) for mark, (long, wide) in zip(marks, row.rests, strict=True)),
        _upper(_left(row, units)),
        done,
        stands.by if stands and done else "",
        stands.at if stands and done else None,
    )


def _upper(words: str) -> str:
    """As a sentence begins; marks keep their letters."""
    return words[:1].upper() + words[1:]


def _left(row: Row, units: str) -> str:
    from panewright.pack.pages.cutting import left_words

    return "" if row.rests else left_words(row.cut, units)


def _lines(row: Row, plan: Plan) -> Iterator[Line]:
    from panewright.pack.pages.cutting import sides

    first = 1
    for each in row.pieces:
        last = first + each.count - 1
        numbers = f"{first}" if last == first else f"{first} to {last}"
        yield Line(
            numbers if row.form == "bar" else "",
            f"{each.count} × {each.name}" if each.count > 1 or row.form != "bar" else each.name,
            sides(each.length_mm, each.width_mm, plan.units_of(each.order)),
            each.order,
        )
        first = last + 1
