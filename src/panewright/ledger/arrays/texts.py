"""Arrays as they were saved, version by version."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, exists, or_, select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted, all_of, first_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.arrays import ArrayRow as Arrays
from panewright.ledger.tables.arrays import ArrayVersionRow as Versions
from panewright.ledger.writing import add, unknown, write


@dataclass(frozen=True, slots=True)
class ArrayVersion:
    """An array's text as somebody saved it."""

    name: str
    version: int  #: from 1
    text: str
    by: str
    at: datetime


def save_array(
    ledger: Ledger, name: str, text: str, *, seen: int, by: str, at: datetime, tap: str = ""
) -> ArrayVersion:
    """Save an array's text as its next version.

    `seen` is the version that the person looked at, 0 for a new array; `StaleError` with what stands now
    where somebody else saved in the meantime.
    """

    def work(db: Connection) -> int:
        stands = first_of(db, _versions().where(Arrays.name == name), ArrayVersion)
        refuse_stale("array", name, seen=seen, stands=stands)
        key = db.scalar(select(Arrays.id).where(Arrays.name == name))
        key = key or add(db, Arrays, name=name, who=by, at=at)
        return add(db, Versions, array_id=key, version=seen + 1, text=text, who=by, at=at)

    row = write(ledger, work, kind="array", key=name, at=at, tap=tap)
    with ledger.reading() as db:
        return one_of(db, _versions().where(Versions.id == row), ArrayVersion)


def find_array(ledger: Ledger, name: str) -> ArrayVersion:
    """The newest version of an array."""
    with ledger.reading() as db:
        found = first_of(db, _versions().where(Arrays.name == name), ArrayVersion)
    if found is None:
        raise unknown("array", name)
    return found


def array_versions(ledger: Ledger, name: str) -> tuple[ArrayVersion, ...]:
    """Every version of an array, oldest first."""
    with ledger.reading() as db:
        found = all_of(db, _versions().where(Arrays.name == name), ArrayVersion)
    if not found:
        raise unknown("array", name)
    return found[::-1]


def arrays(ledger: Ledger, *, most: int = 200, find: str = "") -> tuple[ArrayVersion, ...]:
    """The newest version of each array, the one saved last first; `find` is in its name or its text."""
    after = aliased(Versions)
    newer = exists().where(after.array_id == Versions.array_id, after.version > Versions.version)
    wanted = _versions().where(~newer).order_by(None).order_by(Versions.id.desc()).limit(most)
    if find:
        held = (each.icontains(find, autoescape=True) for each in (Arrays.name, Versions.text))
        wanted = wanted.where(or_(*held))
    with ledger.reading() as db:
        return all_of(db, wanted, ArrayVersion)


def _versions() -> Wanted:
    """Versions with their array's name, newest first."""
    return (
        select(Arrays.name, Versions.version, Versions.text, Versions.who, Versions.at)
        .join(Arrays, Versions.array_id == Arrays.id)
        .order_by(Versions.version.desc())
    )
