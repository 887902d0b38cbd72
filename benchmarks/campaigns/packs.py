"""One order, the same bytes: packs written by fresh processes that differ in all that must not count."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from random import Random

from campaigns.found import Found

EXAMPLES = Path(__file__).parents[2] / "examples"
SURROUNDINGS = (
    {"PYTHONHASHSEED": "0", "TZ": "UTC", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "4242", "TZ": "Pacific/Chatham", "LC_ALL": "C.UTF-8"},
)


def campaign(count: int, seed: int) -> Found:
    """Examples (all of them where `count` is large enough), each packed once in every surrounding."""
    paths = sorted(EXAMPLES.glob("*.toml"))
    chosen = Random(seed).sample(paths, min(count, len(paths)))
    failures: list[str] = []
    files = 0
    for path in sorted(chosen):
        with tempfile.TemporaryDirectory() as folder:
            packs = [_packed(path, Path(folder) / str(k), around) for k, around in enumerate(SURROUNDINGS)]
        files += len(packs[0])
        failures += _differences(path.stem, *packs)
    counts = {"files alike": files - len(failures)}
    return Found("packs written twice", "each other, byte by byte", len(chosen), counts, (), tuple(failures))


def _packed(order: Path, folder: Path, around: dict[str, str]) -> dict[str, bytes]:
    """The files of one pack, written by a process of its own."""
    command = [sys.executable, "-m", "panewright.cli", "pack", str(order), "--to", str(folder)]
    run = subprocess.run(command, env={**os.environ, **around}, capture_output=True, text=True, check=False)
    if run.returncode not in (0, 1):
        return {"": (run.stdout + run.stderr).encode()}
    return {file.name: file.read_bytes() for file in sorted(folder.iterdir())}


def _differences(name: str, one: dict[str, bytes], other: dict[str, bytes]) -> list[str]:
    if "" in one or "" in other:
        return [f"{name}: no pack: {(one.get('') or other[''])[-300:].decode()}"]
    if set(one) != set(other):
        return [f"{name}: one pack holds {sorted(set(one) ^ set(other))} more"]
    return [
        f"{name}/{file}: differs from byte {_first(one[file], other[file])}"
        for file in one
        if one[file] != other[file]
    ]


def _first(one: bytes, other: bytes) -> int:
    return next(
        (k for k, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other))
    )
