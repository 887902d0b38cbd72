"""Files read and written whole or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
import time
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from panewright.errors import FolderError, Problem

_FRESH = ".writing-"
_A_DAY_S = 86_400.0
MOST_BYTES = 1_000_000  #: an order is a page of text; anything larger is another file


def read(path: Path, what: str = "order") -> bytes:
    """The bytes of an order's or array's file; `FolderError` where it cannot be read or is far too large."""
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as reason:
        raise _mistake(path, _why(reason), f"Name an {what} file that can be read.") from reason
    if len(data) > MOST_BYTES:
        raise _mistake(path, f"is larger than 1 MB; no {what} is.", f"Name the {what} file.")
    return data


def write_new(path: Path, content: bytes) -> None:
    """Write a file that is not there yet, whole or not at all."""
    cure = "Choose a place that can be written."
    try:
        file = path.open("xb")
    except FileExistsError as reason:
        raise _mistake(path, "is there already.", "Choose another name; nothing was changed.") from reason
    except (OSError, ValueError) as reason:
        raise _mistake(path, _why(reason), cure) from reason
    try:
        with file:
            file.write(content)
    except OSError as reason:
        with suppress(OSError):
            path.unlink()  # a full disk would leave its beginning, and the name taken
        raise _mistake(path, _why(reason), cure) from reason


def write_all(folder: Path, files: Mapping[str, bytes], gone: Iterable[str] = ()) -> None:
    """Write all files into a folder, or leave it as it was; those that are `gone` are taken away last.

    Everything goes to a new folder inside it first, so that a full disk or a pulled plug never leaves a
    half-written file under its final name; then each file is moved into place.
    """
    fresh = _fresh(folder, files)
    try:
        for name, content in files.items():
            _write_synced(fresh / name, content)
        for name in files:
            (fresh / name).replace(folder / name)
        for name in gone:
            (folder / name).unlink(missing_ok=True)
    except OSError as reason:
        cure = "Make room or choose another folder with --to; files under their final names are whole."
        raise _mistake(folder, _why(reason), cure) from reason
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
        _drop_if_empty(folder)


def _fresh(folder: Path, files: Mapping[str, bytes]) -> Path:
    """An empty folder inside the one asked for, which is made where it is missing."""
    cure = "Choose a folder that can be written with --to."
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if taken := [name for name in files if (folder / name).is_dir()]:
            raise _mistake(folder / taken[0], "is a folder; a file of the pack bears its name.", cure)
        if taken := [name for name in files if _no_file(folder / name)]:
            raise _mistake(folder / taken[0], "is a device or the like, no file to write over.", cure)
        _clear_forgotten(folder)
        return Path(tempfile.mkdtemp(prefix=_FRESH, dir=folder))
    except (OSError, ValueError) as reason:
        raise _mistake(folder, _why(reason), cure) from reason


def _no_file(path: Path) -> bool:
    """Something is there that is no plain file: what is moved over a device would take its place."""
    return path.exists() and not path.is_file()


def _clear_forgotten(folder: Path) -> None:
    """Remove what a run left a day ago or more whose plug was pulled; a younger one may be at work now."""
    for left in folder.glob(f"{_FRESH}*"):
        if time.time() - left.stat().st_mtime > _A_DAY_S:
            shutil.rmtree(left, ignore_errors=True)


def _drop_if_empty(folder: Path) -> None:
    """A folder made in vain does not stay."""
    with suppress(OSError):
        folder.rmdir()


def _write_synced(path: Path, content: bytes) -> None:
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _why(reason: Exception) -> str:
    said = getattr(reason, "strerror", None) or str(reason)
    return f"cannot be used: {said}."


def _mistake(path: Path, reason: str, cure: str) -> FolderError:
    return FolderError([Problem(reason=reason, cure=cure, file=str(path))])
