"""A backup: one zip of plain text and of the files, made while the shop works on.

    about.json            which schema and program, when, how many rows, the digest of every table
    tables/NAME.jsonl     the names of the columns, then a list for each row
    files/DIGEST          raw readings, photographs, reports

It goes back into SQLite or PostgreSQL, whichever it came from, and can be read without Panewright.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import zipfile
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, select

from panewright.errors import Problem, RecordError
from panewright.ledger.disk import FRESH, make_folder, sync_folder
from panewright.ledger.far import Told, along, nobody, part
from panewright.ledger.kept import dump, upgrade
from panewright.ledger.open import Ledger
from panewright.ledger.tables.readings import FileRow

WHAT = "records of a Panewright shop"


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup holds."""

    path: Path
    schema: str
    at: datetime
    rows: int
    files: int
    missing: tuple[str, ...]  #: digests of files that the records name and the folder lacks


def backup(ledger: Ledger, path: Path, *, program: str, at: datetime, told: Told = nobody) -> Backup:
    """Write a backup to a path where nothing is yet: whole and synced, or not at all."""
    if path.exists():
        raise refused(path, "is there already.", "Choose another name; nothing was changed.")
    try:
        make_folder(path.parent)
        number, name = tempfile.mkstemp(prefix=FRESH, dir=path.parent)
        fresh = Path(name)
        try:
            with os.fdopen(number, "wb") as file:
                made = _write(ledger, file, program=program, at=at, told=told)
                file.flush()
                os.fsync(file.fileno())
            fresh.replace(path)
            sync_folder(path.parent)
        finally:
            fresh.unlink(missing_ok=True)
    except OSError as reason:
        raise refused(
            path, f"cannot be written: {reason.strerror}.", "Make room, or name another place."
        ) from reason
    return Backup(path, **made)


def _write(ledger: Ledger, file: Any, *, program: str, at: datetime, told: Told) -> dict[str, Any]:
    about: dict[str, Any] = {
        "what": WHAT,
        "program": program,
        "at": at.isoformat(),
        "tables": {},
        "files": {},
    }
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=3) as packed, ledger.reading() as db:
        about["schema"] = upgrade.standing(db)
        for table in along(dump.tables(db), part(told, 0, 60)):
            about["tables"][table.name] = _table(packed, f"tables/{table.name}.jsonl", dump.lines(db, table))
        missing = _files(packed, ledger, about["files"], along(_named(db), part(told, 60, 100)))
        packed.writestr("about.json", json.dumps(about, indent=1))
    rows = sum(each["rows"] for each in about["tables"].values())
    return {
        "schema": about["schema"],
        "at": at,
        "rows": rows,
        "files": len(about["files"]),
        "missing": missing,
    }


def _table(packed: zipfile.ZipFile, name: str, lines: Any) -> dict[str, Any]:
    digest, count = hashlib.sha256(), -1  # the first line holds the names of the columns
    with packed.open(name, "w", force_zip64=True) as member:
        for line in lines:
            data = f"{line}\n".encode()
            member.write(data)
            digest.update(data)
            count += 1
    return {"rows": count, "sha256": digest.hexdigest()}


def _named(db: Connection) -> tuple[str, ...]:
    """The files that the records name."""
    return tuple(db.scalars(select(FileRow.sha256).order_by(FileRow.id)))


def _files(
    packed: zipfile.ZipFile, ledger: Ledger, told: dict[str, int], named: Iterable[str]
) -> tuple[str, ...]:
    """Those files; the ones that are not there or are not what was kept are told."""
    missing = []
    for digest in named:
        lies = ledger.files / digest[:2] / digest if ledger.files else None
        data = lies.read_bytes() if lies and lies.is_file() else b""
        if hashlib.sha256(data).hexdigest() != digest:
            missing.append(digest)
            continue
        packed.writestr(zipfile.ZipInfo(f"files/{digest}"), data, zipfile.ZIP_STORED)
        told[digest] = len(data)
    return tuple(missing)


def refused(path: Path, reason: str, cure: str) -> RecordError:
    """A backup that cannot be written or read."""
    return RecordError([Problem(reason, cure, file=str(path))])
