"""Which panel lies where in an array: each laying tells of all its panels, from a day on.

What was laid before stays. A panel of the shop lies in one array at a time: who lays it in another says that
it moves, and then both are told in one breath.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, exists, select
from sqlalchemy.orm import aliased

from panewright.array.sign import sign_of
from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.arrays import ArrayLayingRow as Layings
from panewright.ledger.tables.arrays import ArrayPlaceRow as Places
from panewright.ledger.tables.arrays import ArrayRow as Arrays
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, add_all, known, note, unknown, write


@dataclass(frozen=True, slots=True)
class Lying:
    """A panel at its place; strings and places from 1, a string's first place at its minus end."""

    string: int
    place: int
    panel: str  #: as the array's text calls it: its serial, where it is one of the shop's
    of_shop: bool = True  #: whether the records hold it as a serial


@dataclass(frozen=True, slots=True)
class LayingKept:
    """All panels of an array as they lie from a day on."""

    array: str
    version: int  #: from 1
    day: date
    reason: str
    by: str
    at: datetime
    places: tuple[Lying, ...] = ()


@dataclass(frozen=True, slots=True)
class Laying:
    """The same before it is kept; `moving` lets panels come out of the arrays in which they lie."""

    day: date
    places: Sequence[Lying]
    reason: str = ""
    moving: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """Where a panel of the shop lies now."""

    serial: str
    array: str
    string: int
    place: int
    day: date  #: of the array's newest laying


def lay_array(
    ledger: Ledger, array: str, what: Laying, *, seen: int, by: str, at: datetime, tap: str = ""
) -> int:
    """Keep how an array's panels lie; `seen` is the laying looked at, 0 for the first. The number of this.

    `RecordError` with every mistake: a place told twice, a panel told twice, a serial that nobody knows, one
    that lies in another array, a day before the last one told. `StaleError` where somebody else was faster.
    """
    _refuse_doubled(what)

    def work(db: Connection) -> int:
        key = known(db, Arrays.name, array, "array")
        stands = first_of(db, _newest().where(Arrays.name == array), LayingKept)
        refuse_stale("array", array, seen=seen, stands=stands)
        serials = _serials(db, what.places)
        away = [each for each in _found(db, list(serials)) if each.array != array]
        _refuse(_early(array, stands, what.day), *_lying_elsewhere(away, what))
        _take_out_of_others(db, away, {"who": by, "at": at, "day": what.day}, f"moved to {array}")
        told = {"array_id": key, "version": seen + 1, "day": what.day, "reason": what.reason}
        return _add(db, told | {"who": by, "at": at}, what.places, serials)

    write(ledger, work, kind="array", key=array, at=at, tap=tap)
    return seen + 1


def take_out(
    ledger: Ledger, serial: str, day: date, reason: str, *, by: str, at: datetime, tap: str = ""
) -> str:
    """A panel lies in no array from that day on; which one it was in."""
    lies = where_lies(ledger, serial)
    if lies is None:
        raise _mistake(serial, "it lies in no array.", "Look at the serial again.")

    def work(db: Connection) -> int:
        away = _found(db, [serial])
        if [each.array for each in away] != [lies.array]:
            raise _mistake(serial, "it was moved in the meantime.", "Look where it lies now.")
        _refuse(*_lying_elsewhere(away, Laying(day, (), moving=True)))
        return _take_out_of_others(db, away, {"who": by, "at": at, "day": day}, reason, journal=False)

    write(ledger, work, kind="array", key=lies.array, at=at, tap=tap)
    return lies.array


def laying(ledger: Ledger, array: str) -> LayingKept | None:
    """How an array's panels lie now; None where that was never told."""
    with ledger.reading() as db:
        found = _kept(db, _newest().where(Arrays.name == array))
    return found[0] if found else None


def layings(ledger: Ledger, array: str) -> tuple[LayingKept, ...]:
    """Every way in which an array's panels lay, oldest first."""
    with ledger.reading() as db:
        return _kept(db, _all().where(Arrays.name == array))


def where_lies(ledger: Ledger, serial: str) -> Found | None:
    """Where a panel lies; None where it lies in no array."""
    return next(iter(where_all_lie(ledger, [serial])), None)


def where_all_lie(ledger: Ledger, serials: Sequence[str]) -> tuple[Found, ...]:
    """Where panels lie, of those that do."""
    with ledger.reading() as db:
        return _found(db, serials)


