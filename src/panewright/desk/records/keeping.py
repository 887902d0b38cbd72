"""The shop's records kept safe, as a page asks for it: each thing here is work that another process can do.

Whatever is made lies in the shop's scratch folder until it is whole: work that is stopped, or killed, leaves
nothing that looks like a backup. What a page learns stands in `kept.py`.
"""

from __future__ import annotations

import os
import secrets
import shutil
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from panewright.desk.progress import at as far
from panewright.desk.records.kept import Backup, backup_of, folder, in_words
from panewright.desk.records.place import Place, opened
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.ledger.kept.check import Soundness
    from panewright.ledger.orders.erasing import Erased

MOST_BYTES = 200_000_000  #: of a backup that a page sends; a larger one is laid into the folder by hand
_AT_ONCE = 1 << 20


@dataclass(frozen=True, slots=True)
class Made:
    """A backup made just now."""

    kept: Backup
    rows: int
    files: int
    missing: tuple[str, ...]  #: digests of files that the records name and the folder lacks


@dataclass(frozen=True, slots=True)
class Inside:
    """What a backup holds, once every table and file in it was held against its digest."""

    at: datetime
    program: str
    rows: int
    files: int
    changes: int  #: lines of the journal


@dataclass(frozen=True, slots=True)
class Back:
    """What was put back, and the backup of what stood before."""

    rows: int
    files: int
    aside: Backup


@dataclass(frozen=True, slots=True)
class Written:
    """Everything in open formats, in one file to be taken along."""

    rows: int
    size: str


def back_up(shop: Place, at: datetime) -> Made:
    """A backup in the shop's own folder."""
    from panewright.ledger.kept.backup import backup

    name = _free(shop, f"{at:%Y%m%dT%H%M%S}.zip")
    with opened(shop) as ledger:
        made = backup(ledger, room(shop) / name, program=version("panewright"), at=at, told=far)
    os.utime(made.path, (at.timestamp(), at.timestamp()))  # what is written while it is made is not in it
    path = _lay(shop, made.path)
    return Made(backup_of(path), made.rows, made.files, made.missing)


def look_over(shop: Place) -> Soundness:
    """Whether every row and file is sound."""
    from panewright.ledger.kept.check import check

    with opened(shop) as ledger:
        return check(ledger, told=far)


def write_out(shop: Place) -> Written:
    """Every table as CSV and JSON, and the files, in one zip; the last one is thrown away."""
    from panewright.ledger.far import part
    from panewright.ledger.kept.export import export

    written_out(shop).unlink(missing_ok=True)
    half = room(shop) / "out.zip"
    with opened(shop) as ledger:
        rows = export(ledger, room(shop) / "out", told=part(far, 0, 60))
    _pack(room(shop) / "out", half)
    half.replace(written_out(shop))
    return Written(rows, in_words(written_out(shop).stat().st_size))


def _pack(folder: Path, to: Path) -> None:
    from panewright.ledger.far import along, part

    with zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED, compresslevel=3) as packed:
        for each in along(sorted(folder.rglob("*")), part(far, 60, 100)):
            packed.write(each, str(Path("records") / each.relative_to(folder)))


def look_into(path: str) -> Inside:
    """What a backup holds; `RecordError` where it is none, or is spoilt."""
    from panewright.ledger.kept.restore import look_over as seen
    from panewright.ledger.kept.restore import opened as unpacked
    from panewright.ledger.kept.restore import rows_of

    with unpacked(Path(path)) as packed:
        about = seen(Path(path), packed, told=far)
        try:
            changes = int(about["tables"]["change"]["rows"])
            made = datetime.fromisoformat(about["at"]).astimezone()
            return Inside(made, str(about["program"])[:40], rows_of(about), len(about["files"]), changes)
        except (KeyError, TypeError, ValueError) as reason:
            cure = "Take another backup; nothing was changed."
            raise RecordError([Problem("tells not what it is.", cure, file=path)]) from reason


def put_back(shop: Place, name: str, by: str, at: datetime) -> Back:
    """A backup of the shop's folder put back while the shop works on."""
    from panewright.ledger.kept.put_back import Aside
    from panewright.ledger.kept.put_back import put_back as swap

    aside = folder(shop) / _free(shop, f"{at:%Y%m%dT%H%M%S}-before.zip")
    told = Aside(aside, version("panewright"), by, at)
    with opened(shop) as ledger:
        done = swap(ledger, folder(shop) / name, told, room=room(shop), told=far)
    return Back(done.rows, done.files, backup_of(aside))


def erase(shop: Place, mark: str, reason: str, by: str, at: datetime, tap: str) -> Erased:
    """A customer's details erased; what was written out for somebody to take along goes too."""
    from panewright.ledger.orders.erasing import erase_customer

    written_out(shop).unlink(missing_ok=True)
    with opened(shop) as ledger:
        return erase_customer(ledger, mark, reason=reason, by=by, at=at, tap=tap)


def take(shop: Place, sent: BinaryIO) -> Path:
    """A backup as a page sends it, laid into the scratch folder: it is not looked into yet."""
    path = scratch(shop) / f"taken-{secrets.token_hex(8)}.zip"
    with _told_plainly(path), path.open("wb") as file:
        shutil.copyfileobj(sent, file, _AT_ONCE)
    return path


def keep_taken(shop: Place, path: Path, at: datetime) -> Backup:
    """The same among the other backups, once it was looked into."""
    name = _free(shop, f"{at:%Y%m%dT%H%M%S}-taken-in.zip")
    return backup_of(_lay(shop, path.rename(path.with_name(name))))


def scratch(shop: Place) -> Path:
    """Where things lie that are not whole yet; made where it is missing."""
    room = shop.folder / "cache" / "scratch"
    room.mkdir(parents=True, exist_ok=True, mode=0o700)
    return room


def room(shop: Place) -> Path:
    """Where the one piece of work that is done at a time has its things; made where it is missing."""
    mine = scratch(shop) / "keeping"
    mine.mkdir(exist_ok=True, mode=0o700)
    return mine


def written_out(shop: Place) -> Path:
    """What was written out last; it stays until the shop is opened next."""
    return scratch(shop) / "records-out.zip"


def tidy(shop: Place) -> None:
    """Throw away what the work that has ended, or was stopped, has left."""
    shutil.rmtree(room(shop), ignore_errors=True)


def _lay(shop: Place, path: Path) -> Path:
    """From the scratch folder among the backups, under its final name and on the disk."""
    from panewright.ledger.disk import make_folder, sync_file, sync_folder

    with _told_plainly(path):
        sync_file(path)
        make_folder(folder(shop))
        kept = path.replace(folder(shop) / path.name)
        sync_folder(folder(shop))
    return kept


def _free(shop: Place, name: str) -> str:
    """A name that no backup bears: two can be made in one second."""
    stem, number = name.removesuffix(".zip"), 1
    while (folder(shop) / name).exists():
        number += 1
        name = f"{stem}-{number}.zip"
    return name


@contextmanager
def _told_plainly(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as reason:
        said = f"cannot be kept: {reason.strerror}."
        raise RecordError([Problem(said, "Make room on the disk.", file=path.name)]) from reason
