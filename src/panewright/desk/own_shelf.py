"""The shelf that is worked with: the packaged one, or a folder of a shop's own tables.

Which folder it is stands in the environment, so that every process begun by this one goes by the same
prices. A table that the folder lacks is the packaged one.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.folder import write_all
from panewright.errors import Problem, ShelfError

if TYPE_CHECKING:
    from panewright.shelf.shelf import Shelf

SAID = "PANEWRIGHT_SHELF"  #: names the folder
FOLDER = "shelf"  #: of a shop's folder
Stand = tuple[str, tuple[tuple[str, int, int], ...]]  #: a folder and its tables, with when each was written


def go_by(folder: Path) -> None:
    """Go by the tables of a folder, in this process and in all that it begins."""
    os.environ[SAID] = str(folder.expanduser().absolute())


def own_folder(shop: Path | None = None) -> Path:
    """Where a shop's own tables lie; of the shop at home where none is named."""
    return (shop or Path.home() / "panewright").expanduser() / FOLDER


def go_by_shop(shop: Path | None) -> None:
    """Go by a shop's own tables where it has some and no others were named."""
    own = own_folder(shop)
    if not os.environ.get(SAID) and own.is_dir():
        go_by(own)


def hold() -> None:
    """Go by the own tables as they stand now until this process ends; `ShelfError` where they are wrong.

    They are copied, so that whoever changes prices meanwhile neither halts the work at the bench nor has one
    process reckon by other prices than the next.
    """
    folder, tables = stand()
    if not folder:
        return
    own_shelf()
    copy = Path(tempfile.mkdtemp(prefix="panewright-shelf-"))
    atexit.register(shutil.rmtree, copy, ignore_errors=True)
    for name, *_ in tables:
        shutil.copy(Path(folder) / name, copy)
    go_by(copy)


def own_shelf() -> Shelf:
    """What can be had; `ShelfError` with everything that is wrong in the tables."""
    from panewright.shelf.load import load_shelf

    folder, tables = stand()
    return _read(folder, tables) if folder else load_shelf()


def stand() -> Stand:
    """What tells one state of the tables from another."""
    folder = os.environ.get(SAID, "")
    if not folder:
        return "", ()
    found = ((path.name, path.stat()) for path in sorted(Path(folder).glob("*.toml")))
    return folder, tuple((name, state.st_mtime_ns, state.st_size) for name, state in found)


@lru_cache(maxsize=2)
def _read(folder: str, _tables: tuple[tuple[str, int, int], ...]) -> Shelf:
    from panewright.shelf.load import load_shelf

    return load_shelf(Path(folder))


def own_tables() -> tuple[str, ...]:
    """Which tables are the shop's own."""
    return tuple(name for name, *_ in stand()[1])


def write_tables(folder: Path) -> tuple[str, ...]:
    """Write the packaged tables to a folder, to be changed there; one that is there already is refused."""
    tables = _packaged()
    if there := [name for name in tables if (folder / name).exists()]:
        cure = "Name another folder, or change the tables that are there."
        raise ShelfError(
            [Problem("is there already; nothing was written.", cure, file=str(folder / there[0]))]
        )
    write_all(folder, tables)
    return tuple(tables)


def _packaged() -> Mapping[str, bytes]:
    tables = resources.files("panewright.shelf") / "tables"
    return {each.name: each.read_bytes() for each in sorted(tables.iterdir(), key=lambda each: each.name)}
