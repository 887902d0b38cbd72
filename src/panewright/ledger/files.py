"""Files beside the records: raw readings, photographs, reports, each under the digest of its bytes.

A file is on the disk, synced, before the row that names it is confirmed: a row never names a file that a
pulled plug took away. Nothing under a final name is ever half written.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection, select

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import Wanted, all_of, first_of, one_of
from panewright.ledger.disk import write_whole
from panewright.ledger.open import Ledger
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.readings import AttachedRow as Papers
from panewright.ledger.tables.readings import FileRow as Files
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, write


@dataclass(frozen=True, slots=True)
class File:
    """A file that is kept."""

    sha256: str
    name: str
    media: str
    size: int
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Attached:
    """A paper of a panel or an order. `kind`: photograph, report, certificate ..."""

    kind: str
    sha256: str
    name: str
    title: str
    revision: str
    by: str
    at: datetime


def store(
    ledger: Ledger, data: bytes, *, name: str, media: str, by: str, at: datetime, tap: str = ""
) -> File:
    """Keep a file; kept once however often it is given."""
    digest = hashlib.sha256(data).hexdigest()
    put(place(ledger, digest), data)

    def work(db: Connection) -> int:
        there = db.scalar(select(Files.id).where(Files.sha256 == digest))
        told = {"name": name, "media": media, "size": len(data), "who": by, "at": at}
        return there or add(db, Files, sha256=digest, **told)

    row = write(ledger, work, kind="file", key=digest, at=at, tap=tap)
    with ledger.reading() as db:
        return one_of(db, _files().where(Files.id == row), File)


def fetch(ledger: Ledger, sha256: str) -> bytes:
    """A file's bytes, looked over: `RecordError` where they are not what was kept."""
    with ledger.reading() as db:
        known(db, Files.sha256, sha256, "file")
    try:
        data = place(ledger, sha256).read_bytes()
    except OSError as reason:
        raise _spoilt(sha256, f"cannot be read: {reason.strerror}.") from reason
    if hashlib.sha256(data).hexdigest() != sha256:
        raise _spoilt(sha256, "is not what was kept.")
    return data


def find_file(ledger: Ledger, sha256: str) -> File:
    """What is known of a file."""
    with ledger.reading() as db:
        key = known(db, Files.sha256, sha256, "file")
        return one_of(db, _files().where(Files.id == key), File)


def newest_named(ledger: Ledger, name: str) -> File | None:
    """The file kept last under a name; None where none bears it."""
    wanted = _files().where(Files.name == name).order_by(Files.id.desc())
    with ledger.reading() as db:
        return first_of(db, wanted, File)


def attach(
    ledger: Ledger,
    sha256: str,
    *,
    kind: str,
    by: str,
    at: datetime,
    serial: str = "",
    order: str = "",
    title: str = "",
    revision: str = "",
    tap: str = "",
) -> None:
    """Say of which panel or order a file is a photograph, a report, a certificate."""

    def work(db: Connection) -> int:
        keys = {
            "file_id": known(db, Files.sha256, sha256, "file"),
            "serial_id": known(db, Serials.serial, serial, "serial") if serial else None,
            "order_id": known(db, Orders.number, order, "order") if order else None,
        }
        return add(db, Papers, kind=kind, title=title, revision=revision, who=by, at=at, **keys)

    write(ledger, work, kind=kind, key=serial or order, at=at, tap=tap)


def attached(ledger: Ledger, *, serial: str = "", order: str = "") -> tuple[Attached, ...]:
    """The papers of a panel, or those of an order as a whole, oldest first."""
    told = (Papers.kind, Files.sha256, Files.name, Papers.title, Papers.revision, Papers.who, Papers.at)
    wanted = select(*told).join(Files, Papers.file_id == Files.id).order_by(Papers.id)
    with ledger.reading() as db:
        if serial:
            mine = Papers.serial_id == known(db, Serials.serial, serial, "serial")
        else:
            mine = Papers.order_id == known(db, Orders.number, order, "order")
        return all_of(db, wanted.where(mine), Attached)


def place(ledger: Ledger, sha256: str) -> Path:
    """Where a file lies."""
    if ledger.files is None:
        cure = "Name the shop's folder when the records are opened."
        raise RecordError([Problem("there is no folder for files.", cure, key="files")])
    return ledger.files / sha256[:2] / sha256


def put(path: Path, data: bytes) -> None:
    """Write a file, unless it is there and what it should be."""
    if path.is_file() and hashlib.sha256(path.read_bytes()).hexdigest() == path.name:
        return
    try:
        write_whole(path, data)
    except OSError as reason:
        raise _spoilt(path.name, f"cannot be written: {reason.strerror}.") from reason


def _spoilt(sha256: str, reason: str) -> RecordError:
    cure = "See that the disk is well; a backup holds the file."
    return RecordError([Problem(reason, cure, key="file", value=sha256[:12])])


def _files() -> Wanted:
    return select(Files.sha256, Files.name, Files.media, Files.size, Files.who, Files.at)