def layings_with(ledger: Ledger, serial: str) -> tuple[LayingKept, ...]:
    """Every laying of every array in which a panel ever lay, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        lay = select(Layings.array_id).join(Places, Places.laying_id == Layings.id)
        return _kept(db, _all().where(Arrays.id.in_(lay.where(Places.serial_id == panel))))


def _add(db: Connection, told: dict[str, Any], places: Sequence[Lying], serials: dict[str, int]) -> int:
    laid = add(db, Layings, **told)
    add_all(
        db,
        Places,
        [
            {
                "laying_id": laid,
                "string": each.string,
                "place": each.place,
                "panel": each.panel,
                "serial_id": serials.get(each.panel) if each.of_shop else None,
            }
            for each in places
        ],
    )
    return laid


def _take_out_of_others(
    db: Connection, away: Sequence[Found], told: dict[str, Any], reason: str, *, journal: bool = True
) -> int:
    """A laying of each of those arrays without the panels that lie elsewhere now; the last one's id."""
    laid = 0
    for array in dict.fromkeys(each.array for each in away):
        (stands,) = _kept(db, _newest().where(Arrays.name == array))
        gone = {each.serial for each in away}
        stay = [each for each in stands.places if each.panel not in gone or not each.of_shop]
        key = known(db, Arrays.name, array, "array")
        head = {"array_id": key, "version": stands.version + 1, "reason": reason, **told}
        laid = _add(db, head, stay, _serials(db, stay))
        if journal:
            note(db, kind="array", key=array, row=laid, at=told["at"], tap=None)
    return laid


def _refuse_doubled(what: Laying) -> None:
    """Places and panels told twice, and places that are none."""
    seats = Counter((each.string, each.place) for each in what.places)
    panels = Counter(each.panel for each in what.places)
    _refuse(
        *(
            _problem(f"string {sign_of(s - 1)}, place {p}", "two panels cannot lie there.")
            for s, p in _twice(seats)
            if s > 0
        ),
        *(_problem(panel, "it is told at two places.") for panel in _twice(panels)),
        *(
            _problem(each.panel, "strings and places are counted from 1.")
            for each in what.places
            if min(each.string, each.place) < 1
        ),
    )


def _twice(counted: Counter[Any]) -> Iterator[Any]:
    return (each for each, count in counted.items() if count > 1)


def _serials(db: Connection, places: Sequence[Lying]) -> dict[str, int]:
    """The serials' ids; every one that is not known is told."""
    named = [each.panel for each in places if each.of_shop]
    rows = db.execute(select(Serials.serial, Serials.id).where(Serials.serial.in_(named))).all()
    found = {str(serial): int(key) for serial, key in rows}
    strange = [unknown("serial", each).problems[0] for each in named if each not in found]
    _refuse(*strange)
    return found


def _lying_elsewhere(away: Sequence[Found], what: Laying) -> Iterator[Problem]:
    for each in away:
        if not what.moving:
            said = f"it lies in {each.array}, string {sign_of(each.string - 1)}, place {each.place}."
            yield _problem(each.serial, said, "Take it out there first, or say that it moves.")
        elif what.day < each.day:
            said = f"{each.array} was told as it lies since {each.day}, and this is before."
            yield _problem(each.serial, said, f"Say {each.day} or a later day.")


def _early(array: str, stands: LayingKept | None, day: date) -> Problem | None:
    if stands is None or day >= stands.day:
        return None
    return _problem(array, f"it was told as it lies since {stands.day}.", "Say that day or a later one.")


def _refuse(*problems: Problem | None) -> None:
    told = [each for each in problems if each is not None]
    if told:
        raise RecordError(told)


def _problem(value: str, reason: str, cure: str = "Look at the drawing of the strings again.") -> Problem:
    return Problem(reason, cure, key="array", value=value)


def _mistake(value: str, reason: str, cure: str) -> RecordError:
    return RecordError([_problem(value, reason, cure)])


def _found(db: Connection, serials: Sequence[str]) -> tuple[Found, ...]:
    wanted = (
        select(Serials.serial, Arrays.name, Places.string, Places.place, Layings.day)
        .join(Places, Places.serial_id == Serials.id)
        .join(Layings, Places.laying_id == Layings.id)
        .join(Arrays, Layings.array_id == Arrays.id)
        .where(Serials.serial.in_(serials), ~_later())
        .order_by(Layings.id, Places.id)
    )
    return all_of(db, wanted, Found)


def _kept(db: Connection, wanted: Wanted) -> tuple[LayingKept, ...]:
    """Layings with their places."""
    heads = db.execute(wanted.add_columns(Layings.id)).all()
    columns = (Places.string, Places.place, Places.panel, Places.serial_id.is_not(None))
    rows = select(Places.laying_id, *columns).where(Places.laying_id.in_([each[-1] for each in heads]))
    lie: dict[int, list[Lying]] = {}
    for key, string, place, panel, of_shop in db.execute(rows.order_by(Places.string, Places.place)):
        lie.setdefault(key, []).append(Lying(string, place, panel, bool(of_shop)))

    def made(array: str, version: int, day: date, reason: str, by: str, at: datetime, key: int) -> LayingKept:
        return LayingKept(array, version, day, reason, by, at, tuple(lie.get(key, ())))

    return tuple(made(*head) for head in heads)


def _later() -> Any:
    after = aliased(Layings)
    return exists().where(after.array_id == Layings.array_id, after.version > Layings.version)


def _newest() -> Wanted:
    return _all().where(~_later())


def _all() -> Wanted:
    columns = (Arrays.name, Layings.version, Layings.day, Layings.reason, Layings.who, Layings.at)
    return select(*columns).join(Arrays, Layings.array_id == Arrays.id).order_by(Layings.id)
