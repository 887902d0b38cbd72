"""What is written stays written: bytes and names synced to the disk, before anybody is told of them."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

FRESH = ".writing-"


def make_folder(folder: Path) -> None:
    """A folder with all on the way to it; the names of those that were missing are on the disk."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    for each in missing:
        sync_folder(each.parent)


def write_whole(path: Path, data: bytes) -> None:
    """A file whole or not at all, and on the disk: its bytes, its name, and the folders on the way to it."""
    make_folder(path.parent)
    number, fresh = tempfile.mkstemp(prefix=FRESH, dir=path.parent)
    try:
        with os.fdopen(number, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        Path(fresh).replace(path)
    finally:
        Path(fresh).unlink(missing_ok=True)  # a full disk does not stay full of halves
    for folder in (
        path.parent,
        path.parent.parent,
        path.parent.parent.parent,
    ):  # made by another hand just now
        sync_folder(folder)


def sync_folder(folder: Path) -> None:
    """The names in a folder, on the disk."""
    number = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)


def sync_file(path: Path) -> None:
    """A file's bytes, on the disk."""
    with path.open("rb+") as file:
        os.fsync(file.fileno())
