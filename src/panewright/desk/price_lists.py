"""Price lists kept in the shop's folder, each under the digest of what it holds; the oldest make room.

Each is one zip: the range's text, what a page shows of it, and the files to take along.
"""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from typing import Any

from panewright.desk.catalogue import NAMES
from panewright.desk.ranges import Failed, Held, Priced
from panewright.errors import Problem, RecordError

MOST = 12  #: lists that are kept
MOST_BYTES = 120_000_000  #: that they take together
_MARK = re.compile(r"[0-9a-f]{16}")
_TEXT, _SEEN = "range.toml", "seen.json"
_BEGINNING = (1980, 1, 1, 0, 0, 0)  #: the same list gives the same bytes


@dataclass(frozen=True, slots=True)
class Kept:
    """A price list out of the folder."""

    mark: str
    at: datetime
    text: str  #: of its range
    seen: Priced  #: without its files


def keep(shop: Path, text: str, seen: Priced) -> str:
    """Lay a price list into the folder; its mark."""
    from panewright.desk.folder import write_all

    content = _packed(text, seen)
    mark = hashlib.sha256(content).hexdigest()[:16]
    room = _room(shop)
    room.mkdir(parents=True, exist_ok=True, mode=0o700)
    write_all(room, {f"{mark}.zip": content})
    _make_room(room)
    return mark


def kept(shop: Path) -> tuple[Kept, ...]:
    """Those that are kept, newest first."""
    return tuple(each for each in map(_read, _paths(_room(shop))) if each)


def newest(shop: Path) -> Kept | None:
    """The one that was made last."""
    return next((each for each in map(_read, _paths(_room(shop))) if each), None)


def find(shop: Path, mark: str) -> Kept:
    """One by its mark; `RecordError` where it is not kept, or no longer."""
    path = _room(shop) / f"{mark}.zip"
    found = _read(path) if _MARK.fullmatch(mark) else None
    if found is None:
        raise RecordError([Problem("This price list is gone.", "Reckon it once more.", value=mark[:40])])
    return found


def file(shop: Path, mark: str, name: str) -> bytes:
    """One of its files; `RecordError` where it has none of that name."""
    found = find(shop, mark)
    with zipfile.ZipFile(_room(shop) / f"{found.mark}.zip") as packed:
        if name not in NAMES or name not in packed.namelist():
            cure = "Take one of those that the page offers."
            raise RecordError([Problem("There is no such paper.", cure, value=name[:40])])
        return packed.read(name)


def _room(shop: Path) -> Path:
    return shop / "catalogues"


def _paths(room: Path) -> list[Path]:
    """Newest first."""
    found = [each for each in room.glob("*.zip") if _MARK.fullmatch(each.stem)]
    return sorted(found, key=lambda each: (each.stat().st_mtime_ns, each.name), reverse=True)


def _make_room(room: Path) -> None:
    taken = 0
    for n, path in enumerate(_paths(room)):
        taken += path.stat().st_size
        if n >= MOST or (n and taken > MOST_BYTES):
            path.unlink(missing_ok=True)


def _packed(text: str, seen: Priced) -> bytes:
    told = {name: value for name, value in asdict(seen).items() if name != "files"}
    parts = {_TEXT: text.encode(), _SEEN: json.dumps(told, ensure_ascii=False).encode(), **dict(seen.files)}
    made = BytesIO()
    with zipfile.ZipFile(made, "w") as packed:
        for name, content in parts.items():
            about = zipfile.ZipInfo(name, _BEGINNING)
            packed.writestr(about, content, zipfile.ZIP_DEFLATED)
    return made.getvalue()


def _read(path: Path) -> Kept | None:
    """What a file holds; nothing where it is gone, spoilt, or of another program's time."""
    try:
        at = datetime.fromtimestamp(path.stat().st_mtime, UTC)
        with zipfile.ZipFile(path) as packed:
            text, seen = packed.read(_TEXT).decode(), _seen(json.loads(packed.read(_SEEN)))
        return Kept(path.stem, at, text, seen)
    except (OSError, zipfile.BadZipFile, KeyError, ValueError, TypeError):
        return None


def _seen(told: dict[str, Any]) -> Priced:
    held = tuple(Held(**{**each, "prices": tuple(each["prices"])}) for each in told["held"])
    failed = tuple(Failed(**each) for each in told["failed"])
    rest = {name: tuple(told[name]) for name in ("cautions", "heads")}
    return Priced(**{**told, **rest, "held": held, "failed": failed, "files": ()})
