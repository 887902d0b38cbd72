"""What a hand at the bench tells of one serial, added to what was told of it before.

Each function takes what was told so far and what was typed, and gives all of it; whether it can be so on this
design is judged later, in one place (`panel/happened.py`).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from math import inf
from typing import TYPE_CHECKING, Any

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.ledger.stores.lots import Lot
    from panewright.panel.electric.own import Rated
    from panewright.panel.happened import Happened, PlacedFrom

Typed = Mapping[str, str]
KINDS = {
    "crack": "Crack: share of the cell cut off",
    "cold joint": "Cold joint: ohms too many",
    "gap": "Gap beside the pane, as measured",
    "glue line": "Glue line, as measured",
    "bite": "Bite of the pane, as measured",
    "bracket": "Bracket: its place from the left end",
    "other": "Something else",
}
JOINTS = {"tab": "Tab, cell to cell", "bus": "Bus", "lead": "Lead"}
_MOST_PLACES = 2000


def used(told: Happened, mark: str, lot: Lot, typed: Typed, *, cells: int) -> Happened:
    """A lot that went in: its cells at all places or at some, or an amount of its material."""
    from panewright.panel.happened import Batch

    if lot.kind == "cells":
        return _laid(told, mark, places_of(typed.get("places", ""), cells))
    said = typed.get("amount", "").strip()
    amount = _number(said, "amount") if said else 0.0
    others = tuple(each for each in told.batches if each.lot != mark)
    return replace(told, batches=(*others, Batch(lot.kind, mark, amount, lot.unit if said else "")))


def _laid(told: Happened, lot: str, places: tuple[int, ...]) -> Happened:
    """Cells of one lot at these places; a cell that bears a mark of its own stays where it lies."""
    from panewright.panel.happened import PlacedFrom

    marked = {each.place for each in told.cells if each.mark}
    fresh = [PlacedFrom(place, lot) for place in places if place not in marked]
    return _with_cells(told, fresh)


def _with_cells(told: Happened, fresh: list[PlacedFrom]) -> Happened:
    taken = {each.place for each in fresh}
    kept = [each for each in told.cells if each.place not in taken]
    return replace(told, cells=tuple(sorted((*kept, *fresh), key=lambda each: each.place)))


def exchanged(told: Happened, typed: Typed) -> Happened:
    """Another cell at one place."""
    from panewright.panel.happened import PlacedFrom

    place = _whole(typed.get("place", ""), "place")
    lot, mark = _words(typed, "lot"), " ".join(typed.get("mark", "").split())[:40]
    return _with_cells(told, [PlacedFrom(place, lot, mark, _rated(typed.get("power", "")))])


def _rated(typed: str) -> Rated | None:
    """A cell that gives another share of its kind's power, by less or more current."""
    from panewright.panel.electric.own import Rated

    if not typed.strip():
        return None
    share = _share(typed, "power")
    if not 0 < share <= 2:
        raise _mistake("power", typed, "No cell of its kind gives that share.", "Write 95 % or 1.02.")
    return Rated(share, share)


def substituted(told: Happened, typed: Typed) -> Happened:
    """Another part than the design's; `part` is its key and its name on the shelf."""
    from panewright.panel.happened import Substitution

    key, _, really = typed.get("part", "").partition("|")
    others = tuple(each for each in told.substitutions if each.key != key)
    reason = " ".join(typed.get("reason", "").split())[:200]
    return replace(told, substitutions=(*others, Substitution(key, really, reason)))


def deviated(told: Happened, typed: Typed) -> Happened:
    """Something that is not as designed."""
    from panewright.panel.happened import KINDS as KNOWN
    from panewright.panel.happened import Deviation

    what, note = typed.get("what", ""), " ".join(typed.get("note", "").split())[:200]
    kind = next((each for each in KNOWN if each == what), None)
    if kind is None:
        raise _mistake("what", what, "There is no such deviation.", "Choose one of the list.")
    if kind == "other":
        _words(typed, "note")
        return replace(told, deviations=(*told.deviations, Deviation(kind, note=note)))
    place = _whole(typed.get("place", ""), "place") if kind in ("crack", "cold joint", "bracket") else 0
    amount = _AMOUNTS.get(kind, _size)(typed.get("amount", ""), "amount")
    return replace(told, deviations=(*told.deviations, Deviation(kind, place, amount, note)))


