"""What a page shows of the records as a whole: where they lie, which backups there are."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.records.place import Place, opened
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,99}\.zip")
_OLD = timedelta(days=7)
_LISTED = 40
_KINDS = (
    ("-before", "what stood before another was put back"),
    ("-taken-in", "taken in from elsewhere"),
)
_OURS = re.compile(r"\d{8}T\d{6}(-\d+)?\.zip")


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup that lies in the shop's folder."""

    name: str
    at: datetime  #: when it was laid there
    size: str
    kind: str = ""  #: in words, where it is not one made on request


@dataclass(frozen=True, slots=True)
class Stands:
    """How the records stand."""

    where: str
    folder: str  #: of the backups
    backups: tuple[Backup, ...]  #: newest first
    last: Backup | None  #: the last that was made on request
    since: int  #: things written after it
    old: bool  #: whether it is high time for another


def stands(shop: Place, ledger: Ledger, now: datetime) -> Stands:
    """How the records stand now."""
    from panewright.ledger.changes import count_after

    found = backups(shop)
    last = next((each for each in found if _OURS.fullmatch(each.name)), None)
    since = count_after(ledger, last.at if last else datetime.min.replace(tzinfo=UTC))
    old = bool(since) and (last is None or now - last.at > _OLD)
    return Stands(_where(shop), str(folder(shop)), found, last, since, old)


def backups(shop: Place) -> tuple[Backup, ...]:
    """The backups in the shop's folder, newest first."""
    found = [backup_of(each) for each in folder(shop).glob("*.zip") if _NAME.fullmatch(each.name)]
    return tuple(sorted(found, key=lambda each: (each.at, each.name), reverse=True)[:_LISTED])


def path_of(shop: Place, name: str) -> Path:
    """A backup of the shop's folder by its name; `RecordError` where there is none."""
    path = folder(shop) / name
    if not _NAME.fullmatch(name) or not path.is_file():
        cure = "Choose one of the list."
        raise RecordError([Problem("There is no such backup.", cure, key="backup", value=name[:60])])
    return path


def backup_of(path: Path) -> Backup:
    """What the folder tells of a backup, without a look into it."""
    about = path.stat()
    at = datetime.fromtimestamp(about.st_mtime, UTC)
    kind = next((words for sign, words in _KINDS if sign in path.stem), "")
    return Backup(path.name, at, in_words(about.st_size), kind)


def copies(shop: Place) -> tuple[str, ...]:
    """What was made of the records before, and still holds what is erased in them."""
    from panewright.ledger.kept.copies import copies as known

    with opened(shop) as ledger:
        return known(ledger)


def mark_now(ledger: Ledger) -> str:
    """A word for these records, which changes when others are put in their place."""
    from panewright.ledger.kept.put_back import last_put_back

    return last_put_back(ledger).replace(" ", "_")


def in_words(size: int) -> str:
    """A size as one says it.

    >>> in_words(900), in_words(41_500), in_words(2_340_000), in_words(1_200_000_000)
    ('1 kB', '42 kB', '2.3 MB', '1.2 GB')
    """
    for most, unit in ((1e9, "GB"), (1e6, "MB")):
        if size >= most:
            return f"{size / most:.1f} {unit}"
    return f"{max(1, round(size / 1e3))} kB"


def folder(shop: Place) -> Path:
    """Where backups lie."""
    return shop.folder / "backups"


def _where(shop: Place) -> str:
    """Where the records lie; a database's pass word is nobody's business."""
    if "://" not in shop.records:
        return shop.records
    scheme, _, rest = shop.records.partition("://")
    return f"{scheme}://{rest.rpartition('@')[2]}"
