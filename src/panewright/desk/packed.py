"""A folder with a pack in it: which of its files are the pack's, by what its record says."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from pathlib import Path

from panewright.errors import FolderError, Problem

_RECORD = "design.json"


def earlier(folder: Path) -> frozenset[str] | None:
    """Files of the pack that lies there; None where none does, or nobody can tell."""
    try:
        told = json.loads((folder / _RECORD).read_bytes())
    except (OSError, ValueError):
        return None
    names = told.get("leaves") if isinstance(told, dict) else None
    if not isinstance(names, list):
        return None
    return frozenset(name for name in names if isinstance(name, str) and Path(name).name == name)


def refuse_others(folder: Path, files: Iterable[str]) -> None:
    """`FolderError` where a file would be written over that no pack has put there."""
    mine = earlier(folder) or frozenset()
    others = [name for name in files if name not in mine and (folder / name).is_file()]
    if others:
        reason = f"holds {', '.join(others)}, of no pack that {_RECORD} tells of; they would be written over."
        cure = "Choose an empty folder with --to, or move them away; nothing was changed."
        raise FolderError([Problem(reason=reason, cure=cure, file=str(folder))])


def record_first(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """The record before all others: where a plug is pulled between two, it tells whose the first ones are."""
    return dict(sorted(files.items(), key=lambda file: file[0] != _RECORD))


def gone(folder: Path, files: Iterable[str]) -> tuple[str, ...]:
    """Files of the pack there that the new one has not."""
    return tuple(sorted((earlier(folder) or frozenset()) - set(files)))