def resoldered(told: Happened, typed: Typed) -> Happened:
    """A joint soldered again."""
    from panewright.panel.happened import Redone

    kind: Any = typed.get("kind", "")
    if kind not in JOINTS:
        raise _mistake("kind", kind, "There is no such joint.", "Choose tab, bus or lead.")
    after, times = _whole(typed.get("after", ""), "after"), _whole(typed.get("times", "") or "1", "times")
    note = " ".join(typed.get("note", "").split())[:200]
    return replace(told, joints=(*told.joints, Redone(kind, after, times, note)))


def without(told: Happened, typed: Typed) -> Happened:
    """The same with one thing taken out; `what` is its kind, `at` its number, or a lot of cells."""
    what, at = typed.get("what", ""), typed.get("at", "")
    if what == "cells":
        kept = tuple(each for each in told.cells if each.mark or each.own or each.lot != at)
        return replace(told, cells=kept)
    if what == "cell":
        return replace(told, cells=tuple(each for each in told.cells if str(each.place) != at))
    if what not in ("joints", "substitutions", "deviations", "batches"):
        raise _mistake("what", what, "There is no such entry.", "Load the page again.")
    rows = [each for n, each in enumerate(getattr(told, what)) if str(n) != at]
    more: dict[str, Any] = {what: tuple(rows)}
    return replace(told, **more)


ADDED: dict[str, Callable[[Happened, Typed], Happened]] = {
    "cell": exchanged,
    "part": substituted,
    "deviation": deviated,
    "joint": resoldered,
    "out": without,
}


def places_of(typed: str, cells: int) -> tuple[int, ...]:
    """Places as one writes them; all where nothing is written.

    >>> places_of("1-3, 7", 36), len(places_of("", 36))
    ((1, 2, 3, 7), 36)
    """
    if not typed.strip():
        return tuple(range(1, cells + 1))
    found: list[int] = []
    for part in typed.replace("to", "-").replace("–", "-").split(","):
        ends = re.fullmatch(r"\s*(\d{1,4})\s*(?:-\s*(\d{1,4})\s*)?", part)
        if ends is None:
            raise _mistake("places", typed, "These are no places.", "Write 1-12, 15.")
        found += range(int(ends[1]), int(ends[2] or ends[1]) + 1)
    if not found or len(found) > _MOST_PLACES:
        raise _mistake("places", typed, "These are no places.", "Write 1-12, 15.")
    return tuple(dict.fromkeys(found))


def _words(typed: Typed, name: str) -> str:
    words = " ".join(typed.get(name, "").split())
    if not words:
        raise _mistake(name, "", f"Nothing is written for the {name}.", "Write it.")
    return words[:200]


def _whole(typed: str, name: str) -> int:
    words = typed.strip()
    if not words.isdecimal() or len(words) > 6:
        raise _mistake(
            name, typed, f"{name.capitalize()}: this is no number.", "Write a whole number, such as 7."
        )
    return int(words)


def _number(typed: str, name: str) -> float:
    try:
        value = float(typed.strip().replace(",", "."))
    except ValueError:
        value = float("nan")
    if not 0 <= value < 1e9:
        raise _mistake(name, typed, "This is no amount.", "Write a number, such as 1.5.")
    return value


def _share(typed: str, name: str) -> float:
    """A share, as 0.1 or 10 %."""
    plain = typed.strip()
    return _number(plain[:-1], name) / 100 if plain.endswith("%") else _number(plain, name)


def _ohms(typed: str, name: str) -> float:
    """Ohms; an open joint has no end of them."""
    return inf if typed.strip().lower() in ("open", "infinite") else _read(typed, name, "resistance", "ohm")


def _size(typed: str, name: str) -> float:
    return _read(typed, name, "size", "mm")


def _read(typed: str, name: str, kind: str, unit: str) -> float:
    from panewright.units import UnitError, read

    bare = typed.strip().replace(",", ".").replace(".", "", 1).isdecimal()
    try:
        return float(read(f"{typed} {unit}" if bare else typed, kind))
    except UnitError as mistake:
        raise _mistake(name, typed, mistake.reason, mistake.cure) from mistake


_AMOUNTS: dict[str, Callable[[str, str], float]] = {"crack": _share, "cold joint": _ohms}


def _mistake(name: str, value: str, reason: str, cure: str) -> RecordError:
    return RecordError([Problem(reason, cure, key=name, value=value[:40])])
